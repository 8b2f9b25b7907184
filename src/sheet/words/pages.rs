//! Cover, foot, findings, assumptions.

use super::text::{capital, from_file};
use crate::finding::Severity;
use crate::sheet::view::Rich;
use crate::unit::Unit;

/// `page 3`.
pub fn page(number: usize) -> String {
    format!("page {number}")
}

/// In the running foot.
pub fn description(hash: &str) -> String {
    format!("description {hash}")
}

/// Where a mounting goes on.
pub fn go_on(next: usize) -> Rich {
    Rich::from("Not done: go on at ").strong(page(next)).plain(". Nothing is moved.")
}

/// Text alternative of the logo.
pub fn logo_alt(company: &str) -> String {
    if company.is_empty() { "Logo".to_owned() } else { format!("Logo of {company}") }
}

/// Title of the document.
pub fn document_title(name: &str, drawing: &str) -> String {
    if drawing.is_empty() { format!("{name}: setup sheet") } else { format!("{name}, {drawing}: setup sheet") }
}

/// Drawing and revision, as far as they are told.
pub fn drawing(drawing: &str, revision: &str) -> String {
    match (drawing, revision) {
        ("", "") => String::new(),
        (d, "") => d.to_owned(),
        ("", r) => format!("rev {r}"),
        (d, r) => format!("{d} rev {r}"),
    }
}

/// The bar over every page of a part that must not be cut.
pub fn do_not_cut(open: usize) -> String {
    match open {
        1 => "DO NOT CUT: 1 error is open. See the cover.".to_owned(),
        n => format!("DO NOT CUT: {n} errors are open. See the cover."),
    }
}

/// Bookmark of the cover.
pub fn cover(name: &str) -> String {
    format!("Cover: {name}")
}

/// `Drawing LS-104, revision B. All sizes in inches.`
pub fn drawing_sentence(drawing: &str, revision: &str, unit: Unit) -> String {
    let mut said = String::new();
    if !drawing.is_empty() {
        said = format!("Drawing {drawing}");
    }
    if !revision.is_empty() {
        said = if said.is_empty() { format!("Revision {revision}") } else { format!("{said}, revision {revision}") };
    }
    if !said.is_empty() {
        said.push_str(". ");
    }
    let units = match unit {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
    };
    format!("{said}All sizes in {units}.")
}

/// Which end it is, and how it is told at the machine.
pub fn datum_sentence(datum: &str, letter: &str) -> Rich {
    let face = if letter.is_empty() { String::new() } else { format!(", face of {letter}") };
    Rich::from("Datum end: ").strong(format!("{datum}{face}")).plain(", one punch dot.")
}

/// An inner face was the datum of the drawing.
pub fn datum_moved(letter: &str, side: &str, at: &str) -> String {
    format!(
        "The drawing counts from the {side} of {letter}; here every length counts from the datum end, {at} before it."
    )
}

/// The coating, and which sizes stand here.
pub fn coating(thick: &str, after: Option<bool>, both: &str) -> String {
    match after {
        Some(true) => format!(
            "Coating {thick} a side: outside Ø here are before it, {both} under the drawing's; lengths as drawn."
        ),
        Some(false) => format!("Coating {thick} a side: sizes here are before it."),
        None => format!("Coating {thick} a side."),
    }
}

/// Operations that are done and left out of the sheet.
pub fn done_sentence(numbers: &[String]) -> String {
    format!("Already done and left out: {}. The others keep their numbers.", numbers.join(", "))
}

/// A number that is no longer that of the sheet the work was begun by.
pub fn changed(what: &str, was: &str, now: &str) -> String {
    format!("CHANGED {what}: {now}, was {was}.")
}

/// Something to know of the rest of the work.
pub fn remark(text: &str) -> String {
    format!("Note: {text}.")
}

/// `.063 each end`.
pub fn each_end(length: &str) -> String {
    format!("{length} each end")
}

/// Different at both ends.
pub fn both_ends(datum: &str, far: &str) -> String {
    format!("{datum} datum, {far} far")
}

/// `to 1.000`.
pub fn to(place: &str) -> String {
    if place.is_empty() { String::new() } else { format!("to {place}") }
}

/// Where no finding is to be shown.
pub const NO_FINDINGS: &str = "Findings: none.";

/// `at 2.125`.
pub fn at(place: &str) -> String {
    if place.is_empty() { String::new() } else { format!("at {place}") }
}

/// What is at an end.
pub fn at_end(what: &str, end: crate::model::End) -> String {
    format!("{what}, {} end", end.word())
}

/// An inside corner.
pub fn corner(radius: &str) -> String {
    format!("corner {radius} max")
}

/// A kind that is not worked.
pub fn not_worked(word: &str) -> String {
    format!("{word}: not worked yet")
}

/// Heading of the findings.
pub fn findings(errors: usize, warnings: usize, notes: usize, accepted: usize) -> String {
    let many = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") };
    let mut parts = Vec::new();
    for (n, word) in [(errors, "error"), (warnings, "warning"), (notes, "note")] {
        if n > 0 {
            parts.push(many(n, word));
        }
    }
    if parts.is_empty() {
        parts.push("none open".to_owned());
    }
    if accepted > 0 {
        parts.push(format!("{accepted} accepted"));
    }
    format!("Findings: {}", parts.join(", "))
}

/// Row of the limits that decided findings.
pub const CHECK_LIMITS: &str = "Limits of checks";
/// Where they come from, and what changes them.
pub const CHECK_LIMITS_SOURCE: &str = "common practice; limits in the shop file";

/// Under the picture when some of its letters are white on black.
pub const FLAGGED: &str = "A letter white on black: an error or warning below is about it.";

/// Letters of the features a finding is about, before it; empty for none.
pub fn letters(features: &[String]) -> String {
    let letters: Vec<String> = features.iter().filter(|l| !l.is_empty()).map(|l| from_file(l)).collect();
    if letters.is_empty() { String::new() } else { format!("{}: ", letters.join(", ")) }
}

/// Before a finding that is not accepted.
pub fn severity(severity: Severity) -> String {
    format!("{}: ", capital(severity.word()))
}

/// A finding somebody takes responsibility for.
pub fn accepted(message: &str, reason: &str) -> Rich {
    Rich::from(format!("{message} ")).strong("Accepted: ").plain(format!("“{reason}”."))
}

/// A piece of the story strip.
pub fn strip_piece(number: usize, of: usize) -> String {
    format!("piece {number} of {of}")
}

/// Text alternative of the story strip.
pub fn strip_alt(name: &str) -> String {
    format!("Every face of {name} at full size along a strip, the datum end at the top.")
}

/// A title carried on.
pub fn continued(title: &str) -> String {
    format!("{title}, continued")
}

/// An assumption with its source.
pub fn assumed(value: &str, source: &str) -> Rich {
    let value = Rich::from(value);
    if source.is_empty() { value } else { value.grey(format!(" ({source})")) }
}

/// `Setup 3: Turn C; thread A`.
pub fn setup_bookmark(number: &str, title: &str) -> String {
    format!("Setup {number}: {title}")
}

/// Text alternative of the part picture.
pub fn part_alt<'a>(name: &str, sections: usize, lengths: impl Iterator<Item = &'a str>) -> String {
    let lengths = lengths.collect::<Vec<_>>().join(", ");
    format!(
        "{name} from the side, datum end at the left, {sections} sections with their letters. Lengths from the datum end: {lengths}."
    )
}
