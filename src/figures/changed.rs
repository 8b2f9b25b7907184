//! Numbers of the rest that are no longer those of the sheet the work was begun by.

use std::collections::BTreeMap;

use super::{Edge, Figure, Figures, OperationFigures, Position};
use crate::unit::Unit;

/// A number that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// What it is: `size`, `carriage`, `from datum`, `cross dial`.
    pub what: String,
    /// As the first sheet had it.
    pub was: String,
    /// As this one has it.
    pub now: String,
}

/// Marks each operation's numbers that differ from those it had in the plan the work was begun by, found by its number.
pub fn tell_changes(figures: &mut Figures, was: &Figures, unit: Unit) {
    let before: BTreeMap<u32, &OperationFigures> =
        was.setups.iter().flat_map(|s| &s.operations).map(|o| (o.number, o)).collect();
    for operation in figures.setups.iter_mut().flat_map(|s| &mut s.operations) {
        if let Some(was) = before.get(&operation.number) {
            operation.changed = changes(was, operation, unit);
        }
    }
}

fn changes(was: &OperationFigures, now: &OperationFigures, unit: Unit) -> Vec<Change> {
    let text = |f: Option<Figure>| f.map(|f| f.text(unit));
    let mut list = Vec::new();
    let mut compare = |what: String, was: Option<String>, now: Option<String>| {
        if let (Some(was), Some(now)) = (was, now)
            && was != now
        {
            list.push(Change { what, was, now });
        }
    };
    compare("size".to_owned(), text(was.aim), text(now.aim));
    compare("diameter before".to_owned(), text(was.from), text(now.from));
    let infeed = |o: &OperationFigures| o.cross_dial.as_ref().map(|d| d.infeed_text(unit));
    compare("cross dial".to_owned(), infeed(was), infeed(now));
    if was.positions.len() == now.positions.len() {
        for (was, now) in was.positions.iter().zip(&now.positions) {
            let (a, b) = (text(was.carriage), text(now.carriage));
            compare(format!("{}{}", frame(now, "carriage"), edge(now)), a, b);
            compare(frame(now, "from datum"), text(Some(was.from_datum)), text(Some(now.from_datum)));
        }
    }
    list.dedup();
    list
}

fn frame(position: &Position, frame: &str) -> String {
    if position.what.is_empty() { frame.to_owned() } else { format!("{}, {frame}", position.what) }
}

const fn edge(position: &Position) -> &'static str {
    match position.edge {
        Edge::Left => ", left edge",
        Edge::Right => ", right edge",
        Edge::None => "",
    }
}
