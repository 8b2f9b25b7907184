//! Grooves and reliefs as a grooving tool meets them.

use super::Facts;
use super::shape::nominal_at;
use crate::model::shop::{Tool, ToolKind};
use crate::model::{End, Feature, Kind};
use crate::unit::{Length, Station};

/// A groove or relief with two walls.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slot<'a> {
    /// The feature.
    pub(super) feature: &'a Feature,
    /// Nominal wall nearer the datum end.
    pub(super) from: Station,
    /// Nominal other wall.
    pub(super) to: Station,
    /// Widest it may be.
    pub(super) widest: Length,
    /// Nominal depth a side below the lower of its walls.
    pub(super) deep: Length,
}

impl Slot<'_> {
    /// Nominal width.
    pub(super) fn wide(&self) -> Length {
        self.to - self.from
    }
}

impl<'a> Facts<'a> {
    /// Every groove and relief whose walls are located.
    pub(super) fn slots(&self) -> impl Iterator<Item = Slot<'a>> {
        self.part.features.iter().filter_map(|f| self.slot(f))
    }

    fn slot(&self, feature: &'a Feature) -> Option<Slot<'a>> {
        let (from, to) = self.chain.span(feature.id)?;
        let (bottom, lower, widest) = match &feature.kind {
            Kind::Groove { diameter, wide, .. } => {
                let on = self.profile.between(from, to).filter_map(|p| self.feature(p.feature));
                (diameter.nominal, on.map(|f| nominal_at(f, End::Datum)).min()?, wide.max())
            }
            Kind::Relief { diameter, .. } => {
                let piece = self.profile.piece(feature.id)?;
                let wall = |side: End| {
                    let beside = self.feature(self.beside(piece, side).section()?.feature)?;
                    Some(nominal_at(beside, side.other()))
                };
                let (start, end) = (*self.chain.ends.get(feature.id)?)?;
                let widest = self.chain.guaranteed(start, end).map_or(to - from, |l| l.max);
                (diameter.nominal, wall(End::Datum)?.min(wall(End::Far)?), widest)
            }
            _ => return None,
        };
        let deep = (lower - bottom).half();
        (from < to && deep.is_positive()).then_some(Slot { feature, from, to, widest, deep })
    }

    /// Grooving tools of the shop file whose width is known.
    pub(super) fn grooving_tools(&self) -> Vec<(&'a Tool, Length)> {
        let Some(shop) = self.shop else { return Vec::new() };
        let mut tools: Vec<_> = shop.tools_of(ToolKind::Grooving).filter_map(|t| Some((t, t.width?))).collect();
        tools.sort_by_key(|(_, width)| *width);
        tools
    }
}
