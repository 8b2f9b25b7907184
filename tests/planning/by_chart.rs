//! The tolerance chart judges the plan: what the cheapest order cannot hold moves a cut into another holding, with the fewest
//! setups proved, or is said not to be held by any plan.

use turnwright::chain::chart::{charted, work};
use turnwright::chain::{self, Profile};
use turnwright::plan::Planned;
use turnwright::plan::order::replay;
use turnwright::unit::Length;

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
    let part = parts::part(text);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let mut chart = charted(&part, &chain, &profile, &p.plan, Some(&parts::shop())).expect("a chart").plan.chart;
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
