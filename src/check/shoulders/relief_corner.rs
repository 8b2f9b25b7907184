#![doc = include_str!("relief_corner.md")]

use crate::check::shape::{at_face, largest_written};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Kind};
use crate::tell;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "relief-corner",
    severity: Severity::Warning,
    group: "shoulders",
    source: "geometry: a corner radius cannot be taller than the wall it joins",
    page: include_str!("relief_corner.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for section in facts.part.sections() {
        let Kind::Relief { diameter, corner: Some(corner), .. } = &section.kind else { continue };
        let Some(piece) = facts.profile.piece(section.id) else { continue };
        let walls = [End::Datum, End::Far].into_iter().filter_map(|side| {
            let beside = facts.beside(piece, side).section()?;
            let wall = (at_face(beside, side.other()).min - diameter.max()).half();
            wall.is_positive().then_some(wall)
        });
        let Some(deep) = walls.min() else { continue };
        let radius = largest_written(corner);
        if radius > deep {
            out.push(finding(facts, section, radius, deep).at(corner.place));
        }
    }
}

fn finding(facts: &Facts<'_>, section: &crate::model::Feature, radius: Length, deep: Length) -> Finding {
    let message = tell!(
        "the corner radius of {} is {}, but the relief is only {} deep a side",
        "der Eckenradius von {} ist {}, aber der Freistich nur {} tief je Seite",
        section.called(),
        facts.show(radius),
        facts.show(deep)
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .of(section.letter.clone())
        .length("radius", radius)
        .length("deep", deep)
        .help(tell!(
            "Make the corner {} or smaller: a tool ground to that nose",
            "Die Ecke {} oder kleiner machen: ein Stahl mit diesem Radius",
            facts.at_most(deep)
        ))
}
