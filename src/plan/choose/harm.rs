//! Among plans that cost the same, which one grips what can take it best: bar, then loose sections, then seats.

use std::collections::BTreeMap;

use crate::model::Plan;
use crate::model::plan::{Derived, Setup};
use crate::plan::derive::Layout;

/// By mounting, the harm its grip may do; none for bar that is still to be turned (common practice, no source: only their order counts).
pub(super) fn harm(layout: &Layout, derived: &Derived) -> BTreeMap<String, u64> {
    let each = derived.mountings.iter().map(|m| (m.name.clone(), of_grip(layout, m)));
    each.filter(|(_, harm)| *harm > 0).collect()
}

/// The same of a whole plan.
pub(super) fn of_plan(layout: &Layout, plan: &Plan) -> u64 {
    plan.setups.iter().map(|s| of_grip(layout, s)).sum()
}

/// A seat is worse than two loose sections; what closes all round leaves less of a mark.
fn of_grip(layout: &Layout, mounting: &Setup) -> u64 {
    let Some(grip) = mounting.grip.as_ref().filter(|g| !g.letter.is_empty() && !g.roughed) else { return 0 };
    let Some(section) = layout.sections.iter().find(|s| s.letter == grip.letter) else { return 0 };
    let surface = if section.close || section.seat { 3 } else { 1 };
    if mounting.by.spares() { surface } else { 2 * surface }
}
