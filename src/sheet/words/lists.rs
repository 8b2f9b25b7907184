//! Marks and inspection.

use super::fixed::ALL;
use super::text::capital;
use super::text::from_file;
use crate::figures::Inspected;
use crate::sheet::measure;

/// The letters of a size to inspect; a distance between two faces has a dash.
pub fn inspected(letters: &str, kind: Inspected) -> String {
    let mut chars = letters.chars();
    match (kind, chars.next(), chars.next(), chars.next()) {
        (_, None, ..) => ALL.to_owned(),
        (Inspected::Distance, Some(a), Some(b), None) => format!("{a}–{b}"),
        _ => from_file(letters),
    }
}

/// When a line can be scribed.
pub fn after_operation(number: u32) -> String {
    format!("after {number}")
}

/// Heading of a list of marks.
pub fn mark_list(number: usize, name: &str, when: &str, standing_on: Option<&str>) -> String {
    let standing = standing_on.map_or(String::new(), |s| format!("; stands on the {}", s.to_uppercase()));
    format!("{number}  {}: {when}{standing}", capital(name))
}

/// Heads of a list of marks.
pub fn mark_heads() -> Vec<String> {
    ["mark", "HEIGHT\nGAUGE", "scribe on", "means,\nand the line"].map(String::from).to_vec()
}

/// Heads of a list to inspect.
pub fn inspection_heads() -> Vec<String> {
    ["", "limits", "with", "measured", "ok"].map(String::from).to_vec()
}

/// An instrument in the width of its column, at most two lines.
pub fn instrument(with: &str, kind: Inspected, room: f64) -> Vec<String> {
    let short = match kind {
        Inspected::AcrossBottom => "mic, bottom".to_owned(),
        Inspected::AcrossFlats => "mic, flats".to_owned(),
        Inspected::Radius => "template".to_owned(),
        Inspected::Width => "ring or block".to_owned(),
        Inspected::Runout => "indicator, TIR".to_owned(),
        _ => from_file(&with.replace("micrometer", "mic")),
    };
    let parts = short.split(", ").flat_map(|part| measure::broken(part, 12.0, false, room));
    parts.take(2).collect()
}

/// Text alternative of the marks' picture.
pub fn marks_alt<'a>(standing_on: &str, name: &str, marks: impl Iterator<Item = (&'a str, &'a str)>) -> String {
    let marks = marks.map(|(label, at)| format!("{label} at {at}")).collect::<Vec<_>>().join(", ");
    format!("The work standing on its {standing_on}, lines {name}: {marks}.")
}
