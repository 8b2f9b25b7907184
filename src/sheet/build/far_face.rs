//! Places that count from the far face itself, on a dial whose zero is corrected for the others.

use super::{Sources, row};
use crate::figures::{CountsFrom, OperationFigures, Position};
use crate::sheet::view::Cell;
use crate::sheet::words;
use crate::unit::Length;

/// Places that count from the far face itself while the dial's zero is corrected: a blank for what the dial shows there, and under it how it is found. A
/// number in its usual place could be taken for a reading of the corrected dial.
pub(super) fn places(s: &Sources, shown: &[&Position]) -> Cell {
    let under: Vec<String> = std::iter::once(words::FAR_FACE_ITSELF.say().to_owned())
        .chain(shown.iter().map(|p| words::edge(p.edge)).filter(|e| !e.is_empty()).take(1))
        .chain(shown.iter().map(|p| words::plus_what_was_set(&row::reading_in_column(s, p))))
        .collect();
    Cell { readings: shown.iter().map(|_| "______".to_owned()).collect(), under: row::in_column(&under, 5) }
}

/// A chamfer, and where its edge is.
pub(super) fn edge(s: &Sources, says: &str, of: &OperationFigures) -> String {
    let Some(edge) = of.positions.iter().find(|p| p.what == "edge" && p.carriage.is_some()) else {
        return says.to_owned();
    };
    let reading = row::reading(s, edge);
    if edge.zero == Some(CountsFrom::FarFace) {
        let touches = edge.carriage.is_some_and(|c| c.value == Length::ZERO);
        return words::edge_from_face(says, (!touches).then_some(reading.as_str()));
    }
    words::edge_at(says, &reading, s.shop.is_some_and(|shop| shop.carriage_dial.is_some()))
}
