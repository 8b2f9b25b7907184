//! Texts from the description, and how they are put on a page.

use crate::language::{Language, Message};
use crate::sheet::measure;
use crate::sheet::view::{Line, Mm, Piece, PieceKind, Rich};

/// Longest a text from the description may be on the sheet, in characters.
const LONGEST: usize = 2000;

/// A text from the description or a finding, as a page can hold it; words in backticks come in quotation marks.
pub fn from_file(text: &str) -> String {
    let cut: String = text.chars().take(LONGEST).collect();
    let mut quoted = String::with_capacity(cut.len());
    for (i, part) in cut.split('`').enumerate() {
        if i > 0 {
            quoted.push(if i % 2 == 1 { '“' } else { '”' });
        }
        quoted.push_str(part);
    }
    measure::breakable(&quoted.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// Where something comes from. Titles of books stay as they are printed; what is no book is told in the language spoken.
pub fn source(text: &str) -> String {
    const NO_BOOK: [Message; 5] = [
        Message { english: "common practice, no source", german: "Werkstattbrauch, ohne Quelle" },
        Message { english: "common practice, from memory", german: "Werkstattbrauch, aus dem Gedächtnis" },
        Message { english: "common practice", german: "Werkstattbrauch" },
        Message { english: "lathe maker's support note", german: "Rat eines Drehmaschinenherstellers" },
        Message { english: "a lathe maker's safety rule", german: "Sicherheitsregel eines Drehmaschinenherstellers" },
    ];
    let text = from_file(text);
    match crate::language::now() {
        Language::English => text,
        Language::German => NO_BOOK.iter().fold(text, |t, m| t.replace(m.english, m.german)),
    }
}

/// A name from the description: as [`from_file`], and short enough for a head.
pub fn name(text: &str) -> String {
    /// Three lines of the cover's title.
    const MOST: usize = 80;
    let text = from_file(text);
    if text.chars().count() <= MOST {
        return text;
    }
    let cut: String = text.chars().take(MOST).collect();
    format!("{}…", cut.trim_end())
}

/// The first letter a capital.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// With a full stop.
pub fn sentence_end(text: &str) -> String {
    let text = capital(text.trim());
    if text.ends_with(['.', '!', '?', ':']) || text.is_empty() { text } else { format!("{text}.") }
}

/// Cut with an ellipsis where it is wider than `room` millimetres at 12 pt.
pub fn cut_to(text: &str, room: f64) -> String {
    if measure::width(text, 12.0, false) <= room {
        return text.to_owned();
    }
    let mut cut = String::new();
    for c in text.chars() {
        if measure::width(&format!("{cut}{c}…"), 12.0, false) > room {
            break;
        }
        cut.push(c);
    }
    format!("{}…", cut.trim_end())
}

/// Lines of a block whose text is broken into several.
pub fn wrapped(label: &str, label_width: f64, text: &str, room: f64) -> Vec<Line> {
    lines_of(label, label_width, text, room, PieceKind::Plain)
}

/// The same with a text that counts.
pub fn wrapped_strong(label: &str, label_width: f64, text: &str, room: f64) -> Vec<Line> {
    lines_of(label, label_width, text, room, PieceKind::Strong)
}

fn lines_of(label: &str, label_width: f64, text: &str, room: f64, kind: PieceKind) -> Vec<Line> {
    let (size, bold) = if kind == PieceKind::Strong { (14.0, true) } else { (12.0, false) };
    let pieces = measure::broken(text, size, bold, room);
    let label = |i: usize| if i == 0 { Rich::from(label) } else { Rich::new() };
    let line = |(i, t): (usize, String)| {
        crate::sheet::blocks::line(label(i), label_width, vec![Piece { kind, text: t, width: Mm(0.0) }])
    };
    let mut out: Vec<Line> = pieces.into_iter().enumerate().map(line).collect();
    for line in &mut out {
        line.height = Mm(if kind == PieceKind::Strong { 6.4 } else { 5.6 });
    }
    if let Some(last) = out.last_mut() {
        last.height.0 += 1.0;
    }
    out
}

/// Short remarks as sentences.
pub fn remarks(remarks: &[String]) -> String {
    remarks.iter().map(|r| sentence_end(&from_file(r))).collect::<Vec<_>>().join(" ")
}
