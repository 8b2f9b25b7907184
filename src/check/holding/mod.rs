//! Checks of holding and machine: of the plan's setups, or of what the description leaves no choice in.

pub mod bar_past_spindle;
pub mod bar_whip;
pub mod center_missing;
pub mod center_not_on_drawing;
pub mod center_too_big;
pub mod center_unprotected;
mod cutting_force;
pub mod deflection;
pub mod eccentric_walls;
pub mod feature_in_jaws;
pub mod follow;
pub mod gauge_missing;
pub mod grip_on_finished;
pub mod grip_short;
pub mod jaws_room;
pub mod no_zero;
pub mod overhang;
pub mod seats_two_setups;
pub mod slender;
pub mod speed_range;
pub mod tailstock_room;
mod thread_force;
pub mod thread_two_setups;
pub mod too_big;
pub mod too_long;
pub mod tool_missing;
pub mod tool_reach;
