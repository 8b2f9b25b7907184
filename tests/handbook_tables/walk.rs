//! Walking a published table and keeping count.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

/// A published table: its rows by column name.
pub(crate) fn rows(file: &str) -> Vec<BTreeMap<String, String>> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(file);
    let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let mut lines = text.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).map(cells);
    let head = lines.next().expect("a table has a head");
    lines.map(|cells| head.iter().cloned().zip(cells).collect()).collect()
}

/// Cells of one line; a quoted cell may hold commas.
fn cells(line: &str) -> Vec<String> {
    let (mut cells, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(std::mem::take(&mut cell)),
            _ => cell.push(c),
        }
    }
    cells.push(cell);
    cells
}

/// The number in a cell, if there is one.
pub(crate) fn number(row: &BTreeMap<String, String>, column: &str) -> Option<f64> {
    row.get(column).and_then(|cell| cell.trim().parse().ok())
}

/// Counts cells of one table.
pub(crate) struct Walk {
    file: &'static str,
    asked: usize,
    differ: BTreeMap<String, String>,
}

impl Walk {
    pub(crate) fn new(file: &'static str) -> Self {
        Self { file, asked: 0, differ: BTreeMap::new() }
    }

    /// Compares one printed number with the handbook's; equal within `within`, which is half of the last printed digit.
    pub(crate) fn cell(&mut self, key: &str, printed: f64, ours: Option<f64>, within: f64) {
        self.asked += 1;
        if !ours.is_some_and(|o| (o - printed).abs() <= within + 1e-9) {
            self.differ.insert(key.to_owned(), format!("printed {printed}, handbook {ours:?}"));
        }
    }

    /// Prints the count; fails on a disagreement that is not explained, and on an explanation that is not needed.
    pub(crate) fn finish(self, least: usize) {
        let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference/handbook_exceptions.txt");
        let text = fs::read_to_string(path).expect("the list of explained disagreements");
        let explained: BTreeSet<&str> = text
            .lines()
            .filter(|l| !l.starts_with('#') && !l.trim().is_empty())
            .filter_map(|l| {
                let mut parts = l.splitn(3, '|').map(str::trim);
                let (file, key, why) = (parts.next()?, parts.next()?, parts.next().unwrap_or(""));
                assert!(!why.is_empty(), "{l}: an exception says why");
                (file == self.file).then_some(key)
            })
            .collect();
        println!("{}: {} of {} cells agree", self.file, self.asked - self.differ.len(), self.asked);
        let unexplained: Vec<_> = self.differ.iter().filter(|(k, _)| !explained.contains(k.as_str())).collect();
        let unneeded: Vec<_> = explained.iter().filter(|k| !self.differ.contains_key(**k)).collect();
        assert!(unexplained.is_empty(), "{}: not explained: {unexplained:#?}", self.file);
        assert!(unneeded.is_empty(), "{}: explained but in agreement: {unneeded:?}", self.file);
        assert!(self.asked >= least, "{}: only {} cells were asked, {least} expected", self.file, self.asked);
    }
}
