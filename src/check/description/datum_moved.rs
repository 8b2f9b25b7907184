#![doc = include_str!("datum_moved.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::FaceSide;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "datum-moved",
    severity: Severity::Note,
    group: "description",
    source: "geometry: a distance from one face is a distance from another, and the length between them",
    page: include_str!("datum_moved.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(face) = &facts.part.datum_face else { return };
    let Some((from, to)) = facts.chain.span(face.feature) else { return };
    let (at, side) = if face.side == FaceSide::Start { (from, "start") } else { (to, "end") };
    let Some(feature) = facts.part.features.get(face.feature) else { return };
    let place = facts.show(at.0);
    let message = tell!(
        "places are stated from the {side} of {}, which lies {place} from the datum end: each is counted from that end as {place} + what is stated",
        "Orte zählen von {side} {}, das bei {place} vom Bezugsende liegt: jeder zählt von dort als {place} + Angabe",
        feature.called()
    );
    out.push(
        Finding::new(CHECK.id, CHECK.severity, message)
            .at(face.text.place)
            .of(feature.letter.clone())
            .length("datum_face", at.0)
            .help(told!(
                "Nothing needs doing; the limits of both lengths add, as the table of faces shows",
                "Nichts zu tun; die Grenzen beider Längen addieren sich, wie die Tabelle der Flächen zeigt"
            )),
    );
}
