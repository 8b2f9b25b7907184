//! The table at the end of a run over many parts.

use std::fmt::Write;
use std::path::Path;

use super::check::head;
use super::job::Tally;

/// Rows that are shown; a longer table is read by nobody.
const MOST_ROWS: usize = 40;

/// What a part did not come to.
#[derive(Clone, Copy)]
enum Not {
    Read,
    Made,
}

/// What became of the parts of a run.
#[derive(Default)]
pub(super) struct Summary {
    rows: Vec<(String, Result<Tally, Not>)>,
    more: usize,
    good: usize,
    think: usize,
    not: usize,
    unread: usize,
    unmade: usize,
    left_alone: usize,
}

impl Summary {
    /// Adds a part that was read.
    pub(super) fn part(&mut self, path: &Path, tally: Tally) {
        if tally.errors > 0 {
            self.not += 1;
        } else if tally.warnings > 0 {
            self.think += 1;
        } else {
            self.good += 1;
            return;
        }
        self.row(path, Ok(tally));
    }

    /// Adds a part that could not be read.
    pub(super) fn unread(&mut self, path: &Path) {
        self.unread += 1;
        self.row(path, Err(Not::Read));
    }

    /// Adds a part that was read and got no sheet.
    pub(super) fn unmade(&mut self, path: &Path) {
        self.unmade += 1;
        self.row(path, Err(Not::Made));
    }

    /// Counts a part whose sheet needed no making.
    pub(super) fn left_alone(&mut self, yes: bool) {
        self.left_alone += usize::from(yes);
    }

    fn row(&mut self, path: &Path, what: Result<Tally, Not>) {
        if self.rows.len() < MOST_ROWS {
            self.rows.push((path.display().to_string(), what));
        } else {
            self.more += 1;
        }
    }

    /// The table: parts that need a look, in their order, and how many of each kind there were.
    pub(super) fn text(&self) -> String {
        let wide = self.rows.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0).max(4);
        let mut out = String::new();
        if !self.rows.is_empty() {
            let _ = writeln!(out, "{:<wide$}  errors  warnings  notes  accepted", "part");
        }
        for (name, what) in &self.rows {
            let _ = match what {
                Ok(t) => writeln!(
                    out,
                    "{name:<wide$}  {:>6}  {:>8}  {:>5}  {:>8}  {}",
                    t.errors,
                    t.warnings,
                    t.notes,
                    t.accepted,
                    head(*t)
                ),
                Err(Not::Read) => writeln!(out, "{name:<wide$}  could not be read"),
                Err(Not::Made) => writeln!(out, "{name:<wide$}  no sheet could be made"),
            };
        }
        if self.more > 0 {
            let _ = writeln!(out, "… and {} more", self.more);
        }
        let all = self.good + self.think + self.not + self.unread + self.unmade;
        let _ = write!(out, "{all} parts: {} good to cut", self.good);
        for (n, what) in [
            (self.think, "think before you cut"),
            (self.not, "DO NOT CUT"),
            (self.unread, "not read"),
            (self.unmade, "left without a sheet"),
        ] {
            if n > 0 {
                let _ = write!(out, ", {n} {what}");
            }
        }
        if self.left_alone > 0 {
            let _ = write!(out, "; {} not changed, their sheets left alone", self.left_alone);
        }
        out.push('\n');
        out
    }
}
