#![doc = include_str!("on_taper.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-on-taper",
    severity: Severity::Error,
    group: "keyseats",
    source: "a keyseat's depth is given by its standards for a cylinder",
    page: include_str!("on_taper.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        if !matches!(feature.kind, Kind::ParallelKeyseat { .. } | Kind::Woodruff { .. }) {
            continue;
        }
        let Some(middle) = facts.chain.center(feature.id) else { continue };
        let under = facts.profile.between(middle, middle + Length::from_pm(1));
        let tapers = under.filter_map(|p| facts.feature(p.feature)).filter(|f| matches!(f.kind, Kind::Taper { .. }));
        for taper in tapers.take(1) {
            let message = tell!(
                "{} lies on {}: how deep it goes there is not worked out, and the sheet has no numbers for it",
                "{} liegt auf {}: wie tief sie dort geht, wird nicht berechnet, und das Blatt hat keine Zahlen dafür",
                feature.called(),
                taper.called()
            );
            out.push(
                Finding::new(CHECK.id, CHECK.severity, message)
                    .at(feature.head)
                    .of(feature.letter.clone())
                    .of(taper.letter.clone())
                    .help(told!("Take width, depth and whether its bottom runs along the axis or along the taper from the drawing; write them into the notes, and accept this", "Breite, Tiefe und ob der Grund längs der Achse oder des Kegels läuft, der Zeichnung entnehmen; in die Notizen schreiben und dies annehmen")),
            );
        }
    }
}
