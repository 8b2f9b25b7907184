//! Ruled tables with their heights worked out.

use super::layout::{self, BLANK, BODY, TIGHT_LINE, WIDTH};
use super::view::{Block, Body, CellKind, Mm, Rich, TableCell, TableRow};

/// Height of the heads of a table.
pub const TABLE_HEADS: f64 = 8.0;
/// Height of a row with a blank.
const TABLE_BLANK: f64 = BLANK + 1.4;

/// Works the height of a table's row.
pub fn table_row(cells: Vec<TableCell>, widths: &[f64]) -> TableRow {
    let text = |c: &TableCell, width: f64| match c.cell {
        CellKind::Blank => TABLE_BLANK,
        CellKind::Text | CellKind::Figures => {
            c.lines.iter().map(|l| layout::text(l, BODY, TIGHT_LINE, width - 1.5)).sum::<f64>() + 1.6
        }
    };
    let height = cells.iter().zip(widths).map(|(c, w)| text(c, *w)).fold(6.5, f64::max);
    TableRow { height: Mm(height), leads: false, letter: String::new(), wide: Rich::new(), cells }
}

/// A row across a table, that stays with the row behind it.
pub fn table_across(letter: &str, text: Rich) -> TableRow {
    let room = WIDTH - if letter.is_empty() { 1.0 } else { 10.0 };
    let height = Mm((layout::text(&text, BODY, TIGHT_LINE, room) + 2.4).max(9.0));
    TableRow { height, leads: true, letter: letter.to_owned(), wide: text, cells: Vec::new() }
}

/// A ruled table.
pub fn table(heads: Vec<String>, widths: &[f64], rows: Vec<TableRow>) -> Block {
    let height = TABLE_HEADS + rows.iter().map(|r| r.height.0).sum::<f64>() + 2.0;
    Block {
        height: Mm(height),
        small: false,
        body: Body::Table { heads, widths: widths.iter().map(|w| Mm(*w)).collect(), rows },
    }
}
