//! Both ends roughed before either is finished (US Army OD1645, p. 60): offered where work must stay straight, planned where it is wished, and
//! taken by itself where rules would give way without it. How slender and how true "must stay straight" is: common practice, no source.

use turnwright::model::plan::Verb;

use crate::planning::parts::part;
use crate::planning::{found, number, plan_of, planned};

const ROTOR: &str = "part: rotor shaft\nunits: in\nmaterial: 4140\nstock: 2 x 10 1/8\ndatum: drive end\noverall: 10.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 1.000 +0/-0.0005\n    to: 2.500\n  \
- turn: 1.1812 +.0005/+.0001\n    to: 3.100\n    name: drive bearing\n  - turn: 1.875\n    to: 3.500\n  \
- turn: 1.250 +0/-0.0005\n    to: 6.500\n    name: rotor seat\n  - turn: 1.1812 +0.0005/+0.0001\n    to: 7.100\n    name: far bearing\n    \
true to: drive bearing within 0.0005 TIR\n  - turn: 1.000\n    to: end\n  - center hole: A 1/8\n    end: both\n";

#[test]
fn the_wish_that_is_offered_roughs_both_ends_first() {
    let usual = plan_of(ROTOR);
    let offered = usual.plan.remarks.iter().find(|r| r.contains("is roughed from the other end"));
    let wish = offered.and_then(|r| r.split('`').nth(1)).expect("a wish is offered");
    let asked = planned(&part(&format!("{ROTOR}{}\n", wish.replace("plan: {", "plan:\n  ").trim_end_matches('}'))));
    assert!(asked.derived.refused.is_empty() && asked.derived.unheeded.is_empty(), "{wish}");
    assert_eq!(asked.certificate.verify(), Ok(()));
    let roughs = |p: &turnwright::plan::Planned| {
        p.plan.operations().filter(|(_, o)| o.verb == Verb::Rough).map(|(_, o)| o.number).max().expect("roughing")
    };
    let first = |p: &turnwright::plan::Planned| {
        let close = p.plan.operations().filter(|(_, o)| o.verb == Verb::Finish && o.close);
        close.map(|(_, o)| o.number).min().expect("seats")
    };
    assert!(roughs(&asked) < first(&asked), "{wish}");
    assert!(roughs(&usual) > first(&usual));
    // It holds an end as it is roughed, takes no less time, and offers nothing any more.
    assert!(asked.plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.roughed)));
    assert!(asked.plan.cost >= usual.plan.cost);
    assert!(!asked.plan.remarks.iter().any(|r| r.contains("is roughed from the other end")));
}

#[test]
fn a_short_shaft_without_a_run_out_is_left_alone() {
    let plain = ROTOR.replace("    true to: drive bearing within 0.0005 TIR\n", "");
    assert_ne!(plain, ROTOR);
    assert!(!plan_of(&plain).plan.remarks.iter().any(|r| r.contains("is roughed from the other end")));
}

/// A slender shaft whose far half would be driven through a finished seat: holding it as it is roughed costs less than giving way.
#[test]
fn where_rules_give_way_an_end_is_held_as_it_is_roughed() {
    let text = "part: feed shaft\nunits: in\nmaterial: 1045 cold drawn\nstock: 1 x 24 1/8\ndatum: gear end\noverall: 24.000 ±0.015\n\
tolerances: {lengths: ±0.010, diameters: ±0.002}\nfeatures:\n  - turn: 0.750 +0/-0.001\n    to: 6.000\n  - thread: 7/8-14 UNF-2A\n    \
to: 16.000\n  - turn: 0.750 +0/-0.001\n    to: end\n  - center hole: A 1/8\n    end: both\n";
    let p = plan_of(text);
    assert!(p.plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.roughed)), "{:?}", p.plan.given_way);
    assert!(number(&p, "rough-C") < number(&p, "finish-A"), "{:?}", found(&p, "finish-A").1.number);
    assert_eq!(p.certificate.verify(), Ok(()));
}
