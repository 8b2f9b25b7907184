//! Sizes as they came out, and operations already done: what a plan of the rest starts from.

use super::feature::{End, PlaceRef};
use super::size::Size;
use crate::finding::Place;

/// One entry of `measured:`.
#[derive(Debug, Clone)]
pub struct Measured {
    /// What was measured, and its size.
    pub what: MeasuredWhat,
    /// `after:` number of the operation it was measured after; none for a reading of the work as it is now.
    pub after: Option<u32>,
    /// The whole entry.
    pub place: Place,
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

/// An operation already done, by its number in the plan of the same description without `done:`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Done {
    /// Number.
    pub number: u32,
    /// Where it is written.
    pub place: Place,
}
