//! Every toleranced size with its limits and what measures it.

use super::SizeLimits;

/// Kinds of sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Inspected {
    /// A diameter.
    Diameter,
    /// A thread over wires.
    OverWires,
    /// A keyseat across its bottom.
    AcrossBottom,
    /// A width.
    Width,
    /// A length from the datum face, or between faces where the row says so.
    Length,
    /// A distance the drawing asks besides.
    Distance,
}

/// One size to measure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InspectionRow {
    /// Letter or letters, as on the drawing.
    pub letters: String,
    /// In words: `pulley seat`, `overall`.
    pub what: String,
    /// Kind.
    pub kind: Inspected,
    /// Limits; one end may be open for `max` and `min` sizes and is then the nominal's.
    pub limits: SizeLimits,
    /// Instrument: `micrometer 0–1`, `micrometer and wires .0321`.
    pub with: String,
    /// Feature, if it is one.
    pub feature: Option<usize>,
}
