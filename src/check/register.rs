//! The register: every check, in the order in which findings at one place print.

use super::{Check, chain, shoulders, threads};

/// All checks.
pub static ALL: &[&Check] = &[
    &chain::contradiction::CHECK,
    &chain::disagrees::CHECK,
    &chain::not_guaranteed::CHECK,
    &chain::redundant::CHECK,
    &chain::loose::CHECK,
    &chain::implied_tighter::CHECK,
    &shoulders::groove_narrow::CHECK,
    &shoulders::groove_plunges::CHECK,
    &shoulders::groove_deep::CHECK,
    &shoulders::relief_diameter::CHECK,
    &shoulders::relief_too_deep::CHECK,
    &shoulders::relief_width::CHECK,
    &shoulders::relief_corner::CHECK,
    &shoulders::neck_weak::CHECK,
    &shoulders::fillet_bearing::CHECK,
    &shoulders::corner_unstated::CHECK,
    &shoulders::shoulder_height::CHECK,
    &shoulders::land_thin::CHECK,
    &shoulders::ring_wall::CHECK,
    &shoulders::undercut_deep::CHECK,
    &threads::unknown::CHECK,
    &threads::not_cuttable::CHECK,
    &threads::keep_engaged::CHECK,
    &threads::left_start::CHECK,
    &threads::blank::CHECK,
    &threads::no_runout::CHECK,
    &threads::short::CHECK,
    &threads::chamfer::CHECK,
    &threads::lead_travel::CHECK,
    &threads::index::CHECK,
];
