//! The nouns of the trade as plain data: the part, the shop, the plan. No rules and no files here.
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! assert_eq!(part.name.text, "Pulley stub for a line shaft");
//! assert_eq!(part.sections().count(), 10);
//! assert!(part.named("pulley seat").is_some());
//! ```

mod alternative;
pub mod carried;
pub mod chart;
mod derived;
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
mod slow;
mod steadied;
pub mod thread;
pub mod trade_words;
pub mod verb;
mod workholder;

pub use feature::{Carried, End, Ends, FaceSide, Feature, Kind, PlaceRef};
pub use inside::{Inside, InsideCut, Reach, Tapped};
pub use part::Part;
pub use plan::{Operation, Plan, Setup};
pub use rest::Rest;
pub use shop::Shop;
pub use size::{LimitsFrom, Size, Text};
pub use slip::{Fault, Slip};
pub use steadied::PARTS;
pub use workholder::Workholder;
