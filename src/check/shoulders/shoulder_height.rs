#![doc = include_str!("shoulder_height.md")]

use crate::chain::Piece;
use crate::check::shape::{at_face, number, smallest_written, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Carried, Feature, Kind};
use crate::tell;
use crate::unit::Limits;

/// The check.
pub const CHECK: Check = Check {
    id: "shoulder-height",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source; DIN 5418 gives the exact heights for rolling bearings",
    page: include_str!("shoulder_height.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for section in facts.part.sections().filter(|s| matches!(s.kind, Kind::Turn { .. })) {
        let Some(piece) = facts.profile.piece(section.id) else { continue };
        for carried in &section.carries {
            let shoulder = facts.shoulder_side(piece, carried).and_then(|side| {
                let beside = facts.beside(piece, side).section()?;
                Some(at_face(beside, side.other()))
            });
            let Some(shoulder) = shoulder else { continue };
            out.extend(too_low(facts, section, piece, carried, shoulder));
            out.extend(too_high(facts, section, carried, shoulder));
        }
    }
}

fn too_low(
    facts: &Facts<'_>,
    section: &Feature,
    piece: &Piece,
    carried: &Carried,
    shoulder: Limits,
) -> Option<Finding> {
    let corner = carried.corner.as_ref()?.nominal;
    let corners = facts.limit_number(CHECK.id, "corners");
    let height = (shoulder.min - piece.largest()).half();
    let wanted = times(corner, corners);
    if height >= wanted {
        return None;
    }
    let message = tell!(
        "the shoulder behind {} is {} high; the {} has a corner of {} and wants {} times that to seat",
        "die Schulter hinter {} ist {} hoch; {} hat eine Ecke von {} und braucht {} mal das zum Anliegen",
        section.called(),
        facts.show(height),
        carried.part.text,
        facts.show(corner),
        number(corners)
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(section.head)
            .of(section.letter.clone())
            .by_limit("corners")
            .length("height", height)
            .length("wanted", wanted)
            .help(tell!(
                "Make the shoulder {} or larger, or put a spacer ring between",
                "Die Schulter {} oder größer machen, oder einen Distanzring dazwischen",
                facts.show(piece.largest() + wanted.times(2))
            )),
    )
}

fn too_high(facts: &Facts<'_>, section: &Feature, carried: &Carried, shoulder: Limits) -> Option<Finding> {
    let land = smallest_written(carried.land.as_ref()?);
    if shoulder.max <= land {
        return None;
    }
    let message = tell!(
        "the shoulder behind {} may be {}, larger than the {} allows, {}: it rubs what must turn free",
        "die Schulter hinter {} kann {} haben, größer als {} erlaubt, {}: sie streift, was frei laufen muss",
        section.called(),
        facts.show(shoulder.max),
        carried.part.text,
        facts.show(land)
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(section.head)
            .of(section.letter.clone())
            .length("shoulder", shoulder.max)
            .length("land", land)
            .help(tell!(
                "Turn an abutment of {} or less next to the seat",
                "Neben dem Sitz eine Anlage von {} oder weniger drehen",
                facts.at_most(land)
            )),
    )
}
