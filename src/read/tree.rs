//! A file as a tree of texts with places, whatever they mean.

use std::ops::Range;

use crate::finding::Place;

/// A node and the characters it covers.
#[derive(Debug, Clone)]
pub(super) struct Node {
    /// From its first character to behind its last.
    pub place: Place,
    /// What it is.
    pub body: Body,
}

/// What a node is.
#[derive(Debug, Clone)]
pub(super) enum Body {
    /// One value.
    Text(Scalar),
    /// A list.
    List(Vec<Node>),
    /// Keys with values, in their order.
    Keys(Vec<Entry>),
    /// Something a slip has already been told about.
    Broken,
}

/// A value as written.
#[derive(Debug, Clone)]
pub(super) struct Scalar {
    /// Its text.
    pub text: String,
    /// Bytes from the node's start to the text's first, when the text stands in the file just so.
    pub offset: Option<u32>,
}

/// A key with its value.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// Key as written.
    pub key: String,
    /// Where it stands.
    pub key_place: Place,
    /// Its value.
    pub value: Node,
    /// False for a key a slip has already been told about.
    pub usable: bool,
}

/// A piece of text with its place: a value, or a part of one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Written<'t> {
    /// The text.
    pub text: &'t str,
    /// Where it stands.
    pub place: Place,
    /// Whether bytes of the text are bytes of the place.
    pub exact: bool,
}

impl Node {
    /// The value, when it is one.
    pub(super) fn written(&self) -> Option<Written<'_>> {
        let Body::Text(scalar) = &self.body else { return None };
        let whole = Written { text: &scalar.text, place: self.place, exact: scalar.offset.is_some() };
        let written = match scalar.offset {
            Some(n) => {
                Written { place: self.place.inside(n as usize, n as usize + scalar.text.len()), ..whole }.trimmed()
            }
            None => Written { text: scalar.text.trim(), ..whole },
        };
        Some(written.unquoted())
    }
}

impl Written<'_> {
    /// Bytes `range` of the text, without spaces around them.
    pub(super) fn cut(self, range: Range<usize>) -> Self {
        let text = self.text.get(range.clone()).unwrap_or(self.text);
        Self { text, place: self.at(range), exact: self.exact }.trimmed()
    }

    /// Where bytes `range` of the text stand.
    pub(super) fn at(self, range: Range<usize>) -> Place {
        if self.exact { self.place.inside(range.start, range.end) } else { self.place }
    }

    /// Without the quotes a word processor puts around words in place of plain ones.
    fn unquoted(self) -> Self {
        let inner = |open: &[char], close: &[char]| {
            let rest = self.text.strip_prefix(open)?.strip_suffix(close)?;
            (!rest.contains(open) && !rest.contains(close)).then(|| {
                let start = self.text.len() - self.text.trim_start_matches(open).len();
                self.cut(start..start + rest.len())
            })
        };
        inner(&['\u{201c}', '\u{201e}', '\u{201d}'], &['\u{201d}', '\u{201c}'])
            .or_else(|| inner(&['\u{2018}', '\u{201a}', '\u{2019}'], &['\u{2019}', '\u{2018}']))
            .unwrap_or(self)
    }

    /// Without spaces around it.
    fn trimmed(self) -> Self {
        let text = self.text.trim();
        let lead = self.text.len() - self.text.trim_start().len();
        let place = if self.exact { self.place.inside(lead, lead + text.len()) } else { self.place };
        Self { text, place, exact: self.exact }
    }

    /// The two sides of the first `mark`, and nothing if there is none.
    pub(super) fn split_at_mark(self, mark: &str) -> Option<(Self, Self)> {
        let at = self.text.find(mark)?;
        Some((self.cut(0..at), self.cut(at + mark.len()..self.text.len())))
    }

    /// The words, each with its place.
    pub(super) fn split_by(self, is_mark: impl Fn(char) -> bool) -> Vec<Self> {
        let mut parts = Vec::new();
        let mut from = 0;
        for (i, c) in self.text.char_indices().filter(|(_, c)| is_mark(*c)) {
            parts.push(self.cut(from..i));
            from = i + c.len_utf8();
        }
        parts.push(self.cut(from..self.text.len()));
        parts
    }
}
