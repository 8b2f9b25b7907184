//! Tables as they were published: comma-separated text compiled into the program and read when first asked.
//!
//! A table opens with `# source:` and `# confirmed:` lines; what those lines say travels with every answer.

use std::sync::OnceLock;

use crate::unit::{Length, Unit, read_number};

/// Where a figure was printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Source {
    /// Standard, edition and table; or "common practice, no source"; or the book.
    pub name: &'static str,
    /// Whether a published printing of the figure was seen. A figure from memory is not the standard.
    pub confirmed: bool,
}

impl Source {
    /// A figure seen in a published printing.
    pub const fn printed(name: &'static str) -> Self {
        Self { name, confirmed: true }
    }

    /// A figure no printing was seen of.
    pub const fn from_memory(name: &'static str) -> Self {
        Self { name, confirmed: false }
    }

    /// The line shown under an answer: the name, and `(from memory)` where it was not confirmed.
    pub fn line(self) -> String {
        if self.confirmed { self.name.to_owned() } else { format!("{} (from memory)", self.name) }
    }
}

/// `over` and `to` of each row that has both.
type Ranges = OnceLock<Vec<Option<(Length, Length)>>>;

/// A table read from its text.
#[derive(Debug)]
pub struct Table {
    source: Source,
    head: Vec<&'static str>,
    rows: Vec<Vec<&'static str>>,
    /// Each cell as a length, row by row, for inches and for millimetres, read when first asked.
    lengths: [OnceLock<Vec<Option<Length>>>; 2],
    /// `over` and `to` of each row, for inches and for millimetres, read when first asked.
    ranges: [Ranges; 2],
}

impl Table {
    /// Reads a table. Cells hold no commas; empty cells are what the standard leaves empty.
    pub fn read(text: &'static str) -> Self {
        let (mut name, mut confirmed) = ("", false);
        let (mut head, mut rows) = (Vec::new(), Vec::new());
        for line in text.lines().map(str::trim_end) {
            if let Some(said) = line.strip_prefix("# source:") {
                name = said.trim();
            } else if let Some(said) = line.strip_prefix("# confirmed:") {
                confirmed = said.trim() == "yes";
            } else if line.starts_with('#') || line.is_empty() {
            } else if head.is_empty() {
                head = line.split(',').map(str::trim).collect();
            } else {
                rows.push(line.split(',').map(str::trim).collect());
            }
        }
        Self { source: Source { name, confirmed }, head, rows, lengths: Default::default(), ranges: Default::default() }
    }

    /// What the table's first lines say.
    pub fn source(&self) -> Source {
        self.source
    }

    /// Its rows, in printed order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().enumerate().map(|(at, cells)| Row { table: self, at, cells })
    }

    /// The cells as lengths: a column is looked through for a size again and again.
    fn lengths(&self, unit: Unit) -> &[Option<Length>] {
        let read = |cell: Option<&&str>| cell.and_then(|text| read_number(text, unit).ok()).map(|n| n.value);
        self.lengths[usize::from(unit == Unit::Millimetre)].get_or_init(|| {
            let columns = 0..self.head.len();
            self.rows.iter().flat_map(|cells| columns.clone().map(move |i| read(cells.get(i)))).collect()
        })
    }

    /// The first row for which `over < at <= to` in `unit`, with the columns named `over` and `to`.
    pub fn range(&self, at: Length, unit: Unit) -> Option<Row<'_>> {
        let ranges = self.ranges[usize::from(unit == Unit::Millimetre)]
            .get_or_init(|| self.rows().map(|row| row.length("over", unit).zip(row.length("to", unit))).collect());
        let i = ranges.iter().position(|r| r.is_some_and(|(over, to)| over < at && at <= to))?;
        self.rows().nth(i)
    }

    /// The first row whose `column` holds exactly `text`.
    pub fn find(&self, column: &str, text: &str) -> Option<Row<'_>> {
        self.rows().find(|row| row.text(column) == text)
    }
}

/// One row of a [`Table`].
#[derive(Debug, Clone, Copy)]
pub struct Row<'t> {
    table: &'t Table,
    at: usize,
    cells: &'t [&'static str],
}

impl Row<'_> {
    /// The cell in `column`; empty where the table has no such column or cell.
    pub fn text(&self, column: &str) -> &'static str {
        self.column(column).and_then(|i| self.cells.get(i)).copied().unwrap_or("")
    }

    fn column(&self, name: &str) -> Option<usize> {
        self.table.head.iter().position(|h| *h == name)
    }

    /// The cell as a length in `unit`, exact.
    pub fn length(&self, column: &str, unit: Unit) -> Option<Length> {
        let column = self.column(column)?;
        self.table.lengths(unit).get(self.at * self.table.head.len() + column).copied().flatten()
    }

    /// The cell in thousandths of `unit` (µm, thousandths of an inch), exact.
    pub fn thousandths(&self, column: &str, unit: Unit) -> Option<Length> {
        self.length(column, unit).map(|l| l.times_ratio(1, 1000))
    }

    /// The cell as a plain number.
    pub fn number(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok()
    }

    /// Whether `over < at <= to`; a first range that begins at zero begins just above it.
    pub fn ranges_over(&self, at: Length, unit: Unit) -> bool {
        match (self.length("over", unit), self.length("to", unit)) {
            (Some(over), Some(to)) => over < at && at <= to,
            _ => false,
        }
    }

    /// The source of this row: the table's, unless the row has a `confirmed` cell of its own.
    pub fn source(&self) -> Source {
        match self.text("confirmed") {
            "" => self.table.source,
            said => Source { confirmed: said == "yes", ..self.table.source },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_keeps_its_source_and_its_empty_cells() {
        let table = Table::read("# source: a book\n# confirmed: yes\nover,to,x,y\n0,3,7.5,\n3,6,8,9\n");
        assert_eq!(table.source(), Source::printed("a book"));
        let row = table.range(Length::PER_MM.times(3), Unit::Millimetre).expect("3 belongs to the first range");
        assert_eq!(row.thousandths("x", Unit::Millimetre), Some(Length::from_pm(7_500_000)));
        assert_eq!(row.length("y", Unit::Millimetre), None);
        assert_eq!(row.text("z"), "");
        assert!(table.range(Length::ZERO, Unit::Millimetre).is_none());
    }
}
