//! A plain table of lengths from a spreadsheet: one row a feature, `kind`, `size`, `to` and whatever other keys the rows need.

use super::keys::{self, Scope};

/// A row as a feature.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Row of the table, from 1, the header included.
    pub number: usize,
    /// Kind, by this project's word.
    pub kind: &'static str,
    /// Main size.
    pub size: String,
    /// Other keys with their values, in the order of the columns.
    pub others: Vec<(&'static str, String)>,
    /// Column of each: kind, size, then the others.
    pub columns: Vec<usize>,
}

impl Row {
    /// The value of a key.
    pub(super) fn cell(&self, key: &str) -> Option<&str> {
        self.others.iter().find(|(k, _)| *k == key).map(|(_, v)| v.as_str())
    }
}

/// What is wrong in a table, and in which cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableSlip {
    /// Row, from 1, the header included.
    pub row: usize,
    /// Column, from 1.
    pub column: usize,
    /// What is wrong, and what would do.
    pub why: String,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Column {
    Kind,
    Size,
    /// A key of the features, by the word of its header.
    Key(&'static str),
    /// A column of remarks or numbers, left out.
    LeftOut,
}

/// Reads a table: comma, semicolon or tab between the cells, a header row of known words.
///
/// # Errors
/// Every cell that cannot be taken.
pub fn table(text: &str) -> Result<Vec<Row>, Vec<TableSlip>> {
    let text = text.trim_start_matches('\u{feff}');
    let separator = separator(text);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    let mut slips = Vec::new();
    let mut header: Option<Vec<Column>> = None;
    for (number, record) in reader.records().enumerate() {
        let number = number + 1;
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                slips.push(slip(number, 1, format!("this row cannot be read: {error}")));
                continue;
            }
        };
        if record.iter().all(str::is_empty) {
            continue;
        }
        match &header {
            None => header = Some(header_of(&record, number, &mut slips)),
            Some(columns) => rows.extend(row(&record, number, columns, separator, &mut slips)),
        }
    }
    if header.is_none() {
        slips.push(slip(1, 1, "the table is empty: its first row names the columns, `kind, size, to`".to_owned()));
    } else if rows.is_empty() && slips.is_empty() {
        slips.push(slip(2, 1, "the table has no rows below its header".to_owned()));
    }
    if slips.is_empty() { Ok(rows) } else { Err(slips) }
}

fn slip(row: usize, column: usize, why: String) -> TableSlip {
    TableSlip { row, column, why }
}

/// The separator that the header row has most of.
fn separator(text: &str) -> u8 {
    let first = text.lines().find(|l| !l.trim().is_empty()).unwrap_or_default();
    let count = |c: char| first.matches(c).count();
    [(b'\t', count('\t')), (b';', count(';')), (b',', count(','))]
        .into_iter()
        .rev()
        .max_by_key(|(_, n)| *n)
        .map_or(b',', |(c, _)| c)
}

fn header_of(record: &csv::StringRecord, number: usize, slips: &mut Vec<TableSlip>) -> Vec<Column> {
    let mut columns = Vec::new();
    for (i, cell) in record.iter().enumerate() {
        let found = column(cell);
        if let Some(column) = found
            && column != Column::LeftOut
            && columns.contains(&column)
        {
            slips.push(slip(number, i + 1, format!("`{cell}` names a column that is there already")));
        }
        columns.push(found.unwrap_or_else(|| {
            let meant =
                keys::nearest(Scope::Turn, cell).map_or(String::new(), |w| format!("; write `{w}`, if that is meant"));
            let known =
                "; known are kind, size, to, from, long, at, end, wide, name, finish and the other keys of a feature";
            slips.push(slip(
                number,
                i + 1,
                format!("the column `{cell}` is not known{}", if meant.is_empty() { known } else { &meant }),
            ));
            Column::LeftOut
        }));
    }
    for (wanted, word) in [(Column::Kind, "kind"), (Column::Size, "size")] {
        if !columns.contains(&wanted) {
            slips.push(slip(
                number,
                1,
                format!("no column is called `{word}`: the first row names the columns, `kind, size, to`"),
            ));
        }
    }
    columns
}

fn column(cell: &str) -> Option<Column> {
    match keys::fold(cell).as_str() {
        "kind" | "feature" | "type" | "what" => return Some(Column::Kind),
        "size" | "diameter" | "dia" | "dia." | "ø" | "⌀" | "designation" | "main size" => return Some(Column::Size),
        "" | "no" | "no." | "number" | "item" | "remarks" | "remark" | "note" | "notes" | "comment" => {
            return Some(Column::LeftOut);
        }
        _ => {}
    }
    keys::KINDS.iter().find_map(|k| keys::find(k.scope, cell)).map(|key| Column::Key(key.word))
}

fn row(
    record: &csv::StringRecord,
    number: usize,
    columns: &[Column],
    separator: u8,
    slips: &mut Vec<TableSlip>,
) -> Option<Row> {
    let before = slips.len();
    let mut kind: Option<(usize, &'static keys::KindWord)> = None;
    let mut size: Option<(usize, String)> = None;
    let mut others = Vec::new();
    let mut places = Vec::new();
    for (i, cell) in record.iter().enumerate().filter(|(_, c)| !c.is_empty()) {
        match columns.get(i) {
            None => slips.push(slip(number, i + 1, format!("`{cell}` stands behind the last column of the header"))),
            Some(Column::LeftOut) => {}
            Some(Column::Kind) => match keys::kind(cell) {
                Some(found) => kind = Some((i + 1, found)),
                None => slips.push(slip(number, i + 1, unknown_kind(cell))),
            },
            Some(Column::Size) => size = Some((i + 1, point(cell, separator))),
            Some(Column::Key(key)) => {
                others.push((*key, point(cell, separator)));
                places.push(i + 1);
            }
        }
    }
    let at = |wanted| columns.iter().position(|c| *c == wanted).map_or(1, |i| i + 1);
    if kind.is_none() && slips.len() == before {
        slips.push(slip(number, at(Column::Kind), "no kind is written: `turn`, `thread`, `relief` …".to_owned()));
    }
    if size.is_none() && slips.len() == before {
        slips.push(slip(number, at(Column::Size), "no size is written".to_owned()));
    }
    let ((kind_at, kind), (size_at, size)) = (kind?, size?);
    for ((key, value), column) in others.iter().zip(&places) {
        if keys::find(kind.scope, key).is_none() {
            slips.push(slip(number, *column, format!("`{value}`: {} has no `{key}`", kind.scope.called())));
        }
    }
    let columns = [kind_at, size_at].into_iter().chain(places).collect();
    (slips.len() == before).then_some(Row { number, kind: kind.word, size, others, columns })
}

fn unknown_kind(cell: &str) -> String {
    if let Some(found) = keys::meaning(cell, keys::Spot::Key) {
        return match found.readings {
            [one, other] => format!("`{cell}` has two readings: it may be {one}; or {other}"),
            more => format!("`{cell}` is not a kind of feature: it is {}", more.join("; ")),
        };
    }
    match keys::nearest_kind(cell) {
        Some(meant) => format!("`{cell}` is no kind of feature; write `{meant}`, if that is meant"),
        None => format!(
            "`{cell}` is no kind of feature; known are turn, thread, relief, taper, groove, chamfer, fillet, keyseat …"
        ),
    }
}

/// Where a comma does not part the cells, a comma between digits is a decimal point.
fn point(cell: &str, separator: u8) -> String {
    if separator == b',' {
        return cell.to_owned();
    }
    let characters: Vec<char> = cell.chars().collect();
    let digit = |i: Option<usize>| i.and_then(|i| characters.get(i)).is_some_and(char::is_ascii_digit);
    let plain = |(i, c): (usize, &char)| {
        let decimal = *c == ',' && digit(i.checked_sub(1)) && digit(Some(i + 1));
        if decimal { '.' } else { *c }
    };
    characters.iter().enumerate().map(plain).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_of_three_separators() {
        for text in
            ["Kind,Size,To\nturn,0.75,1.5\n", "kind;dia;to\njournal;0,75;1,5\n", "feature\tØ\tuntil\nturn\t0.75\t1.5\n"]
        {
            let rows = table(text).expect(text);
            assert_eq!(
                (rows[0].kind, rows[0].size.as_str(), rows[0].cell("to")),
                ("turn", "0.75", Some("1.5")),
                "{text}"
            );
        }
    }

    #[test]
    fn slips_name_row_and_column() {
        let slips = table("kind,size,too\ntrun,0.75,1\nturn,,2\nneck,1,2\nturn,1,2,3\n").expect_err("slips");
        let at: Vec<(usize, usize)> = slips.iter().map(|s| (s.row, s.column)).collect();
        assert_eq!(at, [(1, 3), (2, 1), (3, 2), (4, 1), (5, 4)], "{slips:?}");
        assert!(slips[1].why.contains("`turn`"), "{slips:?}");
        assert!(slips[3].why.contains("two readings"), "{slips:?}");
    }
}
