//! Rows of operations and the blocks below them.

use super::text::from_file;
use crate::figures::Edge;
use crate::model::End;
use crate::unit::Unit;

/// Facing to length.
pub fn face_to(limits: &str) -> String {
    format!("the far end: {limits} overall")
}

/// Facing clean.
pub fn face_clean(end: Option<End>) -> String {
    match end {
        Some(End::Far) => "the far end clean".to_owned(),
        _ => "the datum end clean".to_owned(),
    }
}

/// Under a verb.
pub fn with(letters: &str) -> String {
    format!("with {letters}")
}

/// Spindle speed.
pub fn rpm(number: &str) -> String {
    format!("{number} rpm")
}

/// Spindle speed where the gears are not told.
pub fn rpm_at_most(number: &str) -> String {
    format!("up to {number} rpm")
}

/// Width of a tool.
pub fn tool_wide(width: &str) -> String {
    format!("{width} tool")
}

/// `3 passes of .058`.
pub fn passes(count: u32, depth: &str) -> String {
    if count == 1 { format!("1 pass of {depth}") } else { format!("{count} passes of {depth}") }
}

/// Which edge of the tool stands at the reading.
pub fn edge(edge: Edge) -> String {
    match edge {
        Edge::Left => "LEFT edge".to_owned(),
        Edge::Right => "RIGHT edge".to_owned(),
        Edge::None => String::new(),
    }
}

/// The same length from the datum.
pub fn datum(length: &str) -> String {
    format!("datum {length}")
}

/// Turns of a dial and what is left.
pub fn turns(turns: i64, rest: &str) -> String {
    let turned = if turns == 1 { "1 turn".to_owned() } else { format!("{turns} turns") };
    // The plus stays with what is added, wherever the line breaks.
    if rest.is_empty() { turned } else { format!("{turned} +\u{a0}{rest}") }
}

/// Where a tool was touched.
pub fn zero_on(letter: &str, diameter: &str) -> String {
    if letter.is_empty() { format!("0 at Ø {diameter}") } else { format!("0 on {letter} at {diameter}") }
}

/// A thread and its hand.
pub fn thread(designation: &str, right_hand: bool) -> String {
    format!("{designation}, {}", if right_hand { "right hand" } else { "LEFT HAND" })
}

/// A keyseat.
pub fn keyseat(key: &str, width: &str) -> String {
    format!("keyseat for {key}, {width} wide")
}

/// A center hole; `usual_for` the diameter it is usual for, where the drawing says no size.
pub fn center(size: &str, mouth: &str, usual_for: Option<&str>) -> String {
    let usual = usual_for.map(|d| format!(" (usual for Ø {d})")).unwrap_or_default();
    format!("{size}{usual}, until the mouth measures Ø {mouth}")
}

/// Polishing.
pub fn polish(finish: Option<&str>) -> String {
    finish.map_or(String::new(), |f| format!("to {}", from_file(f)))
}

/// A cross hole.
pub fn cross_hole(size: &str, at: &str) -> String {
    if at.is_empty() { format!("Ø {size} through") } else { format!("Ø {size} through, {at} from the datum face") }
}

/// Parting off.
pub fn part_off(overall: &str) -> String {
    format!("at {overall} and what the face needs")
}

/// Trying the mates.
pub fn fit_test(mates: &[String]) -> String {
    if mates.is_empty() { "try what goes on the part".to_owned() } else { format!("try {}", mates.join(", ")) }
}

/// `cut 1`.
pub fn cut(number: usize) -> String {
    format!("cut {number}")
}

/// Reading after a cut.
pub fn after(cut: &str) -> String {
    format!("after {cut}")
}

/// A depth a side, where no dial is told.
pub fn a_side(depth: &str) -> String {
    format!("{depth} a side")
}

/// A taper's angle.
pub fn from_the_axis(degrees: f64, rate: &str) -> String {
    format!("from the axis ({degrees:.3}°), {rate}")
}

/// What an indicator moves along a taper.
pub fn indicator(unit: Unit, drop: &str) -> String {
    let travel = match unit {
        Unit::Inch => "1 inch",
        Unit::Millimetre => "25 mm",
    };
    format!("or an indicator moves {drop} in {travel}")
}

/// A diameter to measure.
pub fn diameter_at(place: &str) -> String {
    format!("Ø at {place}")
}

/// The compound set over.
pub fn compound(angle: &str) -> String {
    format!("Compound, {angle}")
}

/// Passes without infeed.
pub fn spring_passes(count: u32, at: &str) -> String {
    match count {
        1 => format!("Then once more at {at}."),
        2 => format!("Then twice more at {at}."),
        n => format!("Then {n} times more at {at}."),
    }
}

/// The whole depth straight in.
pub fn straight(dial: bool, depth: &str, which: &str) -> String {
    if dial { format!("Straight in by the cross dial: {depth}.") } else { format!("Depth a side {depth} ({which}).") }
}

/// Over wires.
pub fn over_wires(wire: &str) -> String {
    format!("Over wires {wire}")
}

/// The time a relief gives.
pub fn relief_gives(letter: &str, seconds: f64) -> String {
    let relief = if letter.is_empty() { "the run-out".to_owned() } else { format!("relief {letter}") };
    format!("{relief} gives {seconds:.1} s to open the half-nuts")
}

/// A clocked keyseat.
pub fn clocking(degrees: f64) -> String {
    format!("{degrees}°, counter-clockwise seen from the datum end")
}

/// On the keyseat's section.
pub fn from_the_top(depth: &str) -> String {
    format!("{depth} from the top")
}

/// On the keyseat's section.
pub fn at_the_side(depth: &str) -> String {
    format!("{depth} at the side")
}

/// On the keyseat's section.
pub fn across_the_bottom(size: &str) -> String {
    format!("{size} across the bottom")
}

/// On the keyseat's section.
pub fn wide(width: &str) -> String {
    format!("{width} wide")
}

/// How deep a hole goes.
pub fn deep_from(depth: &str, end: crate::model::End) -> String {
    format!("{depth} deep from the {} end", end.word())
}

/// The chamfer at a bore's mouth; one of 30° to the axis is what a center bears on.
pub fn mouth(says: &str, angle_deg: f64) -> String {
    if (angle_deg - 30.0).abs() < 1e-6 {
        format!("mouth {says} to the axis: a 60° seat for the center")
    } else {
        format!("mouth {says}")
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
