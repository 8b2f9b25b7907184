//! Every number the hands need for a fixed plan, in its own frame, worked out and labelled.
//!
//! [`work`] takes the part, its located faces, the plan and the shop file. JSON and sheet are both filled from the [`Figures`] it
//! returns, and neither computes. Lengths are exact with the digits they are shown with ([`Figure`]); speeds, angles and times are
//! floating point. Without a shop file there is no cross-dial, thread-dial or gearbox number, only sizes.
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! # let chain = turnwright::chain::locate(part);
//! # let profile = turnwright::chain::Profile::of(part, &chain);
//! let planned = turnwright::plan::plan(part, &chain, &profile, None, 10).expect("a plan");
//! let figures = turnwright::figures::work(part, &chain, &profile, &planned.plan, None);
//! assert_eq!(figures.setups.len(), planned.plan.setups.len());
//! ```

mod assumed;
mod begun_verdict;
mod cautions;
mod changed;
mod clocked;
mod comes_out;
mod cross_hole;
mod crown_cut;
mod decision;
pub mod dial;
mod feed;
mod figure;
mod flip;
mod given;
mod inside;
mod inside_thread;
mod inspection;
mod instrument;
mod job;
mod keyseat_cut;
mod knurl_cut;
mod lying;
mod mark_lines;
mod marks;
mod mates;
mod opening;
mod operation;
mod outside_cut;
mod over_wires;
mod passes;
mod positions;
mod remains;
mod rest_words;
mod runs_off;
mod saved;
mod scale;
mod second_center;
mod setup;
mod speed;
mod stops;
mod surface;
mod thread_cut;
mod thread_drive;
mod thrown;
mod tools;
mod verdict;
mod wheels;
mod whole;
mod wires_read;

pub use crate::model::measured::SureFrom;
pub use crate::model::trade_words::{kind_word, mate_word};
pub use cautions::defer;
pub use changed::{Change, tell_changes};
pub use clocked::Clocked;
pub use cross_hole::CrossTouch;
pub use crown_cut::CrownCut;
pub use decision::{Decision, Rule, Sure};
pub use dial::{CrossDial, DialReading, OnIndicator, Touch};
pub use figure::{Figure, SizeLimits, aim};
pub use flip::Correction;
pub use flip::to_the_dial;
pub use inside::{HoleCut, HoleLine};
pub use inside_thread::HoleThread;
pub use inspection::{Inspected, InspectionRow};
pub use job::{CenterCut, ChamferCut, Job, Swing, TaperCut, TaperCuts, TaperWay};
pub use keyseat_cut::{KeyseatCut, OnRoughed, Reach};
pub use knurl_cut::KnurlCut;
pub use lying::{Lying, LyingMark};
pub use marks::{Leave, Mark, MarkList, Marks};
pub use mates::{Mate, Warm};
pub use opening::Opening;
pub use operation::OperationFigures;
pub use outside_cut::{FlatsCut, UndercutCut};
pub use over_wires::{StillIn, Wires};
pub use passes::{Cut, Passes};
pub use positions::{CountsFrom, Edge, Position};
pub use remains::{Remains, SawTo};
pub use rest_words::rest_words;
pub use runs_off::RunsOff;
pub use saved::{Given, Recut, Saved};
pub use scale::OnScale;
pub use second_center::SecondLayout;
pub use setup::{CarriageZero, SetupFigures};
pub use speed::{SECONDS_TO_REVERSE, Speed, SpeedLimit};
pub use thread_cut::{Compound, CompoundHandle, PipeCut, ThreadCut};
pub use thread_drive::{Engage, Gearbox, Indexing};
pub use thrown::Thrown;
pub use tools::Layout;
pub use verdict::{Inspection, Judged, Verdict, inspect, inspect_begun};
pub use whole::{Figures, work};
