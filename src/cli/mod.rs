//! The command line: read, run the stages, show or write the result. Nothing is worked out here.

mod args;
mod check;
mod explain;
pub mod handbook;
mod job;
mod json;
mod plan;
mod plan_json;
mod plan_text;
mod run;
mod screen;
mod sheet;
mod start;
mod verify;
mod write;

pub use args::Args;
pub use run::run;
