//! What a turner who read whole sheets found wrong on them, each with the part he wrote. Common practice, no source, but where one is named.

use turnwright::chain::{self, Profile};
use turnwright::figures;
use turnwright::model::plan::Verb;
use turnwright::model::shop::Reads;
use turnwright::plan;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::sheet::{self};

use crate::figures::hand::{part, shop};

const GATE: &str = "part: gate screw\nunits: mm\nmaterial: C45\nstock: 36 x 306\ndatum: head\noverall: 300 ±0.3\ntolerances: ISO 2768-m\nfeatures:\n  \
- turn: 30 h8\n    to: 40\n  - relief: 21.5 +0/-0.3\n    to: 56\n  - thread: Tr 28x10(P5)-7e LH\n    to: 270\n  - turn: 18 h7\n    to: 300\n  \
- center hole: A 2.5\n    end: both\n";

/// The sheet in Markdown, spaces joined, of a part on the inch lathe of the hand-worked sheet; and the minutes and travel of its thread.
fn made(text: &str) -> (String, Option<(f64, f64)>) {
    let (part, shop) = (part(text.as_bytes()), shop(Reads::Radius));
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, Some(&shop), 10).expect("a plan");
    let figures = figures::work(&part, &chain, &profile, &planned.plan, Some(&shop));
    let sources = Sources {
        part: &part,
        chain: &chain,
        plan: &planned.plan,
        figures: &figures,
        findings: &[],
        shop: Some(&shop),
    };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let text = sheet::markdown::markdown(&view).expect("the template fits");
    let thread = planned.plan.operations().find(|(_, o)| o.verb == Verb::Thread);
    let times = thread.and_then(|(_, o)| {
        let all = figures.setups.iter().flat_map(|s| &s.operations);
        let speed = all.into_iter().find(|f| matches!(f.job, figures::Job::Thread(_)))?.speed.as_ref()?.rpm();
        Some((o.minutes, (o.from? - o.to?).abs().mm() / (10.0 * speed)))
    });
    (text.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" "), times)
}

/// The tailstock is proven where it must be true longest: on the blank of a thread of 214 mm, not on a seat of 30.
#[test]
fn the_test_cut_is_the_longest_that_must_be_parallel() {
    let (sheet, _) = made(GATE);
    assert!(sheet.contains("same Ø at both ends of C"), "{sheet}");
    // Without the long thread it is the close seat again.
    let (short, _) =
        made(&GATE.replace("  - thread: Tr 28x10(P5)-7e LH\n    to: 270\n", "  - turn: 26\n    to: 270\n"));
    assert!(!short.contains("same Ø at both ends of C"), "{short}");
}

/// A line that is scribed by the carriage is told in the unit of its dial: 40 mm are 1.575 in (1 in = 25.4 mm, 1959).
#[test]
fn a_line_by_the_carriage_is_in_the_unit_of_its_dial() {
    let (sheet, _) = made(GATE);
    if sheet.contains("at carriage") {
        assert!(sheet.contains("at carriage 1.575 in") && !sheet.contains("at carriage 40.00"), "{sheet}");
    } else {
        panic!("no line by the carriage: {sheet}");
    }
}

/// A thread of 10 mm on a screw of 8 to the inch: the half-nuts stay closed, and each pass comes back under power, as long as it went.
#[test]
fn a_reversed_thread_takes_the_way_back_too() {
    let (sheet, times) = made(GATE);
    assert!(sheet.contains("reverse the spindle"), "{sheet}");
    let (minutes, once) = times.expect("a thread with its travel");
    let passes = (minutes - 1.0) / (2.0 * once + 0.3);
    assert!(
        (passes - passes.round()).abs() < 0.02 && passes > 10.0,
        "{passes} passes of {minutes} minutes, {once} each way"
    );
}

/// A micrometer of 1 to 2 in cannot read .997: limits over the end of a range name both.
#[test]
fn limits_over_the_end_of_a_range_name_both_micrometers() {
    let text = "part: pin\nunits: in\nmaterial: 1018\nstock: 1.250 x 3.125\ndatum: near end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 1.000\n    to: 1.500\n  - turn: 1.125\n    to: end\n";
    let (sheet, _) = made(text);
    assert!(sheet.contains("mic 0–1/1–2"), "{sheet}");
    for one in ["micrometer 0–1", "micrometer 1–2"] {
        assert!(sheet.contains(one), "{one}: {sheet}");
    }
}
