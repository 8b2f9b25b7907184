//! What is asked about a thread, and why it may have no answer.

use crate::unit::Length;

use super::Designation;

/// What is asked besides the designation.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Asked {
    /// A wire at hand; without it the best wire, as printed.
    pub wire: Option<Length>,
    /// Work a pair of diameter and pitch that is in no series by the formulas for special threads.
    pub special: bool,
    /// Length of engagement: the tolerance depends on it (Unified, Whitworth, buttress), or the class that is usual
    /// (metric, trapezoidal); without it the usual one.
    pub engagement: Option<Length>,
}

impl Asked {
    /// As `Default`, but special pairs are worked.
    pub fn special() -> Self {
        Self { special: true, ..Self::default() }
    }
}

/// Why there are no limits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unknown {
    /// The pair of diameter and pitch is in no series of its kind; holds the nearest that are.
    Pair {
        /// Nearest standard threads, the nearest first.
        nearest: Vec<Designation>,
    },
    /// The class is not one of this standard at this pitch; holds those it has.
    Class {
        /// Classes that can be asked, external before internal.
        known: Vec<&'static str>,
    },
    /// Beyond the sizes the standard's tables and formulas cover; holds the range in words.
    Range(&'static str),
    /// Known by name, not worked here.
    NotSupported(&'static str),
}
