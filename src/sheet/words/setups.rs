//! Heads, zeros and pictures of the setups.

use super::fixed::ON_BAR;
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::DatumEnd;
use crate::model::shop::Reads;
use crate::sheet::view::Rich;
use crate::unit::Unit;

/// A setup of the short sheet.
pub fn short_setup(number: u32, held: &str, datum: &str) -> String {
    let place = if datum.is_empty() { String::new() } else { format!(", {datum}") };
    format!("Setup {number}: {held}{place}")
}

/// A line to scribe, on the short sheet.
pub fn short_mark(label: &str, gauge: &str, means: &str, leave: &str) -> String {
    format!("{label} at {gauge}, {means}, {leave}")
}

/// A list of lines to scribe, on the short sheet.
pub fn short_marks(name: &str, standing_on: &str, lines: &[String]) -> Rich {
    Rich::new().strong(super::capital(name)).plain(format!(", standing on the {standing_on}: {}.", lines.join("; ")))
}

/// A tool's name as the trade writes it.
pub fn tool(word: &str) -> String {
    word.replace("woodruff", "Woodruff").replace("acme", "Acme")
}

/// `Setup 3`.
pub fn setup_word(number: u32) -> String {
    format!("Setup {number}")
}

/// `90 finish C`.
pub fn operation_word(number: u32, verb: &str, letter: &str) -> String {
    format!("{number} {verb} {letter}").trim_end().to_owned()
}

/// A reason with its source.
pub fn why(place: &str, rule: &str, reason: &str, source: &str) -> Rich {
    let said = Rich::new().strong(format!("{place}: ")).plain(reason);
    let said = if rule.is_empty() { said } else { said.grey(format!(" [{rule}]")) };
    if source.is_empty() { said.plain(".") } else { said.grey(format!(" ({source}).")) }
}

/// An operation and the rule that binds to it: `110 [R9]`.
pub fn at_rule(number: u32, rule: &str) -> String {
    if rule.is_empty() { number.to_string() } else { format!("{number} [{rule}]") }
}

/// Between which others an operation may stand.
pub fn room(operation: &str, after: Option<String>, before: Option<String>) -> Rich {
    let both = match (after, before) {
        (Some(after), Some(before)) => format!("after {after}, before {before}"),
        (Some(after), None) => format!("anywhere after {after}"),
        (None, Some(before)) => format!("anywhere before {before}"),
        (None, None) => "anywhere".to_owned(),
    };
    Rich::new().strong(format!("{operation}: ")).plain(both)
}

/// What doing without a holding would cost.
pub fn without(next: bool, holding: &str, more: &str, at_most: bool) -> String {
    let at_most = if at_most { " at most" } else { "" };
    let who = if next { "The next best plan does without" } else { "Without" };
    format!("{who} “{holding}”: {more} minutes more{at_most}.")
}

/// How the work is held, to begin a sentence.
pub const fn holding(holding: Holding) -> &'static str {
    match holding {
        Holding::Chuck => "Chuck",
        Holding::ChuckAndCenter => "Chuck and tailstock center",
        Holding::BetweenCenters => "Between centers",
        Holding::ChuckAndRest => "Chuck and steady rest",
        Holding::Mandrel => "On a mandrel",
        Holding::Mill => "Mill",
        Holding::Bench => "Bench",
    }
}

/// What jaws or dog hold, and what lies under them.
pub fn grip_on(letter: &str, protect: bool) -> String {
    let on = if letter.is_empty() { ON_BAR.to_owned() } else { format!("on {letter}") };
    if protect { format!("{on} over copper") } else { on }
}

/// How far jaws or dog may reach.
pub fn beyond_mark(mark: &str) -> String {
    format!(", beyond mark {mark}")
}

/// How far the work stands out of the jaws.
pub fn stands_out(length: &str, collet: bool) -> String {
    format!(", {length} out of the {}", if collet { "collet" } else { "jaws" })
}

/// Where a rest carries the work.
pub fn rest(letter: &str, from: &str, to: &str, follows: bool) -> String {
    let on = if letter.is_empty() { "the bar".to_owned() } else { letter.to_owned() };
    if follows {
        return format!("Follow rest on {on}: turn a start, set its jaws on it just behind the tool, oil them.");
    }
    format!("Steady rest on {on}, {from} to {to} from the datum: jaws just touching, oiled, felt again as it warms.")
}

/// Before the first finish cut between centers.
pub fn test_cut(letter: &str) -> String {
    if letter.is_empty() {
        "Test cut first: the same Ø at both ends.".to_owned()
    } else {
        format!("Test cut first: same Ø at both ends of {letter}.")
    }
}

/// A runout to prove.
pub fn true_to(letter: &str, other: &str, within: &str) -> String {
    format!("{letter} true to {other} within {within} TIR.")
}

/// What to do with the correction.
pub fn correction(dial: bool, measured: &str, set: &str) -> Rich {
    let how = if dial { "Touch the far face and set the carriage dial to " } else { "Touch the far face and call it " };
    Rich::from(how)
        .strong("this")
        .plain(format!(" instead of 0: every length below then holds. ({measured} measured gives {set}.)"))
}

/// How the carriage's zero is set.
pub fn carriage_zero(face: &str, corrected: bool) -> Rich {
    if corrected {
        Rich::new().strong("Zero as corrected.").plain(" Up toward the headstock; come to it that way.")
    } else {
        Rich::new().strong(format!("0 on the {face}.")).plain(" Up toward the headstock; come to it that way.")
    }
}

/// The same in short.
pub fn carriage_short(face: &str, corrected: bool) -> String {
    if corrected { format!("{face}, zero corrected") } else { format!("from the {face}") }
}

/// What the cross dial counts, with an example.
pub fn cross_reads(reads: Reads, unit: Unit) -> String {
    let (half, whole) = match unit {
        Unit::Inch => (".005", ".010"),
        Unit::Millimetre => ("0.10", "0.20"),
    };
    match reads {
        Reads::Radius => format!("RADIUS: {half} takes {whole} off Ø."),
        Reads::Diameter => format!("DIAMETER: {whole} takes {whole} off Ø."),
    }
}

/// The same for a bore, which grows.
pub fn bore_reads(reads: Reads, unit: Unit) -> String {
    cross_reads(reads, unit).replace(" off \u{d8}", "").replace("takes", "opens Ø by")
}

/// `RADIUS` or `DIAMETER`.
pub const fn reads_word(reads: Reads) -> &'static str {
    match reads {
        Reads::Radius => "RADIUS",
        Reads::Diameter => "DIAMETER",
    }
}

/// Where the cross dial is set to 0.
pub fn cross_zero(letter: &str, diameter: &str) -> String {
    let on = if letter.is_empty() { "the bar".to_owned() } else { letter.to_owned() };
    format!("0 touching {on}, Ø {diameter}. ")
}

/// A bar with corners is struck until it is round.
pub fn interrupted(flats: &str) -> String {
    format!("Corners strike the tool down to Ø {flats}: interrupted cut. ")
}

/// How far roughed faces stand proud.
pub fn proud(length: &str) -> String {
    format!("Rough faces stand {length} proud. ")
}

/// Words at the feet of a lathe picture.
pub fn feet() -> (String, String) {
    ("HEADSTOCK".to_owned(), "TAILSTOCK".to_owned())
}

/// Facing, in a title.
pub fn face(end: Option<End>, to_length: bool, overall: &str) -> String {
    match end {
        Some(End::Far) if to_length => format!("face far end to {overall}"),
        Some(End::Far) => "face far end".to_owned(),
        _ => "face datum end".to_owned(),
    }
}

/// Text alternative of a setup picture.
pub fn setup_alt(number: u32, held: &str, datum: DatumEnd) -> String {
    let place = match datum {
        DatumEnd::Tailstock => "at the tailstock, right",
        DatumEnd::Headstock => "at the headstock, left",
        DatumEnd::Left => "at the left",
    };
    format!("Setup {number}: {held}, datum end {place}.")
}

/// Text alternative of a keyseat's section.
pub fn keyseat_alt(key: &str, depths: &[&str]) -> String {
    format!("Section through the keyseat for {key}: {}.", depths.join(", "))
}
