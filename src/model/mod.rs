//! The nouns of the trade as plain data: the part, the shop, the plan. No rules and no files here.

pub mod carried;
pub mod chart;
pub mod feature;
pub mod inside;
pub mod measured;
pub mod outside;
pub mod part;
pub mod plan;
pub mod rest;
pub mod shop;
mod size;
pub mod slip;
pub mod thread;
mod workholder;

pub use feature::{Carried, End, Ends, FaceSide, Feature, Kind, PlaceRef};
pub use inside::{Inside, InsideCut, Reach, Tapped};
pub use part::Part;
pub use plan::{Operation, Plan, Setup};
pub use rest::Rest;
pub use shop::Shop;
pub use size::{LimitsFrom, Size, Text};
pub use slip::{Fault, Slip};
pub use workholder::Workholder;
