//! Rules that leave no order: which may give way, and what is told when none can.

use std::time::Instant;

use crate::model::plan::{Derived, Why};
use crate::plan::order::{self, Problem};
use crate::plan::rules::{Asked, asked, because, rule};

use super::NoPlan;
use crate::told;

/// Every rule and wish of a derivation: soft rules first, then wishes, then hard rules.
fn all_asked(derived: &Derived) -> Vec<Asked> {
    let pairs = derived.before.iter().chain(&derived.together).chain(&derived.needs).chain(&derived.ends);
    let gates = derived.gates.iter().map(|(.., why)| why);
    let mut all: Vec<Asked> = pairs.map(|(_, _, why)| why).chain(gates).map(asked).collect();
    all.sort();
    all.dedup();
    all.sort_by_key(|(id, _)| match rule(id) {
        _ if *id == "wish" => 1,
        Some(rule) if !rule.hard => 0,
        _ => 2,
    });
    all
}

fn without(derived: &Derived, out: &Asked) -> Derived {
    let mut fewer = derived.clone();
    for list in [&mut fewer.before, &mut fewer.together, &mut fewer.needs, &mut fewer.ends] {
        list.retain(|(_, _, why)| asked(why) != *out);
    }
    fewer.gates.retain(|(.., why)| asked(why) != *out);
    fewer
}

/// As few rules and wishes as leave no order: with any one of them out there is one. Wishes are tried before the rules that cannot be
/// switched off: those that are told cannot be followed together whatever else is wished, and with one of them back the rest can.
pub(super) fn smallest(derived: &Derived, restate: &dyn Fn(&Derived) -> Problem, limits: order::Limits) -> Derived {
    let start = Instant::now();
    let mut few = derived.clone();
    for out in all_asked(derived) {
        let left = limits.seconds.saturating_sub(start.elapsed().as_secs());
        if left == 0 {
            break;
        }
        let fewer = without(&few, &out);
        if order::any_order(&restate(&fewer), order::Limits { seconds: left, ..limits }) == Some(false) {
            few = fewer;
        }
    }
    few
}

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
        order::Rule::SetupGate(s, o, first) => {
            let (s, o, first) = (setup(s), op(o), op(first));
            let gate = derived.gates.iter().find(|(m, a, b, _)| (Some(*m), Some(*a), Some(*b)) == (s, o, first));
            gate.map(|(.., w)| w.clone())
        }
        order::Rule::Adjacent(..) => None,
    };
    found.unwrap_or_else(|| because("", told!("rules of this part", "Regeln dieses Teils")))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chain::{Profile, locate};
    use crate::plan::choose::problem::problem;
    use crate::plan::cost::Rates;
    use crate::plan::derive::{Layout, of_layout};

    /// Wishes of which no two forbid each other by hard rules alone, so that only the search finds them out.
    const CLASHES: [&str; 7] = [
        "before: [[finish E, finish C], [thread A, thread K]], together: [[finish E, thread K], [finish C, thread A]]",
        "first end: far, before: [[finish C, rough E]]",
        "first end: datum, before: [[finish H, rough C]]",
        "before: [[finish C, face far]]",
        "before: [[rough K, center datum]]",
        "before: [[finish E, thread A], [thread A, thread K]], together: [[finish E, thread K]]",
        "before: [[finish G, finish C], [thread A, thread K]], together: [[finish G, thread K], [finish C, thread A]]",
    ];

    #[test]
    fn what_is_told_is_the_least_that_leaves_no_order() {
        for wishes in CLASHES {
            let text = format!("{}\nplan: {{{wishes}}}\n", include_str!("../../../samples/pulley-stub.yaml"));
            let part = crate::read::part("test.yaml", text.as_bytes()).part.expect("a part");
            let chain = locate(&part);
            let profile = Profile::of(&part, &chain);
            let layout = Layout::of(&part, &chain, &profile).expect("sections");
            let derived = of_layout(&part, &chain, &layout, None);
            let facts = crate::check::Facts {
                part: &part,
                slips: &[],
                chain: &chain,
                profile: &profile,
                shop: None,
                derived: None,
                plan: None,
            };
            let rates = Rates::of(facts, &layout);
            let any = |d: &Derived| order::any_order(&problem(&part, d, &rates, None), order::Limits::default());
            assert_eq!(any(&derived), Some(false), "{wishes}");
            let few = smallest(&derived, &|d| problem(&part, d, &rates, None), order::Limits::default());
            assert_eq!(any(&few), Some(false), "{wishes}");
            let told = all_asked(&few);
            assert!(told.iter().any(|(id, _)| *id == "wish"), "{wishes}: {told:?}");
            for one in &told {
                assert_eq!(any(&without(&few, one)), Some(true), "{wishes}: {one:?} of {told:?}");
            }
        }
    }
}
