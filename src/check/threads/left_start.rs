#![doc = include_str!("left_start.md")]

use crate::chain::Piece;
use crate::check::shape::{Beside, face};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::feature::{Hand, Thread};
use crate::model::{End, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-left-start",
    severity: Severity::Warning,
    group: "threads",
    source: "common practice, no source",
    page: include_str!("left_start.md"),
    look,
};

/// What one side of the thread offers the tool to begin in.
enum Start {
    /// Room below the root, or a relief that another check judges.
    Room,
    /// The end of the part: the tailstock's side.
    End,
    /// Metal, this thick.
    Metal(Length),
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, piece) in facts.threads().filter(|(_, t, _)| t.hand == Hand::Left) {
        let sides = [End::Datum, End::Far].map(|side| start(facts, piece, thread, side));
        let metal = sides.iter().filter_map(|s| if let Start::Metal(d) = s { Some(*d) } else { None }).min();
        let (Some(metal), false) = (metal, sides.iter().any(|s| matches!(s, Start::Room))) else { continue };
        let message = tell!(
            "{} is left-hand and nothing beside it lies below its root, {}: the smallest is {}, so the tool has nowhere to start",
            "{} ist linksgängig, und nichts daneben liegt unter seinem Grund, {}: das kleinste ist {}, der Stahl hat also keinen Anfang",
            thread.designation,
            facts.show(thread.root),
            facts.show(metal)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(thread.place)
                .of(section.letter.clone())
                .length("root", thread.root)
                .length("beside", metal)
                .help(told!("Cut a relief at the headstock side of the thread to start in", "Auf der Spindelstockseite des Gewindes einen Freistich zum Beginnen drehen"))
                .help(told!("Or feed toward the shoulder with the tool upside down in front or the spindle reversed and the tool behind", "Oder zur Schulter hin schneiden, mit dem Stahl vorn über Kopf oder mit rückwärts laufender Spindel und dem Stahl hinten")),
        );
    }
}

fn start(facts: &Facts<'_>, piece: &Piece, thread: &Thread, side: End) -> Start {
    if facts.grooved_at(face(piece, side)) {
        return Start::Room;
    }
    match facts.beside(piece, side) {
        Beside::PartEnd => Start::End,
        Beside::Unknown => Start::Room,
        Beside::Section(next) => {
            let relief = facts.feature(next.feature).is_some_and(|f| matches!(f.kind, Kind::Relief { .. }));
            if relief || next.largest() < thread.root { Start::Room } else { Start::Metal(next.largest()) }
        }
    }
}
