//! How the work may be held: which holdings reach an end, and the candidate mountings with the surface each one grips.

mod decide;
mod grip;
mod late_hole;
mod mountings;
mod rested;

pub(super) use decide::{Alone, OVERHANG_DIAMETERS, decide};
pub(super) use grip::{Lengths, draw_in};
pub(super) use mountings::{Candidates, candidates};
