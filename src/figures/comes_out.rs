//! A hole that comes out at the other face: what stands beyond it, and how far past it the tool goes.

use super::Figure;
use super::given::{Given, at_tailstock, carriage};
use super::inside::{HoleLine, depth_label, line, tapped_of};
use crate::handbook::drill::point_length;
use crate::model::End;
use crate::model::inside::Tapped;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::shop::ToolKind;
use crate::unit::{Length, Station};
use crate::{tell, told};

/// Threads on the lead of a plug tap: 3 to 5 (ASME B94.9, from memory).
pub(super) const LEAD: i64 = 4;
/// Pitches that stay below the point of a tap, for chips (common practice, no source).
const BELOW: i64 = 2;

/// The depth of a hole that comes out. Where bar still stands behind, it is blind, and is told by a number: there is nothing to see it come out of.
pub(super) fn through(given: &Given, setup: &Setup, op: &Operation, open: &str) -> HoleLine {
    let Some(deep) = in_the_bar(given, setup, op) else {
        return line(depth_label(), told!("through", "durch").to_owned(), open);
    };
    let text = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let note = match op.to_diameter.filter(|_| op.verb == Verb::Drill) {
        Some(size) => tell!(
            "from the face to the full diameter: past where the other face will be, bar still stands there; {} to the point",
            "ab Planfläche bis zum vollen Durchmesser: bis hinter die Lage der anderen Planfläche, dort steht noch Rohteil; {} bis zur Bohrerspitze",
            text(deep + point_length(size))
        ),
        None => told!(
            "from the face: past where the other face will be, bar still stands there",
            "ab Planfläche: bis hinter die Lage der anderen Planfläche, dort steht noch Rohteil"
        )
        .to_owned(),
    };
    line(depth_label(), text(deep), note)
}

/// How deep a hole goes, from the face at the tailstock, that comes out in bar; none where it comes out into the open.
pub(super) fn in_the_bar(given: &Given, setup: &Setup, op: &Operation) -> Option<Length> {
    let past = past_the_face(given, setup, op);
    let deep = carriage(op.to?, at_tailstock(setup)?, given.overall);
    past.is_positive().then(|| deep + past)
}

/// A through hole tapped while bar stands behind it: how deep the full thread, and how deep the tap with its lead. None where it comes out.
pub(super) fn tapped_blind(given: &Given, setup: &Setup, op: &Operation, thread: &Tapped) -> Option<(Length, Length)> {
    if !bar_beyond(given, setup, op) {
        return None;
    }
    let full = carriage(op.to?, at_tailstock(setup)?, given.overall) + left_on(setup, op);
    Some((full, full + thread.pitch.times(LEAD)))
}

/// What is left on the other face when the part is cut off, to be faced.
fn left_on(setup: &Setup, op: &Operation) -> Length {
    let part_off = setup.operations.iter().find(|o| o.verb == Verb::PartOff);
    part_off.and_then(|o| Some((o.to? - op.to?).abs())).unwrap_or_default()
}

/// How far past the other face a hole goes that comes out in bar which is faced or parted off there later: through the parting
/// tool's path, and a little (1 mm, .04 in: common practice, no source). Nothing where it comes out into the open.
pub(super) fn past_the_face(given: &Given, setup: &Setup, op: &Operation) -> Length {
    if !bar_beyond(given, setup, op) {
        return Length::ZERO;
    }
    let little = given.pick(40_000, 1_000);
    let left = left_on(setup, op);
    let own = given.shop.and_then(|s| s.tools_of(ToolKind::Parting).filter_map(|t| t.width).max());
    let parts = setup.operations.iter().any(|o| o.verb == Verb::PartOff);
    let path = if parts { left + own.unwrap_or_else(|| given.pick(125_000, 3_000)) } else { Length::ZERO };
    // A hole that is tapped in the bar has room for the lead of the tap, and chips below it.
    let tapped = setup.operations.iter().any(|o| o.verb == Verb::Tap && o.feature == op.feature);
    let thread = tapped_of(given, op).filter(|t| tapped && op.to_diameter.is_some_and(|d| d >= t.minor.min));
    let room = thread.map_or(Length::ZERO, |t| left + t.pitch.times(LEAD + BELOW));
    (path + little).max(room)
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
