//! Reading the handbook's tables: semicolons between cells, `#` before lines that tell where a table comes from.

use crate::unit::{Length, Unit, read_number};

/// The rows of a table; lines that begin with `#` and empty lines are left out.
pub(crate) fn rows(table: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    table.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty()).map(|l| l.split(';').map(str::trim).collect())
}

/// One length of a cell; `None` for an empty cell or `-`.
pub(crate) fn length(cell: &str, unit: Unit) -> Option<Length> {
    read_number(cell, unit).ok().map(|n| n.value)
}

/// All lengths of a cell that lists them with spaces between.
pub(crate) fn lengths(cell: &str, unit: Unit) -> Vec<Length> {
    cell.split_whitespace().filter_map(|c| length(c, unit)).collect()
}

/// All whole numbers of a cell; `-` is `None`.
pub(crate) fn numbers(cell: &str) -> Vec<Option<i64>> {
    cell.split_whitespace().map(|c| c.parse().ok()).collect()
}
