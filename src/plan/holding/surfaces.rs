//! What a place that is held wants done before, what ends its use, and how unwelcome jaws are there.

use super::grip::{Held, Lengths, held_on, in_spindle, is_swallowed};
use super::mountings::{Candidate, Candidates, is_end_work, is_lathe_work, out_of_jaws, overlaps, region};
use super::why::{not_over_a_slot, off_the_bar, once_to_size, part_off_last};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Verb};
use crate::model::{End, Part};
use crate::plan::derive::{Layout, Section, Shape};
use crate::plan::rules::because;
use crate::told;
use crate::unit::{Length, Station};

/// Keyseats that are milled before their seat is finished: the operation, and how far it reaches.
pub(super) type EarlySlots = [(usize, Station, Station)];

/// What must be done before a surface is held, and what ends its use.
pub(super) fn surface_rules(
    layout: &Layout,
    operations: &[Operation],
    m: usize,
    surface: &Held,
    early: &EarlySlots,
    result: &mut Candidates,
) {
    let letter = &surface.grip.letter;
    for (i, operation) in operations.iter().enumerate() {
        let here = result.allowed[i].contains(&m);
        let cuts = overlaps(operation, surface) && is_lathe_work(operation) && !is_end_work(operation);
        match surface.section {
            None if cuts && !here && operation.verb != Verb::PartOff => {
                let reason = told!(
                    "the bar is held where this cuts, so the holding comes before it",
                    "die Stange ist gespannt, wo hier gedreht wird: die Spannung kommt vorher"
                );
                result.ends.push((m, i, because("feature-in-jaws", reason)));
            }
            Some(held) => {
                let slot = matches!(operation.verb, Verb::Mill | Verb::Drill | Verb::Tap) && !operation.inside;
                let host = region(operation).and_then(|(a, b)| layout.under(a, b)).map(|s| s.feature);
                // One that is there before the seat is finished leaves the rest of it to be held.
                let over = early.iter().find(|(at, ..)| *at == i);
                let clear = over.is_some_and(|(_, from, to)| *to <= surface.grip.from || surface.grip.to <= *from);
                if slot && host == Some(held) && !clear {
                    let reason = not_over_a_slot(letter);
                    result.ends.push((m, i, because("R25", reason)));
                } else if cuts && !here {
                    let reason = once_to_size(letter);
                    result.needs.push((m, i, because("feature-in-jaws", reason)));
                }
            }
            None => {}
        }
    }
}

/// Parting off ends a holding of the bar; the far end is held only after it.
pub(super) fn parting_rules(
    layout: &Layout,
    operations: &[Operation],
    m: usize,
    candidate: &Candidate,
    result: &mut Candidates,
) {
    for (i, operation) in operations.iter().enumerate() {
        if operation.verb == Verb::PartOff {
            if Some(candidate.end) != layout.parted || candidate.throws.is_some() {
                result.needs.push((m, i, because("R23", off_the_bar())));
            } else {
                result.ends.push((m, i, because("R23", part_off_last())));
            }
        }
    }
}

/// The best finished surface for holding while `end` is worked: long enough, room left before the jaws, loosely toleranced or kept, no thread,
/// nothing larger behind it that the jaws would have to swallow.
pub(super) fn best_surface(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    end: End,
    holding: Holding,
) -> Option<Held> {
    best_of(part, layout, lengths, end, holding, |_| true)
}

/// The same for jaws where the end is only faced and centered: no shoulder is cut beside them.
pub(super) fn best_to_face(part: &Part, layout: &Layout, lengths: &Lengths, end: End) -> Option<Held> {
    best(part, layout, lengths, end, Holding::Chuck, false, |_| true)
}

/// The same of those sections that are wanted.
pub(super) fn best_of(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    end: End,
    holding: Holding,
    wanted: impl Fn(&Section) -> bool,
) -> Option<Held> {
    best(part, layout, lengths, end, holding, true, wanted)
}

fn best(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    end: End,
    holding: Holding,
    turns: bool,
    wanted: impl Fn(&Section) -> bool,
) -> Option<Held> {
    let chuck = holding != Holding::BetweenCenters;
    let beyond = |s: &Section| layout.depth(end.other(), s.inner(end));
    // The tail of a dog must reach the plate.
    let driven = |s: &&Section| chuck || beyond(s) <= lengths.tail;
    let free = layout.sections.iter().filter(|s| s.end != Some(end) && !s.thrown && wanted(s)).filter(driven);
    let held = free.filter_map(|s| {
        let mut held = held_on(lengths, end, holding, s)?;
        held.poor |= chuck && is_swallowed(layout, lengths, end, s);
        Some((s, if chuck { in_spindle(layout, lengths, end, s, held, Length::ZERO)? } else { held }))
    });
    // Of places that are as good the nearest: to the cut for jaws, to the plate for a dog.
    let away = |s: &Section, h: &Held| if chuck { out_of_jaws(layout, end, h) } else { beyond(s) };
    // Jaws that come up to the face that is worked leave the tool no room.
    let hopeless = |h: &Held| {
        let short = h.poor && h.grip.to - h.grip.from < lengths.hopeless(h.grip.diameter);
        chuck && (short || !out_of_jaws(layout, end, h).is_positive())
    };
    let turned = if chuck && turns { ends_of_cuts(layout, end) } else { Vec::new() };
    let rank = |s: &Section, h: &Held| {
        let room = room_behind(&turned, out_of_jaws(layout, end, h));
        // What grips a seat may mark it, what is cut beside the jaws is struck.
        let cramped = if room.is_some_and(|r| r < lengths.clearance) { 2 } else { 0 };
        let none = room.is_some_and(|r| !r.is_positive());
        (h.poor, hopeless(h), none, demerits(part, layout, end, s) + cramped, away(s, h))
    };
    held.min_by_key(|(s, h)| (rank(s, h), -h.grip.diameter.pm(), s.feature)).map(|(_, h)| h)
}

/// From the nearest of what is turned at an end to the jaws; none where nothing is turned before them.
pub(super) fn room(layout: &Layout, end: End, held: &Held) -> Option<Length> {
    room_behind(&ends_of_cuts(layout, end), out_of_jaws(layout, end, held))
}

/// How deep what is turned at an end reaches, the shallowest first.
fn ends_of_cuts(layout: &Layout, end: End) -> Vec<Length> {
    let cut = layout.sections.iter().filter(|s| !s.thrown && (s.end == Some(end) || s.whole));
    // What is turned from both ends, up to its middle.
    let ends = |s: &Section| layout.depth(end, if s.whole { s.from + s.long().half() } else { s.inner(end) });
    let mut ends: Vec<Length> = cut.map(ends).collect();
    ends.sort_unstable();
    ends
}

fn room_behind(ends: &[Length], jaws: Length) -> Option<Length> {
    let before = ends.partition_point(|depth| *depth <= jaws);
    Some(jaws - *ends.get(before.checked_sub(1)?)?)
}

/// How unwelcome jaws are on a surface.
pub(super) fn demerits(part: &Part, layout: &Layout, end: End, section: &Section) -> u32 {
    let larger = layout.largest_behind(end, section.feature).times(20) > section.aim.times(21);
    let finish = part.features.get(section.feature).is_some_and(|f| f.finish.is_some());
    let surface = match section.shape {
        Shape::Kept => 0,
        Shape::Cylinder => u32::from(section.close || section.seat || finish),
        Shape::Taper => 4,
        Shape::Blank => 5,
        Shape::Neck => 6,
    };
    surface + 2 * u32::from(larger)
}
