//! What a mounting that holds finished work must bring true, and to what: stated by the drawing, or common practice.

use super::late_hole::reached_out;
use super::mountings::{Candidate, out_of_jaws};
use crate::model::inside::InsideCut;
use crate::model::{Feature, Kind, Part};
use crate::plan::derive::{Layout, Section};
use crate::unit::{Length, Unit};

/// What must run true on a mounting, and within what.
pub(super) struct Need {
    /// What a sentence calls them.
    pub(super) one: String,
    pub(super) other: String,
    pub(super) within: Length,
    /// What is cut here lies inside: the work is indicated before it is bored.
    pub(super) inside: bool,
    /// The feature it must run true to.
    to: usize,
    /// That is a bore, which the indicator reaches from the tailstock.
    bore: bool,
}

impl Need {
    /// What the indicator is put on: a bore itself, or a seat that stands free; else what is held, since the rest lies in the spindle.
    pub(super) fn indicated(&self, layout: &Layout, candidate: &Candidate) -> String {
        let out = out_of_jaws(layout, candidate.end, &candidate.held);
        let free = |s: &Section| layout.depth(candidate.end, s.inner(candidate.end)) <= out;
        let stands_free = self.inside && layout.section(self.to).is_some_and(free);
        if self.bore || stands_free { self.other.clone() } else { candidate.held.grip.letter.clone() }
    }
}

/// What a mounting that holds a finished surface must bring true to what was finished before it.
pub(super) fn need(part: &Part, layout: &Layout, candidate: &Candidate) -> Option<Need> {
    let end = candidate.end;
    let called = |f: usize| part.features.get(f).map_or_else(String::new, Feature::called);
    let hollow = |f: usize| layout.hollows.iter().any(|h| h.feature == f);
    let turned_here = |s: &Section| candidate.turns && s.end == Some(end);
    let here = |f: usize| match layout.section(f) {
        Some(s) => turned_here(s) && s.is_turned(),
        None => layout.hollows.iter().any(|h| h.feature == f && h.end == end),
    };
    let before = |f: usize| {
        // Where nothing is turned outside, all that is turned is done when the finished work is held.
        layout.section(f).is_some_and(|s| s.is_turned() && !turned_here(s))
            || layout.hollows.iter().any(|h| h.feature == f && h.end != end)
    };
    let made = |one: usize, to: usize, within: Length| Need {
        one: called(one),
        other: called(to),
        within,
        inside: hollow(one),
        to,
        bore: hollow(to),
    };
    let pairs = part.features.iter().filter_map(|f| Some((f.id, f.true_to.as_ref()?)));
    let stated = pairs
        .filter_map(|(id, to)| match (here(id), before(to.feature), here(to.feature), before(id)) {
            (true, true, ..) => Some((id, to.feature, to.within.nominal)),
            (.., true, true) => Some((to.feature, id, to.within.nominal)),
            _ => None,
        })
        .min_by_key(|(.., within)| *within);
    if let Some((one, to, within)) = stated {
        return Some(made(one, to, within));
    }
    // Neighbouring seats run true to each other though nobody wrote it, and a socket to the seat nearest to it (common practice, no
    // source: .001 in, .02 mm).
    let usual = match part.units {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(20),
    };
    let seats = || layout.sections.iter().filter(|s| s.seat && s.is_turned());
    if candidate.drills {
        let nearest = seats().min_by_key(|s| layout.depth(end, s.outer(end)))?;
        let socket = layout.hollows.iter().find(|h| h.end == end && is_socket(part, layout, h.feature))?;
        return Some(made(socket.feature, nearest.feature, usual));
    }
    let seat = |wanted: &dyn Fn(usize) -> bool| seats().find(|s| wanted(s.feature)).map(|s| s.feature);
    Some(made(seat(&here)?, seat(&before)?, usual))
}

/// A taper or a close bore: something is to run true in it.
fn is_socket(part: &Part, layout: &Layout, feature: usize) -> bool {
    match part.features.get(feature).map(|f| &f.kind) {
        Some(Kind::Inside(inside)) => match &inside.cut {
            InsideCut::Taper { .. } => true,
            InsideCut::Bore { diameter, kept: false, .. } => layout.allow.is_close(diameter),
            _ => false,
        },
        _ => false,
    }
}

/// Lets about a diameter of what is held stand free, where the jaws keep their length on it: an indicator beside the jaws alone does
/// not see work that stands askew.
pub(super) fn room_for_the_indicator(part: &Part, layout: &Layout, candidate: &mut Candidate) {
    if candidate.drills {
        reached_out(part, layout, candidate);
    }
}
