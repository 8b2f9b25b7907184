//! Checks of keyseats, flats and cross holes.

pub mod clocking;
pub mod cross_hole_breaks;
pub mod cross_hole_large;
pub mod cutter_reach;
pub mod depth_from;
pub mod flat_usable;
pub mod long;
pub mod on_taper;
pub mod outside_seat;
pub mod wall;
pub mod width;
