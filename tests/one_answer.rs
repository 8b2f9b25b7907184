//! One question, one answer: the least that the drawing would have to give for what was measured is the same in `check` (`measured-out`,
//! `measured-clash`), in `plan` of work of which everything is done, and in `inspect`, whether it is said that everything is done or
//! not. Each sum is worked by hand in the comment beside it, from the limits of the drawing; no source is needed for a difference.

use std::io::Write as _;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

/// A collar between two seats: its faces look away from each other, so every cut of either brings them closer.
const STUD: &str = "part: stud\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.375 x 4.125\ndatum: head\noverall: 4.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n- turn: 1.000\n  to: 1.000\n  name: left seat\n- turn: 1.250\n  to: 3.250\n  name: collar\n\
    - turn: 1.000\n  to: 4.000\n  name: right seat\n";
const COLLAR: &str = "dims:\n- {from: 1.000, to: 3.250, is: 2.250 ±0.003}\n";

fn run(args: &[&str], text: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(text.as_bytes()).expect("read");
    child.wait_with_output().expect("it ends")
}

fn json(command: &str, text: &str) -> Value {
    let out = run(&[command, "-", "--format", "json"], text);
    serde_json::from_slice(&out.stdout)
        .unwrap_or_else(|e| panic!("{command}: {e}: {}\n{text}", String::from_utf8_lossy(&out.stderr)))
}

fn sum(gives: &Value) -> f64 {
    let end = |g: &Value, side: &str, end: &str| {
        let of = &g[side];
        of[end].as_f64().unwrap_or_else(|| panic!("{side} {end}: {g:#}"))
    };
    let by = |g: &Value| end(g, "to", "max") - end(g, "drawn", "max") + end(g, "drawn", "min") - end(g, "to", "min");
    gives.as_array().map_or(0.0, |list| list.iter().map(by).sum())
}

/// What `check` asks for lengths: the same in each finding that asks anything.
fn of_check(text: &str) -> (f64, bool) {
    let d = json("check", text);
    let findings = d["findings"].as_array().expect("findings").iter();
    let findings: Vec<&Value> =
        findings.filter(|f| f["check"].as_str().is_some_and(|c| c.starts_with("measured-"))).collect();
    let asked: Vec<f64> = findings.iter().filter_map(|f| f["compared"]["concession"].as_f64()).collect();
    assert!(asked.windows(2).all(|w| (w[0] - w[1]).abs() < 1e-9), "{asked:?}\n{text}");
    (asked.first().copied().unwrap_or(0.0), findings.iter().any(|f| f["severity"] == "error"))
}

fn of_inspect(text: &str) -> (f64, bool) {
    let d = json("inspect", text);
    (sum(&d["saved"]["concession"]) + sum(&d["diameters_give"]), d["overall_verdict"] == "scrap")
}

/// With every operation of the plan said to be done.
fn all_done(text: &str) -> String {
    let plan = json("plan", text);
    let setups = plan["setups"].as_array().expect("setups").iter();
    let numbers: Vec<u64> = setups
        .flat_map(|s| s["operations"].as_array().expect("operations"))
        .map(|o| o["number"].as_u64().expect("a number"))
        .collect();
    format!("{text}done: {numbers:?}\n")
}

/// Readings, more of the description, and what the drawing must give; by hand.
const PARTS: &[(&str, &str, f64)] = &[
    // 3.990 less 3.985.
    ("{overall: 3.985}", "", 0.005),
    // 1.010 less 1.005: the shoulder looks to the datum end and only goes deeper; the datum face is not cut again as long as the other
    // faces are not known, and that is told.
    ("{face: 1.000, at: 1.010, from: datum}", "", 0.005),
    // (1.012 - 1.005) and (3.245 - 3.240): one looks to the datum end, the other to the far end.
    ("{face: 1.000, at: 1.012, from: datum}, {face: 3.250, at: 3.240, from: datum}", "", 0.012),
    // Each within its own; the collar is 3.2455 - 1.004 = 2.2415, at least 2.247 asked.
    ("{face: 1.000, at: 1.004, from: datum}, {face: 3.250, at: 3.2455, from: datum}", COLLAR, 0.0055),
    // From the far face, which was not measured: with an overall of 4.010 and the shoulder at 3.245 it would be 0.765, and is 0.770.
    ("{face: 3.250, at: 0.770, from: far}", "", 0.005),
    // .004 to .008 off the datum face (1.009 to at most 1.005, 3.254 to at least 3.245, 4.008 to at least 3.990): nothing gives.
    ("{overall: 4.008}, {face: 1.000, at: 1.009, from: datum}, {face: 3.250, at: 3.254, from: datum}", "", 0.0),
    // Read too often: 4.000, 1.008 and 4.000 - 2.990 leave .002, a third of it on each (least squares of three alike): 1.008667.
    (
        "{overall: 4.000}, {face: 1.000, at: 1.008, from: datum}, {face: 1.000, at: 2.990, from: far}, {face: 3.250, at: 3.245, from: datum}",
        "",
        0.003_667,
    ),
    // A shoulder that stands proud is cut deeper.
    ("{face: 1.000, at: 0.990, from: datum}", "", 0.0),
    // 0.998 less 0.9965.
    ("{feature: left seat, diameter: 0.9965}", "", 0.0015),
    // A cut takes it off.
    ("{feature: left seat, diameter: 1.0060}", "", 0.0),
    ("{overall: 4.000}, {face: 1.000, at: 1.001, from: datum}, {face: 3.250, at: 3.249, from: datum}", COLLAR, 0.0),
];

#[test]
fn check_plan_and_inspect_ask_the_same_of_the_drawing() {
    for (measured, more, asked) in PARTS {
        let drawn = format!("{STUD}{more}");
        let done = all_done(&drawn);
        let with = |text: &str| format!("{text}measured: [{measured}]\n");
        let (finished, begun) = (with(&drawn), with(&done));
        let plan = json("plan", &begun);
        let answers = [
            ("check", of_check(&finished)),
            ("inspect", of_inspect(&finished)),
            ("check, done", of_check(&begun)),
            ("inspect, done", of_inspect(&begun)),
            ("plan, done", (sum(&plan["rest"]["gives"]), plan["rest"]["outlook"] == "scrap unless the drawing gives")),
        ];
        for (who, (gives, scrap)) in answers {
            assert!((gives - asked).abs() < 1e-6, "{measured}: {who} asks {gives}, by hand {asked}: {answers:?}");
            assert_eq!(scrap, *asked > 0.0, "{measured}: {who}");
        }
    }
}

/// The right seat is still to be turned, and its shoulder still proud: the reading proves nothing of it. The left one is done, and too
/// deep: .005 over 1.005, unless the datum face gives it (it does: 1.010 - .005, and nothing beyond stands yet).
#[test]
fn what_is_still_to_be_cut_is_no_scrap() {
    let plan = json("plan", STUD);
    let setups = plan["setups"].as_array().expect("setups").iter();
    let operations: Vec<&Value> = setups.flat_map(|s| s["operations"].as_array().expect("operations")).collect();
    let number = |o: &Value| o["number"].as_u64().expect("a number");
    let finish = |letter: &str| operations.iter().position(|o| o["verb"] == "finish" && o["feature"] == letter);
    let (left, right) = (finish("A").expect("left seat"), finish("C").expect("right seat"));
    let upto = left.min(right);
    let (open, of_open) = (operations[left.max(right)], if left < right { "right seat" } else { "left seat" });
    let done: Vec<u64> = operations[..=upto].iter().map(|o| number(o)).collect();
    let part = format!("{STUD}done: {done:?}\nmeasured: [{{feature: {of_open}, diameter: 1.080}}]\n");
    let d = json("inspect", &part);
    let row = d["rows"].as_array().expect("rows").iter().find(|r| r["measured"] == 1.08).expect("the diameter");
    assert_eq!(row["verdict"], "recut", "{row:#}");
    assert_eq!(row["action"], format!("still to be cut: operation {}", number(open)), "{row:#}");
    assert!(row["decision"].is_null(), "{row:#}");
    // Too small already, nothing brings it back, though more is to be cut.
    let d = json("inspect", &part.replace("1.080", "0.9965"));
    assert_eq!(d["overall_verdict"], "scrap", "{d:#}");
    assert!((sum(&d["diameters_give"]) - 0.0015).abs() < 1e-9, "{d:#}");
}

/// A reading taken before a face was cut again says nothing of it: `inspect` tells that, as `plan` does.
#[test]
fn a_reading_that_was_cut_away_is_not_judged() {
    let done = all_done(STUD);
    let part = format!("{done}measured: [{{feature: left seat, diameter: 1.0800, after: 10}}]\n");
    let d = json("inspect", &part);
    assert_eq!(d["overall_verdict"], "not measured", "{d:#}");
    assert!(d["void"][0].as_str().is_some_and(|v| v.contains("cut it again")), "{d:#}");
}
