//! Places as editors count them: line and UTF-16 code unit, both from 0 (Language Server Protocol 3.17, "Position").

use std::ops::Range;

/// A place between two characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Position {
    /// Line, from 0.
    pub line: u32,
    /// UTF-16 code units before it on its line.
    pub unit: u32,
}

/// Where the lines of a text begin.
#[derive(Debug, Clone)]
pub struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    /// Finds the lines of `text`; `\n`, `\r\n` and a lone `\r` end one.
    pub fn of(text: &str) -> Self {
        let bytes = text.as_bytes();
        let ends = |i: &usize| bytes[*i] == b'\n' || (bytes[*i] == b'\r' && bytes.get(i + 1) != Some(&b'\n'));
        Self { starts: std::iter::once(0).chain((0..bytes.len()).filter(ends).map(|i| i + 1)).collect() }
    }

    /// The place of a byte; inside a character it is the character's start.
    pub fn position(&self, text: &str, byte: usize) -> Position {
        let mut byte = byte.min(text.len());
        while !text.is_char_boundary(byte) {
            byte -= 1;
        }
        let line = self.starts.partition_point(|s| *s <= byte).max(1) - 1;
        let unit: usize = text[self.starts[line]..byte].chars().map(char::len_utf16).sum();
        Position { line: clip(line), unit: clip(unit) }
    }

    /// The byte of a place. Beyond the end of a line it is the line's end, beyond the last line the text's end; inside a
    /// surrogate pair it is the character's start.
    pub fn byte(&self, text: &str, at: Position) -> usize {
        let Some(line) = self.line(text, at.line as usize) else { return text.len() };
        let mut units = 0;
        for (i, c) in text[line.clone()].char_indices() {
            units += c.len_utf16();
            if units > at.unit as usize {
                return line.start + i;
            }
        }
        line.end
    }

    /// The bytes of a line without its end.
    pub fn line(&self, text: &str, line: usize) -> Option<Range<usize>> {
        let start = *self.starts.get(line)?;
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        Some(start..start + text[start..end].trim_end_matches(['\n', '\r']).len())
    }

    /// The line a byte stands on, from 0.
    pub fn line_of(&self, byte: usize) -> usize {
        self.starts.partition_point(|s| *s <= byte).max(1) - 1
    }

    /// How many lines there are.
    pub fn count(&self) -> usize {
        self.starts.len()
    }
}

fn clip(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_signs_of_the_trade_count_as_editors_count_them() {
        // ± Ø µ are one unit each though two bytes in UTF-8; 𝛼 is two units and four bytes (Unicode 15, UTF-16).
        let text = "a: ±0.1 Ø µ\r\n𝛼b\rc\n";
        let lines = Lines::of(text);
        assert_eq!(lines.count(), 4);
        let after_micro = text.find('µ').expect("µ") + 'µ'.len_utf8();
        assert_eq!(lines.position(text, after_micro), Position { line: 0, unit: 11 });
        assert_eq!(lines.byte(text, Position { line: 0, unit: 11 }), after_micro);
        let b = text.find('b').expect("b");
        assert_eq!(lines.position(text, b), Position { line: 1, unit: 2 });
        assert_eq!(lines.byte(text, Position { line: 1, unit: 1 }), b - 4);
        assert_eq!(lines.byte(text, Position { line: 2, unit: 99 }), text.find('c').expect("c") + 1);
        assert_eq!(lines.byte(text, Position { line: 99, unit: 0 }), text.len());
    }

    #[test]
    fn there_and_back() {
        let text = "x: 1\n\nµ±𝛼\r\nend";
        let lines = Lines::of(text);
        for (byte, c) in text.char_indices() {
            if c != '\n' && c != '\r' {
                assert_eq!(lines.byte(text, lines.position(text, byte)), byte);
            }
        }
    }
}
