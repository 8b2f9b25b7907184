//! Marks and inspection.

use super::fixed::ALL;
use super::text::capital;
use super::text::from_file;
use crate::figures::{Inspected, Mark};
use crate::sheet::measure;
use crate::unit::Unit;
use crate::{tell, told};

/// The letters of a size to inspect; a distance between two faces has a dash.
pub fn inspected(letters: &str, kind: Inspected) -> String {
    let mut chars = letters.chars();
    match (kind, chars.next(), chars.next(), chars.next()) {
        (_, None, ..) => ALL.say().to_owned(),
        (Inspected::Own, ..) => tell!("{letters} long", "{letters} lang"),
        (Inspected::Distance, Some(a), Some(b), None) => format!("{a}–{b}"),
        (Inspected::Runout, ..) => from_file(&letters.replace(" to ", told!(" to ", " zu "))),
        _ => from_file(letters),
    }
}

/// Under the heading: from where the lengths of the page count.
pub fn inspected_cold(own: bool, distances: bool) -> String {
    let mut out = told!(
        "Cold, deburred, clean. Lengths count from the datum face",
        "Kalt, entgratet, sauber. Längen ab der Bezugsfläche"
    )
    .to_owned();
    if own {
        out += told!("; “long” is a feature’s own length", "; „lang“ ist die eigene Länge");
    }
    if distances {
        out += told!("; A–C from face to face", "; A–C von Fläche zu Fläche");
    }
    out + "."
}

/// When a line can be scribed.
pub fn after_operation(number: u32) -> String {
    tell!("after {number}", "nach {number}")
}

/// Heading of a list of marks.
pub fn mark_list(number: usize, name: &str, when: &str, standing_on: Option<&str>) -> String {
    let standing = standing_on.map_or(String::new(), |s| {
        tell!("; stands on the {}", "; steht auf: {}", super::trade::standing_on(s).to_uppercase())
    });
    format!("{number}  {}: {when}{standing}", capital(super::trade::list_name(name)))
}

/// Heads of a list of marks.
pub fn mark_heads(gauge: Option<Unit>) -> Vec<String> {
    let mut heads = [
        told!("mark", "Riss"),
        told!("HEIGHT\nGAUGE", "HÖHEN-\nREISSER"),
        told!("scribe on", "anreißen auf"),
        told!("means,\nand the line", "heißt,\nund der Riss"),
    ]
    .map(String::from)
    .to_vec();
    if let Some(unit) = gauge {
        heads[1] = format!("{}, {}", heads[1], unit.word());
    }
    heads
}

/// Heads of a list to inspect; `drawn` where limits stand as drawn, and beside them as the instrument reads.
pub fn inspection_heads(drawn: Option<(Unit, Unit)>) -> Vec<String> {
    let (limits, with) = (told!("limits", "Grenzen"), told!("with", "womit"));
    if let Some((drawn, read)) = drawn {
        let name = |unit: Unit| if unit == Unit::Inch { told!("inches", "Zoll") } else { "mm" };
        return ["", name(drawn), name(read), with, told!("measured", "gemessen"), told!("ok", "gut")]
            .map(str::to_owned)
            .to_vec();
    }
    ["", limits, with, told!("measured", "gemessen"), told!("ok", "gut")].map(String::from).to_vec()
}

/// An instrument in the width of its column, at most two lines.
pub fn instrument(with: &str, kind: Inspected, room: f64) -> Vec<String> {
    let short = match kind {
        Inspected::AcrossBottom => told!("mic, bottom", "Mikro, Grund").to_owned(),
        Inspected::AcrossFlats => told!("mic, flats", "Mikro, Flächen").to_owned(),
        Inspected::Radius => told!("template", "Schablone").to_owned(),
        Inspected::Width => told!("ring or block", "Ring, Endmaß").to_owned(),
        Inspected::Runout => told!("indicator, TIR", "Messuhr").to_owned(),
        Inspected::Gauge => told!("pipe gauge, by hand", "Rohrlehre, von Hand").to_owned(),
        Inspected::Throw => told!("throw: half of indicator", "Exzenter: halbe Messuhr").to_owned(),
        // As short as the column is.
        _ => {
            let short: [(&str, &str); 12] = [
                ("depth micrometer", told!("depth mic", "Tiefenmaß")),
                ("micrometer", told!("mic", "Mikro")),
                ("caliper", told!("caliper", "Schieber")),
                ("dial indicator", told!("indicator", "Messuhr")),
                ("wires ", told!("wires ", "Drähte ")),
                ("small-hole gauge", told!("small-hole gauge", "Lochtaster")),
                ("telescoping gauge", told!("telescoping gauge", "Teleskoplehre")),
                ("bore gauge", told!("bore gauge", "Innenmessgerät")),
                ("plug gauge ", told!("plug gauge ", "Lehrdorn ")),
                (" and ", "/"),
                (" or its screw", told!(" or its screw", " oder Schraube")),
                (" that reaches ", told!(" that reaches ", " bis ")),
            ];
            from_file(&short.iter().fold(with.to_owned(), |name, (long, said)| name.replace(long, said)))
        }
    };
    let parts = short.split(", ").flat_map(|part| measure::broken(part, 12.0, false, room));
    parts.take(2).collect()
}

/// What measures the ends of a taper.
pub fn taper_ends(room: f64) -> Vec<String> {
    measure::broken(told!("large and small end", "dickes, dünnes Ende"), 12.0, false, room)
}

/// What proves the angle of a taper.
pub fn taper_blue(room: f64) -> Vec<String> {
    let whole = measure::broken(told!("blue: bears all along", "tuschiert: trägt ganz"), 12.0, false, room);
    // A row has room for two lines.
    if whole.len() < 3 { whole } else { measure::broken(told!("blue, all along", "tuschiert"), 12.0, false, room) }
}

/// Half of a taper's angle, from the axis.
pub fn half_angle(degrees: f64) -> String {
    let minutes = (degrees * 60.0).round() as i64;
    format!("{}° {:02}′", minutes / 60, minutes % 60)
}

/// Text alternative of the marks' picture.
pub fn marks_alt<'a>(standing_on: &str, name: &str, marks: impl Iterator<Item = (&'a str, &'a str)>) -> String {
    let marks = marks.map(|(label, at)| tell!("{label} at {at}", "{label} bei {at}")).collect::<Vec<_>>().join(", ");
    tell!(
        "The work standing on its {standing_on}, lines {name}: {marks}.",
        "Das Werkstück steht auf: {standing_on}; Risse {name}: {marks}."
    )
}

/// Which side of a line is cut, and whether it may be pricked.
pub fn leave_and_prick(mark: &Mark) -> String {
    let leave = super::trade::leave(mark.leave);
    if mark.prick { tell!("{leave}, prick", "{leave}, körnen") } else { leave.to_owned() }
}

/// Heading of the lines scribed lying.
pub fn lying_list(number: usize, when: &str) -> String {
    tell!(
        "{number}  Lying in V-blocks: {when}. Read the gauge over the round",
        "{number}  Liegend in Prismen: {when}. Über der Kuppe ablesen"
    )
}

/// What a line scribed lying is set to, with room for the reading over the round there and for what is left of it.
pub fn lying_setting(label: &str, below: &str) -> String {
    tell!("{label}: ________ \u{2212} {below} = ________", "{label}: ________ \u{2212} {below} = ________")
}

/// What it means, where it lies.
pub fn lying_line(means: &str, along: &str, angle: Option<f64>, prick: bool) -> String {
    let at = angle.map_or(String::new(), |a| tell!(", at {a}°", ", bei {a}°"));
    let prick = if prick { told!("; prick", "; körnen") } else { "" };
    tell!("  {means}, {along} from the datum face{at}{prick}", "  {means}, {along} ab Bezugsfläche{at}{prick}")
}
