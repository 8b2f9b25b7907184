//! Retaining rings: which groove holds which carried thing against which shoulder.

use super::Facts;
use super::shape::face;
use crate::model::{Carried, End, Feature, Kind, Size};
use crate::unit::Station;

/// A ring groove on a seat.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ring<'a> {
    /// The groove.
    pub(super) feature: &'a Feature,
    /// Thickness of the ring.
    pub(super) thick: &'a Size,
    /// Nominal place of the wall it is pushed against: the one away from the shoulder.
    pub(super) loaded_at: Station,
    /// That wall's node in the chain.
    pub(super) loaded: usize,
}

/// A carried thing with its shoulder and the ring grooves on its seat.
#[derive(Debug, Clone)]
pub(super) struct Held<'a> {
    /// The seat.
    pub(super) seat: &'a Feature,
    /// What it carries.
    pub(super) carried: &'a Carried,
    /// Width of that.
    pub(super) wide: &'a Size,
    /// Side of the seat the shoulder is on.
    pub(super) side: End,
    /// Nominal place of the shoulder.
    pub(super) shoulder_at: Station,
    /// The shoulder's node in the chain.
    pub(super) shoulder: usize,
    /// Ring grooves on the seat.
    pub(super) rings: Vec<Ring<'a>>,
}

/// Whether the loaded wall lies on the seat's side of the shoulder.
pub(super) fn outside(held: &Held<'_>, ring: &Ring<'_>) -> bool {
    match held.side {
        End::Datum => ring.loaded_at > held.shoulder_at,
        End::Far => ring.loaded_at < held.shoulder_at,
    }
}

impl<'a> Facts<'a> {
    /// Everything carried that has a known width, a shoulder, and at least one ring groove on its seat.
    pub(super) fn held_by_rings(&self) -> Vec<Held<'a>> {
        let mut found = Vec::new();
        for seat in self.part.sections() {
            let Some(piece) = self.profile.piece(seat.id) else { continue };
            let Some((start, end)) = self.chain.ends.get(seat.id).copied().flatten() else { continue };
            for carried in &seat.carries {
                let (Some(wide), Some(side)) = (&carried.wide, self.shoulder_side(piece, carried)) else { continue };
                let rings = self.rings_on(piece.from, piece.to, side);
                if rings.is_empty() {
                    continue;
                }
                let shoulder = if side == End::Datum { start } else { end };
                found.push(Held { seat, carried, wide, side, shoulder_at: face(piece, side), shoulder, rings });
            }
        }
        found
    }

    /// Ring grooves that lie wholly between two places; the shoulder is toward `side`.
    fn rings_on(&self, from: Station, to: Station, side: End) -> Vec<Ring<'a>> {
        let grooves = self.part.features.iter().filter_map(|feature| {
            let Kind::Groove { ring: Some(thick), .. } = &feature.kind else { return None };
            let (start, end) = (*self.chain.ends.get(feature.id)?)?;
            let (near, far) = self.chain.span(feature.id)?;
            let (low, high) = if near <= far { (near, far) } else { (far, near) };
            let (low_node, high_node) = if near <= far { (start, end) } else { (end, start) };
            let (loaded_at, loaded) = match side {
                End::Datum => (high, high_node),
                End::Far => (low, low_node),
            };
            (from <= low && high <= to).then_some(Ring { feature, thick, loaded_at, loaded })
        });
        grooves.collect()
    }
}
