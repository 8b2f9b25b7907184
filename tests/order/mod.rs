//! The order search against exhaustion: every order of small problems is tried by a plain recursion that shares no code
//! with the search, and both the least cost and the number of orders that have it must agree.

pub(crate) mod exhaust;
mod generate;
mod shapes;

use std::collections::BTreeMap;

use exhaust::{Exhaustion, each_within, exhaust};
use generate::{Dice, random_problem};
use shapes::{gated, many_holdings, two_ended_shaft, unlike_costs};
use turnwright::plan::order::{
    Answer, Certificate, Cost, Fault, Limits, Malformed, Minutes, Problem, Refusal, Rule, Violation, gentlest, replay,
    solve,
};

fn amply() -> Limits {
    Limits { seconds: 600, ..Limits::default() }
}

fn number_of_problems() -> u64 {
    std::env::var("TURNWRIGHT_ORDER_PROBLEMS").ok().and_then(|n| n.parse().ok()).unwrap_or(300)
}

#[test]
fn every_order_tried_gives_the_same_cost_and_count() {
    let mut impossible = 0;
    for seed in 0..number_of_problems() {
        let problem = random_problem(seed, 7);
        match (exhaust(&problem), solve(&problem, amply())) {
            (Some((cost, count, order)), Ok(answer)) => {
                assert_eq!(answer.cost.thousandths(), cost, "cost, seed {seed}: {answer:?}");
                assert_eq!(answer.optimal_orders, Some(count), "count, seed {seed}: {answer:?}");
                assert_eq!(answer.order, order, "the one listed first, seed {seed}");
                assert!(answer.proven_optimal && answer.lower_bound == answer.cost, "seed {seed}");
                assert_eq!(replay(&problem, &answer.order), Ok(answer.cost), "seed {seed}");
                assert_eq!(solve(&problem, amply()), Ok(answer), "the same twice, seed {seed}");
            }
            (None, Err(Refusal::Conflict { rules, minimal })) => {
                impossible += 1;
                assert!(minimal);
                only_just_impossible(&problem, &rules, seed);
            }
            (exhausted, answer) => panic!("seed {seed}: {exhausted:?} against {answer:?}"),
        }
    }
    assert!(impossible * 20 > number_of_problems() / 10, "the generator must reach impossible problems: {impossible}");
}

/// Of all orders of the least cost, tried one by one, none does less harm; cost and count stay what they were.
#[test]
fn of_orders_of_the_same_cost_the_gentlest() {
    let mut gentler = 0;
    for seed in 0..number_of_problems() {
        let problem = random_problem(seed, 6);
        let Ok(answer) = solve(&problem, amply()) else { continue };
        let names = problem.setups.iter().enumerate();
        let harm: BTreeMap<String, u64> =
            names.map(|(i, s)| (s.name.clone(), [5, 1, 3][(i + seed as usize) % 3])).collect();
        let of = |order: &mut dyn Iterator<Item = &str>| {
            let mut last = "";
            order
                .map(|s| if std::mem::replace(&mut last, s) == s { 0 } else { harm.get(s).copied().unwrap_or(0) })
                .sum()
        };
        let mut least = u64::MAX;
        let mut look = |done: &[(usize, String)], _: u64| {
            if done.len() == problem.ops.len() {
                least = least.min(of(&mut done.iter().map(|(_, s)| s.as_str())));
            }
            true
        };
        each_within(&problem, answer.cost.thousandths(), u64::MAX, &mut look).expect("all of them");
        let before: u64 = of(&mut answer.order.iter().map(|(_, s)| s.as_str()));
        let gentle = gentlest(&problem, answer.clone(), &harm, amply());
        assert_eq!(of(&mut gentle.order.iter().map(|(_, s)| s.as_str())), least, "seed {seed}");
        assert_eq!(replay(&problem, &gentle.order), Ok(answer.cost), "seed {seed}");
        assert_eq!((gentle.cost, gentle.optimal_orders), (answer.cost, answer.optimal_orders), "seed {seed}");
        gentler += usize::from(least < before);
        // It is known to be so, but not where the search was too long to look.
        assert!(gentle.gentlest, "seed {seed}");
        let long = gentlest(&problem, Answer { states: 20_001, ..answer.clone() }, &harm, amply());
        assert!(long.order == answer.order && long.gentlest == (answer.optimal_orders == Some(1)), "seed {seed}");
    }
    assert!(gentler > 0, "some orders must change: {gentler}");
}

/// The rules named leave no order by themselves, and any one fewer leaves one.
fn only_just_impossible(problem: &Problem, rules: &[Rule], seed: u64) {
    assert_eq!(exhaust(&only(problem, rules)), None, "seed {seed}: {rules:?}");
    for drop in 0..rules.len() {
        let mut fewer = rules.to_vec();
        fewer.remove(drop);
        assert!(exhaust(&only(problem, &fewer)).is_some(), "seed {seed}: {drop} of {rules:?}");
    }
}

fn only(problem: &Problem, rules: &[Rule]) -> Problem {
    let mut bare = Problem { precedences: vec![], adjacent: vec![], same_setup: vec![], ..problem.clone() };
    bare.setup_needs.clear();
    bare.setup_ends.clear();
    bare.setup_gates.clear();
    for rule in rules.iter().cloned() {
        match rule {
            Rule::Precedence(a, b) => bare.precedences.push((a, b)),
            Rule::Adjacent(a, b) => bare.adjacent.push((a, b)),
            Rule::SameSetup(a, b) => bare.same_setup.push((a, b)),
            Rule::SetupNeeds(s, a) => bare.setup_needs.entry(s).or_default().push(a),
            Rule::SetupEnds(s, a) => bare.setup_ends.entry(s).or_default().push(a),
            Rule::SetupGate(s, a, b) => bare.setup_gates.entry(s).or_default().push((a, b)),
        }
    }
    bare
}

#[test]
fn the_generator_reaches_every_kind_of_rule_and_cost() {
    let problems: Vec<Problem> = (0..600).map(|seed| random_problem(seed, 7)).collect();
    let reaches = |what: &str, has: fn(&Problem) -> bool| {
        let solvable = problems.iter().filter(|p| has(p) && solve(p, amply()).is_ok()).count();
        assert!(solvable >= 20, "{what}: only {solvable}");
    };
    reaches("precedences", |p| p.precedences.len() > 2);
    reaches("adjacent", |p| !p.adjacent.is_empty());
    reaches("same setup", |p| p.same_setup.iter().any(|(a, b)| a != b));
    reaches("setup needs", |p| !p.setup_needs.is_empty());
    reaches("setup ends", |p| !p.setup_ends.is_empty());
    reaches("setup gates", |p| !p.setup_gates.is_empty());
    reaches("gates that another setup spares", |p| {
        let spared =
            |s: &String, a: &String| p.ops.iter().any(|op| op.id == *a && op.setups.contains(s) && op.setups.len() > 1);
        p.setup_gates.iter().any(|(s, gates)| gates.iter().any(|(a, b)| a != b && spared(s, a)))
    });
    reaches("costs by setup", |p| p.ops.iter().any(|op| matches!(op.cost, Cost::Each(_)) && op.setups.len() > 1));
    reaches("changes by pair", |p| matches!(p.setup_change, Cost::Each(_)) && p.setups.len() > 2);
    reaches("tool taken out", |p| !p.tool_kept_over_setup && p.setups.len() > 1);
    reaches("free tool changes", |p| p.tool_change == Minutes::ZERO);
    reaches("several setups", |p| p.setups.len() > 1 && p.ops.len() > 5);
}

#[test]
fn one_more_rule_never_makes_it_cheaper() {
    let mut dearer = 0;
    for seed in 0..400 {
        let problem = random_problem(seed, 12);
        let Ok(before) = solve(&problem, amply()) else { continue };
        let d = &mut Dice(seed + 1_000_000);
        let mut tighter = problem.clone();
        let (a, b) = d.pair(problem.ops.len());
        let setup = problem.setups[d.roll(problem.setups.len())].name.clone();
        match d.roll(6) {
            0 => tighter.precedences.push((a, b)),
            1 => tighter.adjacent.push((a, b)),
            2 => tighter.same_setup.push((a, b)),
            3 => tighter.setup_needs.entry(setup).or_default().push(a),
            4 => tighter.setup_gates.entry(setup).or_default().push((b, a)),
            _ => tighter.setup_ends.entry(setup).or_default().push(a),
        }
        if let Ok(after) = solve(&tighter, amply()) {
            assert!(after.cost >= before.cost, "seed {seed}");
            dearer += u32::from(after.cost > before.cost);
        }
    }
    assert!(dearer > 10, "some rule must bite: {dearer}");
}

#[test]
fn cut_short_the_bound_stays_true_and_the_order_good() {
    let mut cut = 0;
    for seed in 0..120 {
        let problem = random_problem(seed, 14);
        let Ok(full) = solve(&problem, amply()) else { continue };
        for limits in [Limits { seconds: 0, ..Limits::default() }, Limits { bytes: 0, ..amply() }] {
            match solve(&problem, limits) {
                Ok(short) => {
                    assert!(short.lower_bound <= full.cost && full.cost <= short.cost, "seed {seed}");
                    assert_eq!(replay(&problem, &short.order), Ok(short.cost), "seed {seed}");
                    assert_eq!(short.proven_optimal, short.lower_bound == short.cost, "seed {seed}");
                    cut += u32::from(short.optimal_orders.is_none());
                }
                Err(refusal) => assert_eq!(refusal, Refusal::Undecided, "seed {seed}"),
            }
        }
    }
    assert!(cut > 20, "limits must bite: {cut}");
}

#[test]
fn costs_that_differ_between_holdings_are_proved_too() {
    for k in 1..=2 {
        let problem = unlike_costs(k);
        let answer = solve(&problem, amply()).expect("an order");
        assert!(answer.proven_optimal, "{answer:?}");
        assert_eq!(replay(&problem, &answer.order), Ok(answer.cost));
        // Where all cost the least of theirs everywhere, the whole costs no more.
        let mut cheapest = problem.clone();
        for op in &mut cheapest.ops {
            if let Cost::Each(table) = &op.cost {
                op.cost = Cost::Same(table.values().copied().min().expect("a cost"));
            }
        }
        assert!(solve(&cheapest, amply()).expect("an order").cost <= answer.cost);
    }
}

#[test]
fn parts_of_forty_and_sixty_operations_are_proved_and_counted() {
    let shafts = (1..=4).flat_map(|k| [two_ended_shaft(k, true), two_ended_shaft(k, false)]);
    let gates = (1..=3).map(gated);
    for problem in shafts.chain((1..=4).map(many_holdings)).chain(gates).chain([two_ended_shaft(7, true)]) {
        let answer = solve(&problem, amply()).expect("an order");
        assert!(answer.proven_optimal && answer.optimal_orders.is_some_and(|n| n > 0), "{answer:?}");
        assert_eq!(replay(&problem, &answer.order), Ok(answer.cost));
        // The same problem listed backwards has the same answer but for the order chosen.
        let mut backwards = problem.clone();
        backwards.ops.reverse();
        backwards.setups.reverse();
        backwards.precedences.reverse();
        let other = solve(&backwards, amply()).expect("an order");
        assert_eq!((other.cost, other.optimal_orders), (answer.cost, answer.optimal_orders));
    }
}

#[test]
fn replay_refuses_a_damaged_order() {
    let mut refused = 0;
    for seed in 0..400 {
        let problem = random_problem(seed, 7);
        let Ok(answer) = solve(&problem, amply()) else { continue };
        let n = answer.order.len();
        let mut short = answer.order.clone();
        let (lost, _) = short.remove(seed as usize % n);
        assert_eq!(replay(&problem, &short), Err(Violation::Missing(lost.clone())));
        let mut twice = answer.order.clone();
        twice.push(answer.order[0].clone());
        assert_eq!(replay(&problem, &twice), Err(Violation::Repeated(answer.order[0].0.clone())));
        let mut unheard_of = answer.order.clone();
        unheard_of[0].0 = "x".into();
        assert_eq!(replay(&problem, &unheard_of), Err(Violation::UnknownOp("x".into())));
        // Any other arrangement is refused exactly when exhaustion would not make it.
        let d = &mut Dice(seed);
        let mut mixed = answer.order.clone();
        (0..3).for_each(|_| mixed.swap(d.roll(n), d.roll(n)));
        let mut walk = Exhaustion::new(&problem);
        let mut cost = 0;
        let allowed = mixed.iter().all(|(id, setup)| {
            let i = problem.ops.iter().position(|op| op.id == *id).expect("listed");
            let allowed = walk.may(i, setup);
            cost += walk.price(i, setup);
            walk.done.push((i, setup.clone()));
            allowed
        });
        let verdict = replay(&problem, &mixed).ok().map(Minutes::thousandths);
        assert_eq!(verdict, allowed.then_some(cost), "seed {seed}: {mixed:?}");
        refused += u32::from(!allowed);
    }
    assert!(refused > 50, "damage must show: {refused}");
}

#[test]
fn a_certificate_survives_json_and_shows_tampering() {
    let mut problems = (0..100).map(|seed| random_problem(seed, 7));
    let problem = problems.find(|p| p.ops.len() == 7 && solve(p, amply()).is_ok()).expect("some seed");
    let answer = solve(&problem, amply()).expect("an order");
    let good = Certificate::new(problem, answer);
    let text = serde_json::to_string(&good).expect("json");
    assert_eq!(serde_json::from_str::<Certificate>(&text).expect("json"), good);
    assert_eq!(good.verify(), Ok(()));
    let cheaper = Certificate { cost: Minutes::ZERO, ..good.clone() };
    assert_eq!(cheaper.verify(), Err(Fault::Cost(good.cost)));
    let looser = Certificate { lower_bound: Minutes::ZERO, ..good.clone() };
    assert_eq!(looser.verify(), Err(Fault::Bound));
    for (count, json) in
        [(Some(1 << 53), "9007199254740992"), (Some(1 << 60), "\"1152921504606846976\""), (None, "null")]
    {
        let many = Certificate { optimal_orders: count, ..good.clone() };
        let text = serde_json::to_string(&many).expect("json");
        assert!(text.contains(&format!("\"optimal_orders\":{json}")), "{text}");
        assert_eq!(serde_json::from_str::<Certificate>(&text).expect("json"), many);
    }
}

#[test]
fn what_cannot_be_read_is_named() {
    let good = random_problem(3, 7);
    let refusal = |change: fn(&mut Problem)| {
        let mut problem = good.clone();
        change(&mut problem);
        match solve(&problem, amply()) {
            Err(Refusal::Malformed(what)) => what,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(refusal(|p| p.ops.push(p.ops[0].clone())), Malformed::OpTwice("o0".into()));
    assert_eq!(refusal(|p| p.setups.push(p.setups[0].clone())), Malformed::SetupTwice("S0".into()));
    assert_eq!(refusal(|p| p.precedences.push(("o0".into(), "z".into()))), Malformed::UnknownOp("z".into()));
    assert_eq!(refusal(|p| p.ops[0].setups.push("Z".into())), Malformed::UnknownSetup("Z".into()));
    assert_eq!(refusal(|p| p.ops[0].setups.clear()), Malformed::NoSetup("o0".into()));
    assert_eq!(refusal(|p| p.setup_first = Cost::Each(BTreeMap::new())), Malformed::NoCost("setup_first", "S0".into()));
    assert_eq!(
        refusal(|p| p.setup_change =
            Cost::Each(BTreeMap::from([("S0>Z".into(), Minutes::ZERO), ("*".into(), Minutes::ZERO)]))),
        Malformed::UnknownSetup("S0>Z".into())
    );
    assert_eq!(refusal(|p| p.tool_change = Minutes::whole(2_000_000)), Malformed::CostTooLarge("tool_change"));
    let empty = solve(&Problem::default(), amply()).expect("nothing to do");
    assert_eq!((empty.cost, empty.optimal_orders, empty.order.len()), (Minutes::ZERO, Some(1), 0));
}

/// The checker in Python shares no line with this crate; it must find every certificate right and every false one wrong.
#[test]
fn a_second_program_agrees() {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/independent/order_check.py");
    let folder = tempfile::tempdir().expect("a folder");
    let check = |name: &str, certificates: &[Certificate]| {
        let path = folder.path().join(name);
        std::fs::write(&path, serde_json::to_string(certificates).expect("json")).expect("written");
        std::process::Command::new("python3").arg(script).arg(&path).output()
    };
    let parts = [
        two_ended_shaft(1, true),
        two_ended_shaft(2, true),
        two_ended_shaft(2, false),
        many_holdings(1),
        unlike_costs(1),
        gated(1),
    ];
    let problems = (0..150).map(|seed| random_problem(seed, 11)).chain(parts);
    let good: Vec<Certificate> =
        problems.filter_map(|p| solve(&p, amply()).ok().map(|answer| Certificate::new(p, answer))).collect();
    let Ok(output) = check("good.json", &good) else {
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "the second program needs python3");
        eprintln!("NOT RUN: the second program needs python3");
        return;
    };
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    assert_eq!(String::from_utf8_lossy(&output.stdout).matches("agrees").count(), good.len());
    let one = good.iter().find(|c| c.order.len() > 5).expect("a larger one");
    let one_more = one.optimal_orders.map(|n| n + 1);
    let dearer = Minutes::from_thousandths(one.cost.thousandths() + 1);
    for (name, bad) in [
        ("count.json", Certificate { optimal_orders: one_more, ..one.clone() }),
        ("cost.json", Certificate { cost: dearer, ..one.clone() }),
        ("order.json", Certificate { order: one.order.iter().rev().cloned().collect(), ..one.clone() }),
        ("bound.json", Certificate { lower_bound: dearer, ..one.clone() }),
    ] {
        assert_eq!(check(name, &[bad]).expect("python3").status.code(), Some(1), "{name}");
    }
}
