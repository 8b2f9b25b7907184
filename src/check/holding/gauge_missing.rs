#![doc = include_str!("gauge_missing.md")]

use crate::check::sizes::{Held, Measure};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Shop;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "gauge-missing",
    severity: Severity::Warning,
    group: "holding",
    source: "the instruments of the shop file",
    page: include_str!("gauge_missing.md"),
    look,
};

const DIAMETERS: &[&str] = &["micrometer", "caliper"];
const LENGTHS: &[&str] = &["depth micrometer", "caliper", "height gauge", "dial indicator", "micrometer"];

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop.filter(|s| !s.instruments.is_empty()) else { return };
    for (sizes, kinds, what) in
        [(facts.held_diameters(), DIAMETERS, "diameters"), (facts.held_lengths(), LENGTHS, "lengths")]
    {
        let bare: Vec<Held> = sizes.into_iter().filter(|h| !at_hand(shop, kinds, h.limits.max.abs())).collect();
        if let Some(first) = bare.first() {
            out.push(finding(facts, first, &bare, what));
        }
    }
}

fn at_hand(shop: &Shop, kinds: &[&str], size: Length) -> bool {
    shop.instruments
        .iter()
        .filter(|i| kinds.contains(&i.kind.as_str()))
        .any(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most))
}

fn finding(facts: &Facts<'_>, first: &Held, bare: &[Held], what: &str) -> Finding {
    let sizes: Vec<Length> = bare.iter().map(|h| h.limits.max.abs()).collect();
    let (least, most) =
        (sizes.iter().min().copied().unwrap_or_default(), sizes.iter().max().copied().unwrap_or_default());
    let span = if least == most { facts.show(least) } else { format!("{} to {}", facts.show(least), facts.show(most)) };
    let count =
        if bare.len() == 1 { format!("a {}", what.trim_end_matches('s')) } else { format!("{} {what}", bare.len()) };
    let message = format!("no instrument of the shop file measures {count} of {span}");
    let named = if first.measure == Measure::Diameter { "micrometer" } else { "caliper or depth micrometer" };
    let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
        .at(first.place)
        .length("smallest", least)
        .length("largest", most)
        .help(format!("Borrow a {named} that reaches {}, and list it with its range", facts.show(most)));
    for held in bare.iter().filter(|h| !h.letter.is_empty()) {
        if !finding.features.contains(&held.letter) {
            finding.features.push(held.letter.clone());
        }
    }
    finding
}
