//! What a reading proves: decision rules, and how sure a reading is.

use super::{Inspected, InspectionRow};
use crate::handbook::conformity;
use crate::model::measured::{SureFrom, Warm};
use crate::model::{Shop, shop::Instrument};
use crate::unit::{Length, Limits, Unit};

/// How the uncertainty of a reading counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rule {
    /// Within the limits is accepted, outside rejected.
    #[default]
    Simple,
    /// Guard bands of 1.65 standard uncertainties.
    GuardBands,
    /// Guard bands as wide as the expanded uncertainty.
    FullGuardBands,
}

impl Rule {
    /// Its name, as record and JSON have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Simple => "simple acceptance",
            Self::GuardBands => "guard bands, 95 %",
            Self::FullGuardBands => "guard bands, full uncertainty",
        }
    }

    /// What it says, with its source.
    pub const fn says(self) -> &'static str {
        match self {
            Self::Simple => "within the limits is accepted, whatever the uncertainty (JCGM 106:2012, 8.2)",
            Self::GuardBands => {
                "accepted within the limits less 0.825 U, rejected beyond them plus 0.825 U (U = 2 u), between them too close to call (ISO 14253-1:2017, probability of conformity 95 %)"
            }
            Self::FullGuardBands => {
                "accepted within the limits less U, rejected beyond them plus U, between them too close to call (JCGM 106:2012, 8.3.2; ISO 14253-1:2013)"
            }
        }
    }

    /// Width of its guard bands.
    pub fn guard(self, uncertainty: Length) -> Length {
        let (over, under) = conformity::GUARD_95;
        match self {
            Self::Simple => Length::ZERO,
            Self::GuardBands => uncertainty.times_ratio(over, under),
            Self::FullGuardBands => uncertainty,
        }
    }

    /// What a reading proves under it. Nothing is smaller than true, so a runout has one limit.
    pub fn decide(self, kind: Inspected, reading: Length, uncertainty: Length, limits: Limits) -> Decision {
        let guard = self.guard(uncertainty);
        let one = kind == Inspected::Runout;
        let inside = reading <= limits.max - guard && (one || reading >= limits.min + guard);
        let outside = reading > limits.max + guard || (!one && reading < limits.min - guard);
        match (inside, outside) {
            (true, _) => Decision::Accept,
            (_, true) => Decision::Reject,
            _ => Decision::TooClose,
        }
    }
}

/// What a reading proves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Decision {
    /// Conforms.
    Accept,
    /// Neither is proven.
    TooClose,
    /// Does not conform.
    Reject,
}

impl Decision {
    /// As JSON and record have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Accept => "accept",
            Self::TooClose => "too close to call",
            Self::Reject => "reject",
        }
    }
}

/// The uncertainty of an instrument with that of bringing a warm reading to 20 °C. A stated uncertainty counts for all of it.
pub(super) fn with_warmth(sure: Sure, warm: Option<Warm>) -> Sure {
    match warm {
        Some(warm) if sure.from != SureFrom::Stated => Sure { uncertainty: warm.with(sure.uncertainty), ..sure },
        _ => sure,
    }
}

/// How sure a reading is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sure {
    /// Expanded uncertainty (k = 2), a half-width.
    pub uncertainty: Length,
    /// Where it is from.
    pub from: SureFrom,
}

/// Instruments by their errors where nobody states them, in millionths of an inch and micrometres (common practice, no source).
const USUAL: [(&str, i64, i64); 5] = [
    ("depth micrometer", 300, 8),
    ("micrometer", 200, 5),
    ("dial indicator", 500, 10),
    ("height gauge", 1_000, 20),
    ("caliper", 1_000, 20),
];

/// How sure a reading of this row is: as stated, by the shop's instrument, or as usual.
pub(super) fn sure(stated: Option<Length>, row: &InspectionRow, size: Length, shop: Option<&Shop>, unit: Unit) -> Sure {
    if let Some(uncertainty) = stated {
        return Sure { uncertainty: uncertainty.abs(), from: SureFrom::Stated };
    }
    let (kind, inch, metric) = USUAL.into_iter().find(|(k, ..)| row.with.starts_with(k)).unwrap_or(USUAL[4]);
    let holds = |i: &&Instrument| i.kind == kind && i.range.is_none_or(|(least, most)| least <= size && size <= most);
    let list = shop.iter().flat_map(|s| &s.instruments).filter(holds);
    match list.filter_map(|i| i.error).filter(|e| e.is_positive()).min() {
        Some(uncertainty) => Sure { uncertainty, from: SureFrom::Instrument },
        None => Sure {
            uncertainty: match unit {
                Unit::Inch => Length::micro_inches(inch),
                Unit::Millimetre => Length::micrometres(metric),
            },
            from: SureFrom::Assumed,
        },
    }
}
