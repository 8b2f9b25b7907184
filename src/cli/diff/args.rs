//! Its arguments.

use std::path::PathBuf;

use crate::cli::args::{Format, seconds};

/// `diff`.
#[derive(Debug, clap::Args)]
pub struct DiffArgs {
    /// The description the sheet on paper was made from.
    pub old: PathBuf,
    /// The description as it is now.
    pub new: PathBuf,
    /// Compare the descriptions alone: plan nothing, compare no pages.
    #[arg(long)]
    pub no_sheet: bool,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Longest search for the best order of each, in seconds.
    #[arg(long, default_value_t = 10.0, value_parser = seconds)]
    pub seconds: f64,
}
