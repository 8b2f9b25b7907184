#![doc = include_str!("center_too_big.md")]

use crate::chain::Piece;
use crate::check::shape::{nominal_at, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "center-too-big",
    severity: Severity::Warning,
    group: "holding",
    source: "common practice, no source",
    page: include_str!("center_too_big.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::CenterHole { size: Some(size), ends } = &feature.kind else { continue };
        // DIN 332-2 gives each tapped form the shaft ends it is for; its mouth is more than half of some.
        if size.tapped.is_some() {
            continue;
        }
        for end in [End::Datum, End::Far].into_iter().filter(|e| ends.at(*e)) {
            let Some((section, piece)) = end_section(facts, end) else { continue };
            let across = nominal_at(section, end);
            let half = times(across, facts.limit_number(CHECK.id, "share"));
            let face = flat_face(facts, piece, end, across);
            let (limit, what) = if size.mouth > half {
                (half, tell!("more than {} of it", "mehr als {} davon", number(facts.limit_number(CHECK.id, "share"))))
            } else if matches!(section.kind, Kind::Thread { .. }) && size.mouth > face {
                (
                    face,
                    told!(
                        "so it cuts into the chamfer at the thread's start",
                        "sie schneidet also in die Fase am Gewindeanfang"
                    )
                    .to_owned(),
                )
            } else {
                continue;
            };
            let message = tell!(
                "the mouth of center hole {} is {} on the {} end of {}: {what}, {}",
                "die Mündung der Zentrierung {} ist {} am {}ende von {}: {what}, {}",
                size.text,
                facts.show(size.mouth),
                end.word(),
                facts.show(across),
                facts.show(limit)
            );
            let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
                .at(feature.value)
                .of(section.letter.clone())
                .length("mouth", size.mouth)
                .length("limit", limit)
                .help(tell!(
                    "Take a smaller center drill, with a mouth of {} or less",
                    "Einen kleineren Zentrierbohrer nehmen, mit einer Mündung von {} oder weniger",
                    facts.at_most(limit)
                ));
            if limit == half {
                finding = finding.by_limit("share");
            }
            out.push(finding);
        }
    }
}

fn end_section<'a>(facts: &Facts<'a>, end: End) -> Option<(&'a Feature, &'a Piece)> {
    let section = match end {
        End::Datum => facts.part.sections().next(),
        End::Far => facts.part.sections().next_back(),
    }?;
    Some((section, facts.profile.piece(section.id)?))
}

/// Diameter of the face inside the chamfer.
fn flat_face(facts: &Facts<'_>, piece: &Piece, end: End, across: Length) -> Length {
    facts.chamfer_on(piece, end).map_or(across, |(_, _, deep)| across - deep.times(2))
}
