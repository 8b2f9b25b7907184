//! The command line: read, run the stages, show or write the result. Nothing is worked out here.

mod args;
mod args_sheet;
mod batch;
mod chart;
mod chart_text;
mod check;
mod depfile;
mod diff;
mod explain;
pub mod handbook;
pub mod identify;
mod inspect;
mod job;
mod json;
mod outside_json;
mod pair;
mod plan;
mod plan_chart;
mod plan_json;
mod plan_text;
mod replies;
mod run;
mod sarif;
mod screen;
mod sheet;
mod shell;
mod start;
mod summary;
mod tidy;
mod verify;
mod watch;
mod watch_screen;
mod write;

pub use args::Args;
pub use run::run;
