//! The tolerance chart judges the plan: what the cheapest order cannot hold moves a cut into another holding, with the fewest
//! setups proved, or is said not to be held by any plan.

use std::collections::HashMap;
use turnwright::chain::chart::{charted, work};
use turnwright::chain::{self, Profile};

use turnwright::model::{Part, Plan};
use turnwright::plan::order::{Cost, Minutes, Problem, replay};
use turnwright::plan::{Planned, in_order};
use turnwright::unit::Length;

use crate::order::exhaust::each_within;
use crate::planning::generated::Dice;
use crate::planning::{found, parts, plan_of};

/// A groove on the body that either mounting could cut; the far one needs the grooving tool anyway, and would take it. Its wall is
/// asked for from a shoulder that only the datum mounting cuts.
fn spindle(within: &str) -> String {
    format!(
        "part: spindle\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.250 x 8.125\ndatum: nose\noverall: 8.000 ±0.010\n\
         tolerances: {{lengths: ±0.010, diameters: ±0.002}}\nfeatures:\n  - turn: 1.0000 +0/-0.0006\n    to: 2.000\n    name: nose seat\n    \
         carries: {{part: bearing, bore: 1.000, enters: datum}}\n  - turn: 1.200\n    to: 5.500\n  - turn: 1.0000 +0/-0.0006\n    to: 6.750\n    \
         carries: {{part: bearing, bore: 1.000, enters: far}}\n  - relief: 0.860 +0/-0.010\n    to: 7.000\n  - thread: 1-12 UNF-2A\n    to: end\n  \
         - groove: 1.050\n    from: 3.000 ±0.010\n    wide: 0.125\ndims:\n  - {{from: 2.000, to: 3.000, is: 1.000 ±{within}}}\n"
    )
}

/// Whether the cuts of a plan, held as the shop file says, hold every drawn distance.
fn holds_all(text: &str, p: &Planned) -> bool {
    held(&parts::part(text), &p.plan)
}

fn held(part: &Part, plan: &Plan) -> bool {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let mut chart = charted(part, &chain, &profile, plan, Some(&parts::shop())).expect("a chart").plan.chart;
    for cut in &mut chart.cuts {
        cut.tolerance = cut.tolerance.or(cut.can_hold);
    }
    work(&chart).results.iter().all(|r| r.guaranteed)
}

#[test]
fn a_wall_is_cut_where_its_distance_is_held() {
    // The lathe holds ±.002 on a length, and ±.001 more after turning end for end: two cuts of one holding ±.004, of two ±.005.
    let loose = plan_of(&spindle("0.010"));
    assert!(loose.plan.chart_answers.is_empty() && loose.fewest_setups.is_none());
    let setup_of = |p: &Planned, id: &str| found(p, id).0.number;
    assert_eq!(setup_of(&loose, "groove-F"), setup_of(&loose, "groove-D"), "cheapest with the far groove's tool");
    let tight = plan_of(&spindle("0.0045"));
    assert_eq!(setup_of(&tight, "groove-F"), setup_of(&tight, "finish-A"));
    assert!(holds_all(&spindle("0.0045"), &tight) && !holds_all(&spindle("0.0045"), &loose));
    let [answer] = tight.plan.chart_answers.as_slice() else { panic!("{:?}", tight.plan.chart_answers) };
    assert!(answer.holds && answer.cheapest_gives == Length::micro_inches(5_000), "{answer:?}");
    assert!(answer.more_minutes > 0.0 && (tight.plan.cost - loose.plan.cost - answer.more_minutes).abs() < 1e-6);
    let fewest = tight.fewest_setups.as_ref().expect("counted");
    assert!(fewest.proven_optimal);
    assert_eq!(fewest.verify(), Ok(()));
    assert_eq!(replay(&fewest.problem, &fewest.order), Ok(fewest.cost));
    let used = tight.plan.setups.len() as u64;
    let least = answer.fewest_setups.expect("proved");
    assert!(
        least <= used && answer.says.contains(&format!("no plan with fewer than {least} setups holds 1.000 ±.0045")),
        "{}",
        answer.says
    );
    assert_eq!(tight.plan.remarks.as_slice(), std::slice::from_ref(&answer.says));
    assert_eq!(tight.certificate.verify(), Ok(()));
}

#[test]
fn what_no_plan_holds_is_said() {
    // Bearing face to bearing face of the idler shaft, cut from both ends: ±.002, ±.002 and the reading's ±.001.
    let text = parts::IDLER.replace("10.650 ±0.005", "10.650 ±0.002");
    assert_ne!(text, parts::IDLER);
    let p = plan_of(&text);
    let told: Vec<&str> = p.plan.chart_answers.iter().filter(|a| !a.holds).map(|a| a.says.as_str()).collect();
    assert!(
        told.iter().any(|t| t.contains("no plan of these holdings holds")
            && t.contains("10.650 ±.002")
            && t.contains("±.005")),
        "{told:?}"
    );
    assert!(p.fewest_setups.is_none());
}

/// Steps after which a part is too large to be tried in every order.
const STEPS: u64 = 40_000;

/// Of small parts with a close distance between two faces: no order that costs less, and none of fewer setups, holds it. All are
/// built and charted one by one.
#[test]
fn of_small_parts_no_cheaper_order_and_no_fewer_setups_hold_it() {
    let (mut moved, mut never) = (0, 0);
    for seed in 0..400 {
        let text = with_close_distance(seed);
        let close = plan_of(&text);
        let [answer] = close.plan.chart_answers.as_slice() else { continue };
        let loose = plan_of(&loosened(&text));
        let part = parts::part(&text);
        let problem = &loose.certificate.problem;
        if answer.holds {
            assert!(held(&part, &close.plan), "seed {seed}");
            let cost = replay(problem, &close.certificate.order).expect("an order of the same problem");
            let Ok(better) = any_holds(&part, &loose, problem, cost.thousandths() - 1) else { continue };
            assert!(better.is_none(), "seed {seed}: {cost:?} {better:?}");
            let least = answer.fewest_setups.expect("proved");
            let Ok(fewer) = any_holds(&part, &loose, &by_setups(problem), least * 1_000 - 1) else { continue };
            assert!(fewer.is_none(), "seed {seed}: {least} {fewer:?}");
            moved += 1;
        } else if never == 0 && answer.says.starts_with("no plan of these holdings") {
            let Ok(any) = any_holds(&part, &loose, problem, u64::MAX) else { continue };
            assert!(any.is_none(), "seed {seed}: {} {any:?}", answer.says);
            never += 1;
        }
        if moved >= 8 && never >= 1 {
            return;
        }
    }
    panic!("only {moved} and {never} were small enough");
}

/// A bar of three sections with a groove in the middle that both ends reach, another groove near one end, and a distance that is
/// asked for closer than cuts of different holdings give.
fn with_close_distance(seed: u64) -> String {
    let d = &mut Dice(seed);
    let roll = |d: &mut Dice, from: u64, steps: u64| ((from + d.roll(steps) * 10) as f64) / 1_000.0;
    let (a, b) = (roll(d, 300, 60), roll(d, 2_000, 80));
    let c = b + roll(d, 300, 60);
    let groove = a + roll(d, 300, 60);
    let within = [40, 45, 55][d.roll(3) as usize];
    let (from, to) = [(a, groove), (groove, b), (a, b), (groove, c), (0.0, groove)][d.roll(5) as usize];
    let other = if d.roll(2) == 0 { b + 0.1 } else { 0.1 };
    format!(
        "part: three steps\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.250 x {:.3}\ndatum: left end\noverall: {c:.3}\n\
         tolerances: {{lengths: ±0.010, diameters: ±0.002}}\nfeatures:\n  - turn: 0.900\n    to: {a:.3}\n  - turn: stock\n    to: {b:.3}\n  \
         - turn: 0.950\n    to: end\n  - groove: 0.800\n    from: {groove:.3}\n    wide: 0.125\n  - groove: 0.700\n    from: {other:.3}\n    \
         wide: 0.125\n  - center hole: none\n    end: datum\n  - center hole: none\n    end: far\ndims:\n  \
         - {{from: {from:.3}, to: {to:.3}, is: {:.3} ±0.00{within}}}\n",
        c + 0.125,
        to - from
    )
}

fn loosened(text: &str) -> String {
    text.split("dims:").next().unwrap_or_default().to_owned()
}

/// The first order of a problem that costs no more than `most` and holds every distance.
fn any_holds(part: &Part, loose: &Planned, problem: &Problem, most: u64) -> Result<Option<Vec<(String, String)>>, ()> {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    // What is the same to a chart and to what may follow is followed once, the cheapest.
    let (mut least, mut holds) = (HashMap::new(), None);
    each_within(problem, most, STEPS, &mut |order, cost| {
        let best = least.entry(stays(problem, order)).or_insert(u64::MAX);
        if holds.is_some() || *best <= cost {
            return false;
        }
        *best = cost;
        if order.len() == problem.ops.len() {
            let order: Vec<(String, String)> =
                order.iter().map(|(i, s)| (problem.ops[*i].id.clone(), s.clone())).collect();
            let plan = in_order(part, (&chain, &profile), Some(&parts::shop()), loose, &order).expect("a plan");
            holds = held(part, &plan).then_some(order);
        }
        true
    })?;
    Ok(holds)
}

/// The stays in holdings with what is cut in each, and facing in its order: all that a chart can depend on. The last cut: what may
/// follow, and at what cost, depends on it.
fn stays(problem: &Problem, order: &[(usize, String)]) -> String {
    let mut all: Vec<(String, Vec<&str>)> = Vec::new();
    let mut faces = String::new();
    for (i, setup) in order {
        let op = &problem.ops[*i];
        if op.verb == "face" {
            faces += &op.id;
        }
        match all.last_mut().filter(|(name, _)| name == setup) {
            Some((_, ids)) => ids.push(&op.id),
            None => all.push((setup.clone(), vec![&op.id])),
        }
    }
    for (_, ids) in &mut all {
        ids.sort_unstable();
    }
    let last = order.last().map(|(i, _)| i);
    format!("{all:?} {faces} {last:?}")
}

/// The same problem with nothing but setups counted, a minute each.
fn by_setups(problem: &Problem) -> Problem {
    let mut count = problem.clone();
    for op in &mut count.ops {
        op.cost = Cost::Same(Minutes::ZERO);
    }
    (count.setup_first, count.setup_change) = (Cost::Same(Minutes::whole(1)), Cost::Same(Minutes::whole(1)));
    (count.tool_change, count.tool_first) = (Minutes::ZERO, Minutes::ZERO);
    count
}
