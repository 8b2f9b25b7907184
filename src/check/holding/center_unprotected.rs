#![doc = include_str!("center_unprotected.md")]

use crate::chain::{Hollow, Mouth};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, InsideCut, Kind};
use crate::tell;
use crate::unit::Station;

/// The check.
pub const CHECK: Check = Check {
    id: "center-unprotected",
    severity: Severity::Error,
    group: "holding",
    source: "DIN 332-2: a tapped center has a 60° seat beyond its thread",
    page: include_str!("center_unprotected.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for end in [End::Datum, End::Far] {
        let Some((hole, thread)) = tapped_mouth(facts, end) else { continue };
        let center = facts.part.features.iter().find(|f| is_center(f, end));
        let seat = matches!(facts.profile.mouth(end), Mouth::Seat { .. });
        let message = match (center, seat) {
            (Some(center), _) => tell!(
                "{} and {thread} share the {} end: the tap cuts the center's seat away",
                "{} und {thread} teilen sich das {}ende: der Gewindebohrer schneidet die Zentrierung weg",
                center.called(),
                end.word()
            ),
            (None, true) => tell!(
                "the 60° mouth of {thread} in the {} end runs into the thread: a center bears on its first crest",
                "die 60°-Mündung von {thread} im {}ende läuft in das Gewinde: eine Spitze trägt auf dem ersten Gang",
                end.word()
            ),
            (None, false) => continue,
        };
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(center.map_or(hole.head, |c| c.head))
                .of(hole.letter.clone())
                .help(match metric(thread) {
                    Some(size) => tell!("State a tapped center, `center hole: DS {size}` with `end: {}`, instead of both", "Eine Gewindezentrierung angeben, `center hole: DS {size}` mit `end: {}`, statt beider",
                        end.word()
                    ),
                    None => format!(
                        "Open the mouth wider than the thread for a few turns and put the seat on that edge: a `bore` before the thread \
                         and a `chamfer` of 30° from the axis, both with `end: {}`; a tapped center of a standard's form exists for metric threads only",
                        end.word()
                    ),
                }),
        );
    }
}

/// `M8` of `M8x1.25-6H`; none for an inch thread, of which DIN 332-2 has no form.
fn metric(thread: &str) -> Option<&str> {
    thread.split(['x', '-', ' ']).next().filter(|size| size.starts_with('M'))
}

/// A thread that begins at the face of an end.
fn tapped_mouth<'a>(facts: &Facts<'a>, end: End) -> Option<(&'a Feature, &'a str)> {
    let face = match end {
        End::Datum => Station::DATUM,
        End::Far => Station(facts.chain.overall(facts.part)?),
    };
    let at_face = |h: &&Hollow| if end == End::Datum { h.from == face } else { h.to == face };
    let hollow = facts.profile.hollows.iter().find(at_face)?;
    let feature = facts.part.features.get(hollow.feature)?;
    let Kind::Inside(inside) = &feature.kind else { return None };
    match &inside.cut {
        InsideCut::Thread { thread, .. } => Some((feature, thread.designation.as_str())),
        _ => None,
    }
}

fn is_center(feature: &Feature, end: End) -> bool {
    matches!(&feature.kind, Kind::CenterHole { size: Some(_), ends } if ends.at(end))
}
