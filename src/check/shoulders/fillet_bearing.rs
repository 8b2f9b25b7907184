#![doc = include_str!("fillet_bearing.md")]

use crate::check::shape::{face, smallest_written};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "fillet-bearing",
    severity: Severity::Error,
    group: "shoulders",
    source: "the fillet must be smaller than the bearing's smallest corner (ISO 582; abutments DIN 5418)",
    page: include_str!("fillet_bearing.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for section in facts.part.sections() {
        let Some(piece) = facts.profile.piece(section.id) else { continue };
        for carried in &section.carries {
            let Some(corner) = &carried.corner else { continue };
            let Some(side) = facts.shoulder_side(piece, carried) else { continue };
            let Some((fillet, radius)) = facts.fillet_at(face(piece, side)) else { continue };
            let corner = smallest_written(corner);
            if radius < corner {
                continue;
            }
            let message = tell!(
                "the fillet may be {}, not smaller than the corner of the {}, {}: it rides on the fillet, off its shoulder",
                "die Hohlkehle kann {} sein, nicht kleiner als die Ecke von {}, {}: es reitet auf der Hohlkehle statt an der Schulter",
                facts.show(radius),
                carried.part.text,
                facts.show(corner)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(fillet.value)
                    .also(carried.place, format!("its corner is {}", facts.show(corner)))
                    .of(section.letter.clone())
                    .length("fillet", radius)
                    .length("corner", corner)
                    .help(tell!(
                        "Make the fillet smaller than {}, or cut a relief into the corner",
                        "Die Hohlkehle kleiner als {} machen, oder einen Freistich in die Ecke drehen",
                        facts.show(corner)
                    )),
            );
        }
    }
}
