//! What the plan would cost without one of its holdings: the price of disagreeing with it, and the runner-up.

use std::collections::BTreeSet;
use std::time::{Duration, Instant};

use crate::model::plan::{Alternative, Plan};
use crate::plan::order::{self, Answer, Certificate, Limits, Minutes, Problem, Refusal};

/// Seconds for all searches; the answer says where that was too short.
const SECONDS: u64 = 2;
/// Operations beyond which nothing more is searched.
const MOST_OPS: usize = 64;

/// For each holding of the plan, the cheapest plan that does without it. Each is searched and proved like the plan itself.
pub(super) fn without_each(certificate: &Certificate, beside: &[Certificate], plan: &Plan) -> Vec<Alternative> {
    if !certificate.proven_optimal || certificate.problem.ops.len() > MOST_OPS {
        return Vec::new();
    }
    let ways: Vec<&Problem> = [certificate].into_iter().chain(beside).map(|c| &c.problem).collect();
    let used: BTreeSet<&str> = plan.setups.iter().map(|s| s.name.as_str()).collect();
    let start = Instant::now();
    let until = start.checked_add(Duration::from_secs(SECONDS));
    let limits = Limits { seconds: SECONDS, until, ..Limits::default() };
    let mut list = Vec::new();
    for name in used.into_iter().take_while(|_| start.elapsed().as_secs() < SECONDS) {
        let found: Vec<Found> = ways.iter().map(|problem| without(problem, name, limits)).collect();
        let answers = || found.iter().filter_map(|f| if let Found::Best(answer) = f { Some(answer) } else { None });
        let Some(answer) = answers().min_by_key(|a| a.cost) else { continue };
        // Of a way whose search was too long nothing is known: then no bound is, either.
        let unknown = found.iter().any(|f| matches!(f, Found::Unknown));
        let least = answers().map(|a| a.lower_bound).min().filter(|_| !unknown).unwrap_or_default();
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
            lower_bound: as_number(least),
            setups,
        });
    }
    list.sort_by(|a, b| a.cost.total_cmp(&b.cost).then_with(|| a.without.cmp(&b.without)));
    list
}

/// What became of a search.
enum Found {
    Best(Answer),
    /// Something is reached by that holding alone, or no order keeps the rules without it.
    Nothing,
    /// It was too long.
    Unknown,
}

/// The cheapest order of a problem without one of its holdings.
fn without(problem: &Problem, name: &str, limits: Limits) -> Found {
    let mut fewer = problem.clone();
    for op in &mut fewer.ops {
        op.setups.retain(|s| s != name);
    }
    if fewer.ops.iter().any(|op| op.setups.is_empty()) {
        return Found::Nothing;
    }
    match order::solve(&fewer, limits) {
        Ok(answer) => Found::Best(answer),
        Err(Refusal::Undecided) => Found::Unknown,
        Err(_) => Found::Nothing,
    }
}
