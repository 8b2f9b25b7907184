//! Fits to choose from.

use std::sync::LazyLock;

use crate::handbook::{Source, Table};

static FITS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/preferred.csv")));

/// A preferred pair of tolerance classes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PreferredFit {
    /// Hole's class.
    pub hole: &'static str,
    /// Shaft's class.
    pub shaft: &'static str,
    /// `clearance`, `transition` or `interference`.
    pub kind: &'static str,
    /// What it is for.
    pub purpose: &'static str,
    /// Table.
    pub source: Source,
}

/// The preferred hole-basis fits, loosest first.
pub fn preferred() -> impl Iterator<Item = PreferredFit> {
    FITS.rows().map(|row| PreferredFit {
        hole: row.text("hole"),
        shaft: row.text("shaft"),
        kind: row.text("kind"),
        purpose: row.text("use"),
        source: row.source(),
    })
}
