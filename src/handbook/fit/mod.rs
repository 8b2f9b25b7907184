//! Limits and fits: ISO 286-1:2010 (all letters and grades, to 3150 mm) and ANSI B4.1-1967 (RC LC LT LN FN).
//!
//! The tables are the source, not the formulas behind them: the standards round in ways no formula repeats.
//!
//! ```
//! use turnwright::{handbook::fit, unit::Length};
//! let k6 = fit::shaft("k6", Length::PER_MM.times(25)).expect("k6 goes to 3150 mm");
//! assert_eq!((k6.upper, k6.lower), (Length::micrometres(15), Length::micrometres(2)));
//! ```

mod ask;
mod inch;
mod iso;
mod preferred;

pub use ask::{Fit, parse};
pub use inch::{InchFit, inch_classes, inch_fit};
pub use iso::{Grade, it_grade_of, it_grade_within, it_value};
pub use preferred::{PreferredFit, preferred};

use super::Source;
use crate::unit::{Length, Limits};

/// Signed distances of the two limits from the nominal size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Deviations {
    /// Of the largest size.
    pub upper: Length,
    /// Of the smallest size.
    pub lower: Length,
}

impl Deviations {
    /// The limits of a nominal size.
    pub fn limits(self, nominal: Length) -> Limits {
        Limits::around(nominal, self.upper, self.lower)
    }

    /// Width of the tolerance.
    pub fn band(self) -> Length {
        self.upper - self.lower
    }
}

/// Why a code gives no limits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoFit {
    /// Neither an ISO 286 tolerance class nor an ANSI B4.1 class.
    Unknown(String),
    /// The standard gives no such deviation or grade at this size.
    NotTabulated {
        /// The code asked for.
        code: String,
        /// Where the standard has it, in words.
        has: String,
    },
    /// A hole's code asked of a shaft, or the reverse; holds the code of the right side.
    WrongSide {
        /// The code asked for.
        code: String,
        /// The same letter for the other side.
        other: String,
    },
    /// The size itself cannot be read; holds the text.
    Size(String),
    /// A number without a unit.
    NoUnit(String),
}

impl std::fmt::Display for NoFit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unknown(code) => write!(
                f,
                "\"{code}\" is no fit: write a shaft's letter and grade (k6), a hole's (H7), both (H7/k6) or a class (RC3)"
            ),
            Self::NotTabulated { code, has } => write!(f, "{code} is not given for this size: {has}"),
            Self::WrongSide { code, other } => {
                write!(f, "{code} belongs to the other part of the pair: here it would be {other}")
            }
            Self::Size(text) => write!(f, "\"{text}\" is no size"),
            Self::NoUnit(text) => {
                write!(f, "\"{text}\" has no unit: write 25 mm or 1.000 in, or say --units in or --units mm")
            }
        }
    }
}

impl std::error::Error for NoFit {}

/// Deviations of a shaft: an ISO 286 lower-case class (`k6`) or the shaft of an ANSI B4.1 class (`RC3`).
///
/// # Errors
/// [`NoFit`] when the code is unknown, a hole's, or not tabulated at this diameter.
pub fn shaft(code: &str, diameter: Length) -> Result<Deviations, NoFit> {
    if let Some(class) = inch::class_name(code) {
        return inch_fit(class, diameter).map(|fit| fit.shaft);
    }
    if is_hole_code(code) {
        return Err(NoFit::WrongSide { code: code.to_owned(), other: code.to_ascii_lowercase() });
    }
    iso::shaft(code, diameter)
}

/// Deviations of a hole: an ISO 286 capital class (`H7`) or the hole of an ANSI B4.1 class (`RC3`).
///
/// # Errors
/// [`NoFit`] when the code is unknown, a shaft's, or not tabulated at this diameter.
pub fn hole(code: &str, diameter: Length) -> Result<Deviations, NoFit> {
    if let Some(class) = inch::class_name(code) {
        return inch_fit(class, diameter).map(|fit| fit.hole);
    }
    if !is_hole_code(code) && iso::is_class(code) {
        return Err(NoFit::WrongSide { code: code.to_owned(), other: code.to_ascii_uppercase() });
    }
    iso::hole(code, diameter)
}

/// Whether a code is an ISO 286 hole's (capital letters): `H7`, `JS9`, `ZC8`. The ANSI B4.1 classes name both parts.
pub fn is_hole_code(code: &str) -> bool {
    iso::is_class(code) && code.starts_with(|c: char| c.is_ascii_uppercase())
}

/// Whether a code can name a fit at all, at any size.
pub fn is_code(code: &str) -> bool {
    iso::is_class(code) || inch::class_name(code).is_some()
}

/// The table a code's limits come from.
pub fn source(code: &str) -> Source {
    if inch::class_name(code).is_some() { inch::source() } else { iso::source() }
}
