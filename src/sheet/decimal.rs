//! The decimal sign. Every text of a view has a point before its decimals; where the description asks for a comma, it is set at the
//! very end, in what is shown and nowhere else: names, drawing numbers and the numbers that a screen reckons with keep what they have.

use serde_json::Value;

use super::view::View;

/// Texts that are not sentences or numbers of the sheet's own.
const AS_THEY_ARE: [&str; 9] = ["kind", "id", "hash", "data", "company", "name", "part", "drawing", "paper"];

/// The view as the templates get it.
pub fn shown(view: &View) -> Value {
    // The view holds strings, numbers and lists only: it always has a JSON form.
    let mut json = serde_json::to_value(view).unwrap_or_default();
    if view.decimal == "," {
        for page in json["pages"].as_array_mut().into_iter().flatten() {
            commas(page);
        }
    }
    json
}

fn commas(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            for (key, field) in fields {
                match field {
                    Value::String(svg) if key == "svg" => *svg = in_text_of(svg),
                    // What a screen reckons with; the pieces of the line say it too.
                    Value::String(_) if key == "value" || AS_THEY_ARE.contains(&key.as_str()) => {}
                    field if !AS_THEY_ARE.contains(&key.as_str()) => commas(field),
                    _ => {}
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(commas),
        Value::String(text) => *text = comma(text),
        _ => {}
    }
}

/// A picture's words; its coordinates keep their points.
fn in_text_of(svg: &str) -> String {
    let mut out = String::with_capacity(svg.len());
    let mut rest = svg;
    while let Some(at) = rest.find("<text") {
        let (before, element) = rest.split_at(at);
        let open = element.find('>').map_or(element.len(), |i| i + 1);
        let end = element.find("</text>").unwrap_or(element.len()).max(open);
        out.push_str(before);
        out.push_str(&element[..open]);
        out.push_str(&comma(&element[open..end]));
        rest = &element[end..];
    }
    out.push_str(rest);
    out
}

/// The text with a comma for the point of each number. Part of a longer name, as in `LS-104.2` or `1.2.3`, is no number; the letter
/// of a size, as in `M3.5` or `R0.8`, belongs to it.
pub fn comma(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let mut out = String::with_capacity(text.len());
    for (i, c) in chars.iter().enumerate() {
        let number = *c == '.' && digit(i + 1) && {
            let start = (0..i).rev().take_while(|j| digit(*j)).last().unwrap_or(i);
            let end = (i + 1..chars.len()).take_while(|j| digit(*j)).last().map_or(i, |j| j + 1);
            let before = start.checked_sub(1).map(|j| chars[j]);
            let sized = start.checked_sub(2).is_none_or(|j| !chars[j].is_alphanumeric() && chars[j] != '-');
            let begins = match before {
                None => true,
                // `M18x1.5`.
                Some('x') => start.checked_sub(2).is_some_and(digit),
                Some(c) if c.is_alphabetic() => c == 'Ø' || c.is_uppercase() && sized,
                Some(c) => !matches!(c, '.' | '-' | '_'),
            };
            let ends = !(chars.get(end) == Some(&'.') && digit(end + 1));
            begins && ends
        };
        out.push(if number { ',' } else { *c });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{comma, in_text_of};

    #[test]
    fn numbers_get_a_comma_and_names_keep_their_points() {
        for (given, shown) in [
            ("31.75", "31,75"),
            ("\u{2007}\u{2007}.750", "\u{2007}\u{2007},750"),
            ("0 on A at 24.000.", "0 on A at 24,000."),
            ("M10×1.5-6g, M3.5, M18x1.5", "M10×1,5-6g, M3,5, M18x1,5"),
            ("Ø 12.000 +0.000/−0.018", "Ø 12,000 +0,000/−0,018"),
            ("(12.003 measured gives −0.003)", "(12,003 measured gives −0,003)"),
            ("drawing LS-104.2, version 1.2.3", "drawing LS-104.2, version 1.2.3"),
            ("one. 2 more ...", "one. 2 more ..."),
        ] {
            assert_eq!(comma(given), shown);
        }
        let svg = r#"<g><path d="M1.5 2.5"/><text x="1.5">12.5</text><text y=".5">R0.8</text></g>"#;
        assert_eq!(in_text_of(svg), r#"<g><path d="M1.5 2.5"/><text x="1.5">12,5</text><text y=".5">R0,8</text></g>"#);
    }
}
