//! What a flat, a keyseat or a hole across is touched off on, where that is no plain cylinder about the part's axis: the points of a
//! knurl, a taper, an eccentric. Plain geometry; how it is touched is common practice, no source.

use super::Figure;
use super::given::Given;
use crate::check::round::{Round, Surface};
use crate::model::Feature;
use crate::unit::{Length, Station};
use crate::{tell, told};

/// Where a taper is as large as the numbers say, from the datum face; none on other rounds.
pub(super) fn at(given: &Given, round: &Round<'_>) -> Option<Figure> {
    match round.is {
        Surface::Cone { at, .. } => Some(Figure::usual(at - Station::DATUM, given.unit)),
        _ => None,
    }
}

/// Where a taper has become so small that flats along the axis leave it, within what they span; none where they do not.
pub(super) fn runs_out(
    given: &Given,
    round: &Round<'_>,
    across: Length,
    (from, to): (Station, Station),
) -> Option<Figure> {
    let Surface::Cone { start, end, .. } = round.is else { return None };
    let piece = given.profile.piece(round.section.id)?;
    let (low, high) = (start.min(end), start.max(end));
    if !(low < across && across < high) {
        return None;
    }
    let at = piece.from + piece.long().times_ratio((across - start).pm(), (end - start).pm());
    (from < at && at < to).then(|| Figure::usual(at - Station::DATUM, given.unit))
}

/// What is to be known before it is touched off; nothing on a plain cylinder.
pub(super) fn first(given: &Given, round: &Round<'_>, feature: &Feature) -> Vec<String> {
    let text = |f: Figure| f.text(given.unit);
    let letter = given.spoken(round.section.id);
    match round.is {
        Surface::Plain if round.measured => vec![tell!(
            "Worked for {letter} as it was measured, {}.",
            "Gerechnet für {letter} wie gemessen, {}.",
            text(Figure::fine(round.diameter, given.unit))
        )],
        Surface::Plain => Vec::new(),
        Surface::Points { blank } => vec![tell!(
            "The round is that over the points of {letter}, about {} on a blank of {}: measure it, paper between, and count from what it is.",
            "Das Rund ist das über die Spitzen von {letter}, etwa {} auf einem Rohling von {}: messen, Papier dazwischen, und vom Istmaß rechnen.",
            text(Figure::usual(round.diameter, given.unit)),
            text(Figure::usual(blank, given.unit))
        )],
        Surface::Cone { at, .. } => vec![tell!(
            "Axis level. The round is that of {letter} at {} from the datum face: Ø {}.",
            "Achse waagerecht. Das Rund ist das von {letter} bei {} ab Bezugsfläche: Ø {}.",
            text(Figure::usual(at - Station::DATUM, given.unit)),
            text(Figure::fine(round.diameter, given.unit))
        )],
        Surface::Thrown { throw } => vec![thrown(&letter, &text(Figure::fine(throw, given.unit)), feature, round)],
    }
}

/// On an eccentric everything counts from its own round, and around the part from its high side.
fn thrown(letter: &str, throw: &str, feature: &Feature, round: &Round<'_>) -> String {
    let high = round.section.angle_mdeg.unwrap_or(0);
    match feature.angle_mdeg {
        Some(angle) => {
            let on = (angle - high).rem_euclid(360_000) as f64 / 1000.0;
            tell!(
                "Sides and top touched are those of {letter} itself, its axis {throw} off the part's. High side up by indicator, then {on}° on from it (counter-clockwise seen from the datum end) up.",
                "Angekratzt werden Seiten und Kuppe von {letter} selbst, Achse {throw} neben der des Teils. Hohe Seite mit der Messuhr nach oben, dann die Stelle {on}° weiter (gegen die Uhr, vom Bezugsende gesehen) nach oben."
            )
        }
        None => tell!(
            "Sides and top touched are those of {letter} itself, its axis {throw} off the part's. No angle to its high side is stated: ask before cutting.",
            "Angekratzt werden Seiten und Kuppe von {letter} selbst, Achse {throw} neben der des Teils. Kein Winkel zur hohen Seite angegeben: vor dem Fräsen fragen."
        ),
    }
}

/// The top that flats are touched on, on a taper with the place along it.
pub(super) fn top(round: &Round<'_>, at: Option<String>, depth: &str) -> String {
    match (round.is, at) {
        (Surface::Cone { .. }, Some(at)) => tell!(
            "Cutter's edge {at} from the datum face: touch the top there with paper, zero, down by the paper, then {depth} more.",
            "Fräserkante {at} ab Bezugsfläche: dort die Kuppe mit Papier ankratzen, Null, um das Papier zustellen, dann noch {depth}."
        ),
        _ => tell!(
            "Touch the top of the round with paper, zero, down by the paper, then {depth} more.",
            "Kuppe mit Papier ankratzen, Null, um das Papier zustellen, dann noch {depth}."
        ),
    }
}

/// At which height the next flat is cut.
pub(super) fn next_height(round: &Round<'_>) -> &'static str {
    match round.is {
        Surface::Thrown { .. } => told!(
            "each touched off anew on its own top: the heights differ",
            "jede auf ihrer eigenen Kuppe neu angekratzt: die Höhen sind verschieden"
        ),
        _ => told!("at the same height", "auf gleicher Höhe"),
    }
}
