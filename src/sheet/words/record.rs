//! The inspection record.

use crate::figures::Verdict;
use crate::language::Message;
use crate::model::End;
use crate::model::measured::Warm;
use crate::sheet::view::Rich;
use crate::unit::Unit;
use crate::{tell, told};

/// Title of the record.
pub const RECORD: Message = Message { english: "Inspection record", german: "Prüfprotokoll" };
/// Over what saves the lengths.
pub const SAVED: Message =
    Message { english: "Lengths: what cutting again saves", german: "Längen: was Nachschneiden rettet" };
/// Over the readings taken warm.
pub const TO_TWENTY: Message =
    Message { english: "Readings brought to 20 °C (68 °F)", german: "Auf 20 °C umgerechnet" };
/// Over the places of faces read more than once.
pub const ADJUSTED: Message = Message {
    english: "Faces read in more ways than one, adjusted",
    german: "Mehrfach gemessene Flächen, ausgeglichen",
};
/// Over the rule.
pub const RULE: Message = Message { english: "How it was judged", german: "Wie geurteilt wurde" };
/// Which instruments, on the line to sign.
pub const GAUGES: Message = Message { english: "Instruments", german: "Messzeug" };
/// Too near a limit.
pub const TOO_CLOSE: Message = Message { english: "too close to call", german: "zu knapp" };
/// Nothing failed, and not all was read.
pub const NOT_ALL_MEASURED: Message =
    Message { english: "passes as far as it was measured", german: "gut, soweit gemessen" };

/// Title of its document.
pub fn record_title(name: &str, drawing: &str) -> String {
    if drawing.is_empty() {
        tell!("{name}: inspection record", "{name}: Prüfprotokoll")
    } else {
        tell!("{name}, {drawing}: inspection record", "{name}, {drawing}: Prüfprotokoll")
    }
}

/// Heads of its columns.
pub fn record_heads() -> Vec<String> {
    [
        told!("size", "Maß"),
        told!("limits", "Grenzen"),
        told!("reading", "Messwert"),
        "± U",
        told!("with", "mit"),
        told!("verdict", "Urteil"),
    ]
    .map(str::to_owned)
    .to_vec()
}

/// A verdict.
pub fn verdict(verdict: Verdict) -> String {
    match verdict {
        Verdict::Pass => told!("pass", "gut"),
        Verdict::NotMeasured => told!("not measured", "nicht gemessen"),
        Verdict::Recut => told!("recut", "nacharbeiten"),
        Verdict::Scrap => told!("scrap", "Ausschuss"),
    }
    .to_owned()
}

/// The verdict on the whole: pass, recut, scrap, not measured; and how many are too close.
pub fn came_to(whole: &str, [pass, recut, scrap, not]: [usize; 4], close: usize) -> Rich {
    let close = if close == 0 { String::new() } else { tell!(", {close} too close to call", ", {close} zu knapp") };
    Rich::from(told!("The whole: ", "Das Ganze: ")).strong(whole.to_owned()).plain(tell!(
        ". {pass} pass, {recut} recut, {scrap} scrap, {not} not measured{close}.",
        ". {pass} gut, {recut} nacharbeiten, {scrap} Ausschuss, {not} nicht gemessen{close}."
    ))
}

/// A face by all its readings.
pub fn adjusted(face: &str, at: &str, deviation: &str) -> Rich {
    Rich::from(tell!("{face}: {at}, standard deviation {deviation}.", "{face}: {at}, Standardabweichung {deviation}."))
}

/// The rule and where uncertainties are from.
pub fn record_rule(name: &str, says: &str, assumed: bool) -> Vec<Rich> {
    let mut out = vec![
        Rich::new().strong(super::capital(name)).plain(format!(": {says}.")),
        Rich::from(told!(
            "± U is the expanded uncertainty of the reading (k = 2): as stated with it, or the instrument’s error in the shop file.",
            "± U ist die erweiterte Unsicherheit des Messwerts (k = 2): wie dabei angegeben, oder der Fehler des Messzeugs aus der Werkstattdatei."
        )),
    ];
    if assumed {
        out.push(Rich::new().strong(told!("ASSUMED", "ANGENOMMEN")).plain(told!(
            " where neither says it: what is usual for the kind of instrument (common practice, no source).",
            " wo beides fehlt: was für die Art Messzeug üblich ist (übliche Praxis, ohne Quelle)."
        )));
    }
    out
}

/// A face in a sentence.
pub fn face_words(place: &str, from: End) -> String {
    match from {
        End::Datum => tell!("the face at {place}", "die Fläche bei {place}"),
        End::Far => tell!("the face at {place} from the far end", "die Fläche bei {place} ab Gegenende"),
    }
}

/// A mate in a sentence.
pub fn mate_of(mate: &str, seat: &str) -> String {
    tell!("{mate} for {seat}", "{mate} für {seat}")
}

/// What a reading comes to.
pub fn comes_to(what: &str, read: &str, size: &str) -> String {
    tell!("{what} {read} is {size}", "{what} {read} ist {size}")
}

/// Readings of one pair of temperatures, and what they come to at 20 °C.
pub fn to_twenty(warm: Warm, readings: &[String], unit: Unit) -> Rich {
    let at = |celsius: f64| match unit {
        Unit::Inch => format!("{:.0} °F", celsius * 1.8 + 32.0),
        Unit::Millimetre => format!("{celsius:.0} °C"),
    };
    let (part, gauge, each, its) = (at(warm.part), at(warm.gauge), warm.per_kelvin, warm.gauge_per_kelvin);
    let gauge = if warm.gauge_stated { gauge } else { tell!("{gauge}, ASSUMED", "{gauge}, ANGENOMMEN") };
    let list = readings.join("; ");
    Rich::from(tell!(
        "At {part} ({each} millionths a kelvin), the instrument at {gauge} ({its}): {list}.",
        "Bei {part} ({each} Millionstel je Kelvin), Messzeug bei {gauge} ({its}): {list}."
    ))
}

/// A fit worked with the measured seat.
pub fn seat_measured(size: &str) -> String {
    tell!(" on a seat as measured, {size}", " auf dem Sitz wie gemessen, {size}")
}
