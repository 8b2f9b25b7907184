//! Which face a cut is measured from.

use crate::chain::Chain;
use crate::model::plan::{Operation, Setup, Zero};
use crate::model::{End, Part};
use crate::unit::Station;

/// The faces of the chart that a mounting may count from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Zeros {
    /// The face touched: the datum face, or the far face.
    pub(super) touched: usize,
    /// The zero corrected by the measured overall, where the mounting has one.
    pub(super) corrected: Option<usize>,
}

impl Zeros {
    /// The face that what an operation cuts at `at` is measured from: a length drawn from the far face from that face itself.
    pub(super) fn of(self, part: &Part, chain: &Chain, op: &Operation, at: Station) -> usize {
        match self.corrected {
            Some(corrected) if !chain.is_drawn_from_far(part, op, at) => corrected,
            _ => self.touched,
        }
    }
}

/// The end whose face a mounting touches: off the lathe the datum face is measured from, where it is made.
pub(super) fn touched(setup: &Setup) -> End {
    match setup.zero {
        Zero::FarFace | Zero::FacedToOverall => End::Far,
        _ => End::Datum,
    }
}
