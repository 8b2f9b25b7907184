//! The text of a file, and where its lines begin.

/// A file's name and text.
#[derive(Debug, Clone)]
pub struct Source {
    /// As the user named it; `-` is standard input.
    pub name: String,
    /// Text as it was decoded: UTF-8 without a byte order mark.
    pub text: String,
    line_starts: Vec<usize>,
}

impl Source {
    /// Takes the text and finds its lines.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let text = text.into();
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(i, _)| i + 1)).collect();
        Self { name: name.into(), text, line_starts }
    }

    /// Line and column of a byte, both from 1, the column in characters.
    pub fn line_column(&self, byte: u32) -> (usize, usize) {
        let mut byte = (byte as usize).min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        let line = self.line_starts.partition_point(|s| *s <= byte).max(1);
        let start = self.line_starts[line - 1];
        (line, self.text[start..byte].chars().count() + 1)
    }

    /// Byte at which a line (from 1) begins, clipped to the text.
    pub fn line_start(&self, line: usize) -> usize {
        self.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(self.text.len())
    }
}
