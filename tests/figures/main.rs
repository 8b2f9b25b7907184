//! The numbers for the hands, against hand-worked and published ones.

mod hand;
mod look;
mod hand_worked;
mod properties;
mod published;
