//! The chamfer at the mouth of a hole: what it measures across, and how far the tool goes from where it touches the edge.

use super::given::Given;
use super::{DialReading, Figure, OnScale, dial, scale};
use crate::model::End;
use crate::model::plan::Operation;
use crate::unit::{Length, Unit};

/// A chamfered mouth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Opening {
    /// Diameter at the face when the chamfer is to size, over a hole in the middle of its limits.
    pub across: Figure,
    /// The same on a caliper in the other unit.
    pub on_scale: Option<OnScale>,
    /// How much wider it is than the hole, a side.
    pub a_side: Figure,
    /// The same on the cross dial, outward from where the tool touches the edge; none where the shop file does not say what it reads.
    pub on_dial: Option<DialReading>,
}

/// The mouth of a chamfer inside: hole + 2 x leg x tan of the angle to the axis (plain geometry). None outside, or where no hole comes out there.
pub(super) fn of(given: &Given, op: &Operation, leg: Figure, angle_deg: f64) -> Option<Opening> {
    let end = op.end.filter(|_| op.inside)?;
    let (near, far) = (op.from?.min(op.to?), op.from?.max(op.to?));
    let there = |h: &&crate::chain::Hollow| Some(h.feature) != op.feature && h.from <= near && far <= h.to && !h.recess;
    let hole = given.profile.hollows.iter().find(there)?;
    let size = if end == End::Datum { hole.start } else { hole.stop };
    let opens = Length::from_f64(leg.value.mm() * angle_deg.to_radians().tan(), Unit::Millimetre);
    let across = Figure::usual(size.middle() + opens.times(2), given.unit);
    Some(Opening {
        across,
        on_scale: scale::on_scale(given, "caliper", Some(across), None),
        a_side: Figure::usual(opens, given.unit),
        on_dial: dial::cross(opens, given.shop, given.unit),
    })
}
