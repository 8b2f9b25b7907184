//! Words of the tolerance chart.

use crate::language::Message;
use crate::{tell, told};

/// Title of the page.
pub const CHART: Message = Message { english: "Tolerance chart", german: "Maßfolgeplan" };
/// Under it.
pub const CHART_SAYS: Message = Message {
    english: "Each cut runs from the face it is measured from (ring) to the face it cuts (arrow). A triangle is what comes off.",
    german: "Jeder Schnitt geht von der Fläche, von der er gemessen wird (Ring), zur Fläche, die er dreht (Pfeil). Ein Dreieck zeigt den Abtrag.",
};
/// The saw, in the column of operations.
pub const SAW: Message = Message { english: "saw", german: "Säge" };
/// A result that is kept.
pub const HOLDS: Message = Message { english: "holds", german: "hält" };
/// A result that is not.
pub const FAILS: Message = Message { english: "FAILS", german: "HÄLT NICHT" };
/// A distance for reference.
pub const FOR_REFERENCE: Message = Message { english: "(ref)", german: "(Hilfsmaß)" };

/// Heads over the cuts.
pub fn chart_heads() -> [&'static str; 4] {
    [told!("op", "Nr."), told!("mean", "Mitte"), told!("hold", "halten"), told!("comes off", "kommt ab")]
}

/// Heads over the results.
pub fn result_heads() -> [&'static str; 5] {
    ["", told!("comes out", "wird"), "±", told!("drawing asks", "gezeichnet"), ""]
}

/// Heads over a loop.
pub fn loop_heads() -> [&'static str; 3] {
    ["", told!("least", "kleinst"), told!("most", "größt")]
}

/// From one size or face to another.
pub fn one_to_other(from: &str, to: &str) -> String {
    tell!("{from} to {to}", "{from} bis {to}")
}

/// What the cuts' picture shows.
pub fn chart_alt(name: &str, cuts: usize) -> String {
    tell!(
        "Tolerance chart of {name}: its outline, and under it {cuts} cuts, each as an arrow from the face it is measured from",
        "Maßfolgeplan von {name}: sein Umriss, darunter {cuts} Schnitte, jeder als Pfeil von der Fläche, von der er gemessen wird"
    )
}

/// What the results' picture shows.
pub fn results_alt(name: &str, results: usize) -> String {
    tell!(
        "What the cuts of {name} keep: {results} distances with their mean, worst case and what the drawing asks",
        "Abstände, die die Schnitte von {name} einhalten: {results} mit Mitte, größter Abweichung und den Grenzen der Zeichnung"
    )
}

/// What a loop's picture shows.
pub fn loop_alt(dimensions: usize) -> String {
    tell!(
        "The outline of the part, and under it the {dimensions} dimensions that cannot hold together",
        "Der Umriss des Teils, darunter die {dimensions} Maße, die zusammen nicht gelten können"
    )
}

/// The hardest cut.
pub fn factor(factor: f64, binding: &[String]) -> String {
    let named = binding.join(", ");
    let by = if binding.is_empty() { String::new() } else { tell!(", bound by {named}", ", durch {named}") };
    if factor < 1.0 {
        tell!(
            "The hardest cut must be held to {factor:.2} of what can be held{by}.",
            "Der schwerste Schnitt muss auf das {factor:.2}-fache der haltbaren Abweichung gehalten werden{by}."
        )
    } else {
        tell!(
            "The hardest cut may be off {factor:.2} times what can be held{by}.",
            "Der schwerste Schnitt darf um das {factor:.2}-fache der haltbaren Abweichung danebenliegen{by}."
        )
    }
}

/// A distance that the chart does not promise, on the cover.
pub fn not_promised(from: &str, to: &str, comes_out: &str, wanted: &str) -> String {
    tell!(
        "{from} to {to} comes out to ±{comes_out} as planned, and the drawing asks {wanted}.",
        "{from} bis {to} wird so geplant auf ±{comes_out} genau, und die Zeichnung verlangt {wanted}."
    )
}

/// What to measure before a cut, and where it is cut to by that reading.
pub fn aim_formula(measured: (&str, &str), cut: &str, adds: bool, (to, reading): (&str, &str)) -> String {
    let (first, second) = if adds { ("+", "\u{2212}") } else { ("\u{2212}", "+") };
    let (from, until) = measured;
    tell!(
        "measure {from} to {until}; cut {cut} to {to} {first} measured ____ {second} {reading} = ____",
        "{from} bis {until} messen; {cut} auf {to} {first} gemessen ____ {second} {reading} = ____ drehen"
    )
}

/// What measuring before a cut gains.
pub fn measuring_gains(op: u32, formula: &str, after: &str, before: &str) -> String {
    tell!(
        "Operation {op}: {formula} Then ±{after} instead of ±{before}.",
        "Arbeitsgang {op}: {formula} Dann ±{after} statt ±{before}."
    )
}

/// What is measured before a cut that is aimed.
pub fn measured_between(from: &str, to: &str) -> String {
    tell!("measured {from} to {to}", "gemessen {from} bis {to}")
}

/// What a cut is aimed at.
pub const CUT_TO: Message = Message { english: "Cut to", german: "Drehen auf" };

/// A face of the chart beside an operation.
pub fn chart_face(name: &str) -> &str {
    match name {
        "datum face" => told!("datum face", "Bezugsfläche"),
        "far face" => told!("far face", "Gegenfläche"),
        other => other,
    }
}

/// Why a cut is aimed by a reading, and what that gains.
pub fn aimed(measured: (&str, &str), between: (&str, &str), after: &str, before: &str) -> String {
    tell!(
        "Before this cut measure {} to {}: the first blank. So {} to {} comes out to ±{after}, not ±{before}.",
        "Vor diesem Schnitt {} bis {} messen: das erste Feld. So wird {} bis {} auf ±{after} genau, nicht ±{before}.",
        measured.0,
        measured.1,
        between.0,
        between.1
    )
}

/// Before what the chart says on the cover.
pub const CHART_ON_COVER: Message = Message { english: "Tolerance chart: ", german: "Maßfolgeplan: " };

/// What correcting the zero gains.
pub fn zero_gain(setup: u32, before: &str, after: &str) -> String {
    tell!(
        "Setup {setup}: with the zero corrected by the measured overall, a length there comes out to ±{after} from the datum face; uncorrected it would be ±{before}.",
        "Spannlage {setup}: mit der nach dem gemessenen Gesamtmaß berichtigten Null wird eine Länge dort auf ±{after} ab Bezugsfläche genau; ohne Berichtigung auf ±{before}."
    )
}

/// Assumed precision.
pub fn chart_assumed(what: &str, value: &str) -> String {
    tell!("ASSUMED: {what} {value}.", "ANGENOMMEN: {what} {value}.")
}
