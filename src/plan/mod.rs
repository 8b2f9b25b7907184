//! From a located part to the proven-best order of operations, held how, and why.
//!
//! [`derive()`] gives what follows from the features alone: operations, candidate mountings, rules. [`plan()`] hands that to
//! the search in [`order`] and gives the setups in the order they are cut. No dial number is worked here.
//!
//! | file | |
//! |---|---|
//! | `coating` | the part as it is cut, where its sizes count after a coating |
//! | `rules` | the rules R1 to R27 and the rest, as data |
//! | `derive` | operations of the features, sizes to aim at, what is left for the finish |
//! | `holding` | which holdings reach, what the jaws and dogs hold on |
//! | `precede` `wishes` | what comes before what; the person's own wishes |
//! | `cutting` `cutter` `keyseat` `spindle` `run_out` `thread_feed` | how a cut is made: cuts, feed, speed, and what slows it |
//! | `cost` `shape` | minutes; the work as it is at some moment |
//! | `choose` | search, and the plan from its answer; the rest of a plan; what a holding is worth |
//! | `bounds` | how far an operation could be moved |
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! # let chain = turnwright::chain::locate(part);
//! # let profile = turnwright::chain::Profile::of(part, &chain);
//! let planned = turnwright::plan::plan(part, &chain, &profile, None, 10).expect("a plan");
//! assert!(planned.plan.setups.len() > 1 && planned.certificate.proven_optimal);
//! ```

mod bounds;
mod choose;
mod coating;
mod cost;
pub mod cutter;
pub mod cutting;
mod derive;
mod holding;
pub mod keyseat;
pub mod order;
mod precede;
mod rough_depth;
pub mod rules;
pub mod run_out;
mod shape;
pub mod spindle;
pub mod thread_feed;
mod wish_words;
mod wishes;

pub use bounds::{Bounds, bounds};
pub use choose::{NoPlan, Planned, Started, in_order, plan, without_each_holding};
pub use coating::before_coating;
pub use derive::derive;
pub(crate) use derive::least_bored;
pub use holding::{NoRoom, SecondCenter, rough_center, second_center, usual_center};
pub use rough_depth::{DepthBy, EFFICIENCY, default_rough_depth, depth_of, rough_depth};
