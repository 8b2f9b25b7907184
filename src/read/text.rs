//! Bytes to text: UTF-8 without a byte order mark, and a clean copy for the YAML readers in which every character that they
//! would see differently is a plain space. The two have the same characters in the same places, but for a line end that the clean
//! one always has.

use crate::finding::{FileId, Place, Source};
use crate::model::slip::{Fault, Slip, Unreadable};

/// The most bytes that are read of one file.
pub const MOST_BYTES: usize = 2 << 20;

/// Characters of a line: more than a whole description of the usual size written on one.
const MOST_IN_LINE: usize = 200_000;

/// Slips of this kind that are told one by one; a file full of control characters is no description.
const MOST_CHARACTER_SLIPS: usize = 20;

/// A file's text.
#[derive(Debug)]
pub(super) struct Decoded {
    /// As the person wrote it.
    pub source: Source,
    /// For the YAML readers; `None` when nothing can be read.
    pub clean: Option<String>,
    /// What was found on the way.
    pub slips: Vec<Slip>,
}

/// Decodes a file.
pub(super) fn decode(name: &str, file: FileId, bytes: &[u8]) -> Decoded {
    let refuse = |text: String, at: usize, why: Unreadable| Decoded {
        slips: vec![slip(file, at, (at + 1).min(text.len()), why)],
        source: Source::new(name, text),
        clean: None,
    };
    if bytes.len() > MOST_BYTES {
        return refuse(String::new(), 0, Unreadable::TooLarge { most: MOST_BYTES });
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let byte = error.valid_up_to();
            return refuse(String::from_utf8_lossy(bytes).into_owned(), byte, Unreadable::NotUtf8 { byte });
        }
    };
    let text = line_feeds(text);
    if text.trim().is_empty() {
        return refuse(text, 0, Unreadable::Empty);
    }
    if let Some(at) = endless_line(&text) {
        return refuse(text, at, Unreadable::TooMany { what: "characters in one line", most: MOST_IN_LINE });
    }
    let mut slips = Vec::new();
    let mut clean = String::with_capacity(text.len());
    for (at, character) in text.char_indices() {
        clean.push(match character {
            '\t' | '\u{A0}' | '\u{2007}' | '\u{202F}' => ' ',
            '\n' | '\r' => character,
            c if c.is_control() || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}' | '\u{FEFF}' | '\u{AD}') => {
                if slips.len() < MOST_CHARACTER_SLIPS {
                    slips.push(slip(file, at, at + c.len_utf8(), Unreadable::Character { character: c }));
                }
                ' '
            }
            c => c,
        });
    }
    if !clean.ends_with('\n') {
        clean.push('\n');
    }
    slips.extend(tab_indent(&text).map(|at| slip(file, at, at + 1, Unreadable::Tab)));
    Decoded { source: Source::new(name, text), clean: Some(clean), slips }
}

fn slip(file: FileId, start: usize, end: usize, why: Unreadable) -> Slip {
    Slip { place: Place::new(file, start, end), fault: Fault::Unreadable(why), entry: None }
}

/// A carriage return that no line feed follows ends a line too; written as a line feed so that all who count lines agree.
fn line_feeds(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut characters = text.chars().peekable();
    while let Some(c) = characters.next() {
        out.push(if c == '\r' && characters.peek() != Some(&'\n') { '\n' } else { c });
    }
    out
}

/// The first tab in the indentation of a line that is not inside a block of text.
fn tab_indent(text: &str) -> Option<usize> {
    let mut block: Option<usize> = None;
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let content = line.trim_start();
        let indent = line.len() - content.len();
        let spaces = line.len() - line.trim_start_matches(' ').len();
        let inside = block.is_some_and(|b| spaces > b);
        if !content.is_empty() && !inside {
            block = opens_block(content).then_some(spaces);
            if let Some(tab) = line[..indent].find('\t')
                && !content.starts_with('#')
            {
                return Some(start + tab);
            }
        }
        start += line.len();
    }
    None
}

/// Where a line begins that is longer than any that is read.
fn endless_line(text: &str) -> Option<usize> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if line.len() > MOST_IN_LINE && line.trim_end().chars().nth(MOST_IN_LINE).is_some() {
            return Some(start);
        }
        start += line.len();
    }
    None
}

/// Whether a block of text (`|` or `>`) follows this line.
fn opens_block(content: &str) -> bool {
    let head = content.split(" #").next().unwrap_or_default().trim_end();
    head.rsplit_once([' ', ':']).is_some_and(|(_, last)| {
        last.starts_with(['|', '>']) && last[1..].chars().all(|c| c.is_ascii_digit() || c == '+' || c == '-')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(bytes: &[u8]) -> Vec<Fault> {
        decode("x", FileId::Part, bytes).slips.into_iter().map(|s| s.fault).collect()
    }

    #[test]
    fn characters_keep_their_places() {
        let d = decode("x", FileId::Part, "\u{FEFF}part:\tµ\u{A0}m\r\nb: 1\rc\u{85}: 2\n".as_bytes());
        assert_eq!(d.source.text, "part:\tµ\u{A0}m\r\nb: 1\nc\u{85}: 2\n");
        assert_eq!(d.clean.as_deref(), Some("part: µ m\r\nb: 1\nc : 2\n"));
        assert_eq!(d.slips.len(), 1);
        assert_eq!(d.source.line_column(d.slips[0].place.start), (3, 2));
    }

    #[test]
    fn what_is_no_text_is_refused() {
        assert_eq!(faults(b""), [Fault::Unreadable(Unreadable::Empty)]);
        assert_eq!(faults(b"a: \xB1.002"), [Fault::Unreadable(Unreadable::NotUtf8 { byte: 3 })]);
        assert!(matches!(
            faults(&vec![b'a'; MOST_BYTES + 1])[..],
            [Fault::Unreadable(Unreadable::TooLarge { most: MOST_BYTES })]
        ));
    }

    #[test]
    fn tabs_indent_nothing_but_notes() {
        assert_eq!(faults(b"a:\n\tb: 1\n"), [Fault::Unreadable(Unreadable::Tab)]);
        assert_eq!(faults(b"notes: |\n  x\n  \tcode\na:\t1\n"), []);
    }
}
