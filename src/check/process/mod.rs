//! Checks of tapers, coating, parting and inspection.

pub mod coating_allowance;
pub mod knurl_growth;
pub mod not_inspected;
pub mod part_off_beyond_center;
pub mod taper_inconsistent;
pub mod taper_setover;
