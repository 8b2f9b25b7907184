//! Cover, foot, findings, assumptions.

use super::text::from_file;
use super::trade::grave;
use crate::finding::Severity;
use crate::language::Message;
use crate::sheet::view::Rich;
use crate::sheet::{layout, measure};
use crate::unit::Unit;
use crate::{tell, told};

/// `page 3`.
pub fn page(number: usize) -> String {
    tell!("page {number}", "Seite {number}")
}

/// In the running foot.
pub fn description(hash: &str) -> String {
    tell!("description {hash}", "Beschreibung {hash}")
}

/// Where a mounting goes on.
pub fn go_on(next: usize) -> Rich {
    Rich::from(told!("Not done: go on at ", "Nicht fertig: weiter auf "))
        .strong(page(next))
        .plain(told!(". Nothing is moved.", ". Nichts wird bewegt."))
}

/// Where a mounting goes on at the lathe: cards are counted for themselves.
pub fn go_on_card(next: usize) -> Rich {
    Rich::from(told!("Not done: go on at ", "Nicht fertig: weiter auf "))
        .strong(card(next))
        .plain(told!(". Nothing is moved.", ". Nichts wird bewegt."))
}

/// `card 3`.
pub fn card(number: usize) -> String {
    tell!("card {number}", "Karte {number}")
}

/// A sentence in one line of body text, broken off behind a clause where it is longer: the cover has the rest.
pub fn in_one_line(said: &str, room: f64) -> String {
    let fits = |text: &str| measure::width(text, layout::BODY, false) <= room * 0.97;
    if fits(said) {
        return said.to_owned();
    }
    let more = told!(" … (cover)", " … (Deckblatt)");
    let cut = |at: usize| format!("{}{more}", said[..at].trim_end_matches([',', ';', ':', ' ']));
    let ends = |clause: bool| {
        let stops =
            said.char_indices().filter(move |(_, c)| if clause { matches!(c, ',' | ';' | ':') } else { *c == ' ' });
        // A comma within a number ends nothing.
        stops.filter(|(i, c)| c.is_whitespace() || said[i + 1..].starts_with(' ')).map(|(i, _)| i)
    };
    let half = said.len() / 4;
    let last = |clause| ends(clause).rfind(|at| fits(&cut(*at)));
    last(true).filter(|at| *at >= half).or_else(|| last(false)).map_or_else(|| said.to_owned(), cut)
}

/// Instead of findings that an operation has no room for.
pub fn more_findings(count: usize) -> String {
    match count {
        1 => told!("One more finding: see the cover.", "Ein weiterer Befund: siehe Deckblatt.").to_owned(),
        _ => tell!("{count} more findings: see the cover.", "{count} weitere Befunde: siehe Deckblatt."),
    }
}

/// Text alternative of the logo.
pub fn logo_alt(company: &str) -> String {
    if company.is_empty() {
        told!("Logo", "Firmenzeichen").to_owned()
    } else {
        tell!("Logo of {company}", "Firmenzeichen von {company}")
    }
}

/// Title of the document.
pub fn document_title(name: &str, drawing: &str) -> String {
    if drawing.is_empty() {
        tell!("{name}: setup sheet", "{name}: Einrichteblatt")
    } else {
        tell!("{name}, {drawing}: setup sheet", "{name}, {drawing}: Einrichteblatt")
    }
}

/// Drawing and revision, as far as they are told.
pub fn drawing(drawing: &str, revision: &str) -> String {
    match (drawing, revision) {
        ("", "") => String::new(),
        (d, "") => d.to_owned(),
        ("", r) => tell!("rev {r}", "Stand {r}"),
        (d, r) => tell!("{d} rev {r}", "{d} Stand {r}"),
    }
}

/// The bar over every page of a part that must not be cut.
pub fn do_not_cut(open: usize) -> String {
    match open {
        1 => {
            told!("DO NOT CUT: 1 error is open. See the cover.", "NICHT FERTIGEN: 1 Fehler ist offen. Siehe Deckblatt.")
                .to_owned()
        }
        n => tell!(
            "DO NOT CUT: {n} errors are open. See the cover.",
            "NICHT FERTIGEN: {n} Fehler sind offen. Siehe Deckblatt."
        ),
    }
}

/// Bookmark of the cover.
pub fn cover(name: &str) -> String {
    tell!("Cover: {name}", "Deckblatt: {name}")
}

/// `Drawing LS-104, revision B. All sizes in inches.`
pub fn drawing_sentence(drawing: &str, revision: &str, unit: Unit) -> String {
    let mut said = String::new();
    if !drawing.is_empty() {
        said = tell!("Drawing {drawing}", "Zeichnung {drawing}");
    }
    if !revision.is_empty() {
        said = if said.is_empty() {
            tell!("Revision {revision}", "Stand {revision}")
        } else {
            tell!("{said}, revision {revision}", "{said}, Stand {revision}")
        };
    }
    if !said.is_empty() {
        said.push_str(". ");
    }
    let units = match unit {
        Unit::Inch => told!("inches", "Zoll"),
        Unit::Millimetre => told!("millimetres", "Millimetern"),
    };
    tell!("{said}All sizes in {units}.", "{said}Alle Maße in {units}.")
}

/// Which end it is, and how it is told at the machine.
pub fn datum_sentence(datum: &str, letter: &str) -> Rich {
    let face = if letter.is_empty() { String::new() } else { tell!(", face of {letter}", ", Fläche von {letter}") };
    Rich::from(told!("Datum end: ", "Bezugsende: "))
        .strong(tell!("{datum}{face}", "{datum}{face}"))
        .plain(told!(", one punch dot.", ", ein Körnerpunkt."))
}

/// An inner face was the datum of the drawing.
pub fn datum_moved(letter: &str, side: &str, at: &str) -> String {
    tell!(
        "The drawing counts from the {side} of {letter}; here every length counts from the datum end, {at} before it.",
        "Die Zeichnung zählt ab {side} von {letter}; hier zählt jede Länge ab dem Bezugsende, {at} davor."
    )
}

/// The coating, and which sizes stand here.
pub fn coating(thick: &str, after: Option<bool>, both: &str) -> String {
    match after {
        Some(true) => tell!(
            "Coating {thick} a side: outside Ø here are before it, {both} under the drawing's; lengths as drawn.",
            "Überzug {thick} je Seite: äußere Ø hier davor, {both} unter der Zeichnung; Längen wie gezeichnet."
        ),
        Some(false) => tell!(
            "Coating {thick} a side: sizes here are before it.",
            "Überzug {thick} je Seite: die Maße hier gelten davor."
        ),
        None => tell!("Coating {thick} a side.", "Überzug {thick} je Seite."),
    }
}

/// Operations that are done and left out of the sheet.
pub fn done_sentence(numbers: &[String]) -> String {
    tell!(
        "Already done and left out: {}. The others keep their numbers.",
        "Schon fertig und weggelassen: {}. Die übrigen behalten ihre Nummern.",
        numbers.join(", ")
    )
}

/// A number that is no longer that of the sheet the work was begun by.
pub fn changed(what: &str, was: &str, now: &str) -> String {
    tell!("CHANGED {what}: {now}, was {was}.", "GEÄNDERT {what}: {now}, war {was}.")
}

/// Something to know of the rest of the work.
pub fn remark(text: &str) -> String {
    tell!("Note: {text}.", "Hinweis: {text}.")
}

/// A soft rule that a wish outweighs, or that no order keeps.
pub fn gave_way(rule: &str, reason: &str, source: &str) -> String {
    match reason.strip_prefix(crate::model::plan::OUTWEIGHED) {
        Some(wish) => tell!(
            "{rule} gives way to the wish {wish} ({source}).",
            "{rule} tritt hinter den Wunsch zurück: {wish} ({source})."
        ),
        None => tell!("{rule} gives way: {reason} ({source}).", "{rule} tritt zurück: {reason} ({source})."),
    }
}

/// `.063 each end`.
pub fn each_end(length: &str) -> String {
    tell!("{length} each end", "{length} je Ende")
}

/// Different at both ends.
pub fn both_ends(datum: &str, far: &str) -> String {
    tell!("{datum} datum, {far} far", "{datum} Bezug, {far} Gegenende")
}

/// `to 1.000`.
pub fn to(place: &str) -> String {
    if place.is_empty() { String::new() } else { tell!("to {place}", "bis {place}") }
}

/// Where no finding is to be shown.
pub const NO_FINDINGS: Message = Message { english: "Findings: none.", german: "Befunde: keine." };

/// `at 2.125`.
pub fn at(place: &str) -> String {
    if place.is_empty() { String::new() } else { tell!("at {place}", "bei {place}") }
}

/// What is at an end.
pub fn at_end(what: &str, end: crate::model::End) -> String {
    format!("{what}, {}", super::trade::end(end))
}

/// An inside corner.
pub fn corner(radius: &str) -> String {
    tell!("corner {radius} max", "Hohlkehle höchstens {radius}")
}

/// A kind that is not worked.
pub fn not_worked(word: &str) -> String {
    tell!("{word}: not worked yet", "{word}: noch nicht bearbeitet")
}

/// Heading of the findings.
pub fn findings(errors: usize, warnings: usize, notes: usize, accepted: usize) -> String {
    let mut parts = Vec::new();
    for (n, one, more) in [
        (errors, told!("error", "Fehler"), told!("errors", "Fehler")),
        (warnings, told!("warning", "Warnung"), told!("warnings", "Warnungen")),
        (notes, told!("note", "Hinweis"), told!("notes", "Hinweise")),
    ] {
        if n > 0 {
            parts.push(format!("{n} {}", if n == 1 { one } else { more }));
        }
    }
    if parts.is_empty() {
        parts.push(told!("none open", "nichts offen").to_owned());
    }
    if accepted > 0 {
        parts.push(tell!("{accepted} accepted", "{accepted} angenommen"));
    }
    tell!("Findings: {}", "Befunde: {}", parts.join(", "))
}

/// Row of the limits that decided findings.
pub const CHECK_LIMITS: Message = Message { english: "Limits of checks", german: "Grenzen der Prüfung" };
/// Where they come from, and what changes them.
pub const CHECK_LIMITS_SOURCE: Message =
    Message { english: "common practice; limits in the shop file", german: "üblich; limits in der Werkstattdatei" };

/// Under the picture when some of its letters are white on black.
pub const FLAGGED: Message = Message {
    english: "A letter white on black: an error or warning below is about it.",
    german: "Buchstabe weiß auf schwarz: unten steht ein Fehler oder eine Warnung dazu.",
};

/// Letters of the features a finding is about, before it; empty for none.
pub fn letters(features: &[String]) -> String {
    let letters: Vec<String> = features.iter().filter(|l| !l.is_empty()).map(|l| from_file(l)).collect();
    if letters.is_empty() { String::new() } else { format!("{}: ", letters.join(", ")) }
}

/// Before a finding that is not accepted.
pub fn severity(severity: Severity) -> String {
    format!("{}: ", grave(severity))
}

/// A finding somebody takes responsibility for.
pub fn accepted(message: &str, reason: &str) -> Rich {
    Rich::from(format!("{message} ")).strong(told!("Accepted: ", "Angenommen: ")).plain(format!("“{reason}”."))
}

/// A piece of the story strip.
pub fn strip_piece(number: usize, of: usize) -> String {
    tell!("piece {number} of {of}", "Stück {number} von {of}")
}

/// Text alternative of the story strip.
pub fn strip_alt(name: &str) -> String {
    tell!(
        "Every face of {name} at full size along a strip, the datum end at the top.",
        "Jede Fläche von {name} in wahrer Größe auf einem Streifen, das Bezugsende oben."
    )
}

/// A title carried on.
pub fn continued(title: &str) -> String {
    tell!("{title}, continued", "{title}, weiter")
}

/// An assumption with its source.
pub fn assumed(value: &str, source: &str) -> Rich {
    let value = Rich::from(value);
    if source.is_empty() { value } else { value.grey(format!(" ({source})")) }
}

/// `Setup 3: Turn C; thread A`.
pub fn setup_bookmark(number: &str, title: &str) -> String {
    tell!("Setup {number}: {title}", "Spannlage {number}: {title}")
}

/// Text alternative of the part picture.
pub fn part_alt<'a>(name: &str, sections: usize, lengths: impl Iterator<Item = &'a str>) -> String {
    let lengths = lengths.collect::<Vec<_>>().join(", ");
    tell!(
        "{name} from the side, datum end at the left, {sections} sections with their letters. Lengths from the datum end: {lengths}.",
        "{name} von der Seite, Bezugsende links, {sections} Abschnitte mit ihren Buchstaben. Längen ab dem Bezugsende: {lengths}."
    )
}

/// Text alternative of the places that are enlarged.
pub fn details_alt(says: &[String]) -> String {
    tell!(
        "Too small to see above, enlarged in circles: {}.",
        "Oben zu klein, in Kreisen vergrößert: {}.",
        says.join(", ")
    )
}

/// On a bench card, in place of what it cannot hold.
pub fn see_sheet(number: usize) -> String {
    tell!("by sheet page {number}", "nach Blattseite {number}")
}
