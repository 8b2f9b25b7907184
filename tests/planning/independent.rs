//! What the plan says is the best order is so by other means, which share no line with the search: a plain enumeration of every
//! order of small parts, and the dynamic programme in Python for two hundred generated parts and every sample that it can do in
//! seconds. Every order claimed replays, and no rule more makes a part cheaper.

use std::cell::Cell;

use turnwright::plan::order::{Certificate, Cost, Limits, Minutes, Problem, replay, solve};
use turnwright::plan::{NoPlan, Planned};

use crate::order::exhaust::exhaust_within;
use crate::planning::believable::judged;
use crate::planning::generated::{Dice, Generated, small, tiny};
use crate::planning::generated_wide::wide;
use crate::planning::parts;

/// Operations up to which the Python programme takes well under a second.
const MOST_OPS: usize = 17;
const PARTS: usize = 200;
/// Steps of the enumeration for one part, and how many parts must be done within them.
const STEPS: u64 = 150_000;
const ENUMERATED: usize = 40;

/// The proven certificate of a generated part, replayed.
fn certificate(seed: u64, g: &Generated) -> Certificate {
    planned(seed, g).unwrap_or_else(|e| panic!("seed {seed}: {e:?}\n{}", g.text))
}

fn planned(seed: u64, g: &Generated) -> Result<Certificate, NoPlan> {
    let shop = parts::shop_for(&g.text);
    let (p, _) = judged(&g.text, g.with_shop.then_some(&shop))?;
    assert_eq!(p.certificate.verify(), Ok(()), "seed {seed}");
    assert!(p.plan.proven_optimal, "seed {seed}: {} of {}\n{}", p.plan.floor, p.plan.cost, g.text);
    same_minutes(&p);
    Ok(p.certificate)
}

/// Of a part of every kind of work; a knurled button with nothing to hold it by may be refused, one in twenty at most.
fn certificate_of_every_kind(seed: u64, most: u64, refused: &Cell<u64>) -> Option<Certificate> {
    match planned(seed, &wide(seed, most)) {
        Ok(certificate) => Some(certificate),
        Err(NoPlan::Clash(_)) => {
            refused.set(refused.get() + 1);
            assert!(refused.get() <= 1 + seed / 20, "{} of {seed} parts are refused", refused.get());
            None
        }
        Err(other) => panic!("seed {seed}: {other:?}"),
    }
}

/// The minutes told of each operation are those that were proved, and with setups and tools they come to the cost.
fn same_minutes(p: &Planned) {
    assert!(p.plan.floor <= p.plan.cost + 1e-9, "{} and {}", p.plan.floor, p.plan.cost);
    for (setup, o) in p.plan.operations() {
        let op = p.certificate.problem.ops.iter().find(|op| op.id == o.id).expect("listed");
        let proved = match &op.cost {
            Cost::Same(proved) => *proved,
            Cost::Each(table) => table[&setup.name],
        };
        assert_eq!((o.minutes * 1000.0).round() as u64, proved.thousandths(), "{}", o.id);
    }
}

fn certificates() -> Vec<Certificate> {
    // Plain shafts and parts of every kind of work by turns.
    let refused = Cell::new(0);
    let every = |seed| certificate_of_every_kind(seed, 2, &refused);
    let all = (0..).flat_map(|seed| [Some(certificate(seed, &small(seed))), every(seed)]);
    all.flatten().filter(|c| c.order.len() <= MOST_OPS).take(PARTS).collect()
}

/// Runs the Python programme over certificates; what it says, or none where there is no Python.
fn second_program(list: &[Certificate]) -> Option<String> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/independent/order_check.py");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("parts.json");
    std::fs::write(&path, serde_json::to_string(list).expect("json")).expect("written");
    let Ok(output) = std::process::Command::new("python3").arg(script).arg(&path).output() else {
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "the second program needs python3");
        eprintln!("NOT RUN: the second program needs python3");
        return None;
    };
    let says = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{says}{}", String::from_utf8_lossy(&output.stderr));
    Some(says)
}

#[test]
fn a_second_program_finds_no_better_order_of_two_hundred_parts() {
    let list = certificates();
    if let Some(says) = second_program(&list) {
        assert_eq!(says.matches("agrees").count(), PARTS, "{says}");
    }
}

/// The same by constraint programming, another method and another solver: Google OR-Tools in a Python of its own, which `tests/run`
/// sets up. None where it is not there; with `TURNWRIGHT_ALL` that is a failure.
fn third_program(list: &[Certificate]) -> Option<String> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let python = root.join("target/tools/py/bin/python");
    if !python.exists() {
        assert!(!all_is_asked(), "OR-Tools is missing: tests/run sets it up in {}", python.display());
        eprintln!("NOT RUN: the check by OR-Tools needs {}; tests/run sets it up", python.display());
        return None;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("parts.json");
    std::fs::write(&path, serde_json::to_string(list).expect("json")).expect("written");
    let script = root.join("tests/independent/ortools_check.py");
    let output = std::process::Command::new(python).arg(script).arg(&path).output().expect("it runs");
    let says = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{says}{}", String::from_utf8_lossy(&output.stderr));
    Some(says)
}

/// Whether nothing may be left out.
fn all_is_asked() -> bool {
    std::env::var_os("TURNWRIGHT_ALL").is_some()
}

#[test]
fn constraint_programming_proves_the_same_least_cost() {
    // All two hundred take minutes: a plain run takes every tenth.
    let step = if all_is_asked() { 1 } else { 10 };
    let mut list: Vec<Certificate> = certificates().into_iter().step_by(step).collect();
    list.extend(samples().into_iter().map(|(_, c)| c).filter(|c| c.order.len() <= 23));
    assert!(list.iter().any(|c| c.order.len() == 23), "a sample of twenty-three operations is among them");
    if let Some(says) = third_program(&list) {
        assert_eq!(says.matches("proved").count(), list.len(), "{says}");
    }
}

#[test]
fn every_order_of_small_parts_tried_is_no_cheaper_and_as_many_are_as_cheap() {
    let mut done = 0;
    let refused = Cell::new(0);
    let every = |seed| certificate_of_every_kind(seed, 1, &refused);
    for (seed, c) in (0..120).flat_map(|seed| [(seed, Some(certificate(seed, &tiny(seed)))), (seed, every(seed))]) {
        let Some(c) = c else { continue };
        let Ok(best) = exhaust_within(&c.problem, c.cost.thousandths(), STEPS) else { continue };
        let count = c.optimal_orders.expect("counted");
        assert_eq!(best, Some((c.cost.thousandths(), count)), "seed {seed}");
        done += 1;
        if done == ENUMERATED {
            return;
        }
    }
    panic!("only {done} parts were small enough");
}

/// One more rule of any kind never lowers the cost of a part, and what no order keeps is refused.
#[test]
fn one_more_rule_never_makes_a_part_cheaper() {
    let (mut dearer, mut refused) = (0, 0);
    for seed in 0..60 {
        let c = certificate(seed, &small(seed));
        for more in 0..6 {
            let problem = one_more_rule(&c.problem, seed * 6 + more);
            match solve(&problem, Limits::default()) {
                Ok(answer) => {
                    assert!(answer.cost >= c.cost, "seed {seed}");
                    assert_eq!(replay(&problem, &answer.order), Ok(answer.cost), "seed {seed}");
                    dearer += u32::from(answer.cost > c.cost);
                }
                Err(_) => refused += 1,
            }
        }
    }
    assert!(dearer > 10 && refused > 5, "some rule must bite: {dearer}, {refused}");
}

/// The same for the samples, each with forty more rules, one at a time.
#[test]
fn one_more_rule_never_makes_a_sample_cheaper() {
    for (name, c) in samples() {
        let (mut dearer, mut refused) = (0, 0);
        for seed in 0..40 {
            let problem = one_more_rule(&c.problem, seed);
            match solve(&problem, Limits::default()) {
                Ok(answer) => {
                    assert!(answer.cost >= c.cost, "{name}, seed {seed}");
                    dearer += u32::from(answer.cost > c.cost);
                }
                Err(_) => refused += 1,
            }
        }
        assert!(dearer + refused > 3, "{name}: some rule must bite: {dearer}, {refused}");
    }
}

fn one_more_rule(problem: &Problem, seed: u64) -> Problem {
    let d = &mut Dice(seed);
    let mut any = |n: usize| d.roll(n as u64) as usize;
    let (a, b) = (any(problem.ops.len()), any(problem.ops.len()));
    let setup = problem.setups[any(problem.setups.len())].name.clone();
    let mut tighter = problem.clone();
    let id = |i: usize| problem.ops[i].id.clone();
    match any(6) {
        0 if a != b => tighter.precedences.push((id(a), id(b))),
        1 if a != b => tighter.adjacent.push((id(a), id(b))),
        2 if a != b => tighter.same_setup.push((id(a), id(b))),
        3 => tighter.setup_needs.entry(setup).or_default().push(id(a)),
        4 if a != b => {
            let own = &problem.ops[a].setups;
            tighter.setup_gates.entry(own[any(own.len())].clone()).or_default().push((id(a), id(b)));
        }
        _ => tighter.setup_ends.entry(setup).or_default().push(id(a)),
    }
    tighter
}

/// Every sample that is a part, with its own shop file.
fn samples() -> Vec<(String, Certificate)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let (mut list, mut rests) = (Vec::new(), 0);
    let mut names: Vec<_> = std::fs::read_dir(&folder).expect("samples").map(|e| e.expect("an entry").path()).collect();
    names.sort();
    for path in names.into_iter().filter(|p| p.extension().is_some_and(|e| e == "yaml")) {
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        if name.starts_with("shop") {
            continue;
        }
        let part = turnwright::read::part(&name, &std::fs::read(&path).expect("read")).part.expect("a part");
        let shop = part.lathe.as_ref().map(|lathe| {
            let bytes = std::fs::read(folder.join(&lathe.text)).expect("its shop file");
            turnwright::read::shop(&lathe.text, &bytes).shop.expect("a shop")
        });
        let chain = turnwright::chain::locate(&part);
        let profile = turnwright::chain::Profile::of(&part, &chain);
        let p = turnwright::plan::plan(&part, &chain, &profile, shop.as_ref(), 60)
            .unwrap_or_else(|e| panic!("{name}: {e:?}"));
        same_minutes(&p);
        // What no order costs less than is what it costs, a follow rest that every order sets counted; cuts that are eased are not.
        let sprung = p.plan.operations().any(|(_, o)| o.spring > 0 || o.lighter.is_some());
        assert!(sprung || (p.plan.floor - p.plan.cost).abs() < 1e-6, "{name}: {} and {}", p.plan.floor, p.plan.cost);
        rests += p.plan.setups.iter().filter(|s| s.rest.as_ref().is_some_and(|r| r.follows)).count();
        list.push((name, p.certificate));
    }
    assert!(rests > 1, "the screws want a follow rest: {rests}");
    list
}

#[test]
fn every_sample_is_proven_replays_and_a_second_program_agrees() {
    let list = samples();
    assert!(list.len() >= 7, "{}", list.len());
    for (name, c) in &list {
        assert!(c.proven_optimal && c.lower_bound == c.cost, "{name}");
        assert_eq!(replay(&c.problem, &c.order), Ok(c.cost), "{name}");
        assert!(c.cost > Minutes::ZERO, "{name}");
    }
    let all: Vec<Certificate> = list.into_iter().map(|(_, c)| c).collect();
    if let Some(says) = second_program(&all) {
        assert_eq!(says.matches("agrees").count(), all.len(), "{says}");
    }
}
