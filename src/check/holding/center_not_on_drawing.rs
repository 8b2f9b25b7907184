#![doc = include_str!("center_not_on_drawing.md")]

use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::Setup;
use crate::model::{End, Feature, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "center-not-on-drawing",
    severity: Severity::Warning,
    group: "holding",
    source: "the drawing's `center hole: none`",
    page: include_str!("center_not_on_drawing.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::CenterHole { size: None, ends } = &feature.kind else { continue };
        for end in [End::Datum, End::Far].into_iter().filter(|e| ends.at(*e)) {
            if let Some((length, most)) = needed(facts, end) {
                out.push(finding(facts, feature, end, length, most));
                break;
            }
        }
    }
}

/// Whether this end stands out too far for the chuck alone, or a wish puts a center into it: how far, and how far it might.
fn needed(facts: &Facts<'_>, end: End) -> Option<(Length, Length)> {
    let bar = facts.bar()?;
    let most = times(bar, facts.limit_number("overhang", "diameters"));
    let wished = facts.derived?.unheeded.iter().any(|u| u.why.rule == "center-missing");
    let far_out =
        |s: &Setup| s.holding == Holding::Chuck && s.works == Some(end) && s.stick_out.is_some_and(|out| out > most);
    let stands_out = facts.unavoidable(far_out).into_iter().find_map(|s| s.stick_out);
    match stands_out {
        Some(out) => Some((out, most)),
        None if wished => facts.chain.overall(facts.part).map(|overall| (overall, most)),
        None => None,
    }
}

fn finding(facts: &Facts<'_>, feature: &Feature, end: End, length: Length, most: Length) -> Finding {
    let message = tell!(
        "the drawing allows no center hole in the {} end, but {} stands there to be turned; without a center {} may",
        "die Zeichnung erlaubt keine Zentrierung im {}ende, aber {} stehen dort zum Drehen heraus; ohne Spitze dürfen es {} sein",
        end.word(),
        facts.show(length),
        facts.show(most)
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .at(feature.head)
        .length("length", length)
        .length("most", most)
        .help(
            told!("Ask whether a small center hole may stay, leave a stub for it and part it off last, or use a steady rest", "Fragen, ob eine kleine Zentrierung bleiben darf, einen Zapfen dafür stehen lassen und zuletzt abstechen, oder eine Lünette setzen"),
        )
}
