//! The numbers for the hands, against hand-worked and published ones.

mod again;
#[path = "../planning/generated.rs"]
#[expect(dead_code, reason = "shared with the tests of the plan, which use more of it")]
mod generated;
mod hand;
mod hand_worked;
mod other_end;
mod other_unit;
mod planned;
mod properties;
mod published;
mod written;
