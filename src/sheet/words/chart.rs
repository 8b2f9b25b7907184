//! Words of the tolerance chart.

use crate::language::Message;
use crate::{tell, told};

/// Title of the page.
pub const CHART: &str = "Tolerance chart";
/// Under it.
pub const CHART_SAYS: &str =
    "Each cut runs from the face it is measured from (ring) to the face it cuts (arrow). A triangle is what comes off.";
/// Heads over the cuts.
pub const CHART_HEADS: [&str; 4] = ["op", "mean", "hold", "comes off"];
/// Heads over the results.
pub const RESULT_HEADS: [&str; 5] = ["", "comes out", "±", "drawing asks", ""];
/// Heads over a loop.
pub const LOOP_HEADS: [&str; 3] = ["", "least", "most"];
/// The saw, in the column of operations.
pub const SAW: &str = "saw";
/// A result that is kept.
pub const HOLDS: &str = "holds";
/// A result that is not.
pub const FAILS: &str = "FAILS";
/// A distance for reference.
pub const FOR_REFERENCE: &str = "(ref)";

/// What the cuts' picture shows.
pub fn chart_alt(name: &str, cuts: usize) -> String {
    format!(
        "Tolerance chart of {name}: its outline, and under it {cuts} cuts, each as an arrow from the face it is measured from"
    )
}

/// What the results' picture shows.
pub fn results_alt(name: &str, results: usize) -> String {
    format!("What the cuts of {name} keep: {results} distances with their mean, worst case and what the drawing asks")
}

/// What a loop's picture shows.
pub fn loop_alt(dimensions: usize) -> String {
    format!("The outline of the part, and under it the {dimensions} dimensions that cannot hold together")
}

/// The hardest cut.
pub fn factor(factor: f64, binding: &[String]) -> String {
    let by = if binding.is_empty() { String::new() } else { format!(", bound by {}", binding.join(", ")) };
    if factor < 1.0 {
        format!("The hardest cut must be held to {factor:.2} of what can be held{by}.")
    } else {
        format!("The hardest cut may be off {factor:.2} times what can be held{by}.")
    }
}

/// A distance that the chart does not promise, on the cover.
pub fn not_promised(from: &str, to: &str, comes_out: &str, wanted: &str) -> String {
    format!("{from} to {to} comes out to ±{comes_out} as planned, and the drawing asks {wanted}.")
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
pub const CHART_ON_COVER: &str = "Tolerance chart: ";

/// What correcting the zero gains.
pub fn zero_gain(setup: u32, before: &str, after: &str) -> String {
    format!(
        "Setup {setup}: with the zero corrected by the measured overall, a length there comes out to ±{after} from the datum face; uncorrected it would be ±{before}."
    )
}

/// Assumed precision.
pub fn chart_assumed(what: &str, value: &str) -> String {
    format!("ASSUMED: {what} {value}.")
}
