//! Checks of the dimension chain.

pub mod contradiction;
pub mod disagrees;
pub mod frame_change;
pub mod heat_growth;
pub mod held_by_turning;
pub mod implied_tighter;
pub mod loose;
pub mod measured_clash;
pub mod measured_out;
pub mod method_too_coarse;
pub mod not_guaranteed;
pub mod play_negative;
pub mod redundant;
