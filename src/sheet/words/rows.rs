//! Rows of operations and the blocks below them.

use super::text::from_file;
use crate::figures::{CompoundHandle, Edge, Swing};
use crate::model::End;
use crate::unit::Unit;
use crate::{tell, told};

/// Facing an end to length.
pub fn face_to(end: Option<End>, limits: &str) -> String {
    match end {
        Some(End::Datum) => tell!("the datum end: {limits} overall", "Bezugsende: {limits} gesamt"),
        _ => tell!("the far end: {limits} overall", "Gegenende: {limits} gesamt"),
    }
}

/// Under the head of the sizes to measure: the unit they are read in, where it is not the drawing's.
pub fn measure_sub(read: Unit, drawn: Unit) -> String {
    if read == drawn {
        return super::fixed::MEASURE_SUB.say().to_owned();
    }
    match read {
        Unit::Inch => told!("in inches", "in Zoll").to_owned(),
        Unit::Millimetre => told!("in mm", "in mm").to_owned(),
    }
}

/// The face lengths count from, and the unit of the carriage dial where it is not the drawing's.
pub fn from_in(datum: bool, dial: Unit) -> String {
    let face = if datum { told!("datum", "Bezug") } else { told!("far face", "Gegenfl.") };
    format!("{face}, {}", dial.word())
}

/// A size as the drawing has it, under what the instrument shows.
pub fn drawn(size: &str, unit: Unit) -> String {
    format!("{size} {}", unit.word())
}

/// What polishing leaves, as the micrometer reads it and as it is drawn.
pub fn polished(size: &str, limits: Option<(String, String)>, unit: Unit, drawn: &str) -> String {
    let limits = limits.map_or(String::new(), |(max, min)| format!(" ({max} / {min})"));
    let read = format!("Ø {size} {}{limits}", unit.word());
    tell!("{read}, drawn {drawn}", "{read}, gezeichnet {drawn}")
}

/// A size, and what an instrument in the other unit reads for it.
pub fn read_as(size: &str, read: Option<String>) -> String {
    read.map_or(size.to_owned(), |read| tell!("{size} [reads {read}]", "{size} [zeigt {read}]"))
}

/// Facing clean.
pub fn face_clean(end: Option<End>) -> String {
    match end {
        Some(End::Far) => told!("the far end clean", "Gegenende, bis sauber").to_owned(),
        _ => told!("the datum end clean", "Bezugsende, bis sauber").to_owned(),
    }
}

/// Under a verb.
pub fn with(letters: &str) -> String {
    tell!("with {letters}", "mit {letters}")
}

/// Spindle speed.
pub fn rpm(number: &str) -> String {
    tell!("{number} rpm", "{number} U/min")
}

/// Behind the slowest gear, where that is faster than wanted.
pub fn no_gear_so_slow(wanted: &str) -> String {
    tell!(
        " ({wanted} wanted, no gear so slow: light cuts)",
        " ({wanted} gewollt, kein so langsamer Gang: leichte Schnitte)"
    )
}

/// Spindle speed where the gears are not told.
pub fn rpm_at_most(number: &str) -> String {
    tell!("up to {number} rpm", "bis {number} U/min")
}

/// Width of a tool.
pub fn tool_wide(width: &str) -> String {
    tell!("{width} tool", "Stahl {width}")
}

/// `3 passes`: how deep each is stands with the dial.
pub fn passes(count: u32) -> String {
    if count == 1 { told!("1 pass", "1 Schnitt").to_owned() } else { tell!("{count} passes", "{count} Schnitte") }
}

/// `3 × .058 a side`, where no dial is told.
pub fn passes_a_side(count: u32, depth: &str) -> String {
    tell!("{count} × {depth} a side", "{count} × {depth} je Seite")
}

/// What each of some passes takes on the dial.
pub fn each(depth: &str) -> String {
    tell!("each {depth}", "je {depth}")
}

/// What a thread's place on the carriage is.
pub fn thread_place(what: &str) -> String {
    match what {
        "thread ends" => told!("thread ends", "Gewinde endet").to_owned(),
        "out by" => told!("out by", "spätestens draußen").to_owned(),
        "begins in the relief" => told!("begins in the relief", "beginnt im Freistich").to_owned(),
        "runs off" => told!("runs off", "läuft aus").to_owned(),
        other => from_file(other),
    }
}

/// Which end of the compound is swung which way.
pub fn swung(swing: Swing) -> String {
    match swing {
        Swing::TowardYou => told!("its tailstock end toward you", "sein Reitstockende zu dir"),
        Swing::AwayFromYou => told!("its tailstock end away from you", "sein Reitstockende von dir weg"),
    }
    .to_owned()
}

/// Which way the tailstock is set over.
pub fn tailstock_moved(swing: Swing) -> String {
    match swing {
        Swing::TowardYou => told!("tailstock toward you", "Reitstock zu dir"),
        Swing::AwayFromYou => told!("tailstock away from you", "Reitstock von dir weg"),
    }
    .to_owned()
}

/// Which way the compound is swung for a thread.
pub fn handle(handle: CompoundHandle) -> String {
    match handle {
        CompoundHandle::Tailstock => {
            told!(
                "Swing the compound's handle toward the tailstock.",
                "Kurbel des Oberschlittens zum Reitstock schwenken."
            )
        }
        CompoundHandle::Headstock => told!(
            "Swing the compound's handle toward the HEADSTOCK.",
            "Kurbel des Oberschlittens zum SPINDELSTOCK schwenken."
        ),
    }
    .to_owned()
}

/// Which edge of the tool stands at the reading.
pub fn edge(edge: Edge) -> String {
    match edge {
        Edge::Left => told!("LEFT edge", "LINKE Kante").to_owned(),
        Edge::Right => told!("RIGHT edge", "RECHTE Kante").to_owned(),
        Edge::None => String::new(),
    }
}

/// Two readings that are set with different edges.
pub fn edges(first: Edge, second: Edge) -> String {
    tell!("first {}, second {}", "erst {}, dann {}", edge(first), edge(second))
}

/// The same length from the datum.
pub fn datum(length: &str) -> String {
    tell!("datum {length}", "Bezug {length}")
}

/// Turns of a dial and what is left.
pub fn turns(turns: i64, rest: &str) -> String {
    let turned =
        if turns == 1 { told!("1 turn", "1 Umdr.").to_owned() } else { tell!("{turns} turns", "{turns} Umdr.") };
    // The plus stays with what is added, wherever the line breaks.
    if rest.is_empty() { turned } else { format!("{turned} +\u{a0}{rest}") }
}

/// Where a tool was touched.
pub fn zero_on(letter: &str, diameter: &str) -> String {
    if letter.is_empty() {
        tell!("0 at Ø {diameter}", "0 bei Ø {diameter}")
    } else {
        tell!("0 on {letter} at {diameter}", "0 auf {letter} bei {diameter}")
    }
}

/// A thread and its hand.
pub fn thread(designation: &str, right_hand: bool) -> String {
    format!("{designation}, {}", if right_hand { told!("right hand", "rechts") } else { told!("LEFT HAND", "LINKS") })
}

/// A keyseat.
pub fn keyseat(key: &str, width: &str) -> String {
    tell!("keyseat for {key}, {width} wide", "Nut für {key}, {width} breit")
}

/// A center hole; `usual_for` the diameter it is usual for, where the drawing says no size.
pub fn center(size: &str, mouth: &str, usual_for: Option<&str>) -> String {
    let usual = usual_for.map(|d| tell!(" (usual for Ø {d})", " (üblich für Ø {d})")).unwrap_or_default();
    tell!("{size}{usual}, until the mouth measures Ø {mouth}", "{size}{usual}, bis die Mündung Ø {mouth} misst")
}

/// Polishing.
pub fn to_finish(finish: &str) -> String {
    tell!("to {}", "auf {}", from_file(finish))
}

/// A cross hole.
pub fn cross_hole(size: &str, at: &str) -> String {
    if at.is_empty() {
        tell!("Ø {size} through", "Ø {size} durch")
    } else {
        tell!("Ø {size} through, {at} from the datum face", "Ø {size} durch, {at} ab Bezugsfläche")
    }
}

/// Trying the mates.
pub fn fit_test(mates: &[String]) -> String {
    if mates.is_empty() {
        told!("measure the seats: nothing of it goes on by hand", "Sitze messen: nichts davon geht von Hand auf")
            .to_owned()
    } else {
        tell!("try {}", "{} probieren", mates.join(", "))
    }
}

/// `cut 1`.
pub fn cut(number: usize) -> String {
    tell!("cut {number}", "Span {number}")
}

/// Reading after a cut.
pub fn after(cut: &str) -> String {
    tell!("after {cut}", "nach {cut}")
}

/// A depth a side, where no dial is told.
pub fn a_side(depth: &str) -> String {
    tell!("{depth} a side", "{depth} je Seite")
}

/// A taper's angle.
pub fn from_the_axis(degrees: f64, rate: &str) -> String {
    tell!("from the axis ({degrees:.3}°), {rate}", "zur Achse ({degrees:.3}°), {rate}")
}

/// What an indicator moves along a taper.
pub fn indicator(unit: Unit, drop: &str) -> String {
    let travel = match unit {
        Unit::Inch => told!("1 inch", "1 Zoll"),
        Unit::Millimetre => told!("25 mm", "25 mm"),
    };
    tell!("an indicator along it moves {drop} in {travel}", "eine Messuhr daran entlang wandert {drop} auf {travel}")
}

/// What the scale of a taper attachment is set to.
pub fn attachment(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => told!(
            "on the diameter in a foot; the tool exactly at center height, play drawn out before each pass",
            "im Ø auf 1 Fuß; Werkzeug genau auf Spitzenhöhe, Spiel vor jedem Schnitt herausfahren"
        ),
        Unit::Millimetre => told!(
            "on the diameter in 100 mm; the tool exactly at center height, play drawn out before each pass",
            "im Ø auf 100 mm; Werkzeug genau auf Spitzenhöhe, Spiel vor jedem Schnitt herausfahren"
        ),
    }
}

/// A diameter to measure.
pub fn diameter_at(place: &str) -> String {
    tell!("Ø at {place}", "Ø bei {place}")
}

/// The compound set over.
pub fn compound(angle: &str) -> String {
    tell!("Compound, {angle}", "Oberschlitten, {angle}")
}

/// The whole depth straight in.
pub fn straight(dial: bool, depth: &str, which: &str) -> String {
    if dial {
        tell!("Straight in by the cross dial: {depth}.", "Gerade zustellen, am Planschlitten {depth}.")
    } else {
        let which = if which == "total height" { told!("total height", "ganze Höhe") } else { which };
        tell!("Depth a side {depth} ({which}).", "Tiefe je Seite {depth} ({which}).")
    }
}

/// The nose that a thread's depth belongs to.
pub fn nose(radius: &str) -> String {
    tell!(
        "For a nose rounded {radius}; a sharper one goes deeper, as the wires say.",
        "Für eine mit {radius} gerundete Spitze; eine schärfere geht tiefer, wie die Drähte sagen."
    )
}

/// Over wires.
pub fn over_wires(wire: &str) -> String {
    tell!("Over wires {wire}", "Über Drähte {wire}")
}

/// On the keyseat's section.
pub fn from_the_top(depth: &str) -> String {
    tell!("{depth} from the top", "{depth} von oben")
}

/// On the keyseat's section.
pub fn at_the_side(depth: &str) -> String {
    tell!("{depth} at the side", "{depth} an der Seite")
}

/// On the keyseat's section.
pub fn across_the_bottom(size: &str) -> String {
    tell!("{size} across the bottom", "{size} über den Grund")
}

/// On the keyseat's section.
pub fn wide(width: &str) -> String {
    tell!("{width} wide", "{width} breit")
}

/// How deep a hole goes.
pub fn deep_from(depth: &str, end: crate::model::End) -> String {
    tell!("{depth} deep from the {}", "{depth} tief vom {}", super::trade::end(end))
}

/// The chamfer at a bore's mouth; one of 30° to the axis is what a center bears on.
pub fn mouth(says: &str, angle_deg: f64, by_diameter: bool) -> String {
    let seat = (angle_deg - 30.0).abs() < 1e-6;
    if seat && by_diameter {
        tell!("mouth {says}: a seat for the center", "Mündung {says}: Sitz für die Spitze")
    } else if seat {
        tell!(
            "mouth {says} to the axis: a 60° seat for the center",
            "Mündung {says} zur Achse: 60°-Sitz für die Spitze"
        )
    } else {
        tell!("mouth {says}", "Mündung {says}")
    }
}

/// The first line of a hole: `7/16 (.4375), spot with the center drill first`.
pub fn hole(first: Option<(&str, &str)>) -> String {
    match first {
        Some((value, "")) => value.to_owned(),
        Some((value, note)) => format!("{value}: {note}"),
        None => String::new(),
    }
}

/// How a mate fits its seat: `gear, bore .8750 (its limits are not stated): .0000 to .0005 clearance.`
pub fn mate(part: &str, within: bool, bore: &str, by: &str, fits: &str) -> String {
    let by = if by.is_empty() { String::new() } else { format!(" ({by})") };
    if within {
        return tell!("{part}, outside {bore}{by}: {fits}.", "{part}, außen {bore}{by}: {fits}.");
    }
    tell!("{part}, bore {bore}{by}: {fits}.", "{part}, Bohrung {bore}{by}: {fits}.")
}

/// How a tight mate goes into its bore.
pub fn press_in() -> &'static str {
    told!(
        " Where it is tight, press it in square by its outer ring, never through the balls.",
        " Wo es eng ist: gerade und am Außenring einpressen, nie über die Kugeln."
    )
}

/// How a tight mate goes on.
pub fn warm(rise: f64, most: f64, enough: bool, unit: Unit) -> String {
    let scale = if unit == Unit::Inch { "°F" } else { "°C" };
    if enough {
        tell!(
            " At its tightest warm it {rise:.0} {scale} above the shaft, never over {most:.0} {scale}, and slide it on: tongs or heat-proof gloves, no open flame.",
            " Wenn es am engsten ist: {rise:.0} {scale} wärmer als die Welle machen, nie über {most:.0} {scale}, und aufschieben: Zange oder Hitzehandschuhe, keine offene Flamme."
        )
    } else {
        tell!(
            " Press it on by the ring that is tight: at its tightest warming alone, up to {most:.0} {scale}, does not let it slide.",
            " Am festen Ring aufpressen: wenn es am engsten ist, reicht Erwärmen allein, bis {most:.0} {scale}, nicht zum Aufschieben."
        )
    }
}
