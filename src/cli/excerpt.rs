//! The lines of a text that a finding is drawn on: only those around its places, and of an endless line only the piece that matters.

use std::ops::Range;

use crate::finding::Source;

/// Bytes of a line that is drawn as it is; of a longer one a piece is shown.
const LONG: usize = 1_000;
/// Bytes shown before and behind a place in a long line.
const AROUND: usize = 100;

/// A piece of a text.
pub(super) struct Excerpt<'a> {
    /// Its text.
    pub(super) text: &'a str,
    /// The line it begins with, from 1.
    pub(super) line: usize,
    /// Byte of the whole text it begins at.
    start: usize,
    /// Whether it is a piece of a long line; columns must then be told beside it.
    pub(super) cut: bool,
}

impl<'a> Excerpt<'a> {
    /// The lines from the first of the places to the last; around the first place alone where its line is long.
    pub(super) fn around(source: &'a Source, places: &[Range<usize>]) -> Option<Self> {
        let first = places.first()?;
        let (start, end) = places.iter().fold((first.start, first.end), |(a, b), p| (a.min(p.start), b.max(p.end)));
        let line_of = |byte: usize| source.line_column(u32::try_from(byte).unwrap_or(u32::MAX)).0;
        let begins = |byte: usize| source.line_start(line_of(byte));
        let ends = |byte: usize| source.text[byte..].find('\n').map_or(source.text.len(), |n| byte + n);
        let (text_start, text_end) = (begins(start), ends(end));
        if places.iter().any(|p| ends(p.start) - begins(p.start) > LONG) {
            let last = ends(first.start);
            let from = whole(&source.text, first.start.saturating_sub(AROUND).max(begins(first.start)));
            let to = whole(&source.text, first.end.min(first.start + LONG).saturating_add(AROUND).min(last));
            return Some(Self { text: &source.text[from..to], line: line_of(first.start), start: from, cut: true });
        }
        let text_end = (text_end + 1).min(source.text.len());
        Some(Self { text: &source.text[text_start..text_end], line: line_of(start), start: text_start, cut: false })
    }

    /// A range of the whole text as one of this piece, cut to it; none when it lies outside.
    pub(super) fn range(&self, of: &Range<usize>) -> Option<Range<usize>> {
        let end = self.start + self.text.len();
        (of.start >= self.start && of.start <= end).then(|| of.start - self.start..of.end.min(end) - self.start)
    }
}

/// The nearest beginning of a character at or before a byte.
fn whole(text: &str, mut byte: usize) -> usize {
    while !text.is_char_boundary(byte) {
        byte -= 1;
    }
    byte
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_long_line_a_piece_is_taken() {
        let text = format!("a: 1\n{}µ{}\nb: 2\n", "x".repeat(5_000), "y".repeat(5_000));
        let source = Source::new("x", text);
        let at = source.text.find('µ').expect("a sign");
        let piece = Excerpt::around(&source, std::slice::from_ref(&(at..at + 2))).expect("a piece");
        assert!(piece.cut && piece.text.len() <= 2 * AROUND + 2 && piece.line == 2);
        assert_eq!(piece.range(&(at..at + 2)).map(|r| &piece.text[r]), Some("µ"));
        assert!(piece.range(&(0..1)).is_none());
    }

    #[test]
    fn short_lines_are_taken_whole() {
        let source = Source::new("x", "a: 1\nb: 2\nc: 3\n");
        let piece = Excerpt::around(&source, &[5..6, 10..11]).expect("a piece");
        assert_eq!((piece.text, piece.line, piece.cut), ("b: 2\nc: 3\n", 2, false));
    }
}
