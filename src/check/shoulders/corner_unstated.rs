#![doc = include_str!("corner_unstated.md")]

use crate::check::shape::{at_face, face};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "corner-unstated",
    severity: Severity::Warning,
    group: "shoulders",
    source: "stress concentration at a step (Shigley, Mechanical Engineering Design, shaft charts)",
    page: include_str!("corner_unstated.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for section in facts.part.sections().filter(|s| matches!(s.kind, Kind::Turn { .. })) {
        let Some(piece) = facts.profile.piece(section.id) else { continue };
        let Some(carried) = section.carries.iter().find(|c| Facts::loads(c)) else { continue };
        let Some(side) = facts.shoulder_side(piece, carried) else { continue };
        let corner = face(piece, side);
        if facts.fillet_at(corner).is_some() || facts.grooved_at(corner) || facts.undercut_at(corner).is_some() {
            continue;
        }
        let step = facts.beside(piece, side).section().map(|n| at_face(n, side.other()).min);
        let message = tell!(
            "the {} bears on the shoulder of {} at {}, and no corner radius is stated there",
            "{} liegt an der Schulter von {} bei {} an, und dort ist kein Eckenradius angegeben",
            carried.part.text,
            section.called(),
            facts.show(face(piece, side).0)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(section.head)
            .of(section.letter.clone())
            .length("seat", piece.largest())
            .help(tell!(
                "Say how round the corner may be: `fillet: …` with `at: {}`{}",
                "Sagen, wie rund die Ecke sein darf: `fillet: …` mit `at: {}`{}",
                facts.show(face(piece, side).0),
                carried.corner.as_ref().map_or(String::new(), |c| tell!(
                    ", smaller than its corner, {}",
                    ", kleiner als seine Ecke, {}",
                    facts.show(c.nominal)
                ))
            ));
        if let Some(step) = step {
            finding = finding.length("shoulder", step);
        }
        out.push(finding);
    }
}
