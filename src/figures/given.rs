//! What every figure is worked from.

use crate::chain::{Chain, Piece, Profile};
use crate::check::Facts;
use crate::model::plan::Setup;
use crate::model::{End, Feature, Kind, Part, Shop};
use crate::unit::{Length, Station, Unit, show};

/// The part, its geometry, and the shop.
#[derive(Clone, Copy)]
pub(super) struct Given<'a> {
    pub(super) part: &'a Part,
    pub(super) chain: &'a Chain,
    pub(super) profile: &'a Profile,
    pub(super) shop: Option<&'a Shop>,
    /// Unit of the description: every figure is shown in it.
    pub(super) unit: Unit,
    /// Nominal overall.
    pub(super) overall: Length,
}

impl<'a> Given<'a> {
    pub(super) fn new(part: &'a Part, chain: &'a Chain, profile: &'a Profile, shop: Option<&'a Shop>) -> Self {
        let overall = chain.overall(part).unwrap_or_default();
        Self { part, chain, profile, shop, unit: part.units, overall }
    }

    /// The same for the checks' own limits and formulas.
    pub(super) const fn facts(&self) -> Facts<'a> {
        let Self { part, chain, profile, shop, .. } = *self;
        Facts { part, slips: &[], chain, profile, shop, derived: None, plan: None }
    }

    /// `inches` (in millionths) for an inch part, `micrometres` for a metric one.
    pub(super) fn pick(&self, micro_inches: i64, micrometres: i64) -> Length {
        match self.unit {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        }
    }

    /// A length of something in the shop, in the shop's own unit, which is named where the part has the other one.
    pub(super) fn in_shop(&self, length: Length) -> String {
        let unit = self.shop.and_then(|s| s.units).unwrap_or(self.unit);
        let least = if unit == Unit::Inch { 3 } else { 1 };
        let text = show::exact(length, unit, least, 4);
        if unit == self.unit { text } else { format!("{text} {}", unit.word()) }
    }

    /// A feature.
    pub(super) fn feature(&self, id: usize) -> Option<&'a Feature> {
        self.part.features.get(id)
    }

    /// How a sentence speaks of a feature: `seat C`, `thread A`, `relief B`.
    pub(super) fn spoken(&self, id: usize) -> String {
        let Some(f) = self.feature(id) else { return String::new() };
        let word = match &f.kind {
            Kind::Turn { kept: true, .. } => "collar",
            Kind::Turn { .. } if !f.carries.is_empty() => "seat",
            Kind::Turn { .. } => "",
            kind => kind.word(),
        };
        let word = super::kind_word(word);
        if word.is_empty() { f.letter.clone() } else { format!("{word} {}", f.letter).trim().to_owned() }
    }

    /// The section beside a section, toward an end of the part.
    pub(super) fn beside(&self, piece: &Piece, toward: End) -> Option<&'a Piece> {
        let i = self.profile.pieces.iter().position(|p| p.feature == piece.feature)?;
        match toward {
            End::Datum => i.checked_sub(1).and_then(|i| self.profile.pieces.get(i)),
            End::Far => self.profile.pieces.get(i + 1),
        }
    }
}

/// The end of the part at the tailstock; none off the lathe.
pub(super) const fn at_tailstock(setup: &Setup) -> Option<End> {
    setup.at_tailstock()
}

/// A place as the carriage counts it: from the face at the tailstock, growing toward the headstock.
pub(super) fn carriage(at: Station, tailstock: End, overall: Length) -> Length {
    match tailstock {
        End::Datum => at - Station::DATUM,
        End::Far => at.from_far_end(overall),
    }
}

/// The place a carriage reading stands for.
pub(super) fn station(reading: Length, tailstock: End, overall: Length) -> Station {
    match tailstock {
        End::Datum => Station(reading),
        End::Far => Station(overall - reading),
    }
}
