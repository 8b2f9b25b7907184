//! A size of the description after reading: what was written, and the limits it means.

use crate::finding::Place;
use crate::unit::{Length, Limits, NumberForm, ToleranceText, Unit};

/// A piece of text with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Text {
    /// The text, trimmed.
    pub text: String,
    /// Where it stands.
    pub place: Place,
}

/// Where a size's limits come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitsFrom {
    /// Written beside the size.
    Written,
    /// From the description's general tolerances.
    General,
    /// From a fit code.
    Fit,
    /// From the standard of the thread, key or bar.
    Standard,
    /// One end only: `max` or `min`; the other end is stated by the feature or open.
    OneEnd,
    /// Nothing gives any.
    Nothing,
}

/// A size: nominal, limits, and how it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Size {
    /// Nominal size.
    pub nominal: Length,
    /// Both ends, where they are known.
    pub limits: Option<Limits>,
    /// What gave the limits.
    pub from: LimitsFrom,
    /// Limits as written.
    pub tolerance: ToleranceText,
    /// Unit it was written in.
    pub unit: Unit,
    /// Decimals or fraction.
    pub form: NumberForm,
    /// For reference only (round brackets).
    pub reference: bool,
    /// Where the size stands.
    pub place: Place,
    /// The text as written.
    pub text: String,
}

impl Size {
    /// The limits, or both ends at the nominal where there are none.
    pub fn limits_or_nominal(&self) -> Limits {
        self.limits.unwrap_or(Limits::exactly(self.nominal))
    }

    /// Largest it may be.
    pub fn max(&self) -> Length {
        self.limits_or_nominal().max
    }

    /// Smallest it may be.
    pub fn min(&self) -> Length {
        self.limits_or_nominal().min
    }

    /// The size to aim at: the middle of the limits.
    pub fn aim(&self) -> Length {
        self.limits_or_nominal().middle()
    }
}
