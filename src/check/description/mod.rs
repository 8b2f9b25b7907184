//! Checks of the description itself: what could not be read, and sizes that cannot be meant.

pub mod accept_unused;
pub mod ambiguous_word;
pub mod bad_size;
pub mod datum_moved;
pub mod duplicate_key;
pub mod fit_wrong_side;
pub mod limits_reversed;
mod meeting;
pub mod missing_key;
pub mod mixed_units;
pub mod near_fraction;
pub mod no_datum;
pub mod no_overall;
pub mod no_units;
pub mod not_positive;
pub mod not_supported;
pub(in crate::check) mod of_slip;
pub mod outside_part;
pub mod section_gap;
pub mod section_overlap;
mod sizes;
pub mod stated_twice;
pub mod too_fine;
pub mod unknown_key;
pub mod unreadable;
pub mod untoleranced;
pub mod value_lost_to_comment;
