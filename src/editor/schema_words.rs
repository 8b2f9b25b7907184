//! Patterns for words as reading compares them: any case, space, hyphen or underscore, `center` and `gauge` however spelt.

use serde_json::{Value, json};

/// A pattern for a word and its other spellings (ECMA-262, as JSON Schema asks).
pub(super) fn spelt(word: &str, also: &[&str]) -> String {
    let all: Vec<String> = std::iter::once(&word).chain(also).map(|w| pattern(w)).collect();
    format!("^(?:{})$", all.join("|"))
}

/// Words for completion, and any spelling of them for validation.
pub(super) fn any_of_words(words: &[&str], key: &str) -> Vec<Value> {
    let mut any = vec![json!({"enum": words})];
    let others: &[&str] = match key {
        "units" => {
            &["inch", "inches", "millimetre", "millimetres", "millimeter", "millimeters", "metric", "in.", "mm."]
        }
        // More kinds of tool, instrument and holding have other names than a list would be read for.
        "tool" | "instrument" | "rest" | "rests" | "centers" | "holding" => {
            any.push(json!({"type": "string"}));
            return any;
        }
        _ => &[],
    };
    let all: Vec<String> = words.iter().chain(others).map(|w| pattern(w)).collect();
    any.push(json!({"type": "string", "pattern": format!("^(?:{})$", all.join("|"))}));
    any
}

fn pattern(word: &str) -> String {
    let parts: Vec<String> = word.split([' ', '-', '_']).map(part).collect();
    parts.join("[ _-]+")
}

fn part(word: &str) -> String {
    let mut out = String::new();
    let mut rest = word;
    while let Some(c) = rest.chars().next() {
        if let Some(after) = rest.strip_prefix("center") {
            out.push_str("[Cc][Ee][Nn][Tt](?:[Ee][Rr]|[Rr][Ee])");
            rest = after;
        } else if let Some(after) = rest.strip_prefix("gauge") {
            out.push_str("[Gg][Aa][Uu]?[Gg][Ee]");
            rest = after;
        } else {
            let upper: String = c.to_uppercase().collect();
            if c.is_alphabetic() && !upper.starts_with(c) {
                out.push('[');
                out.push_str(&upper);
                out.push(c);
                out.push(']');
            } else if c.is_alphanumeric() {
                out.push(c);
            } else {
                out.push('\\');
                out.push(c);
            }
            rest = &rest[c.len_utf8()..];
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_are_plain() {
        assert_eq!(spelt("to", &["up to"]), "^(?:[Tt][Oo]|[Uu][Pp][ _-]+[Tt][Oo])$");
        assert_eq!(pattern("gauge line"), "[Gg][Aa][Uu]?[Gg][Ee][ _-]+[Ll][Ii][Nn][Ee]");
        assert_eq!(pattern("in."), "[Ii][Nn]\\.");
    }
}
