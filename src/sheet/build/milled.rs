//! How the work lies on the mill.

use super::Sources;
use crate::figures::SetupFigures;
use crate::model::plan::{Grip, Setup};
use crate::sheet::words;

/// On what the work lies on the mill, and the stop that lengths count from.
pub(super) fn on_the_mill(s: &Sources, setup: &Setup, figures: &SetupFigures) -> String {
    let place = |g: &Grip| words::lies_on(&g.letter, &s.length(g.diameter), g.protect);
    let Some(grip) = &setup.grip else { return words::nothing_to_lie_on().to_owned() };
    let slot = setup
        .operations
        .iter()
        .any(|o| o.from.zip(o.to).is_some_and(|(a, b)| a.min(b) < grip.to && grip.from < a.max(b)));
    if let Some(also) = setup.also.as_ref().filter(|a| a.letter == grip.letter) {
        let on = words::lies_on(&grip.letter, &s.length(grip.diameter), grip.protect || also.protect);
        return words::on_both_sides(&on);
    }
    let packing = figures.packing.map(|p| p.text(s.unit()));
    let on = words::on_the_mill(&place(grip), setup.also.as_ref().map(place).as_deref(), packing.as_deref(), slot);
    if hangs_outside(grip, setup) { on + words::hangs_outside() } else { on }
}

/// Whether a cut lies beyond both blocks: its pressure has nothing under it, and the work tips.
fn hangs_outside(grip: &Grip, setup: &Setup) -> bool {
    let Some(also) = &setup.also else { return false };
    let (low, high) = (grip.from.min(also.from), grip.to.max(also.to));
    let spans = setup.operations.iter().filter_map(|o| o.from.zip(o.to));
    spans.map(|(a, b)| (a.min(b), a.max(b))).any(|(a, b)| b <= low || a >= high)
}

/// The end that the chuck of the dividing head holds.
pub(super) fn in_the_dividing_head(s: &Sources, setup: &Setup) -> String {
    let head = words::DIVIDING_HEAD.say();
    let held = match &setup.grip {
        Some(g) => words::chuck_of_the_head(&words::lies_on(&g.letter, &s.length(g.diameter), g.protect)),
        None => words::nothing_to_lie_on().to_owned(),
    };
    format!("{head} {held}")
}
