//! A left-hand thread runs off the end, and there the tailstock center stands: how far the tool may go, and how long that takes.

use super::Figure;
use crate::plan::run_out::Room;
use crate::unit::Unit;

/// Where a tool must be out before it meets the tailstock center.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunsOff {
    /// How far past the face its leading corner may go, the tool at full depth; nothing where the center is wider than the root.
    pub past_face: Figure,
    /// Seconds from the thread's end until then; none where there is no room.
    pub seconds: Option<f64>,
}

pub(super) fn figures(room: Room, unit: Unit, seconds: Option<f64>) -> RunsOff {
    RunsOff { past_face: Figure::usual(room.past_face, unit), seconds }
}
