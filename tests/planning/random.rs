//! Random parts: never a panic, every order replays, and no rule makes a plan cheaper.

use std::fmt::Write as _;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestRunner};
use turnwright::plan::NoPlan;

use crate::planning::parts::{part, with};
use crate::planning::{found, planned, try_plan};

/// What a random section is: kind, diameter and length in hundredths, seat.
type Draw = (u8, i64, i64, bool);

fn inches(hundredths: i64) -> String {
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// A description in millimetres or inches of random sections.
fn description(draws: &[Draw], groove: bool, slot: bool, centers: u8, parted: bool) -> String {
    let overall: i64 = draws.iter().map(|d| d.2).sum();
    let sawn = if parted { overall + 600 } else { overall + 12 };
    let mut text = format!(
        "part: random\nunits: in\nstock: 2.00 x {}\ndatum: left end\noverall: {}\nfeatures:\n",
        inches(sawn),
        inches(overall)
    );
    // A groove lies in the middle of the longest section.
    let longest = (0..draws.len()).max_by_key(|i| draws[*i].2).unwrap_or(0);
    let middle = draws[..longest].iter().map(|d| d.2).sum::<i64>() + draws[longest].2 / 2;
    let mut at = 0;
    for (kind, diameter, long, seat) in draws {
        at += long;
        let d = inches(*diameter);
        let section = match kind {
            0 => "turn: stock".to_owned(),
            1 => format!("relief: {d} +0/-0.010"),
            // A rod threaded from end to end leaves nothing to hold: a test of its own.
            2 if draws.len() > 1 => format!("thread: {}-16 UN-2A", THREADS[*diameter as usize % THREADS.len()]),
            3 if *seat => {
                format!("turn: {d} +0/-0.0005\n    finish: 32 µin\n    carries: {{part: bearing, bore: {d}}}")
            }
            3 => format!("turn: {d} +0/-0.0005\n    finish: 32 µin"),
            4 => format!("turn: {d}\n    true to: first within 0.001 TIR"),
            5 => format!("turn: {d}\n    name: first"),
            6 => format!("taper: 1:20\n    large: {d}\n    tapers to: {}", if *seat { "far" } else { "datum" }),
            _ => format!("turn: {d} ±0.002"),
        };
        let known = draws.iter().any(|d| d.0 == 5);
        let section = if known { section } else { section.replace("\n    true to: first within 0.001 TIR", "") };
        let section = if text.contains("name: first") { section.replace("\n    name: first", "") } else { section };
        let _ = write!(text, "  - {section}\n    to: {}\n", inches(at));
    }
    if groove {
        let _ = write!(text, "  - groove: 0.40 ±0.005\n    from: {}\n    wide: 0.05\n", inches(middle - 2));
    }
    if slot {
        let _ = write!(text, "  - keyseat: Woodruff 606\n    at: {}\n", inches(overall / 3));
    }
    text += "  - chamfer: 0.030 x 45°\n    end: datum\n";
    text += match centers {
        0 => "  - center hole: A 1/8\n    end: both\n",
        1 => "  - center hole: none\n    end: far\n",
        2 => "  - center hole: none\n    end: both\n",
        _ => "",
    };
    if parted {
        text += "plan: {part off: true}\n";
    }
    text
}

const THREADS: [&str; 6] = ["1/2", "5/8", "3/4", "7/8", "1", "1 1/4"];

/// A description whose debug text is itself, so that a failure can be read.
#[derive(Clone)]
pub(crate) struct Story(pub(crate) String);

impl std::fmt::Debug for Story {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "\n{}", self.0)
    }
}

pub(crate) fn random_part(most: usize) -> impl Strategy<Value = Story> {
    let draw = (0_u8..9, 40_i64..200, 20_i64..300, any::<bool>());
    (prop::collection::vec(draw, 1..=most), any::<bool>(), any::<bool>(), 0_u8..4, 0_u8..8).prop_map(
        |(draws, groove, slot, centers, part_off)| Story(description(&draws, groove, slot, centers, part_off == 0)),
    )
}

pub(crate) fn runner(cases: u32) -> TestRunner {
    let config = Config {
        cases,
        rng_seed: RngSeed::Fixed(2025),
        rng_algorithm: RngAlgorithm::ChaCha,
        failure_persistence: None,
        ..Config::default()
    };
    TestRunner::new(config)
}

#[test]
fn every_random_part_has_a_plan_that_replays() {
    runner(300)
        .run(&random_part(7), |Story(text)| {
            let part = part(&text);
            let p = try_plan(&part).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            prop_assert_eq!(p.certificate.verify(), Ok(()));
            prop_assert!(p.plan.operations().all(|(_, o)| !o.why.is_empty()));
            prop_assert_eq!(p.plan.operations().count(), p.derived.operations.len());
            Ok(())
        })
        .unwrap_or_else(|e| panic!("{e}"));
}

#[test]
fn what_is_left_is_the_finished_part() {
    runner(200)
        .run(&random_part(7), |Story(text)| {
            let part = part(&text);
            let p = try_plan(&part).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            let last = &p.plan.setups.last().ok_or_else(|| TestCaseError::fail("no setups"))?.after;
            let whole: turnwright::unit::Length = last.iter().map(|s| s.to - s.from).sum();
            prop_assert_eq!(Some(whole), part.overall.as_ref().map(|s| s.nominal));
            for span in last {
                let finished = matches!(
                    span.state,
                    turnwright::model::plan::State::Finished | turnwright::model::plan::State::Threaded
                );
                prop_assert!(finished && span.feature.is_some(), "{:?}", span);
            }
            Ok(())
        })
        .unwrap_or_else(|e| panic!("{e}"));
}

#[test]
fn a_rule_never_lowers_the_cost() {
    let soft = ["R3", "R18", "R20", "R21", "order-thread-seat", "order-turn-keyseat"];
    let [compared, cheaper] = [const { std::cell::Cell::new(0_u32) }; 2];
    runner(120)
        .run(&(random_part(5), 0..soft.len()), |(Story(text), which)| {
            let part = part(&text);
            let kept = try_plan(&part).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            let wish = format!("off: [{}]", soft[which]);
            // A description has one `plan:`; nothing is compared where it is taken.
            if part.wishes.part_off {
                return Ok(());
            }
            let fewer = with(&text, &wish);
            let without = try_plan(&fewer).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            if kept.derived.mountings.len() == without.derived.mountings.len() {
                prop_assert!(without.plan.cost <= kept.plan.cost, "{} off", soft[which]);
                compared.set(compared.get() + 1);
                cheaper.set(cheaper.get() + u32::from(without.plan.cost < kept.plan.cost));
            }
            Ok(())
        })
        .unwrap_or_else(|e| panic!("{e}"));
    assert!(compared.get() >= 60 && cheaper.get() >= 1, "some rule must bite: {} of {}", cheaper.get(), compared.get());
}

/// What a person adds to `plan:` and is followed never makes the plan cheaper than the rules alone; what gives way to it is a soft rule
/// that it contradicts, and then the same part is compared without that rule.
#[test]
fn a_wish_never_lowers_the_cost() {
    let [dearer, told, gave_way, compared] = [const { std::cell::Cell::new(0_u32) }; 4];
    let more = |count: &std::cell::Cell<u32>, by: bool| count.set(count.get() + u32::from(by));
    runner(150)
        .run(&(random_part(5), any::<[u16; 2]>(), 0..3_u8), |(Story(text), [a, b], kind)| {
            let part = part(&text);
            if part.wishes.part_off {
                return Ok(());
            }
            let alone = try_plan(&part).map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            let ops: Vec<String> = alone.plan.operations().filter_map(|(_, o)| wishable(&part, o)).collect();
            if ops.is_empty() {
                return Ok(());
            }
            // Against the order found, so that it asks for something.
            let (a, b) = (usize::from(a) % ops.len(), usize::from(b) % ops.len());
            let (one, other) = (&ops[a.max(b)], &ops[a.min(b)]);
            let wish = match kind {
                0 => format!("before: [[{one}, {other}]]"),
                1 => format!("together: [[{one}, {other}]]"),
                _ => format!("before: [[{one}, {other}]], together: [[{one}, {other}]]"),
            };
            let wished = with(&text, &wish);
            let Ok(with_wish) = try_plan(&wished) else {
                more(&told, true);
                return Ok(());
            };
            if !with_wish.derived.refused.is_empty() || !with_wish.derived.unheeded.is_empty() {
                more(&told, true);
                return Ok(());
            }
            // A soft rule that the wish outweighs is not in its problem: what is left of the rules is compared.
            let problem = |p: &turnwright::plan::Planned| p.certificate.problem.clone();
            let kept = problem(&with_wish);
            let mut bare = problem(&alone);
            bare.precedences.retain(|pair| kept.precedences.contains(pair));
            bare.same_setup.retain(|pair| kept.same_setup.contains(pair));
            more(&gave_way, bare.precedences.len() < alone.certificate.problem.precedences.len());
            if bare.setups != kept.setups || bare.ops.iter().map(|o| &o.cost).ne(kept.ops.iter().map(|o| &o.cost)) {
                return Ok(());
            }
            let cheapest = turnwright::plan::order::solve(&bare, turnwright::plan::order::Limits::default());
            let cheapest = cheapest.map_err(|e| TestCaseError::fail(format!("{e:?}")))?.cost;
            prop_assert!(with_wish.certificate.cost >= cheapest, "{}", wish);
            prop_assert_eq!(with_wish.certificate.verify(), Ok(()));
            more(&compared, true);
            more(&dearer, with_wish.certificate.cost > cheapest);
            Ok(())
        })
        .unwrap_or_else(|e| panic!("{e}"));
    let [dearer, told, gave_way, compared] = [dearer, told, gave_way, compared].map(std::cell::Cell::into_inner);
    assert!(compared >= 15 && dearer >= 3 && told >= 5 && gave_way >= 1, "{compared} {dearer} {told} {gave_way}");
}

/// How a wish names an operation on a section: `finish C`.
fn wishable(part: &turnwright::model::Part, o: &turnwright::model::Operation) -> Option<String> {
    let letter = part.features.get(o.feature?)?.letter.clone();
    (!letter.is_empty()).then(|| format!("{} {letter}", o.verb.word()))
}

#[test]
fn nothing_to_turn_is_told() {
    let mut empty = part("part: pin\nunits: in\ndatum: head\noverall: 1\nfeatures:\n  - turn: 0.500\n    to: end\n");
    empty.features.clear();
    assert_eq!(try_plan(&empty).map(|_| ()), Err(NoPlan::NothingToTurn));
}

#[test]
fn a_plain_pin_is_turned_in_two_bites() {
    let p = planned(&part(
        "part: pin\nunits: in\nstock: 1.000 x 3.100\ndatum: head\noverall: 3.000\nfeatures:\n  - turn: 0.900 ±0.002\n    to: end\n",
    ));
    let (one, other) = (found(&p, "finish-A-datum"), found(&p, "finish-A-far"));
    assert_ne!(one.0.number, other.0.number);
    assert_eq!(one.1.to, other.1.to);
}
