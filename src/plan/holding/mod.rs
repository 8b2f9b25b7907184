//! How the work may be held: which holdings reach an end, and the candidate mountings with the surface each one grips.

mod bare;
mod decide;
mod faced;
mod grip;
mod laid;
mod late_hole;
mod mandrel;
mod milled;
mod mountings;
mod need;
mod offset_centers;
mod rested;
mod roughed;
mod set_over;
mod slow;
mod spot;
mod surfaces;
mod thin_wall;
mod thrown;
mod why;
mod workholder;

pub(super) use decide::{Alone, OVERHANG_DIAMETERS, decide};
pub(super) use faced::faced_first;
pub(super) use grip::{Lengths, bar_for_one_holding, draw_in};
pub(super) use laid::lay;
pub(super) use mountings::{Candidates, candidates};
pub(super) use offset_centers::drilled;
pub use offset_centers::{NoRoom, SecondCenter, second_center, usual_center};
pub(super) use roughed::between_its_cuts;
pub(super) use set_over::cylinders_first;
pub(super) use slow::least_slow;
pub use spot::rough_center;
pub(super) use spot::{Spot, spot};
pub(super) use thrown::{Throw, throws};
pub(super) use why::tell_stick_out;
