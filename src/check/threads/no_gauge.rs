#![doc = include_str!("no_gauge.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::thread::ThreadData;
use crate::model::Shop;
use crate::model::feature::Thread;
use crate::unit::{Length, show};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-no-gauge",
    severity: Severity::Note,
    group: "threads",
    source: "the shop file's wires and rings",
    page: include_str!("no_gauge.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop else { return };
    for (section, thread, _) in facts.threads().filter(|(s, ..)| s.carries.is_empty()) {
        let Some(data) = Facts::thread_data(thread) else { continue };
        if has_ring(shop, thread) || has_wire(shop, &data) {
            continue;
        }
        // No wire lies in a taper pipe thread as in another: a ring gauge or the fitting judges it.
        let (known, mate) = match thread.taper {
            Some(_) => (told!("neither a ring gauge nor a fitting is", "weder Ringlehre noch Fitting"), "fitting"),
            None => (told!("neither a ring, a mate nor wires are", "weder Lehrring, Gegenstück noch Drähte"), "nut"),
        };
        let message = tell!("{known} at hand for {}", "{known} vorhanden für {}", thread.designation);
        let mut finding = Finding::new(CHECK.id, Severity::Note, message).at(thread.place).of(section.letter.clone());
        if let Some(over) = data.over_wires {
            finding = finding.length("over_wires_max", over.max).length("over_wires_min", over.min).help(tell!(
                "With wires of {} it must read {} to {}",
                "Mit Drähten von {} muss es {} bis {} messen",
                facts.show(over.wire),
                reading(facts, over.min),
                reading(facts, over.max)
            ));
        }
        out.push(finding.help(tell!(
            "Or bring the {mate} it is for, and say so: `carries: {{part: {mate}}}`",
            "Oder das Gegenstück ({mate}) dazu bringen, und es sagen: `carries: {{part: {mate}}}`"
        )));
    }
}

/// A reading as a table prints it: to the nearest tenth of a thousandth or micrometre.
fn reading(facts: &Facts<'_>, value: Length) -> String {
    show::length(value, facts.part.units, show::usual_decimals(facts.part.units) + 1)
}

fn has_ring(shop: &Shop, thread: &Thread) -> bool {
    let plain = |text: &str| text.to_lowercase().split_whitespace().collect::<String>();
    shop.thread_rings.iter().any(|ring| plain(ring) == plain(&thread.designation))
}

fn has_wire(shop: &Shop, data: &ThreadData) -> bool {
    data.wire.is_some_and(|wire| shop.wires.iter().any(|w| wire.smallest <= *w && *w <= wire.largest))
}
