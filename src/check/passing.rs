//! What slides on from an end, and what it meets on its way.

use super::Facts;
use super::shape::{at_face, nominal_at, says_any};
use crate::chain::Piece;
use crate::handbook::{bearing, bearing_limits};
use crate::model::feature::Thread;
use crate::model::{Carried, End, Feature, Kind, LimitsFrom, Size};
use crate::unit::{Length, Limits};
use crate::{tell, told};

/// A carried thing on its way to its seat.
#[derive(Debug, Clone)]
pub(super) struct Sliding<'a> {
    /// Its seat.
    pub(super) seat: &'a Feature,
    /// The seat's section.
    pub(super) piece: &'a Piece,
    /// The thing.
    pub(super) carried: &'a Carried,
    /// Its bore at its smallest.
    pub(super) smallest: Length,
    /// Where that comes from, in words.
    pub(super) by: String,
    /// The thread it runs on, for a nut.
    nut: Option<&'a Thread>,
}

/// A section in the way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Obstacle<'a> {
    /// The section.
    pub(super) feature: &'a Feature,
    /// Its largest diameter.
    pub(super) largest: Length,
    /// Whether the thing can be pushed over it as over its own seat.
    pub(super) seat_like: bool,
}

impl<'a> Facts<'a> {
    /// Everything carried whose bore is known.
    pub(super) fn sliding(&self) -> Vec<Sliding<'a>> {
        let mut found = Vec::new();
        for seat in self.part.sections() {
            let Some(piece) = self.profile.piece(seat.id) else { continue };
            for carried in &seat.carries {
                let known = match (&carried.bore, &seat.kind) {
                    (Some(bore), Kind::Turn { .. } | Kind::Eccentric { .. } | Kind::Relief { .. }) => {
                        let (smallest, by) = smallest_bore(self, carried, bore);
                        Some((smallest, by, None))
                    }
                    (None, Kind::Thread { thread, .. }) => nut_minor(thread).map(|minor| {
                        (
                            minor,
                            tell!("minor diameter {}", "Kerndurchmesser {}", self.show(minor)),
                            Some(thread.as_ref()),
                        )
                    }),
                    _ => None,
                };
                let Some((smallest, by, nut)) = known else { continue };
                found.push(Sliding { seat, piece, carried, smallest, by, nut });
            }
        }
        found
    }

    /// What a thing meets between one end and its seat, in the order it meets it.
    pub(super) fn obstacles(&self, sliding: &Sliding<'a>, from: End) -> Vec<Obstacle<'a>> {
        let mut way = self.outward(sliding.piece, from);
        way.reverse();
        way.into_iter().filter_map(|piece| self.obstacle(sliding, piece)).collect()
    }

    fn obstacle(&self, sliding: &Sliding<'a>, piece: &Piece) -> Option<Obstacle<'a>> {
        let feature = self.feature(piece.feature)?;
        let mut largest = self.largest_on_the_way(feature, piece);
        if sliding.seat.sweeps().is_positive() {
            // What goes onto an eccentric can be moved aside over another one.
            largest = largest - feature.sweeps();
        }
        if largest <= sliding.smallest || same_thread(sliding, feature) {
            return None;
        }
        let plain = matches!(feature.kind, Kind::Turn { .. });
        let own_size = largest <= sliding.piece.largest() - sliding.seat.sweeps();
        let share = self.limit_number("passes-seat", "share");
        let pressed =
            !feature.carries.is_empty() && largest - sliding.smallest <= super::shape::times(sliding.smallest, share);
        Some(Obstacle { feature, largest, seat_like: plain && (own_size || pressed) })
    }

    /// The largest a section may be; the end of a taper that runs into a neighbour of the same nominal size is that neighbour.
    fn largest_on_the_way(&self, feature: &Feature, piece: &Piece) -> Length {
        if !matches!(feature.kind, Kind::Taper { .. }) {
            return piece.largest();
        }
        let end = |side: End| {
            let own = at_face(piece, side).max;
            let same = |other: &Feature| nominal_at(other, side.other()) == nominal_at(feature, side);
            let beside = self.beside(piece, side).section().filter(|p| self.feature(p.feature).is_some_and(same));
            beside.map_or(own, |p| own.min(at_face(p, side.other()).max))
        };
        end(End::Datum).max(end(End::Far))
    }

    /// The first thing in the way that it cannot be pushed over.
    pub(super) fn blocked(&self, sliding: &Sliding<'a>, from: End) -> Option<Obstacle<'a>> {
        self.outward(sliding.piece, from)
            .into_iter()
            .rev()
            .filter_map(|p| self.obstacle(sliding, p))
            .find(|o| !o.seat_like)
    }

    /// The end a carried thing is put on from: as stated, or away from its shoulder.
    pub(super) fn enters(&self, piece: &Piece, carried: &Carried) -> Option<End> {
        carried.enters.or_else(|| self.shoulder_side(piece, carried).map(End::other))
    }

    /// The outermost section on the way that is as thick as the seat: its edge is the first the bore meets.
    pub(super) fn leading(&self, piece: &'a Piece, from: End) -> &'a Piece {
        let way = self.outward(piece, from);
        way.into_iter()
            .rev()
            .find(|p| at_face(p, from.other()).max.max(at_face(p, from).max) >= piece.smallest())
            .unwrap_or(piece)
    }
}

/// By its own limits; without any, a rolling bearing by ISO 492, anything else by its nominal; and what to say of that.
pub(crate) fn bore_limits(carried: &Carried, bore: &Size) -> (Limits, &'static str) {
    if matches!(bore.from, LimitsFrom::Written | LimitsFrom::Fit) {
        return (bore.limits_or_nominal(), "");
    }
    match bearing_limits::bore(bore.nominal).filter(|_| is_bearing(carried)) {
        Some((limits, _)) => (limits, told!(", ISO 492 normal class", ", ISO 492 Klasse Normal")),
        None => (Limits::exactly(bore.nominal), ""),
    }
}

/// The same of the outside of what sits in a bore; a bearing that is named by its number has its size from there. None where neither is stated.
pub(crate) fn outside_limits(carried: &Carried) -> Option<(Limits, &'static str)> {
    let by_standard = told!(", ISO 492 normal class", ", ISO 492 Klasse Normal");
    let nominal = match &carried.outside {
        Some(size) if matches!(size.from, LimitsFrom::Written | LimitsFrom::Fit) => {
            return Some((size.limits_or_nominal(), ""));
        }
        Some(size) => size.nominal,
        None if is_bearing(carried) => carried.part.text.split_whitespace().find_map(bearing::find)?.outside,
        None => return None,
    };
    match bearing_limits::outside(nominal).filter(|_| is_bearing(carried)) {
        Some((limits, _)) => Some((limits, by_standard)),
        None => Some((Limits::exactly(nominal), "")),
    }
}

fn smallest_bore(facts: &Facts<'_>, carried: &Carried, bore: &Size) -> (Length, String) {
    let (limits, by) = bore_limits(carried, bore);
    let down_to = if limits.band().is_positive() { told!(" down to", " bis auf") } else { "" };
    (limits.min, tell!("bore{down_to} {}{by}", "Bohrung{down_to} {}{by}", facts.show(limits.min)))
}

/// Whether a carried thing is a rolling bearing.
pub(crate) fn is_bearing(carried: &Carried) -> bool {
    says_any(&carried.part.text, &["bearing"]) && !says_any(&carried.part.text, &["plain bearing", "sleeve", "bush"])
}

/// A nut runs over a thread like its own.
fn same_thread(sliding: &Sliding<'_>, feature: &Feature) -> bool {
    match (&feature.kind, sliding.nut) {
        (Kind::Thread { thread, .. }, Some(own)) => {
            (thread.nominal, thread.pitch, thread.lead, thread.hand) == (own.nominal, own.pitch, own.lead, own.hand)
        }
        _ => false,
    }
}

/// Smallest minor diameter of a nut on this thread.
fn nut_minor(thread: &Thread) -> Option<Length> {
    Some(Facts::thread_data(thread)?.internal?.minor.min)
}
