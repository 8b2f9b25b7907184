//! Bars a one-off part is turned from: their names in several countries' standards, what they weigh, how they stretch and grow,
//! how fast they are cut, what they do to a hand that does not know them.

mod bar;
mod condition;
mod grade;

pub use bar::{Carbon, bar_tolerance, flats_tolerance};
pub use condition::{Condition, hardens, is_beyond_steel, left_hard};
pub use grade::{
    Caution, CuttingSpeeds, Material, Named, Tool, all, assumed_speeds, by_name, find, names, nearest, share_of_own,
};
