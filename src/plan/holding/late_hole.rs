//! Holes in the ends: what they do to a center, and the mounting for one that takes the center away.

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths, bar_behind, nearest_surface};
use super::mountings::{Candidate, Candidates, mounting, out_of_jaws};
use super::rested::{Broken, finished_track, runs_on};
use super::surfaces::best_surface;
use super::why::tell_stick_out;
use crate::chain::Mouth;
use crate::model::part::Holding;
use crate::model::plan::{Grip, Rest};
use crate::model::{End, Kind, Part};
use crate::plan::derive::Layout;
use crate::plan::rules::because;
use crate::unit::Length;
use crate::{tell, told};

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
    candidate.setup.why.insert(0, because("order-center-lost", late(end)));
    Some(candidate)
}

/// For a hole in the end that stands out while the part is cut from the bar, and for parting off when it has taken the center.
pub(super) fn before_parting(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    taken: &Broken,
) -> Vec<Candidate> {
    if layout.parted != Some(holding.end) {
        return Vec::new();
    }
    let rested = hole_before_parting(part, layout, lengths, holding, taken);
    rested.into_iter().chain([parted_without_center(layout, lengths, holding)]).collect()
}

/// The bar in the chuck behind the part, the end with the hole in a steady rest on the nearest finished section: drilled while the part still
/// hangs on the bar.
fn hole_before_parting(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    taken: &Broken,
) -> Option<Candidate> {
    if !holding.has_steady {
        return None;
    }
    let (end, held) = (holding.end, behind_the_part(layout, lengths, holding.end));
    let track = finished_track(layout, lengths, end, taken)?;
    let (out, beyond) = (out_of_jaws(layout, end, &held), out_of_jaws(layout, end, &track));
    let apart = track.grip.to <= held.grip.from || held.grip.to <= track.grip.from;
    if !apart || beyond > track.grip.diameter.times(OVERHANG_DIAMETERS) {
        return None;
    }
    let mut candidate =
        Candidate { drills: true, ..mounting(layout, holding, Holding::ChuckAndRest, held, out, false) };
    let letter = &track.grip.letter;
    candidate.setup.name = format!("chuck and steady rest, {} end out for its hole, rest on {letter}", end.word());
    candidate.setup.why.retain(|w| w.rule != "R1");
    candidate.setup.why.insert(0, because("order-center-lost", late(end)));
    candidate.setup.why.push(because("R15", runs_on(part, layout, &track)));
    let Grip { from, to, diameter, ref letter, .. } = track.grip;
    candidate.setup.rest = Some(Rest { follows: false, from, to, diameter, letter: letter.clone() });
    candidate.track = Some(track);
    Some(candidate)
}

/// The bar in the chuck behind the part, without a center, which the hole has taken: for parting off, close beside the jaws.
fn parted_without_center(layout: &Layout, lengths: &Lengths, holding: &EndHolding) -> Candidate {
    let end = holding.end;
    let held = behind_the_part(layout, lengths, end);
    let out = out_of_jaws(layout, end, &held);
    let mut candidate = Candidate { parts: true, ..mounting(layout, holding, Holding::Chuck, held, out, true) };
    candidate.setup.name = format!("chuck, {} end out, to part off", end.word());
    candidate.setup.why.retain(|w| !matches!(w.rule, "R1" | "overhang"));
    candidate.setup.why.insert(
        0,
        because(
            crate::model::PARTS,
            told!(
                "only parted off here, close beside the jaws: the hole has taken the center",
                "hier nur abgestochen, dicht vor den Backen: die Bohrung hat die Zentrierung genommen"
            ),
        ),
    );
    candidate
}

fn behind_the_part(layout: &Layout, lengths: &Lengths, end: End) -> Held {
    bar_behind(layout, lengths, end, lengths.parted_at(layout) + lengths.clearance)
}

fn late(end: End) -> String {
    tell!(
        "the hole in the {} end is cut when no center is wanted there any more",
        "die Bohrung im {}ende kommt, wenn dort keine Spitze mehr gebraucht wird",
        end.said()
    )
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

/// Moves the jaws in, until about a diameter of what is held stands free before them, or they come to the end of it.
pub(super) fn reached_out(part: &Part, layout: &Layout, candidate: &mut Candidate) {
    let end = candidate.end;
    let Some(section) = candidate.held.section.and_then(|s| layout.section(s)) else { return };
    let before = out_of_jaws(layout, end, &candidate.held) - layout.depth(end, section.outer(end));
    let behind = layout.depth(end, section.inner(end)) - largest_fillet(part) - deepest(layout, end, &candidate.held);
    let by = (candidate.held.grip.diameter - before).min(behind);
    if section.whole || candidate.held.poor || !by.is_positive() {
        return;
    }
    let grip = &mut candidate.held.grip;
    (grip.from, grip.to) = (Layout::toward(end.other(), grip.from, by), Layout::toward(end.other(), grip.to, by));
    candidate.setup.grip = Some(grip.clone());
    candidate.setup.stick_out = Some(out_of_jaws(layout, end, &candidate.held));
    tell_stick_out(&mut candidate.setup);
}

/// How deep from an end the jaws reach.
fn deepest(layout: &Layout, end: End, held: &Held) -> Length {
    layout.depth(end, held.grip.from).max(layout.depth(end, held.grip.to))
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
