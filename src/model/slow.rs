//! How a mounting holds the work: in words, which way round, and what keeps its cuts slow.

use super::feature::End;
use super::part::Holding;
use super::plan::{DatumEnd, Operation, Setup, Verb, Zero};

/// What keeps every cut of a mounting from turning as fast as its surface speed asks.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Slow {
    /// The jaws of a steady rest bear no more, revolutions a minute.
    pub rest: Option<f64>,
    /// The work stands too far out of the jaws.
    pub overhung: bool,
    /// The bar behind the spindle stands no more, revolutions a minute.
    pub whip: Option<f64>,
}

impl Setup {
    /// How it is held, as the trade says it.
    pub fn held(&self) -> String {
        self.by.word(self.holding)
    }

    /// The end of the part at the tailstock; none off the lathe.
    pub const fn at_tailstock(&self) -> Option<End> {
        match (self.holding, self.datum_end) {
            (Holding::Mill | Holding::Bench, _) | (_, DatumEnd::Left) => None,
            (_, DatumEnd::Tailstock) => Some(End::Datum),
            (_, DatumEnd::Headstock) => Some(End::Far),
        }
    }

    /// Lengths are counted from a far face that is cut here, before there is a datum face: nothing is corrected by the overall.
    pub fn faces_far_end_first(&self) -> bool {
        let far = |o: &Operation| o.verb == Verb::Face && o.end == Some(End::Far);
        self.zero == Zero::FarFace && self.operations.iter().any(far)
    }
}
