//! How wide a text is on paper, in the embedded Noto Sans, so that the lines it takes are known before it is set.

use std::sync::OnceLock;

use ttf_parser::Face;

use super::view::{Rich, Run, Style};

/// Millimetres in a typographic point.
pub const POINT: f64 = 25.4 / 72.0;

/// A digit that stands for an empty place, so that decimal points of a column stand over each other.
pub const FIGURE_SPACE: char = '\u{2007}';

/// A place where a word may be broken.
pub const ZERO_WIDTH_SPACE: char = '\u{200b}';

/// Outputs kern and round a little differently; a line counts as full this much before its end.
const SAFETY: f64 = 0.985;

/// Width of every character of the first planes in thousandths of an em, for one weight.
struct Widths {
    face: Option<Face<'static>>,
    em: f64,
}

fn widths(bold: bool) -> &'static Widths {
    static REGULAR: OnceLock<Widths> = OnceLock::new();
    static BOLD: OnceLock<Widths> = OnceLock::new();
    let (cell, bytes) = if bold { (&BOLD, notosans::BOLD_TTF) } else { (&REGULAR, notosans::REGULAR_TTF) };
    cell.get_or_init(|| {
        let face = Face::parse(bytes, 0).ok();
        let em = face.as_ref().map_or(1.0, |f| f64::from(f.units_per_em()));
        Widths { face, em }
    })
}

/// Whether the embedded font has this character.
pub fn has_glyph(c: char) -> bool {
    widths(false).face.as_ref().is_some_and(|f| f.glyph_index(c).is_some())
}

/// Width in millimetres of `text` at `points`; a character the font lacks counts as one em.
pub fn width(text: &str, points: f64, bold: bool) -> f64 {
    let w = widths(bold);
    let ems: f64 = text
        .chars()
        .map(|c| {
            if c == ZERO_WIDTH_SPACE {
                return 0.0;
            }
            let advance = w.face.as_ref().and_then(|f| f.glyph_hor_advance(f.glyph_index(c)?));
            advance.map_or(1.0, |a| f64::from(a) / w.em)
        })
        .sum();
    ems * points * POINT
}

/// Width in millimetres of runs at `points`.
pub fn rich_width(text: &Rich, points: f64) -> f64 {
    text.0.iter().map(|r| width(&r.text, points, r.style == Style::Strong)).sum()
}

/// How many lines `text` takes in `room` millimetres.
pub fn lines(text: &Rich, points: f64, room: f64) -> usize {
    let room = room * SAFETY;
    let mut count = 0;
    let mut used = 0.0;
    let mut open = false;
    for (word, glued, w) in words(text, points) {
        let gap = if glued || !open { 0.0 } else { width(" ", points, false) };
        if open && used + gap + w > room && !glued {
            count += 1;
            used = w;
        } else {
            used += gap + w;
        }
        open = true;
        // A word longer than the line is broken anywhere.
        while used > room && word > 1 {
            count += 1;
            used -= room;
        }
    }
    count + usize::from(open)
}

/// Words with their character count, whether they hang on the word before without a space, and their width.
fn words(text: &Rich, points: f64) -> Vec<(usize, bool, f64)> {
    let mut out = Vec::new();
    let mut ends_in_space = true;
    for run in &text.0 {
        let bold = run.style == Style::Strong;
        let mut starts_with_space = run.text.starts_with(' ');
        for word in run.text.split(' ').filter(|w| !w.is_empty()) {
            for (i, part) in word.split(ZERO_WIDTH_SPACE).enumerate() {
                let glued = i == 0 && !ends_in_space && !starts_with_space;
                out.push((part.chars().count(), glued, width(part, points, bold)));
            }
            starts_with_space = true;
            ends_in_space = false;
        }
        if run.text.ends_with(' ') {
            ends_in_space = true;
        }
    }
    out
}

/// Breaks `text` into lines of at most `room` millimetres at spaces.
pub fn broken(text: &str, points: f64, bold: bool, room: f64) -> Vec<String> {
    let room = room * SAFETY;
    let mut out: Vec<String> = Vec::new();
    for word in text.split([' ', '\n']).filter(|w| !w.is_empty()) {
        match out.last_mut() {
            Some(line) if width(line, points, bold) + width(&format!(" {word}"), points, bold) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => out.push(word.to_owned()),
        }
    }
    out
}

/// Text in pieces of at most `most` lines, broken at spaces.
pub fn chunks(text: &Rich, points: f64, room: f64, most: usize) -> Vec<Rich> {
    if lines(text, points, room) <= most {
        return vec![text.clone()];
    }
    // Lines end early by up to a word; a fifth less than full keeps each piece within its lines.
    let limit = room * most as f64 * 0.8;
    let mut out = vec![Rich::new()];
    let mut used = 0.0;
    for run in &text.0 {
        for word in run.text.split_inclusive(' ') {
            used += width(word, points, run.style == Style::Strong);
            if used > limit {
                out.push(Rich::new());
                used = width(word, points, run.style == Style::Strong);
            }
            if let Some(last) = out.last_mut() {
                match last.0.last_mut() {
                    Some(open) if open.style == run.style => open.text.push_str(word),
                    _ => last.0.push(Run { text: word.to_owned(), style: run.style }),
                }
            }
        }
    }
    out
}

/// Longest word that is not offered a place to break.
const LONG_WORD: usize = 24;

/// Text as a page can hold it: control characters gone, and places to break (zero-width spaces) in very long words.
pub fn breakable(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut run = 0;
    for c in text.chars() {
        if c.is_control() {
            out.push(' ');
            run = 0;
            continue;
        }
        run = if c == ' ' || c == ZERO_WIDTH_SPACE { 0 } else { run + 1 };
        if run > LONG_WORD {
            out.push(ZERO_WIDTH_SPACE);
            run = 1;
        }
        out.push(c);
    }
    out
}

/// `number` with figure spaces before it, so that it has `whole` places before its point. A minus counts as a place.
pub fn padded(number: &str, whole: usize) -> String {
    let before = number.chars().take_while(|c| *c != '.').count();
    let mut out: String = std::iter::repeat_n(FIGURE_SPACE, whole.saturating_sub(before)).collect();
    out.push_str(number);
    out
}

/// Places before the point that the longest of `numbers` needs.
pub fn whole_places<'a>(numbers: impl IntoIterator<Item = &'a str>) -> usize {
    numbers.into_iter().map(|n| n.chars().take_while(|c| *c != '.').count()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_tabular_and_have_their_published_width() {
        // Noto Sans: advance of every digit is 572 of 1000 units (from the font's own hmtx table, read with fontTools: 1171 of 2048).
        for d in '0'..='9' {
            let w = width(&d.to_string(), 1000.0 / POINT, false);
            assert!((w - 571.777).abs() < 0.01, "{d}: {w}");
        }
    }

    #[test]
    fn points_stand_over_each_other() {
        assert_eq!(padded(".750", 2), "\u{2007}\u{2007}.750");
        assert_eq!(padded("12.750", 2), "12.750");
        assert_eq!(whole_places([".750", "12.5"]), 2);
    }

    #[test]
    fn a_line_breaks_where_the_room_ends() {
        let text = Rich::from("one two three four");
        let all = rich_width(&text, 12.0);
        assert_eq!(lines(&text, 12.0, all * 1.1), 1);
        assert_eq!(lines(&text, 12.0, all * 0.7), 2);
        assert_eq!(lines(&Rich::new(), 12.0, 10.0), 0);
        assert_eq!(broken("one two three four", 12.0, false, all * 0.7).len(), 2);
    }

    #[test]
    fn every_sign_of_the_sheet_has_a_glyph() {
        assert!("Ø±°×µ−–½•□≤≥\u{2007}".chars().all(has_glyph));
        assert!(!has_glyph('漢'));
    }
}
