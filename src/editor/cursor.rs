//! What the cursor is on, told from the text around it: a half-written description has no tree yet.
//!
//! Lines are taken by their indentation, `{…}` and `[…]` by their brackets; block texts (`notes: |`) hold no keys.

use std::ops::Range;

use super::flow::{self, Flow};
use super::position::Lines;
use super::rows::Rows;
use crate::read::Which;
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
        let plain = keys::kinds_of(scope).is_empty().then(|| keys::find(scope, key)).flatten();
        let named = keys::kind_in(scope, key).or_else(|| self.kind.and_then(|k| k.names(key).then_some(k)));
        if let (Some(kind), None) = (named.or_else(|| self.kind.and_then(|_| keys::kind(key))), plain) {
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
        if !keys::kinds_of(scope).is_empty() {
            kind = level.keys.iter().find_map(|k| keys::kind_in(scope, k));
            scope = kind.map_or(scope, |k| k.scope);
        }
    }
    (Some(scope), kind)
}

/// Whether the innermost list is one of plain values; any of the two files may be meant.
pub(super) fn is_plain_list(levels: &[Level]) -> bool {
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
