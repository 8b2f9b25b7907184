//! The lines of a description by their indentation: dashes, keys, values, and the mappings a line lies in.

use std::ops::Range;

use super::cursor::{Level, On, is_plain_list};
use super::flow;
use super::position::Lines;

/// A line taken apart.
#[derive(Debug, Clone)]
pub(super) struct Row<'t> {
    pub number: usize,
    /// Columns of its dashes.
    dashes: Vec<usize>,
    /// Column of what follows them.
    pub column: usize,
    /// Its key, if a colon follows one.
    pub key: Option<&'t str>,
    /// Bytes of the key, or of the words without a colon.
    words: Range<usize>,
    /// Bytes of the value, without a comment.
    value: Range<usize>,
}

/// The lines of a text.
pub(super) struct Rows<'t> {
    pub text: &'t str,
    pub lines: &'t Lines,
}

impl<'t> Rows<'t> {
    /// Takes a line apart; none when nothing or a comment stands there.
    fn row(&self, number: usize) -> Option<Row<'t>> {
        let range = self.lines.line(self.text, number)?;
        let line = &self.text[range.clone()];
        let mut at = line.len() - line.trim_start_matches([' ', '\t']).len();
        let mut dashes = Vec::new();
        while line[at..].starts_with("- ") || &line[at..] == "-" {
            dashes.push(at);
            at += 1;
            at += line[at..].len() - line[at..].trim_start_matches(' ').len();
        }
        let body = &line[at..];
        if body.starts_with('#') || (body.is_empty() && dashes.is_empty()) {
            return None;
        }
        let end = at + flow::without_comment(body).trim_end().len();
        let colon = flow::colon(&line[at..end]).map(|c| at + c);
        let (words, value) = match colon {
            Some(colon) => {
                let from = colon + 1;
                let lead = line[from..end.max(from)].len() - line[from..end.max(from)].trim_start().len();
                (at..colon, (from + lead).min(end.max(from))..end.max(from))
            }
            None => (at..end, end..end),
        };
        let key = colon.map(|colon| line[at..colon].trim().trim_matches(['"', '\'']));
        let shift = |r: Range<usize>| range.start + r.start..range.start + r.end;
        Some(Row { number, dashes, column: at, key, words: shift(words), value: shift(value) })
    }

    /// Whether a line lies in a block of text.
    pub(super) fn in_block(&self, line: usize) -> bool {
        let Some(range) = self.lines.line(self.text, line) else { return false };
        let own = &self.text[range];
        let indent = own.len() - own.trim_start().len();
        let blank = own.trim().is_empty();
        for above in (0..line).rev() {
            let Some(row) = self.row(above) else { continue };
            let column = row.dashes.first().copied().unwrap_or(row.column);
            let opens = matches!(self.text[row.value.clone()].trim_end_matches(['+', '-']), "|" | ">");
            if opens && (blank && above + 1 == line || indent > column) {
                return true;
            }
            if column == 0 || (!blank && column < indent) {
                return false;
            }
        }
        false
    }

    pub(super) fn in_comment(&self, line: usize, at: usize) -> bool {
        let Some(range) = self.lines.line(self.text, line) else { return false };
        flow::without_comment(&self.text[range.clone()]).len() < at - range.start
    }

    /// The row whose value opens a bracket that is still open at byte `at`, and the bracket's byte.
    pub(super) fn flow_start(&self, line: usize, at: usize) -> Option<(Row<'t>, usize)> {
        for number in (line.saturating_sub(50)..=line).rev() {
            let Some(row) = self.row(number) else { continue };
            let from = if row.key.is_some() { row.value.start } else { row.words.start };
            if self.text[from..].starts_with(['{', '[']) && from < at {
                return flow::is_open(self.text, from, at).then_some((row, from));
            }
            if row.key.is_some() && number != line && row.column == 0 {
                return None;
            }
        }
        None
    }

    /// The mappings around a key at `column` of a line, outermost first, the innermost with all its keys.
    pub(super) fn levels(&self, line: usize, column: usize) -> Vec<Level> {
        let mut levels = Vec::new();
        let mut column = column;
        let mut from = line;
        loop {
            let mut level = Level::default();
            let first = self.siblings(from, column, &mut level);
            level.keys.reverse();
            if levels.is_empty() {
                self.siblings_below(line, column, &mut level);
            }
            let Some((row, limit)) = first else {
                levels.push(level);
                break;
            };
            // The line above whose list or mapping this is.
            let parent = (0..row).rev().filter_map(|n| self.row(n)).find(|r| {
                let edge = r.dashes.last().copied().unwrap_or(r.column);
                r.key.is_some()
                    && (r.column < limit
                        || (limit < column && r.column == limit && edge == limit && r.dashes.is_empty()))
            });
            let Some(parent) = parent else {
                levels.push(level);
                break;
            };
            level.under = parent.key.map(str::to_owned);
            levels.push(level);
            (from, column) = (parent.number, parent.column);
        }
        levels.reverse();
        levels
    }

    /// Collects the keys at `column` from a line upward; the line where the mapping begins, and the column it hangs on: its dash,
    /// or the column itself. None for the outermost mapping.
    fn siblings(&self, from: usize, column: usize, level: &mut Level) -> Option<(usize, usize)> {
        let mut first = from;
        for number in (0..=from).rev() {
            let Some(row) = self.row(number) else { continue };
            let edge = row.dashes.first().copied().unwrap_or(row.column);
            if row.column == column {
                first = number;
                level.keys.extend(row.key.map(str::to_owned));
                if let Some(dash) = row.dashes.last() {
                    return Some((number, *dash));
                }
            } else if edge < column && number != from {
                return (column > 0).then_some((first, column));
            }
        }
        (column > 0).then_some((first, column))
    }

    /// Collects the keys of the same mapping below a line.
    fn siblings_below(&self, line: usize, column: usize, level: &mut Level) {
        for number in line + 1..self.lines.count() {
            let Some(row) = self.row(number) else { continue };
            if row.dashes.first().copied().unwrap_or(row.column) < column {
                break;
            }
            if row.column == column && row.dashes.is_empty() {
                level.keys.extend(row.key.map(str::to_owned));
            }
        }
    }

    /// The cursor in a line without brackets around it.
    pub(super) fn block(&self, line: usize, at: usize) -> Option<(Vec<Level>, On)> {
        let start = self.lines.line(self.text, line)?.start;
        let Some(row) = self.row(line) else {
            // An empty line: a key would stand at the cursor.
            let levels = self.levels(line, at - start);
            return Some((levels, On::Key { range: at..at, colon: false }));
        };
        let mut levels = self.levels(line, row.column);
        match row.key {
            Some(key) if at > row.words.end => {
                // Behind the value and a space it is the same value still, which goes on.
                let goes_on = !row.value.is_empty() && self.text[row.value.end.min(at)..at].trim().is_empty();
                let range = match at {
                    at if at < row.value.start => at..at,
                    at if at <= row.value.end => row.value.clone(),
                    at if goes_on => row.value.start..at,
                    at => at..at,
                };
                Some((levels, On::Value { key: key.to_owned(), range }))
            }
            Some(_) => Some((levels, On::Key { range: row.words, colon: true })),
            None => {
                let range = if at < row.words.start { at..at } else { row.words.clone() };
                if !row.dashes.is_empty() && is_plain_list(&levels) {
                    let key = levels.pop().and_then(|l| l.under).unwrap_or_default();
                    return Some((levels, On::Value { key, range }));
                }
                Some((levels, On::Key { range, colon: false }))
            }
        }
    }
}
