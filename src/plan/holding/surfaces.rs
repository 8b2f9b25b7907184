//! What a place that is held wants done before, what ends its use, and how unwelcome jaws are there.

use super::grip::Held;
use super::mountings::{Candidate, Candidates, is_end_work, is_lathe_work, overlaps, region};
use super::why::{not_over_a_slot, off_the_bar, once_to_size, part_off_last};
use crate::model::plan::{Operation, Verb};
use crate::model::{End, Part};
use crate::plan::derive::{Layout, Section, Shape};
use crate::plan::rules::because;
use crate::told;
use crate::unit::Station;

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
