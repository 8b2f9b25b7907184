//! Rules that leave no order: which may give way, and what is told when none can.

use crate::model::plan::{Derived, Why};
use crate::plan::order::{self, Problem};
use crate::plan::rules::{because, rule};

use super::NoPlan;

pub(super) fn no_plan(derived: &Derived, problem: &Problem, refusal: &order::Refusal) -> NoPlan {
    match refusal {
        order::Refusal::Undecided => NoPlan::OutOfTime,
        order::Refusal::Malformed(_) => NoPlan::NothingToTurn,
        order::Refusal::Conflict { rules, .. } => {
            let mut reasons: Vec<Why> = Vec::new();
            for clash in rules {
                let why = reason_of(derived, problem, clash);
                if !reasons.contains(&why) {
                    reasons.push(why);
                }
            }
            NoPlan::Clash(reasons)
        }
    }
}

/// The reason behind a rule of the problem.
fn reason_of(derived: &Derived, problem: &Problem, clash: &order::Rule) -> Why {
    let op = |id: &str| problem.ops.iter().position(|o| o.id == id);
    let setup = |name: &str| problem.setups.iter().position(|s| s.name == name);
    // Where several rules ask for one pair, the one that cannot be switched off stands against the rest, then the wish.
    let weight = |w: &Why| match rule(w.rule) {
        _ if w.rule == "wish" => 1,
        Some(rule) if !rule.hard => 2,
        _ => 0,
    };
    let pair = |list: &[(usize, usize, Why)], a: Option<usize>, b: Option<usize>| {
        let those = list.iter().filter(|(x, y, _)| Some(*x) == a && Some(*y) == b).map(|(_, _, w)| w);
        those.min_by_key(|w| weight(w)).cloned()
    };
    let found = match clash {
        order::Rule::Precedence(a, b) => pair(&derived.before, op(a), op(b)),
        order::Rule::SameSetup(a, b) => {
            pair(&derived.together, op(a), op(b)).or_else(|| pair(&derived.together, op(b), op(a)))
        }
        order::Rule::SetupNeeds(s, o) => pair(&derived.needs, setup(s), op(o)),
        order::Rule::SetupEnds(s, o) => pair(&derived.ends, setup(s), op(o)),
        order::Rule::Adjacent(..) => None,
    };
    found.unwrap_or_else(|| because("", "rules of this part"))
}

/// Takes a pair out of the derivation when only soft rules ask for it; gives the reason it had.
pub(super) fn drop_soft(derived: &mut Derived, problem: &Problem, clash: &order::Rule) -> Option<Why> {
    let op = |id: &str| problem.ops.iter().position(|o| o.id == id);
    let (list, a, b) = match clash {
        order::Rule::Precedence(a, b) => (&mut derived.before, op(a)?, op(b)?),
        order::Rule::SameSetup(a, b) => (&mut derived.together, op(a)?, op(b)?),
        _ => return None,
    };
    let same =
        |x: usize, y: usize| (x, y) == (a, b) || (matches!(clash, order::Rule::SameSetup(..)) && (x, y) == (b, a));
    let soft = |w: &Why| w.rule != "wish" && rule(w.rule).is_some_and(|r| !r.hard);
    let why = list.iter().find(|(x, y, _)| same(*x, *y)).map(|(_, _, w)| w.clone())?;
    if !list.iter().filter(|(x, y, _)| same(*x, *y)).all(|(_, _, w)| soft(w)) {
        return None;
    }
    list.retain(|(x, y, _)| !same(*x, *y));
    Some(why)
}
