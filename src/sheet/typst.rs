//! Typst source: a fixed program with the view as a JSON text in it.

use super::measure;
use super::view::View;

const PROGRAM: &str = include_str!("../../templates/sheet.typ");
/// Where the data goes.
const DATA: &str = "@@DATA@@";

/// Typst source of the sheet. Names and notes are data in a string, so none of them can become code.
///
/// Characters that the embedded font lacks are shown as □ (a PDF for assistive technology must not contain a missing glyph);
/// ∅ becomes Ø.
pub fn typst(view: &View) -> String {
    // The view holds strings, numbers and lists only: it always has a JSON form.
    let json = serde_json::to_string(view).unwrap_or_default();
    PROGRAM.replacen(DATA, &quoted(&json), 1)
}

/// JSON as the inside of a Typst string: there a backslash and a quote have a meaning, nothing else has.
fn quoted(json: &str) -> String {
    let mut out = String::with_capacity(json.len() + json.len() / 8);
    for c in json.chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            '"' => out.push_str("\\\""),
            '\u{2205}' => out.push('Ø'),
            c if c.is_ascii() || c == measure::ZERO_WIDTH_SPACE || measure::has_glyph(c) => out.push(c),
            _ => out.push('□'),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn nothing_ends_the_string() {
        assert_eq!(quoted(r#"{"a":"x\"); #panic("}"#), r#"{\"a\":\"x\\\"); #panic(\"}"#);
        assert_eq!(quoted("漢 ∅ µ"), "□ Ø µ");
    }
}
