#![doc = include_str!("gauge_missing.md")]

use crate::check::sizes::{Held, Measure};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Shop;
use crate::unit::Length;
use crate::{tell, told};

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
            out.push(finding(facts, first, &bare, what, reach(shop, kinds)));
        }
    }
}

fn at_hand(shop: &Shop, kinds: &[&str], size: Length) -> bool {
    shop.instruments
        .iter()
        .filter(|i| kinds.contains(&i.kind.as_str()))
        .any(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most))
}

/// The largest size that anything of these kinds takes; none where nothing of them is listed.
fn reach(shop: &Shop, kinds: &[&str]) -> Option<Length> {
    let of_kind = shop.instruments.iter().filter(|i| kinds.contains(&i.kind.as_str()));
    of_kind.filter_map(|i| i.range.map(|r| r.1)).max()
}

fn finding(facts: &Facts<'_>, first: &Held, bare: &[Held], what: &str, reach: Option<Length>) -> Finding {
    let sizes: Vec<Length> = bare.iter().map(|h| h.limits.max.abs()).collect();
    let (least, most) =
        (sizes.iter().min().copied().unwrap_or_default(), sizes.iter().max().copied().unwrap_or_default());
    let span = if least == most {
        facts.show(least)
    } else {
        tell!("{} to {}", "{} bis {}", facts.show(least), facts.show(most))
    };
    let count =
        if bare.len() == 1 { format!("a {}", what.trim_end_matches('s')) } else { format!("{} {what}", bare.len()) };
    let mut message = tell!(
        "no instrument of the shop file measures {count} of {span}",
        "kein Messzeug der Werkstattdatei misst {count} von {span}"
    );
    if let Some(reach) = reach {
        message.push_str(&tell!(
            ": the largest for {what} goes to {}",
            ": das größte für {what} geht bis {}",
            facts.show(reach)
        ));
    }
    let named = if first.measure == Measure::Diameter {
        told!("micrometer", "Messschraube")
    } else {
        told!("caliper or depth micrometer", "Messschieber oder Tiefenmessschraube")
    };
    let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
        .at(first.place)
        .length("smallest", least)
        .length("largest", most)
        .help(tell!(
            "Borrow a {named} that reaches {}, and list it with its range",
            "Ein Messzeug ({named}) bis {} leihen und mit seinem Bereich eintragen",
            facts.show(most)
        ));
    if let Some(reach) = reach {
        finding = finding.length("reach", reach);
    }
    for held in bare.iter().filter(|h| !h.letter.is_empty()) {
        if !finding.features.contains(&held.letter) {
            finding.features.push(held.letter.clone());
        }
    }
    finding
}
