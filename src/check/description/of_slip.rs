//! From what reading could not take to a finding: place, entry and feature are the same for all.

use crate::check::{Check, Facts};
use crate::finding::Finding;
use crate::model::slip::{Fault, Slip, Unreadable};

/// A finding at a slip's place, with the entry it lies in.
pub(super) fn finding(facts: &Facts<'_>, check: &Check, slip: &Slip, message: String) -> Finding {
    let mut finding = Finding::new(check.id, check.severity, message).at(slip.place);
    let feature = facts.part.features.iter().find(|f| Some(f.place) == slip.entry);
    if let Some(letter) = feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
        finding = finding.of(letter);
    }
    finding
}

/// Whether a rule of the file format is broken, so that what seems missing may be there.
pub(in crate::check) fn text_is_broken(facts: &Facts<'_>) -> bool {
    facts.slips.iter().any(|s| matches!(s.fault, Fault::Unreadable(ref u) if *u != Unreadable::Tag))
}

/// With a capital letter first.
pub(super) fn capital(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or(String::new(), |c| c.to_uppercase().chain(characters).collect())
}

/// Words in a row: `a`, `a or b`, `a, b or c`.
pub(in crate::check) fn one_of(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}
