#![doc = include_str!("not_cuttable.md")]

use crate::check::gears::{can_gear, leadscrew};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Shop;
use crate::model::feature::Thread;
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-not-cuttable",
    severity: Severity::Error,
    group: "threads",
    source: "the gearbox or change gears of the shop file",
    page: include_str!("not_cuttable.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop else { return };
    let known = !shop.tpi.is_empty() || !shop.pitches.is_empty() || !shop.change_gears.is_empty();
    if !known {
        return;
    }
    for (section, thread, _) in facts.threads() {
        let error = facts.limit_number(CHECK.id, "error");
        if in_gearbox(shop, thread) || leadscrew(shop).is_some_and(|s| can_gear(shop, thread.lead, s, error)) {
            continue;
        }
        let what = if thread.starts > 1 { "lead" } else { "pitch" };
        let message = tell!(
            "{} needs a {what} of {}, and neither gearbox nor change gears of the shop file give it",
            "{} braucht {what} {}, und weder Vorschubgetriebe noch Wechselräder der Werkstattdatei geben sie",
            thread.designation,
            lead_words(facts, thread)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Error, message)
            .at(thread.place)
            .of(section.letter.clone())
            .length("lead", thread.lead);
        if !shop.change_gears.is_empty() {
            finding = finding.by_limit("error");
        }
        if let Some(nearest) = nearest(shop, thread) {
            finding = finding.length("nearest", nearest).help(tell!(
                "The nearest the gearbox has is {}: make change gears for it, or send it out",
                "Am nächsten hat das Getriebe {}: Wechselräder dafür machen, oder es auswärts schneiden lassen",
                facts.show(nearest)
            ));
        }
        out.push(finding.help(told!(
            "List what the lathe can cut under `threads:` or `change gears:` if something is missing there",
            "Unter `threads:` oder `change gears:` eintragen, was die Maschine schneidet, wenn dort etwas fehlt"
        )));
    }
}

/// Leads of the gearbox; a picometre of rounding is none.
fn leads(shop: &Shop) -> impl Iterator<Item = Length> {
    let inch = shop.tpi.iter().map(|(n, d)| Unit::Inch.one().times_ratio(*d, *n));
    inch.chain(shop.pitches.iter().copied())
}

fn in_gearbox(shop: &Shop, thread: &Thread) -> bool {
    leads(shop).any(|l| (l - thread.lead).abs() <= Length::from_pm(10))
}

fn nearest(shop: &Shop, thread: &Thread) -> Option<Length> {
    leads(shop).min_by_key(|l| (*l - thread.lead).abs())
}

fn lead_words(facts: &Facts<'_>, thread: &Thread) -> String {
    match thread.tpi {
        Some((n, 1)) if thread.starts == 1 => {
            tell!("{} ({n} to the inch)", "{} ({n} auf den Zoll)", facts.show(thread.lead))
        }
        _ => facts.show(thread.lead),
    }
}
