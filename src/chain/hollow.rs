//! What is cut inside, located: bores, threads, reliefs, tapers and grooves along the axis.

use super::Chain;
use crate::model::inside::{InsideCut, Reach};
use crate::model::{End, Feature, Inside, Kind, Part};
use crate::unit::{Length, Limits, Station};

/// One thing cut inside as it will be when finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hollow {
    /// Feature id.
    pub feature: usize,
    /// The end it is cut from.
    pub end: End,
    /// Nominal start, toward the datum end.
    pub from: Station,
    /// Nominal end.
    pub to: Station,
    /// Diameter at the start; a thread counts with its minor diameter.
    pub start: Limits,
    /// Diameter at the end; differs on a taper only.
    pub stop: Limits,
    /// What a wall beside it must clear: the largest major diameter of a thread, else as `start` and `stop`.
    pub outermost: Length,
    /// A groove or relief: wider than what lies nearer the mouth.
    pub recess: bool,
    /// It comes out at the other end, or into what is cut from there.
    pub through: bool,
}

impl Hollow {
    /// Its face nearer its mouth.
    pub fn outer(&self) -> Station {
        if self.end == End::Datum { self.from } else { self.to }
    }

    /// Its bottom.
    pub fn inner(&self) -> Station {
        if self.end == End::Datum { self.to } else { self.from }
    }

    /// Length.
    pub fn long(&self) -> Length {
        self.to - self.from
    }

    /// Smallest diameter anywhere on it that is aimed at: what a tool is touched on where this is cut already.
    pub fn stands(&self) -> Length {
        self.start.middle().min(self.stop.middle())
    }

    /// Smallest diameter anywhere on it.
    pub fn smallest(&self) -> Length {
        self.start.min.min(self.stop.min)
    }
}

/// What a center can bear on at an end of the part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mouth {
    /// The end is whole: a center hole is drilled in it.
    Whole,
    /// A bore without a seat.
    Open {
        /// Diameter of the bore.
        diameter: Length,
    },
    /// A bore whose mouth is a 60 degree seat.
    Seat {
        /// Diameter of the bore.
        diameter: Length,
        /// Diameter of the seat at the face.
        mouth: Length,
        /// The chamfer that is the seat.
        feature: usize,
    },
}

/// A seat for a center is cut at 30 degrees to the axis.
const SEAT_MDEG: i64 = 30_000;

/// Everything located inside a part, from the datum end outward.
pub(super) fn of(part: &Part, chain: &Chain) -> Vec<Hollow> {
    let mut list: Vec<Hollow> = part.features.iter().filter_map(|f| hollow(chain, f)).collect();
    list.sort_by_key(|h| (h.from, h.to, h.feature));
    let out: Vec<bool> = list.iter().map(|h| comes_out(h, &list, chain.overall(part))).collect();
    for (hollow, out) in list.iter_mut().zip(out) {
        hollow.through |= out;
    }
    list
}

/// A bore told by its depth that ends at the other face, or at the bottom of a larger one cut from there.
fn comes_out(hollow: &Hollow, all: &[Hollow], overall: Option<Length>) -> bool {
    let face = if hollow.end == End::Datum { overall.map(Station) } else { Some(Station::DATUM) };
    let into = |h: &Hollow| {
        !h.recess && h.end != hollow.end && h.inner() == hollow.inner() && h.smallest() >= hollow.outermost
    };
    !hollow.recess && (Some(hollow.inner()) == face || all.iter().any(into))
}

fn hollow(chain: &Chain, feature: &Feature) -> Option<Hollow> {
    let Kind::Inside(inside) = &feature.kind else { return None };
    let (from, to) = chain.span(feature.id)?;
    let (start, stop, outermost) = match &inside.cut {
        InsideCut::Bore { diameter, .. } | InsideCut::Relief { diameter, .. } | InsideCut::Groove { diameter, .. } => {
            let d = diameter.limits_or_nominal();
            (d, d, d.max)
        }
        InsideCut::Thread { thread, .. } => (thread.minor, thread.minor, thread.major_min.max(thread.nominal)),
        InsideCut::Taper { start, end, .. } => {
            let (a, b) = (start.limits_or_nominal(), end.limits_or_nominal());
            (a, b, a.max.max(b.max))
        }
        InsideCut::Chamfer { .. } => return None,
    };
    let recess = matches!(inside.cut, InsideCut::Groove { .. } | InsideCut::Relief { .. });
    let through = matches!(inside.reach, Reach::Through);
    let end = inside.end;
    (from < to).then_some(Hollow { feature: feature.id, end, from, to, start, stop, outermost, recess, through })
}

/// What a center finds at an end.
pub(super) fn mouth(part: &Part, hollows: &[Hollow], overall: Length, end: End) -> Mouth {
    let face = if end == End::Datum { Station::DATUM } else { Station(overall) };
    let at_face = |h: &&Hollow| !h.recess && (h.from == face || h.to == face);
    let Some(first) = hollows.iter().find(at_face) else { return Mouth::Whole };
    let diameter = if end == End::Datum { first.start.min } else { first.stop.min };
    let seat = part.features.iter().find_map(|f| match &f.kind {
        Kind::Inside(inside) if inside.end == end => seat_leg(inside).map(|leg| (f.id, leg)),
        _ => None,
    });
    match seat {
        // 30 degrees to the axis: the leg along the axis opens by twice leg x tan 30 on the diameter.
        Some((feature, leg)) => {
            let opens = leg.times_ratio(1_154_701, 1_000_000);
            Mouth::Seat { diameter, mouth: diameter + opens, feature }
        }
        None => Mouth::Open { diameter },
    }
}

fn seat_leg(inside: &Inside) -> Option<Length> {
    match &inside.cut {
        InsideCut::Chamfer { leg, angle_mdeg, .. } if *angle_mdeg == SEAT_MDEG => Some(leg.nominal),
        _ => None,
    }
}
