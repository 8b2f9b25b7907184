//! Which of the best orders: the one whose setups do the least harm to what they grip.

use std::collections::BTreeMap;

use super::Minutes;
use super::meter::Limits;
use super::problem::{Cost, Problem};
use super::replay::replay;
use super::solve::{Answer, solve};

/// Harm that counts less than a thousandth of a minute: every cost is taken so many times, and the harm added to it.
const TIMES: u64 = 128;
/// States beyond which the search was long enough, and its own order is kept.
const MOST_STATES: usize = 20_000;

/// The answer with another order of the same cost where one grips the work with less harm; `harm` is that of taking up a setup, by its
/// name, and none where it is not named. Cost, proof and count stay those of the problem. The order is the best of all by this where each setup's harm
/// is small (a hundredth of `TIMES`); it is kept where the search would be long. [`Answer::gentlest`] says whether it is known.
pub fn gentlest(problem: &Problem, answer: Answer, harm: &BTreeMap<String, u64>, limits: Limits) -> Answer {
    let harmless = taken(&answer).iter().all(|s| !harm.contains_key(*s));
    let only = answer.optimal_orders.is_none_or(|n| n == 1);
    if harmless || only || !answer.proven_optimal || answer.states > MOST_STATES {
        let gentlest = answer.proven_optimal && (harmless || answer.optimal_orders == Some(1));
        return Answer { gentlest, ..answer };
    }
    let sum = |a: &Answer| taken(a).iter().filter_map(|s| harm.get(*s)).sum::<u64>();
    let Ok(other) = solve(&weighed(problem, harm), limits) else { return answer };
    let as_cheap = replay(problem, &other.order) == Ok(answer.cost);
    let gentlest = as_cheap && other.proven_optimal;
    let order = if as_cheap && sum(&other) < sum(&answer) { other.order } else { answer.order };
    Answer { order, gentlest, ..answer }
}

/// The setups an order takes up, one after another.
fn taken(answer: &Answer) -> Vec<&str> {
    let mut list: Vec<&str> = answer.order.iter().map(|(_, setup)| setup.as_str()).collect();
    list.dedup();
    list
}

/// The same problem, with the harm behind the last digit of its costs.
fn weighed(problem: &Problem, harm: &BTreeMap<String, u64>) -> Problem {
    let times = |m: &Minutes| Minutes::from_thousandths(m.thousandths().saturating_mul(TIMES));
    let scaled = |cost: &Cost| match cost {
        Cost::Same(m) => Cost::Same(times(m)),
        Cost::Each(each) => Cost::Each(each.iter().map(|(name, m)| (name.clone(), times(m))).collect()),
    };
    let worse = |m: Minutes, setup: &str| {
        Minutes::from_thousandths(m.thousandths().saturating_add(harm.get(setup).copied().unwrap_or(0)))
    };
    let each = |cost: &Cost, name: &str| match cost {
        Cost::Same(m) => *m,
        Cost::Each(each) => each.get(name).or_else(|| each.get("*")).copied().unwrap_or_default(),
    };
    let mut heavy = problem.clone();
    heavy.ops.iter_mut().for_each(|op| op.cost = scaled(&op.cost));
    (heavy.tool_change, heavy.tool_first) = (times(&problem.tool_change), times(&problem.tool_first));
    let (first, change) = (scaled(&problem.setup_first), scaled(&problem.setup_change));
    let names: Vec<&str> = problem.setups.iter().map(|s| s.name.as_str()).collect();
    heavy.setup_first = Cost::Each(names.iter().map(|s| ((*s).to_owned(), worse(each(&first, s), s))).collect());
    let pairs = names.iter().flat_map(|from| names.iter().filter(move |to| *to != from).map(move |to| (from, to)));
    let changes = pairs.map(|(from, to)| {
        let name = format!("{from}>{to}");
        let cost = worse(each(&change, &name), to);
        (name, cost)
    });
    heavy.setup_change = Cost::Each(changes.chain([("*".to_owned(), each(&change, "*"))]).collect());
    heavy
}
