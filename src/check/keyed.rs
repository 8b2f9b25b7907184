//! Keyseats as they lie on the part.

use super::Facts;
use super::shape::nominal_at;
use crate::chain::Piece;
use crate::handbook::{key_parallel, keyseat, woodruff};
use crate::model::{End, Feature, Kind};
use crate::unit::{Length, Station};

/// A keyseat on its seat; sizes at the nominal diameter and the nominal depth.
#[derive(Debug, Clone, Copy)]
pub(super) struct Keyed<'a> {
    /// The keyseat.
    pub(super) feature: &'a Feature,
    /// Nominal start of the slot at the top of the round.
    pub(super) from: Station,
    /// Nominal end.
    pub(super) to: Station,
    /// Width of the key.
    pub(super) width: Length,
    /// Depths.
    pub(super) depths: keyseat::SeatDepths,
    /// Diameter of a Woodruff cutter.
    pub(super) cutter: Option<Length>,
    /// The section it is in.
    pub(super) seat: &'a Feature,
    /// That section's place.
    pub(super) piece: &'a Piece,
    /// Nominal diameter of the seat.
    pub(super) shaft: Length,
    /// The end it is meant to run out at.
    pub(super) open: Option<End>,
    /// The feature it is meant to run through.
    pub(super) through: Option<usize>,
}

impl Keyed<'_> {
    /// Length at the top of the round.
    pub(super) fn long(&self) -> Length {
        self.to - self.from
    }

    /// Nominal middle.
    pub(super) fn middle(&self) -> Station {
        self.from + self.long().half()
    }

    /// Diameter about the part's axis below which the slot does not reach, wherever around an eccentric it lies.
    pub(super) fn bottom(&self) -> Length {
        self.shaft - self.seat.sweeps() - self.depths.from_top.times(2)
    }
}

impl<'a> Facts<'a> {
    /// Every keyseat that is located on a plain section and fits its diameter.
    pub(super) fn keyseats(&self) -> impl Iterator<Item = Keyed<'a>> {
        self.part.features.iter().filter_map(|f| self.keyseat(f))
    }

    fn keyseat(&self, feature: &'a Feature) -> Option<Keyed<'a>> {
        let (from, to) = self.chain.span(feature.id)?;
        match &feature.kind {
            Kind::Woodruff { number, .. } => {
                let (seat, piece, shaft) = self.seat_at(from)?;
                let key = woodruff::find(number)?;
                let cut = key.seat_in(shaft)?;
                let half = cut.slot_length.half();
                Some(Keyed {
                    feature,
                    from: from - half,
                    to: from + half,
                    width: key.width,
                    depths: cut.depths,
                    cutter: Some(key.cutter_diameter),
                    seat,
                    piece,
                    shaft,
                    open: None,
                    through: None,
                })
            }
            Kind::ParallelKeyseat { width, height, open, through, .. } => {
                let (seat, piece, shaft) = self.widest_seat(from, to, *open)?;
                let key = key_parallel::with_size(shaft, width.nominal, height.nominal, width.unit).ok()?;
                let (width, cutter) = (width.nominal, None);
                let (open, through, depths) = (*open, *through, key.depths);
                Some(Keyed { feature, from, to, width, depths, cutter, seat, piece, shaft, open, through })
            }
            _ => None,
        }
    }

    fn seat_at(&self, place: Station) -> Option<(&'a Feature, &'a Piece, Length)> {
        let piece = self.profile.at(place)?;
        let seat = self.feature(piece.feature)?;
        let shaft = match &seat.kind {
            Kind::Turn { .. } | Kind::Taper { .. } | Kind::Thread { .. } | Kind::Relief { .. } | Kind::Knurl { .. } => {
                nominal_at(seat, End::Datum)
            }
            // About its own axis.
            Kind::Eccentric { diameter, .. } => diameter.nominal,
            _ => return None,
        };
        Some((seat, piece, shaft))
    }

    /// The section that holds most of the slot; for an open one the section its closed end is in.
    fn widest_seat(&self, from: Station, to: Station, open: Option<End>) -> Option<(&'a Feature, &'a Piece, Length)> {
        match open {
            Some(End::Datum) => return self.seat_at(to - Length::from_pm(1)),
            Some(End::Far) => return self.seat_at(from),
            None => {}
        }
        let overlap = |p: &Piece| p.to.min(to) - p.from.max(from);
        let piece = self.profile.between(from, to).max_by_key(|p| overlap(p))?;
        self.seat_at(piece.from)
    }
}
