//! What the plan would cost without one of its holdings: the price of disagreeing with it, and the runner-up.

use std::collections::{BTreeMap, BTreeSet};
use std::time::{Duration, Instant};

use crate::model::plan::{Alternative, Instead, NoSecond, Plan, Setup};
use crate::plan::order::{self, Answer, Certificate, Limits, Minutes, Problem, Refusal};
use crate::plan::precede::is_cut;

/// Seconds for all searches; the answer says where that was too short.
const SECONDS: u64 = 2;
/// Operations beyond which nothing more is searched.
const MOST_OPS: usize = 64;

/// Adds to a plan, for each of its holdings, the cheapest plan that does without it, each searched and proved like the plan itself; or why there is none.
pub(super) fn without_each(certificate: &Certificate, beside: &[Certificate], mountings: &[Setup], plan: &mut Plan) {
    let none = if certificate.proven_optimal {
        (certificate.problem.ops.len() > MOST_OPS).then_some(NoSecond::TooMany(MOST_OPS))
    } else {
        Some(NoSecond::Unproven)
    };
    if none.is_some() {
        plan.no_second = none;
        return;
    }
    let ways: Vec<&Problem> = [certificate].into_iter().chain(beside).map(|c| &c.problem).collect();
    let used: BTreeSet<&str> = plan.setups.iter().map(|s| s.name.as_str()).collect();
    let start = Instant::now();
    let until = start.checked_add(Duration::from_secs(SECONDS));
    let limits = Limits { seconds: SECONDS, until, ..Limits::default() };
    let (mut list, mut late) = (Vec::new(), false);
    for name in used {
        if start.elapsed().as_secs() >= SECONDS {
            late = true;
            break;
        }
        let found: Vec<Found> = ways.iter().map(|problem| without(problem, name, limits)).collect();
        let answers = || found.iter().filter_map(|f| if let Found::Best(answer) = f { Some(answer) } else { None });
        // Of a way whose search was too long nothing is known: then no bound is, either.
        let unknown = found.iter().any(|f| matches!(f, Found::Unknown));
        late |= unknown;
        let Some(answer) = answers().min_by_key(|a| a.cost) else { continue };
        let least = answers().map(|a| a.lower_bound).min().filter(|_| !unknown).unwrap_or_default();
        list.push(told(name, (answer, least), mountings, plan));
    }
    list.sort_by(|a, b| a.cost.total_cmp(&b.cost).then_with(|| a.without.cmp(&b.without)));
    plan.no_second = (late && list.is_empty()).then_some(NoSecond::OutOfTime(SECONDS));
    plan.others = list;
}

/// What another order of the same operations does, beside the plan.
fn told(name: &str, (answer, least): (&Answer, Minutes), mountings: &[Setup], plan: &Plan) -> Alternative {
    let mut setups: Vec<String> = Vec::new();
    let mut instead: Vec<Instead> = Vec::new();
    let mounting = |name: &str| mountings.iter().find(|m| m.name == name);
    let here: BTreeMap<&str, &str> = plan.operations().map(|(s, o)| (o.id.as_str(), s.name.as_str())).collect();
    for (id, setup) in &answer.order {
        if setups.last() != Some(setup) {
            setups.push(setup.clone());
        }
        if here.get(id.as_str()) == Some(&setup.as_str()) {
            continue;
        }
        match (instead.iter_mut().find(|i| i.setup.name == *setup), mounting(setup)) {
            (Some(known), _) => known.operations.push(id.clone()),
            (None, Some(m)) => instead.push(Instead { setup: m.clone(), operations: vec![id.clone()] }),
            (None, None) => {}
        }
    }
    let turns: BTreeSet<&str> = plan.operations().filter(|(_, o)| is_cut(o)).map(|(_, o)| o.id.as_str()).collect();
    let mut turned = answer.order.iter().filter(|(id, _)| turns.contains(id.as_str()));
    let begins = turned.find_map(|(_, setup)| mounting(setup)?.works);
    let here_first = plan.operations().filter(|(_, o)| is_cut(o)).find_map(|(s, _)| s.works);
    let as_number = |m: Minutes| m.thousandths() as f64 / 1000.0;
    Alternative {
        without: name.to_owned(),
        cost: as_number(answer.cost),
        lower_bound: as_number(least),
        setups,
        instead,
        first_end: begins.filter(|end| here_first != Some(*end)),
    }
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
