//! Checks of the bar.

pub mod bow;
pub mod diameter;
pub mod dust;
pub mod hard;
pub mod kept;
pub mod kept_runout;
pub mod length;
pub mod long;
pub mod scale;
pub mod unknown;
pub mod work_hardens;
