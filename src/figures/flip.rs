//! The correction after the flip, made once, at the zero.

use super::Figure;

/// `overall − measured` on the carriage dial where it would be 0: every printed length then holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// Nominal overall.
    pub overall: Figure,
    /// An overall that could be measured, for the worked example.
    pub example_measured: Figure,
    /// What is then set instead of 0.
    pub example_set: Figure,
    /// One sentence that says what to do.
    pub says: String,
}
