//! Center holes that nobody asked for and no mounting of the plan runs on: the plan again without them.

use crate::model::plan::{Derived, Plan};

/// The derivation without the center holes a plan makes and does not use; none where there are none, or where something else
/// could not be held then.
pub(super) fn without_idle_centers(derived: &Derived, plan: &Plan) -> Option<Derived> {
    let idle: Vec<bool> = derived
        .operations
        .iter()
        .map(|(o, _)| {
            o.is_true_center()
                && o.feature.is_none()
                && !o.end.is_some_and(|end| plan.setups.iter().any(|s| s.runs_on_center(end)))
        })
        .collect();
    idle.contains(&true).then(|| without(derived, &idle))?
}

/// The derivation without some operations, and without the mountings that wait for them.
fn without(derived: &Derived, gone: &[bool]) -> Option<Derived> {
    let mut places = vec![None; gone.len()];
    for (new, old) in (0..gone.len()).filter(|i| !gone[*i]).enumerate() {
        places[old] = Some(new);
    }
    let waits = |m: usize| derived.needs.iter().any(|(x, o, _)| *x == m && gone[*o]);
    let mut operations = Vec::new();
    for (operation, allowed) in derived.operations.iter().enumerate().filter(|(i, _)| !gone[*i]).map(|(_, o)| o) {
        let still: Vec<usize> = allowed.iter().copied().filter(|m| !waits(*m)).collect();
        if still.is_empty() {
            return None;
        }
        operations.push((operation.clone(), still));
    }
    let pairs = |list: &[(usize, usize, crate::model::plan::Why)]| {
        list.iter().filter_map(|(a, b, w)| Some((places[*a]?, places[*b]?, w.clone()))).collect()
    };
    let of_mountings = |list: &[(usize, usize, crate::model::plan::Why)]| {
        list.iter().filter_map(|(m, o, w)| Some((*m, places[*o]?, w.clone()))).collect()
    };
    let gates = derived.gates.iter().filter_map(|(m, a, b, w)| Some((*m, places[*a]?, places[*b]?, w.clone())));
    Some(Derived {
        operations,
        gates: gates.collect(),
        before: pairs(&derived.before),
        together: pairs(&derived.together),
        needs: of_mountings(&derived.needs),
        ends: of_mountings(&derived.ends),
        ..derived.clone()
    })
}
