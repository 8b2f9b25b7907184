//! Values that can be told beforehand: the words a key takes, and how its value is written.

use super::super::forms::{self, Wants};
use super::super::shop_lists;
use super::{Key, KindWord, Scope, Takes};
use crate::unit::Unit;

/// The words that a key takes, when only a few are known.
pub fn words(scope: Scope, key: &Key) -> Vec<&'static str> {
    match (scope, key.word, key.takes) {
        (Scope::Tool, "tool", _) => shop_lists::tool_words(),
        (Scope::Instrument, "instrument", _) => shop_lists::INSTRUMENTS.to_vec(),
        (Scope::Shop, "rests", _) => vec!["steady", "follow"],
        (Scope::Shop, "centers", _) => vec!["dead", "live"],
        (Scope::Plan, "holding", _) | (Scope::ByEnd, _, _) => super::super::wishes::HOLDINGS.to_vec(),
        (_, _, Takes::OneOf(words)) => words.to_vec(),
        (_, _, Takes::YesNo) => vec!["yes", "no"],
        _ => Vec::new(),
    }
}

/// How the value of a key is written: what its own line quotes, else usual forms; inches and millimetres.
pub fn examples(key: &Key) -> Vec<String> {
    let quoted = quoted(key.about);
    if !quoted.is_empty() {
        return quoted;
    }
    let wants = match key.takes {
        Takes::Size => Wants::Size,
        Takes::Diameter => Wants::Diameter,
        Takes::Limits => Wants::Limits,
        Takes::Place => Wants::Place,
        Takes::Angle => Wants::Angle,
        Takes::Number => Wants::Number,
        _ => return Vec::new(),
    };
    both(wants)
}

/// How the main value of a kind is written.
pub fn kind_examples(kind: &KindWord) -> Vec<String> {
    let quoted = quoted(kind.about);
    if !quoted.is_empty() {
        return quoted;
    }
    match kind.wants {
        "a thread" => both(Wants::Thread),
        "a radius" => both(Wants::Radius),
        "a diameter" => both(Wants::Diameter),
        _ => Vec::new(),
    }
}

/// Forms in inches, then those in millimetres.
fn both(wants: Wants) -> Vec<String> {
    let mut all = forms::of(wants, Unit::Inch).to_vec();
    for form in forms::of(wants, Unit::Millimetre) {
        if !all.contains(&form) {
            all.push(form);
        }
    }
    all
}

/// What stands between backquotes.
fn quoted(about: &str) -> Vec<String> {
    about.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}
