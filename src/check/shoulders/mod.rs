//! Checks of grooves, reliefs and shoulders.

pub mod corner_unstated;
pub mod fillet_bearing;
pub mod groove_deep;
pub mod groove_narrow;
pub mod groove_plunges;
pub mod inside_groove;
pub mod land_thin;
pub mod neck_weak;
pub mod relief_corner;
pub mod relief_diameter;
pub mod relief_too_deep;
pub mod relief_width;
pub mod ring_wall;
pub mod shoulder_height;
pub mod undercut_deep;
