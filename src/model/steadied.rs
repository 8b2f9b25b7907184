//! What carries the work in a mounting: centers true and rough, the spot for a steady rest, nothing but the jaws.

use super::feature::End;
use super::part::Holding;
use super::plan::{Operation, Rest, Setup, Zero};
use super::verb::Verb;

/// The rule by which a mounting takes the parting off alone.
pub const PARTS: &str = "R23";

impl Operation {
    /// A center in the sawn end, drilled by hand: nothing runs on it but the spot for the steady rest.
    pub fn is_rough_center(&self) -> bool {
        self.verb == Verb::Center && self.for_rest
    }

    /// The center hole of an end, about the part's own axis, square to its face.
    pub fn is_true_center(&self) -> bool {
        self.verb == Verb::Center && self.throw.is_none() && !self.for_rest
    }

    /// The spot that a steady rest runs on.
    pub fn is_spot(&self) -> bool {
        self.verb == Verb::Turn && self.for_rest
    }

    /// The spot that this rest runs on.
    pub fn carries(&self, rest: &Rest) -> bool {
        let at = self.from.zip(self.to).map(|(a, b)| (a.min(b), a.max(b)));
        self.is_spot() && !rest.follows && at.is_some_and(|(from, to)| from <= rest.from && rest.to <= to)
    }
}

impl Setup {
    /// Whether rough centers are drilled in it, by hand.
    pub fn drills_rough_centers(&self) -> bool {
        self.operations.iter().any(Operation::is_rough_center)
    }

    /// Whether the work is sent out to be hardened in it.
    pub fn is_sent_out(&self) -> bool {
        self.operations.iter().any(|o| o.verb == Verb::HeatTreat)
    }

    /// Whether the work is only parted off in it: what stands out of the jaws bears no cut.
    pub fn only_parts(&self) -> bool {
        self.holding == Holding::Chuck
            && self.why.iter().any(|w| w.rule == PARTS)
            && self.operations.iter().all(|o| o.verb == Verb::PartOff)
    }

    /// Whether it runs on the center hole of an end, which is there and true: not on a rough center.
    pub fn runs_on_center(&self, end: End) -> bool {
        match self.holding {
            Holding::BetweenCenters => true,
            Holding::ChuckAndCenter => self.works == Some(end) && self.zero != Zero::SawnEnd,
            _ => false,
        }
    }
}
