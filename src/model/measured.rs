//! Sizes as they came out, and operations already done: what a plan of the rest starts from.

use super::feature::{End, PlaceRef};
use super::size::Size;
use crate::finding::Place;
use crate::unit::{Length, Unit};

/// One entry of `measured:`.
#[derive(Debug, Clone)]
pub struct Measured {
    /// What was measured, and its size.
    pub what: MeasuredWhat,
    /// `after:` number of the operation it was measured after; none for a reading of the work as it is now.
    pub after: Option<u32>,
    /// `uncertainty:` of the reading, expanded (k = 2), as a half-width.
    pub uncertainty: Option<Size>,
    /// `wire:` a thread was read over, where it is not the sheet's.
    pub wire: Option<Size>,
    /// Temperatures it was taken at: `what` is then what it comes to at 20 °C.
    pub warm: Option<Warm>,
    /// The whole entry.
    pub place: Place,
}

/// Temperatures a reading was taken at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warm {
    /// Of the part, °C.
    pub part: f64,
    /// Of the instrument, °C.
    pub gauge: f64,
    /// Whether that was said; else it is assumed.
    pub gauge_stated: bool,
    /// Expansion of the part, millionths a kelvin.
    pub per_kelvin: f64,
    /// Expansion of the instrument, millionths a kelvin.
    pub gauge_per_kelvin: f64,
    /// What was read.
    pub as_read: Length,
}

impl Warm {
    /// What the correction itself may be off, expanded (k = 2): expansion of the part known to a tenth, both temperatures to a kelvin, each
    /// evenly within that (the way of ISO/TR 16015:2003; the figures are common practice, no source).
    pub fn uncertainty(self) -> Length {
        let even = 3_f64.sqrt();
        let expansion = 0.1 * self.per_kelvin * (self.part - 20.0);
        let each = [expansion, self.per_kelvin, self.gauge_per_kelvin].map(|x| (x / even).powi(2));
        let share = 2.0 * each.iter().sum::<f64>().sqrt() * 1e-6;
        Length::from_f64(self.as_read.mm().abs() * share, Unit::Millimetre)
    }
}

impl Warm {
    /// An instrument's uncertainty with that of the correction.
    pub fn with(self, uncertainty: Length) -> Length {
        Length::from_f64(uncertainty.mm().hypot(self.uncertainty().mm()), Unit::Millimetre)
    }
}

/// Where an uncertainty is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SureFrom {
    /// `uncertainty:` with the reading.
    Stated,
    /// The instrument's error in the shop file.
    Instrument,
    /// Assumed for the kind of instrument.
    Assumed,
}

impl SureFrom {
    /// As JSON and record have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stated => "stated",
            Self::Instrument => "shop file",
            Self::Assumed => "ASSUMED",
        }
    }
}

/// Sizes of a feature other than its diameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reads {
    /// A thread over wires.
    OverWires,
    /// A keyseat, from its bottom to the far side.
    AcrossBottom,
    /// Across flats.
    AcrossFlats,
    /// The width of a groove.
    Width,
    /// Total indicator reading.
    Runout,
}

impl Reads {
    /// Each with its key.
    pub const KEYS: [(Self, &'static str); 5] = [
        (Self::OverWires, "over wires"),
        (Self::AcrossBottom, "across bottom"),
        (Self::AcrossFlats, "across flats"),
        (Self::Width, "width"),
        (Self::Runout, "runout"),
    ];

    /// Its key.
    pub fn key(self) -> &'static str {
        Self::KEYS.iter().find(|(reads, _)| *reads == self).map_or("", |(_, key)| key)
    }
}

/// What was measured.
#[derive(Debug, Clone)]
pub enum MeasuredWhat {
    /// The length over all.
    Overall(Size),
    /// The diameter of a section.
    Diameter {
        /// Feature id.
        feature: usize,
        /// As it came out.
        size: Size,
    },
    /// Another size of a feature.
    Other {
        /// Feature id.
        feature: usize,
        /// Which.
        of: Reads,
        /// As it came out.
        size: Size,
    },
    /// The bore of what sits on a feature.
    Mate {
        /// Feature id.
        feature: usize,
        /// Which of what it carries.
        carried: usize,
        /// As it came out.
        size: Size,
    },
    /// Where a face came out.
    Face {
        /// The face, by its place in the description.
        face: PlaceRef,
        /// As it came out, from `from`.
        at: Size,
        /// The end it was measured from.
        from: End,
    },
}

impl MeasuredWhat {
    /// The size that was read.
    pub const fn size(&self) -> &Size {
        match self {
            Self::Overall(size)
            | Self::Diameter { size, .. }
            | Self::Other { size, .. }
            | Self::Mate { size, .. }
            | Self::Face { at: size, .. } => size,
        }
    }
}

/// An operation already done, by its number in the plan of the same description without `done:`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Done {
    /// Number.
    pub number: u32,
    /// Where it is written.
    pub place: Place,
}
