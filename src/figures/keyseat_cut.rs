//! The keyseat block: touch-off, depth, across the bottom, where the cutter goes.

use super::{Figure, SizeLimits};

/// From one place to another along the part, from the datum face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// Nearer the datum end.
    pub from: Figure,
    /// Farther.
    pub to: Figure,
}

/// Everything for milling a keyseat.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyseatCut {
    /// `Woodruff 606`, `6 × 6 × 25`.
    pub key: String,
    /// Width of seat and cutter.
    pub width: Figure,
    /// Diameter of the cutter.
    pub cutter: Figure,
    /// Diameter of the seat the figures are worked for.
    pub seat: Figure,
    /// Depth at the side of the seat.
    pub at_side: Figure,
    /// Depth from the top of the round, for the least depth the standard asks.
    pub depth_from_top: Figure,
    /// Depth from the top with the standard's tolerance.
    pub depth_limits: SizeLimits,
    /// From the bottom across to the far side of the round.
    pub across_bottom: Figure,
    /// Across the bottom, from the largest seat at the least depth to the smallest seat at the greatest.
    pub across_limits: SizeLimits,
    /// Height of the arc: by how much depth from the top and depth at the side differ.
    pub arc_height: Figure,
    /// After touching the side of the round: raise by this, plus the paper.
    pub side_touch: Figure,
    /// Slot at the top of the round.
    pub slot: Reach,
    /// Centre of a Woodruff cutter.
    pub center: Option<Figure>,
    /// Centre of an end mill, from and to.
    pub cutter_center: Option<Reach>,
    /// Clocking in degrees, counter-clockwise seen from the datum end.
    pub angle_deg: Option<f64>,
    /// Touch-off, step by step.
    pub recipe: Vec<String>,
    /// Standard.
    pub source: String,
}
