//! Typst source: a fixed program with the view as a JSON text in it.

use std::fmt::Write as _;

use serde_json::Value;

use super::templates::Templates;
use super::view::{Body, View};
use super::{decimal, measure};

/// Where the data goes.
const DATA: &str = "@@DATA@@";
/// Where the logo goes.
const LOGO: &str = "@@LOGO@@";

/// Typst source of the sheet. Names and notes are data in a string, so none of them can become code.
///
/// Characters that the embedded font lacks are shown as □ (a PDF for assistive technology must not contain a missing glyph);
/// ∅ becomes Ø.
pub fn typst(view: &View) -> String {
    typst_with(view, &Templates::default())
}

/// The same with other templates.
pub fn typst_with(view: &View, templates: &Templates) -> String {
    // The view holds strings, numbers and lists only: it always has a JSON form. The logo's bytes stand beside it.
    let mut json = decimal::shown(view);
    let blocks = json["pages"].as_array_mut().into_iter().flatten().filter_map(|p| p["blocks"].as_array_mut());
    for block in blocks.flatten() {
        if let Some(logo) = block.get_mut("logo").filter(|l| l.is_object()) {
            logo["data"] = Value::Null;
        }
    }
    // The logo first: nothing in the data can then be taken for its mark.
    templates.typst().replacen(LOGO, &logo(view), 1).replacen(DATA, &quoted(&json.to_string()), 1)
}

/// The logo's file as Typst bytes.
fn logo(view: &View) -> String {
    let logo = view.pages.iter().flat_map(|p| &p.blocks).find_map(|b| match &b.body {
        Body::Cover { logo, .. } => logo.as_ref(),
        _ => None,
    });
    let Some(logo) = logo else { return "none".to_owned() };
    let mut out = String::with_capacity(logo.bytes.len() * 4 + 16);
    out.push_str("bytes((");
    for byte in &logo.bytes {
        let _ = write!(out, "{byte},");
    }
    out.push_str("))");
    out
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
