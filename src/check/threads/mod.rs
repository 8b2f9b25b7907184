//! Checks of threads.

pub mod blank;
pub mod chamfer;
pub mod helix;
pub mod index;
pub mod keep_engaged;
pub mod lead_travel;
pub mod left_start;
pub mod no_gauge;
pub mod no_runout;
pub mod not_cuttable;
pub mod pipe_way;
pub mod runout_time;
pub mod short;
pub mod tap_drill;
pub mod unknown;
pub mod wire;
