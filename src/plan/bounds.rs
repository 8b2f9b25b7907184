//! How far an operation could be moved in its plan, and which rule it would break there.

use std::collections::BTreeMap;

use crate::model::Plan;
use crate::model::plan::{Derived, Why};

/// Between which operations one may stand.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Bounds {
    /// Number of the last operation it must follow, and why.
    pub not_before: Option<(u32, Why)>,
    /// Number of the first operation it must precede, and why.
    pub not_after: Option<(u32, Why)>,
}

/// The bounds of every operation of a plan, by its id.
pub fn bounds(derived: &Derived, plan: &Plan) -> BTreeMap<String, Bounds> {
    let place: BTreeMap<&str, (usize, u32)> =
        plan.operations().enumerate().map(|(i, (_, o))| (o.id.as_str(), (i, o.number))).collect();
    let mut list: BTreeMap<String, (Bounds, usize, usize)> = BTreeMap::new();
    let held = |m: usize, o: usize| {
        let (setup, operation) = (&derived.mountings[m], &derived.operations[o].0);
        plan.setups.iter().any(|s| s.name == setup.name && s.operations.iter().any(|x| x.id == operation.id))
    };
    // What waits in a mounting waits where the plan does it there.
    let gates = derived.gates.iter().filter(|(m, o, ..)| held(*m, *o)).map(|(_, o, first, why)| (first, o, why));
    for (a, b, why) in derived.before.iter().map(|(a, b, why)| (a, b, why)).chain(gates) {
        let (first, then) = (&derived.operations[*a].0.id, &derived.operations[*b].0.id);
        let (Some(one), Some(other)) = (place.get(first.as_str()), place.get(then.as_str())) else { continue };
        let later = list.entry(then.clone()).or_insert((Bounds::default(), 0, usize::MAX));
        if later.0.not_before.is_none() || later.1 < one.0 {
            (later.0.not_before, later.1) = (Some((one.1, why.clone())), one.0);
        }
        let earlier = list.entry(first.clone()).or_insert((Bounds::default(), 0, usize::MAX));
        if earlier.0.not_after.is_none() || earlier.2 > other.0 {
            (earlier.0.not_after, earlier.2) = (Some((other.1, why.clone())), other.0);
        }
    }
    list.into_iter().map(|(id, (bounds, ..))| (id, bounds)).collect()
}
