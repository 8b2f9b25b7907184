//! Holes in the ends: what they do to a center, and the mounting for one that takes the center away.

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths, best_surface, nearest_surface};
use super::mountings::{Candidate, Candidates, mounting, out_of_jaws};
use crate::chain::Mouth;
use crate::model::part::Holding;
use crate::model::{End, Kind, Part};
use crate::plan::derive::Layout;
use crate::plan::rules::because;
use crate::tell;
use crate::unit::Length;

/// The finished part in the chuck, held near the end, for a hole that takes the center out of it.
pub(super) fn late_hole(part: &Part, layout: &Layout, lengths: &Lengths, holding: &EndHolding) -> Option<Candidate> {
    let end = holding.end;
    let mut held =
        nearest_surface(layout, lengths, end).or_else(|| best_surface(part, layout, lengths, end, Holding::Chuck))?;
    up_to_the_shoulder(part, layout, end, &mut held);
    let out = out_of_jaws(layout, end, &held);
    let overhangs = out > held.grip.diameter.times(OVERHANG_DIAMETERS);
    let letter = held.grip.letter.clone();
    let mut candidate =
        Candidate { overhangs, drills: true, ..mounting(layout, holding, Holding::Chuck, held, out, false) };
    candidate.setup.name = format!("chuck, {} end out for its hole, on {letter}", end.word());
    candidate.setup.why.retain(|w| w.rule != "R1");
    let reason = tell!(
        "the hole in the {} end is cut when no center is wanted there any more",
        "die Bohrung im {}ende kommt, wenn dort keine Spitze mehr gebraucht wird",
        end.said()
    );
    candidate.setup.why.insert(0, because("order-center-lost", reason));
    Some(candidate)
}

/// Nothing is cut beside these jaws, so they want no room before them: they go up to the shoulder, or to where its corner ends.
fn up_to_the_shoulder(part: &Part, layout: &Layout, end: End, held: &mut Held) {
    let Some(section) = held.section.and_then(|s| layout.section(s)) else { return };
    let at_face = !layout.depth(end, section.outer(end)).is_positive();
    if at_face || section.whole || held.poor {
        return;
    }
    let shoulder = layout.depth(end, section.outer(end)) + largest_fillet(part);
    let room = out_of_jaws(layout, end, held) - shoulder;
    if room.is_positive() {
        held.grip.from = Layout::toward(end, held.grip.from, room);
        held.grip.to = Layout::toward(end, held.grip.to, room);
    }
}

/// The largest radius that a corner of the part may have.
fn largest_fillet(part: &Part) -> Length {
    let radius = |f: &crate::model::Feature| match &f.kind {
        Kind::Fillet { radius, .. } => Some(radius.nominal),
        _ => None,
    };
    part.features.iter().filter_map(radius).max().unwrap_or(Length::ZERO)
}

/// A hole in an end takes the center out of it, unless its mouth is a seat: then the seat is what the center waits for.
pub(super) fn inside_center(layout: &Layout, end: End, m: usize, i: usize, result: &mut Candidates) {
    match layout.mouth(end) {
        Mouth::Open { .. } => {
            let reason = tell!(
                "the hole takes the center out of the {} end: drilled when no center is wanted there any more",
                "die Bohrung nimmt die Zentrierung aus dem {}ende: gebohrt, wenn dort keine Spitze mehr gebraucht wird",
                end.said()
            );
            result.ends.push((m, i, because("order-center-lost", reason)));
        }
        Mouth::Seat { .. } => {
            let reason = tell!(
                "the center at the {} end bears on the 60° mouth of the bore",
                "die Spitze am {}ende trägt auf der 60°-Mündung der Bohrung",
                end.said()
            );
            result.needs.push((m, i, because("R1", reason)));
        }
        // A tapped center hole: its seat is what the center runs on.
        Mouth::Whole => {
            let reason = tell!(
                "the tapped center of the {} end is finished before it is run on",
                "die Gewindezentrierung im {}ende ist fertig, bevor die Spitze darin läuft",
                end.said()
            );
            result.needs.push((m, i, because("R1", reason)));
        }
    }
}
