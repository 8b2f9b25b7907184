//! A left-hand thread runs off the end, and there the tailstock center stands: how far the tool may go, and how long that takes.

use super::Figure;
use super::given::{Given, at_tailstock, carriage};
use super::job;
use super::speed::Relief;
use super::thread_cut::{relief_of, thread_of};
use super::thread_drive::engage;
use crate::model::End;
use crate::model::Kind;
use crate::model::feature::{Hand, Thread};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup};
use crate::unit::{Length, Unit};

/// Where a tool must be out before it meets the tailstock center.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunsOff {
    /// How far past the face its leading corner may go, the tool at full depth; nothing where the center is wider than the root.
    pub past_face: Figure,
    /// Seconds from the thread's end until then; none where there is no room.
    pub seconds: Option<f64>,
}

/// The same as lengths.
pub(super) struct Room {
    past_face: Length,
    /// From the thread's end to there.
    pub(super) time_over: Length,
}

impl Room {
    pub(super) fn figures(&self, unit: Unit, seconds: Option<f64>) -> RunsOff {
        RunsOff { past_face: Figure::usual(self.past_face, unit), seconds }
    }
}

/// What limits the speed of a thread: what it runs out into. A left-hand thread begins there and runs off the end: the center there limits it.
pub(super) fn run_out(given: &Given, setup: &Setup, op: &Operation) -> Option<Relief> {
    let thread = thread_of(given, op)?;
    let width = match thread.hand {
        Hand::Right => relief_of(given, setup, op, thread)?.0,
        Hand::Left => before_the_center(given, setup, op, thread)?.time_over,
    };
    let reverses = engage(given, thread).is_some_and(|e| e.never_open);
    Some(Relief { width, lead: thread.lead, reverses })
}

/// The room before a 60° center: its cone fills the hole to the mouth and meets a tool at the root (root − mouth) / (2 tan 30°) past the face.
/// None without a center there, or for a thread that does not begin in a relief and run off.
pub(super) fn before_the_center(given: &Given, setup: &Setup, op: &Operation, thread: &Thread) -> Option<Room> {
    let centered = matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters);
    let end = at_tailstock(setup).filter(|_| centered && thread.hand == Hand::Left)?;
    relief_of(given, setup, op, thread)?;
    let mouth = mouth(given, end)?;
    // 1 / (2 tan 30°) = .866025.
    let past_face = (thread.root - mouth).times_ratio(866_025, 1_000_000).max(Length::ZERO);
    let edge = |at| carriage(at, end, given.overall);
    let to_face = edge(op.from?).min(edge(op.to?)).max(Length::ZERO);
    Some(Room { past_face, time_over: to_face + past_face })
}

/// Mouth of the center hole at an end: the drawing's, or the usual where it shows none.
fn mouth(given: &Given, end: End) -> Option<Length> {
    let drawn = given.part.features.iter().find_map(|f| match &f.kind {
        Kind::CenterHole { size: Some(size), ends } if ends.at(end) => Some(size.mouth),
        _ => None,
    });
    drawn.or_else(|| job::usual_center(given, end).map(|hole| hole.mouth.value))
}
