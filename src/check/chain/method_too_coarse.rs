#![doc = include_str!("method_too_coarse.md")]

use crate::check::shape::{number, times};
use crate::check::sizes::{Held, Measure};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "method-too-coarse",
    severity: Severity::Warning,
    group: "chain",
    source: "common practice, no source",
    page: include_str!("method_too_coarse.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let factor = facts.limit_number(CHECK.id, "times");
    for held in facts.held_sizes() {
        let Some((error, method)) = best(facts, &held) else { continue };
        let wanted = times(error, factor);
        let band = held.limits.band();
        if band >= wanted {
            continue;
        }
        let message = format!(
            "{} must be held within {}, but the finest method at hand, the {method}, is good for ±{}: {} times that is {}",
            held.what,
            facts.show(band),
            facts.show(error),
            number(factor),
            facts.show(wanted)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("times")
                .at(held.place)
                .of(held.letter.clone())
                .length("band", band)
                .length("wanted", wanted)
                .help("Borrow a finer instrument and list it, or open the limits"),
        );
    }
}

/// The finest method at hand that sets or measures a size; none when the shop file tells none.
fn best(facts: &Facts<'_>, held: &Held) -> Option<(Length, String)> {
    let shop = facts.shop?;
    let (kinds, lathe): (&[&str], _) = match held.measure {
        Measure::Diameter => (&["micrometer", "caliper"], shop.can_hold_diameter),
        Measure::Length => {
            (&["depth micrometer", "caliper", "height gauge", "dial indicator", "micrometer"], shop.can_hold_length)
        }
    };
    let size = held.limits.max.abs();
    let instruments = shop.instruments.iter().filter(|i| kinds.contains(&i.kind.as_str()));
    let reach = instruments.filter(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most));
    let measured = reach.filter_map(|i| Some((i.error?, i.kind.clone())));
    measured.chain(lathe.map(|l| (l, "lathe".to_owned()))).min()
}
