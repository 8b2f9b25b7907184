//! Diameters along the axis: what a tool, a jaw or a bearing meets.

use super::{Chain, Hollow, Mouth};
use crate::model::{End, Feature, Kind, Part};
use crate::unit::{Length, Limits, Station};

/// One section as it will be when finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Feature id.
    pub feature: usize,
    /// Nominal start, toward the datum end.
    pub from: Station,
    /// Nominal end.
    pub to: Station,
    /// Diameter at the start. A thread counts with its major diameter.
    pub start: Limits,
    /// Diameter at the end; differs on a taper only.
    pub end: Limits,
    /// Largest across its corners, where it keeps the surface of a hexagon or square bar.
    pub corners: Option<Length>,
}

impl Piece {
    /// Largest diameter anywhere on it.
    pub fn largest(&self) -> Length {
        self.corners.unwrap_or_default().max(self.start.max).max(self.end.max)
    }

    /// Smallest diameter anywhere on it.
    pub fn smallest(&self) -> Length {
        self.start.min.min(self.end.min)
    }

    /// Length.
    pub fn long(&self) -> Length {
        self.to - self.from
    }
}

/// The finished part as a row of located sections, from the datum end outward.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Profile {
    /// Sections whose both faces are located and in order; feature ids rise along the part.
    pub pieces: Vec<Piece>,
    /// What is cut inside, located, from the datum end outward.
    pub hollows: Vec<Hollow>,
    /// What a center finds at the datum end and at the far end.
    pub mouths: Option<[Mouth; 2]>,
}

impl Profile {
    /// Takes the located sections of a part.
    pub fn of(part: &Part, chain: &Chain) -> Self {
        let pieces = part.sections().filter_map(|f| {
            let (from, to) = chain.span(f.id)?;
            let (start, end) = part.pipe_ends(f.id, to - from).or_else(|| diameters(f))?;
            let shape = part.stock.as_ref().map(|s| s.shape).filter(|s| s.has_corners());
            let corners =
                shape.filter(|_| matches!(f.kind, Kind::Turn { kept: true, .. })).map(|s| s.across_corners(start.max));
            (from < to).then_some(Piece { feature: f.id, from, to, start, end, corners })
        });
        let hollows = super::hollow::of(part, chain);
        let mouths = chain
            .overall(part)
            .map(|overall| [End::Datum, End::Far].map(|end| super::hollow::mouth(part, &hollows, overall, end)));
        Self { pieces: pieces.collect(), hollows, mouths }
    }

    /// The section of a feature.
    pub fn piece(&self, feature: usize) -> Option<&Piece> {
        self.pieces.binary_search_by_key(&feature, |p| p.feature).ok().and_then(|i| self.pieces.get(i))
    }

    /// What a center finds at an end.
    pub fn mouth(&self, end: End) -> Mouth {
        let [datum, far] = self.mouths.unwrap_or([Mouth::Whole; 2]);
        if end == End::Datum { datum } else { far }
    }

    /// What is cut inside under this feature id.
    pub fn hollow(&self, feature: usize) -> Option<&Hollow> {
        self.hollows.iter().find(|h| h.feature == feature)
    }

    /// Largest diameter that is hollow anywhere between two places; zero where the part is solid.
    pub fn hollow_between(&self, from: Station, to: Station) -> Length {
        let there = self.hollows.iter().filter(|h| h.from < to && from < h.to);
        there.map(|h| h.outermost.max(h.start.max).max(h.stop.max)).max().unwrap_or(Length::ZERO)
    }

    /// The section a place lies on; a face belongs to the section that begins there.
    pub fn at(&self, place: Station) -> Option<&Piece> {
        self.pieces
            .iter()
            .find(|p| p.from <= place && place < p.to)
            .or_else(|| self.pieces.last().filter(|p| p.to == place))
    }

    /// Largest diameter of all.
    pub fn largest(&self) -> Option<Length> {
        self.pieces.iter().map(Piece::largest).max()
    }

    /// Sections that lie wholly or partly between two places.
    pub fn between(&self, from: Station, to: Station) -> impl DoubleEndedIterator<Item = &Piece> {
        self.pieces.iter().filter(move |p| p.from < to && from < p.to)
    }
}

fn diameters(feature: &Feature) -> Option<(Limits, Limits)> {
    match &feature.kind {
        // What it sweeps about the part's axis.
        Kind::Eccentric { diameter, .. } => {
            let (own, throw) = (diameter.limits_or_nominal(), feature.sweeps());
            let d = Limits { min: own.min + throw, max: own.max + throw };
            Some((d, d))
        }
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => {
            let d = diameter.limits_or_nominal();
            Some((d, d))
        }
        Kind::Thread { thread, .. } => Some((thread.major, thread.major)),
        Kind::Knurl { knurl, .. } => {
            let d = knurl.diameter.limits_or_nominal();
            Some((d, d))
        }
        Kind::Taper { start, end, .. } => Some((start.limits_or_nominal(), end.limits_or_nominal())),
        _ => None,
    }
}
