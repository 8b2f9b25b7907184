//! The round that flats, keyseats and holes across are cut into: how large it is at that place, and what it is the surface of.

use super::Facts;
use crate::model::{Feature, Kind, LimitsFrom, Size};
use crate::unit::{Length, Limits, Station};

/// A round at a place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Round<'a> {
    /// The section.
    pub(crate) section: &'a Feature,
    /// Diameter that numbers are worked for.
    pub(crate) diameter: Length,
    /// Whether that is as measured.
    pub(crate) measured: bool,
    /// What the surface there is.
    pub(crate) is: Surface,
}

/// What a round is the surface of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Surface {
    /// A cylinder about the part's axis.
    Plain,
    /// The points of a knurl, pressed up from a blank so large.
    Points {
        /// Diameter turned before.
        blank: Length,
    },
    /// A taper, so large at this place.
    Cone {
        /// The place.
        at: Station,
        /// Diameter at the section's start.
        start: Length,
        /// Diameter at its end.
        end: Length,
    },
    /// An eccentric: a cylinder about its own axis.
    Thrown {
        /// How far that lies from the part's.
        throw: Length,
    },
}

impl<'a> Facts<'a> {
    /// The round that something lies on from one place to another, or at one place: that of the section its middle is in. On a taper the
    /// diameter where that is largest on it, which an end mill touches first.
    pub(crate) fn round_under(&self, from: Station, to: Station) -> Option<Round<'a>> {
        let piece = self.profile.at(from + (to - from).half())?;
        let section = self.part.features.get(piece.feature)?;
        let (diameter, is) = match &section.kind {
            Kind::Turn { diameter, .. } => (aimed(diameter), Surface::Plain),
            Kind::Relief { diameter, .. } => (diameter.nominal, Surface::Plain),
            Kind::Thread { thread, .. } => (thread.nominal, Surface::Plain),
            Kind::Eccentric { diameter, .. } => {
                (aimed(diameter), Surface::Thrown { throw: section.throw().unwrap_or(Length::ZERO) })
            }
            Kind::Knurl { knurl, .. } => (knurl.expected, Surface::Points { blank: knurl.turn_to }),
            Kind::Taper { start, end, .. } => {
                let (start, end) = (start.nominal, end.nominal);
                let at = if start >= end { from.max(piece.from) } else { to.min(piece.to) };
                let rise = (end - start).times_ratio((at - piece.from).pm(), piece.long().pm());
                (start + rise, Surface::Cone { at, start, end })
            }
            _ => return None,
        };
        // As it came out, once no cut can make it smaller.
        let read = self.part.measured_diameter(section.id).map(|s| s.nominal);
        let read = read.filter(|d| !matches!(is, Surface::Cone { .. }) && *d <= piece.largest() - section.sweeps());
        Some(Round { section, diameter: read.unwrap_or(diameter), measured: read.is_some(), is })
    }
}

impl Round<'_> {
    /// Limits of that round where it has its own; elsewhere the diameter alone.
    pub(crate) fn limits(&self) -> Limits {
        match &self.section.kind {
            Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Eccentric { diameter, .. } => {
                diameter.limits_or_nominal()
            }
            Kind::Knurl { knurl, .. } if knurl.diameter.limits.is_some() => knurl.diameter.limits_or_nominal(),
            Kind::Thread { thread, .. } => thread.major,
            _ => Limits::exactly(self.diameter),
        }
    }
}

/// The size aimed at where limits are written; else the nominal one.
fn aimed(diameter: &Size) -> Length {
    match diameter.from {
        LimitsFrom::Written | LimitsFrom::Fit => diameter.aim(),
        _ => diameter.nominal,
    }
}
