//! The register: every check, in the order in which findings at one place print.

use super::{Check, chain};

/// All checks.
pub static ALL: &[&Check] = &[
    &chain::contradiction::CHECK,
    &chain::disagrees::CHECK,
    &chain::not_guaranteed::CHECK,
    &chain::redundant::CHECK,
    &chain::loose::CHECK,
    &chain::implied_tighter::CHECK,
];
