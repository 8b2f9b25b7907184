//! Work that has begun: operations done are left out with the others' numbers kept, and measured sizes feed the rest.

use turnwright::chain::{self, Chain, Profile};
use turnwright::model::Part;
use turnwright::model::plan::Verb;
use turnwright::plan::Planned;
use turnwright::unit::{Length, Station, Unit};
use turnwright::{figures, plan};

use crate::parts::{self, part};
use crate::plan_of;

fn as_measured(part: &Part) -> (Chain, Profile, Planned) {
    let chain = chain::locate(part).as_measured(part);
    let profile = Profile::of(part, &chain);
    let planned = plan::plan(part, &chain, &profile, Some(&parts::shop()), 10).expect("a plan");
    (chain, profile, planned)
}

fn with(more: &str) -> Part {
    part(&format!("{}\n{more}\n", parts::STUB))
}

#[test]
fn every_operation_done_in_turn_leaves_the_same_rest() {
    let whole = plan_of(parts::STUB);
    let all: Vec<(u32, String)> = whole.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
    for count in [1, 2, 5, 9, all.len() - 1] {
        let numbers: Vec<String> = all[..count].iter().map(|(n, _)| n.to_string()).collect();
        let (.., rest) = as_measured(&with(&format!("done: [{}]", numbers.join(", "))));
        let left: Vec<(u32, String)> = rest.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
        assert_eq!(left, all[count..], "{count} done");
        assert_eq!(rest.certificate.verify(), Ok(()));
        assert_eq!(rest.plan.done.len(), count);
        assert!(rest.plan.remarks.is_empty(), "{:?}", rest.plan.remarks);
        assert!(rest.plan.cost < whole.plan.cost, "less is left to pay");
        // The work looks the same when the rest begins as it did in the whole plan.
        let first = rest.plan.setups.first().expect("a setup");
        let same = whole.plan.setups.iter().find(|s| s.number == first.number).expect("its number is kept");
        assert_eq!(same.name, first.name);
    }
    let numbers: Vec<String> = all.iter().map(|(n, _)| n.to_string()).collect();
    let (.., nothing) = as_measured(&with(&format!("done: [{}]", numbers.join(", "))));
    assert!(nothing.plan.setups.is_empty() && nothing.plan.done.len() == all.len());
}

#[test]
fn what_was_done_against_a_rule_is_said() {
    let whole = plan_of(parts::STUB);
    let thread = whole.plan.operations().find(|(_, o)| o.id == "thread-A").expect("a thread").1.number;
    let (.., rest) = as_measured(&with(&format!("done: [{thread}, 5]")));
    assert!(rest.plan.remarks.iter().any(|r| r.contains("R9")), "{:?}", rest.plan.remarks);
    assert!(rest.plan.remarks.iter().any(|r| r == "done: 5 is no operation of the plan"), "{:?}", rest.plan.remarks);
    assert!(rest.plan.operations().all(|(_, o)| o.verb != Verb::Thread || o.id != "thread-A"));
}

#[test]
fn a_measured_overall_puts_the_zero_on_the_far_face() {
    // TRADE 11: overall 7.003 and the shoulder at 3.750 is then 3.253 from the far face, with the dial at 0 there.
    let part = with("measured: [{overall: 7.003}]");
    let (chain, profile, planned) = as_measured(&part);
    let sheet = figures::work(&part, &chain, &profile, &planned.plan, Some(&parts::shop()));
    let far = planned.plan.setups.iter().zip(&sheet.setups);
    let mut seen = false;
    for (setup, figures) in far {
        assert!(figures.correction.is_none(), "setup {}", setup.number);
        for (operation, f) in setup.operations.iter().zip(&figures.operations) {
            if operation.id == "finish-F" {
                let readings: Vec<f64> =
                    f.positions.iter().filter_map(|p| p.carriage).map(|c| c.value.to_f64(Unit::Inch)).collect();
                assert!(readings.iter().any(|r| (r - 3.253).abs() < 1e-9), "{readings:?}");
                seen = true;
            }
        }
    }
    assert!(seen);
}

#[test]
fn a_measured_face_moves_what_is_cut_to_it() {
    let part = with("measured: [{face: 3.250, at: 3.2515, from: datum}]");
    let (chain, ..) = as_measured(&part);
    let thou = |n: i64| Station(Length::micro_inches(n));
    assert_eq!(chain.span(2).map(|s| s.1), Some(thou(3_251_500)));
    assert_eq!(chain.moved, [(thou(3_250_000), thou(3_251_500))]);
    assert_eq!(chain.as_measured(&part).span(2), chain.span(2), "measuring twice moves nothing twice");
}

#[test]
fn a_diameter_measured_after_roughing_is_where_the_next_cut_begins() {
    let whole = plan_of(parts::STUB);
    let rough = whole.plan.operations().find(|(_, o)| o.id == "rough-C").expect("roughed").1.number;
    let done: Vec<String> = (1..=rough / 10).map(|n| (n * 10).to_string()).collect();
    let (.., rest) = as_measured(&with(&format!(
        "done: [{}]\nmeasured: [{{feature: pulley seat, diameter: 0.9062}}]",
        done.join(", ")
    )));
    let finish = rest.plan.operations().find(|(_, o)| o.id == "finish-C").expect("to finish").1;
    assert_eq!(finish.from_diameter, Some(Length::inch_tenths(9_062)));
}
