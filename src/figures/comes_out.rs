//! A hole that comes out at the other face: what stands beyond it, and how far past it the tool goes.

use super::given::Given;
use super::inside::{HoleLine, depth_label, line};
use crate::model::End;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::shop::ToolKind;
use crate::told;
use crate::unit::{Length, Station};

/// The depth of a hole that comes out; what to mind where it comes out into the open.
pub(super) fn through(given: &Given, setup: &Setup, op: &Operation, open: &str) -> HoleLine {
    let past = told!(
        "bar still stands beyond the other face: full diameter past where that will be",
        "hinter der anderen Planfläche steht noch Rohteil: voller Durchmesser bis hinter ihre Lage"
    );
    let note = if bar_beyond(given, setup, op) { past } else { open };
    line(depth_label(), told!("through", "durch").to_owned(), note)
}

/// How far past the other face a hole goes that comes out in bar which is faced or parted off there later: through the parting
/// tool's path, and a little (1 mm, .04 in: common practice, no source). Nothing where it comes out into the open.
pub(super) fn past_the_face(given: &Given, setup: &Setup, op: &Operation) -> Length {
    if !bar_beyond(given, setup, op) {
        return Length::ZERO;
    }
    let little = given.pick(40_000, 1_000);
    let part_off = setup.operations.iter().find(|o| o.verb == Verb::PartOff);
    let Some((at, face)) = part_off.and_then(|o| Some((o.to?, op.to?))) else { return little };
    let own = given.shop.and_then(|s| s.tools_of(ToolKind::Parting).filter_map(|t| t.width).max());
    (at - face).abs() + own.unwrap_or_else(|| given.pick(125_000, 3_000)) + little
}

/// Whether bar that will be faced off still stands beyond the face a hole comes out of.
fn bar_beyond(given: &Given, setup: &Setup, op: &Operation) -> bool {
    let (first, last, far) = (setup.before.first(), setup.before.last(), Station(given.overall));
    // A blind hole ends before that face and comes out nowhere.
    let Some(to) = op.to.filter(|_| op.inside) else { return false };
    match op.end {
        Some(End::Datum) => to >= far && last.is_some_and(|s| s.to > far),
        Some(End::Far) => to <= Station::DATUM && first.is_some_and(|s| s.from < Station::DATUM),
        None => false,
    }
}
