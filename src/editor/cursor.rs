//! What the cursor is on, told from the text around it: a half-written description has no tree yet.
//!
//! Lines are taken by their indentation, `{…}` and `[…]` by their brackets; block texts (`notes: |`) hold no keys.

use std::ops::Range;

use super::flow::{self, Flow};
use super::position::Lines;
use super::which::Which;
use crate::read::keys::{self, Key, KindWord, Scope, Takes};

/// Where the cursor is.
#[derive(Debug, Clone)]
pub struct Cursor {
    /// Where a key here would stand; none in a list of plain values.
    pub scope: Option<Scope>,
    /// The kind of the feature that is being written.
    pub kind: Option<&'static KindWord>,
    /// The keys that the entry has, as they are written.
    pub keys: Vec<String>,
    /// What is under the cursor.
    pub on: On,
}

/// What is under the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum On {
    /// A key, or the place for one: its bytes, and whether its colon is there.
    Key {
        /// Bytes in the text.
        range: Range<usize>,
        /// Whether a colon follows.
        colon: bool,
    },
    /// The value of a key.
    Value {
        /// The key as it is written.
        key: String,
        /// Bytes in the text; without spaces around it.
        range: Range<usize>,
    },
}

/// A mapping around the cursor, and the key it stands under.
#[derive(Debug, Clone, Default)]
pub(super) struct Level {
    pub under: Option<String>,
    pub keys: Vec<String>,
}

impl Cursor {
    /// Looks around byte `at` of `text`.
    pub fn at(which: Which, text: &str, lines: &Lines, at: usize) -> Option<Self> {
        let line = lines.line_of(at);
        let rows = Rows { text, lines };
        if rows.in_block(line) || rows.in_comment(line, at) {
            return None;
        }
        let (mut levels, on) = match rows.flow_start(line, at) {
            Some((row, open)) => {
                let Flow { levels: inner, on } = flow::look(text, open, at)?;
                let mut levels = rows.levels(row.number, row.column);
                let under = row.key.map(str::to_owned);
                // A list in brackets under a key holds plain values of that key.
                let on = match on {
                    On::Value { key, range } if key.is_empty() => {
                        On::Value { key: under.clone().unwrap_or_default(), range }
                    }
                    other => other,
                };
                let mut inner = inner;
                if let (Some(first), Some(_)) = (inner.first_mut(), row.key) {
                    first.under = under;
                } else if let (Some(first), None) = (inner.first_mut(), row.key) {
                    // `- {turn: 1, to: 2}`: the entry is the mapping in brackets.
                    first.under = levels.pop().and_then(|l| l.under);
                }
                levels.extend(inner);
                (levels, on)
            }
            None => rows.block(line, at)?,
        };
        if levels.is_empty() {
            levels.push(Level::default());
        }
        let (scope, kind) = resolve(which, &levels);
        let keys = levels.pop().map(|l| l.keys).unwrap_or_default();
        Some(Self { scope, kind, keys, on })
    }

    /// The key or kind that the cursor's key or value belongs to.
    pub fn word(&self, text: &str) -> Option<Word> {
        let key = match &self.on {
            On::Key { range, .. } => text.get(range.clone())?,
            On::Value { key, .. } => key,
        };
        let scope = self.scope?;
        let plain = (scope != Scope::Kind).then(|| keys::find(scope, key)).flatten();
        if let (Some(kind), None) = (keys::kind(key), plain)
            && (self.kind.is_some() || scope == Scope::Kind)
        {
            return Some(Word::Kind(kind));
        }
        plain.map(|key| Word::Key(scope, key))
    }
}

/// A word of the language.
#[derive(Debug, Clone, Copy)]
pub enum Word {
    /// A kind of feature.
    Kind(&'static KindWord),
    /// A key, and where it stands.
    Key(Scope, &'static Key),
}

/// Where the keys of the innermost mapping belong.
fn resolve(which: Which, levels: &[Level]) -> (Option<Scope>, Option<&'static KindWord>) {
    let mut scope = which.scope();
    let mut kind = None;
    for level in &levels[1..] {
        let Some(key) = level.under.as_deref().and_then(|under| keys::find(scope, under)) else { return (None, None) };
        scope = match key.takes {
            Takes::Keys(inner) | Takes::Entries(inner) => inner,
            _ if key.word == "holding" => Scope::ByEnd,
            _ => return (None, None),
        };
        kind = None;
        if scope == Scope::Kind {
            kind = level.keys.iter().find_map(|k| keys::kind(k));
            scope = kind.map_or(Scope::Kind, |k| k.scope);
        }
    }
    (Some(scope), kind)
}

/// A line taken apart.
#[derive(Debug, Clone)]
struct Row<'t> {
    number: usize,
    /// Columns of its dashes.
    dashes: Vec<usize>,
    /// Column of what follows them.
    column: usize,
    /// Its key, if a colon follows one.
    key: Option<&'t str>,
    /// Bytes of the key, or of the words without a colon.
    words: Range<usize>,
    /// Bytes of the value, without a comment.
    value: Range<usize>,
}

struct Rows<'t> {
    text: &'t str,
    lines: &'t Lines,
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
    fn in_block(&self, line: usize) -> bool {
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

    fn in_comment(&self, line: usize, at: usize) -> bool {
        let Some(range) = self.lines.line(self.text, line) else { return false };
        flow::without_comment(&self.text[range.clone()]).len() < at - range.start
    }

    /// The row whose value opens a bracket that is still open at byte `at`, and the bracket's byte.
    fn flow_start(&self, line: usize, at: usize) -> Option<(Row<'t>, usize)> {
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
    fn levels(&self, line: usize, column: usize) -> Vec<Level> {
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
    fn block(&self, line: usize, at: usize) -> Option<(Vec<Level>, On)> {
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

/// Whether the innermost list is one of plain values; any of the two files may be meant.
fn is_plain_list(levels: &[Level]) -> bool {
    [Which::Part, Which::Shop].into_iter().any(|which| {
        let Some((last, outer)) = levels.split_last().filter(|(_, outer)| !outer.is_empty()) else { return false };
        let (Some(scope), _) = resolve(which, outer) else { return false };
        let key = last.under.as_deref().and_then(|under| keys::find(scope, under));
        key.is_some_and(|k| matches!(k.takes, Takes::List))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The cursor at the `|` of a text.
    fn at(which: Which, text: &str) -> (Option<Scope>, Option<&'static str>, String) {
        let byte = text.find('¦').expect("a mark");
        let text = text.replace('¦', "");
        let cursor = Cursor::at(which, &text, &Lines::of(&text), byte).expect("a cursor");
        let on = match &cursor.on {
            On::Key { range, .. } => format!("key {}", &text[range.clone()]),
            On::Value { key, range } => format!("{key}= {}", &text[range.clone()]),
        };
        (cursor.scope, cursor.kind.map(|k| k.word), on)
    }

    const HEAD: &str = "part: x\nunits: in\nfeatures:\n";

    #[test]
    fn keys_and_values_of_a_block() {
        let case = |tail: &str| at(Which::Part, &format!("{HEAD}{tail}"));
        assert_eq!(case("  - turn: 1\n    t¦o: 3\n"), (Some(Scope::Turn), Some("turn"), "key to".into()));
        assert_eq!(case("  - turn: 1\n    to: 3¦.5 # x\n"), (Some(Scope::Turn), Some("turn"), "to= 3.5".into()));
        assert_eq!(case("  - turn: 20 mm ¦\n"), (Some(Scope::Turn), Some("turn"), "turn= 20 mm ".into()));
        assert_eq!(case("  - turn: 1\n    ¦\n"), (Some(Scope::Turn), Some("turn"), "key ".into()));
        assert_eq!(case("  - tu¦\n"), (Some(Scope::Kind), None, "key tu".into()));
        assert_eq!(case("  - to: 3\n    ¦relief: 1\n"), (Some(Scope::Relief), Some("relief"), "key relief".into()));
        assert_eq!(case("- turn: 1\n  na¦me: x\n- relief: 2\n"), (Some(Scope::Turn), Some("turn"), "key name".into()));
        assert_eq!(case("  - turn: 1\n    carries:\n      bo¦\n"), (Some(Scope::Carries), None, "key bo".into()));
        assert_eq!(case("  - turn: 1\nma¦\n"), (Some(Scope::Header), None, "key ma".into()));
        assert_eq!(at(Which::Part, "units: ¦\n"), (Some(Scope::Header), None, "units= ".into()));
    }

    #[test]
    fn brackets() {
        let case = |tail: &str| at(Which::Part, &format!("{HEAD}{tail}"));
        assert_eq!(
            case("  - turn: 1\n    carries: {part: pulley, bo¦}\n"),
            (Some(Scope::Carries), None, "key bo".into())
        );
        assert_eq!(
            case("  - turn: 1\n    carries: {part: pulley,\n      enters: ¦"),
            (Some(Scope::Carries), None, "enters= ".into())
        );
        assert_eq!(case("  - {turn: 1, t¦o: 2}\n"), (Some(Scope::Turn), Some("turn"), "key to".into()));
        assert_eq!(at(Which::Shop, "shop: x\ncenters: [dead, li¦]\n").2, "centers= li");
        let block = at(Which::Shop, "shop: x\ncenters:\n  - dead\n  - li¦\n");
        assert_eq!(block, (Some(Scope::Shop), None, "centers= li".into()));
        assert_eq!(
            at(Which::Shop, "tools:\n  - {tool: gro¦, width: 1}\n"),
            (Some(Scope::Tool), None, "tool= gro".into())
        );
    }

    #[test]
    fn comments_and_notes_hold_no_keys() {
        for text in ["part: x # ¦no\n", "notes: |\n  to: ¦x\n", "# a: ¦\n"] {
            let byte = text.find('¦').expect("a mark");
            let text = text.replace('¦', "");
            assert!(Cursor::at(Which::Part, &text, &Lines::of(&text), byte).is_none(), "{text}");
        }
    }
}
