//! What the plan would cost without one of its holdings: the price of disagreeing with it, and the runner-up.

use std::collections::BTreeSet;
use std::time::Instant;

use crate::model::plan::{Alternative, Plan};
use crate::plan::order::{self, Limits, Minutes, Problem};

/// Seconds for each search, and after which none is begun; the answer says where that was too short.
const SECONDS: u64 = 2;
/// Operations beyond which nothing more is searched.
const MOST_OPS: usize = 64;

/// For each holding of the plan, the cheapest plan that does without it. Each is searched and proved like the plan itself.
pub(super) fn without_each(problem: &Problem, plan: &Plan) -> Vec<Alternative> {
    if !plan.proven_optimal || problem.ops.len() > MOST_OPS {
        return Vec::new();
    }
    let used: BTreeSet<&str> = plan.setups.iter().map(|s| s.name.as_str()).collect();
    let start = Instant::now();
    let mut list = Vec::new();
    for name in used.into_iter().take_while(|_| start.elapsed().as_secs() < SECONDS) {
        let mut fewer = problem.clone();
        for op in &mut fewer.ops {
            op.setups.retain(|s| s != name);
        }
        // What only this holding reaches leaves nothing to compare.
        if fewer.ops.iter().any(|op| op.setups.is_empty()) {
            continue;
        }
        let Ok(answer) = order::solve(&fewer, Limits { seconds: SECONDS, ..Limits::default() }) else { continue };
        let mut setups: Vec<String> = Vec::new();
        for (_, setup) in &answer.order {
            if setups.last() != Some(setup) {
                setups.push(setup.clone());
            }
        }
        let as_number = |m: Minutes| m.thousandths() as f64 / 1000.0;
        list.push(Alternative {
            without: name.to_owned(),
            cost: as_number(answer.cost),
            lower_bound: as_number(answer.lower_bound),
            setups,
        });
    }
    list.sort_by(|a, b| a.cost.total_cmp(&b.cost).then_with(|| a.without.cmp(&b.without)));
    list
}
