//! Geometry of a keyseat in a round: what the mill hand sets and what the micrometer reads.
//!
//! With S the shaft's diameter and w the width, the arc above the side of the seat is f = (S - sqrt(S² - w²))/2 high; depth from
//! the top is the depth at the side plus f, across the bottom is S minus that (US Navy Machinery Repairman training manual, keyseats).

use crate::unit::Length;

/// Depths of one keyseat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeatDepths {
    /// Height of the arc above the sides of the seat.
    pub arc_height: Length,
    /// At the side of the seat.
    pub at_side: Length,
    /// From the top of the round.
    pub from_top: Length,
    /// From the bottom of the seat across to the far side of the round.
    pub across_bottom: Length,
}

/// Height of the arc over a flat of `width` in a round of `shaft`; the radius where the width is the diameter or more.
pub fn arc_height(shaft: Length, width: Length) -> Length {
    let (s, w) = (i128::from(shaft.pm()), i128::from(width.pm()));
    let rest = u128::try_from(s * s - w * w).unwrap_or(0);
    let chord = i64::try_from(rest.isqrt()).unwrap_or(0);
    Length::from_pm(shaft.pm() - chord).half()
}

/// Depths of a seat whose depth is given at its side (inch keys, Woodruff keys).
pub fn from_side(shaft: Length, width: Length, at_side: Length) -> SeatDepths {
    let arc_height = arc_height(shaft, width);
    let from_top = at_side + arc_height;
    SeatDepths { arc_height, at_side, from_top, across_bottom: shaft - from_top }
}

/// Depths of a seat whose depth is given from the top of the round (metric keys).
pub fn from_top(shaft: Length, width: Length, from_top: Length) -> SeatDepths {
    let arc_height = arc_height(shaft, width);
    SeatDepths { arc_height, at_side: from_top - arc_height, from_top, across_bottom: shaft - from_top }
}

/// Length at the top of the round of the slot a cutter of diameter D sinks `from_top` deep: 2 sqrt(T (D - T)).
/// The diameter itself when the cutter is sunk past its centre.
pub fn slot_length(from_top: Length, cutter: Length) -> Length {
    let (t, d) = (i128::from(from_top.pm()), i128::from(cutter.pm()));
    if t * 2 >= d {
        return cutter;
    }
    let square = u128::try_from(4 * t * (d - t)).unwrap_or(0);
    Length::from_pm(i64::try_from(square.isqrt()).unwrap_or(0))
}

/// How far to raise the cutter after it touches the side of the round, to stand on its middle: half the shaft and half the cutter.
/// A paper between them is added by the hand.
pub fn side_touch(shaft: Length, cutter_width: Length) -> Length {
    (shaft + cutter_width).half()
}
