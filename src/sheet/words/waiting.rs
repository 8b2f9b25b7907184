//! What waits for a later cut: a keyseat in a roughed seat, what is left for after hardening.

use crate::tell;

/// On the section of a keyseat that is milled in a roughed seat.
pub fn from_finished_top(depth: &str) -> String {
    tell!("{depth} from the finished top", "{depth} von oben, fertig")
}

/// A keyseat's depth where its seat is only roughed.
pub fn from_roughed_top(size: &str) -> String {
    tell!("from the roughed top, Ø {size}", "von der geschruppten Kuppe, Ø {size}")
}

/// What is asked of those who harden, and what is left for after it.
pub fn heat_treatment(treatment: &str, left: &[String]) -> String {
    let treatment = super::name(treatment);
    if left.is_empty() {
        return treatment;
    }
    tell!("{treatment}. Left for after it: {}", "{treatment}. Bleibt für danach: {}", left.join(", "))
}

/// A section before its last cut, and the size it will be.
pub fn stands_for(letter: &str, from: &str, to: &str) -> String {
    tell!("{letter} Ø {from} for {to}", "{letter} Ø {from} für {to}")
}
