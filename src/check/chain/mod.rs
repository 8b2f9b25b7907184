//! Checks of the dimension chain.

pub mod contradiction;
pub mod disagrees;
pub mod implied_tighter;
pub mod loose;
pub mod not_guaranteed;
pub mod play_negative;
pub mod redundant;
