//! `chart` as a person or script runs it.

use std::io::Write as _;
use std::process::{Command, Stdio};

use serde_json::Value;

/// Exit code, standard output, standard error.
fn chart(text: &str, args: &[&str]) -> (i32, String, String) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .args(["chart", "-"])
        .args(args)
        .env("COLUMNS", "100")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(text.as_bytes()).expect("the text is read");
    let out = child.wait_with_output().expect("it ends");
    let text = |b: Vec<u8>| String::from_utf8(b).expect("UTF-8");
    (out.status.code().expect("a code"), text(out.stdout), text(out.stderr))
}

fn json(text: &str) -> (i32, Value) {
    let (code, out, err) = chart(text, &["--format", "json"]);
    (code, serde_json::from_str(&out).unwrap_or_else(|e| panic!("{e}: {out}{err}")))
}

const GOOD: &str = "part: Spacer\nunits: mm\nfaces: {A: datum, B: far, C: far}\nstock least: {A: 0.3, B: 0.2, C: 0.3}\ncuts:\n\
    - {op: 10, cut: C, from: A, tol: 0.2}\n\
    - {op: 20, cut: A, from: C, can hold: 0.05}\n\
    - {op: 20, cut: B, from: A, can hold: 0.05}\n\
    - {op: 30, cut: C, from: A, can hold: 0.04}\n\
    - {op: 40, cut: B, stock: 0.3 ±0.02}\n\
    dims:\n- {from: A, to: C, is: 40 ±0.1}\n- {from: A, to: B, is: 25 +0.1/-0.05}\n- {from: B, to: C, is: (15)}\n";

#[test]
fn the_json_has_the_fields_of_the_design() {
    let (code, d) = json(GOOD);
    assert_eq!(code, 0, "{d:#}");
    assert_eq!(d["format"], "turnwright/chart/1");
    assert_eq!(d["units"], "mm");
    // By hand: op 20 B ± and op 40 ±0.02 share 0.075, so op 20 B gets 0.055, 1.1 of 0.05; C gets all of 0.1.
    assert_eq!(d["factor"], 1.1);
    assert_eq!(d["binding"], serde_json::json!([{"from": "A", "to": "B"}]));
    let cuts: Vec<(f64, f64)> = d["cuts"]
        .as_array()
        .expect("cuts")
        .iter()
        .map(|c| (c["mean"].as_f64().expect("a mean"), c["tolerance"].as_f64().expect("a tolerance")))
        .collect();
    // C 40 ±0.1; before it 40 + 0.3 + 0.1 + A's stock …: every mean is a sum by hand.
    assert_eq!(cuts[3], (40.0, 0.1));
    assert_eq!(cuts[2], (25.325, 0.055));
    assert_eq!(cuts[4], (0.3, 0.02));
    let stock = d["stock"].as_array().expect("stock");
    let rows: Vec<(&str, u64, bool)> = stock
        .iter()
        .map(|s| {
            (s["face"].as_str().expect("a face"), s["op"].as_u64().expect("an op"), s["enough"].as_bool().expect(""))
        })
        .collect();
    // Raw A is named in `from` at op 10, so its first cut has a row; B has one only where it is cut again.
    assert_eq!(rows, [("A", 20, true), ("C", 30, true), ("B", 40, true)]);
    for row in stock {
        assert!(row["min"].as_f64() >= row["least"].as_f64(), "{row:#}");
    }
    let reference = &d["results"][2];
    assert!(reference["wanted"].is_null() && reference["guaranteed"] == true);
}

#[test]
fn a_limit_missed_is_an_error_with_the_loop_of_its_cuts() {
    let text = "part: x\nunits: in\nfaces: {A: datum, B: far, C: far}\ncuts:\n\
        - {op: 1, cut: B, from: A, mean: 1.000, tol: 0.004}\n\
        - {op: 2, cut: C, from: A, mean: 2.000, tol: 0.005}\n\
        dims:\n- {from: B, to: C, is: 1.000 ±0.008}\n";
    let (code, d) = json(text);
    assert_eq!(code, 1);
    assert_eq!(d["errors"], 1);
    let finding = &d["findings"][0];
    assert_eq!(finding["check"], "chain-not-guaranteed");
    assert_eq!((&finding["line"], &finding["column"]), (&8.into(), &24.into()));
    let lines: Vec<u64> =
        finding["loop"].as_array().expect("a loop").iter().map(|l| l["line"].as_u64().expect("")).collect();
    assert_eq!(lines, [5, 6]);
    let help = finding["help"].to_string();
    assert!(help.contains("±.004") && help.contains("alone"), "{help}");
    assert_eq!(d["results"][0]["plus_minus"], 0.009);
    assert_eq!(d["results"][0]["guaranteed"], false);
}

#[test]
fn too_little_stock_and_faces_out_of_reach_are_errors() {
    let text = "part: x\nunits: mm\nfaces: {A: datum, B: far, C: far, D: far}\nstock least: {B: 0.5}\ncuts:\n\
        - {op: 1, cut: B, from: A, mean: 10.5, tol: 0.2}\n\
        - {op: 2, cut: B, from: A, mean: 10, tol: 0.1}\n\
        - {op: 3, cut: D, from: C, mean: 5, tol: 0.1}\n\
        dims:\n- {from: A, to: D, is: 30 ±1}\n";
    let (code, d) = json(text);
    assert_eq!(code, 1);
    let ids: Vec<&str> =
        d["findings"].as_array().expect("findings").iter().map(|f| f["check"].as_str().expect("")).collect();
    assert_eq!(ids, ["chain-not-guaranteed", "chain-loose"], "{:#}", d["findings"]);
    assert_eq!(d["stock"][0]["enough"], false);
    assert_eq!(d["stock"][0]["min"], 0.2);
    assert!(d["results"][0]["mean"].is_null());
}

#[test]
fn slips_stand_at_their_characters() {
    let text = "part: x\nunits: mm\nfaces: {A: datum, B: above}\ncuts:\n- {op: 1, cut: Q, from: A, mean: 1,5}\n- {op: x, cut: B, from: A}\n- {cut: B}\n- {op: 2, cut: B, from: A, tool: 3}\n";
    let (code, d) = json(text);
    assert_eq!(code, 1);
    let found: Vec<(String, u64, u64)> = d["findings"]
        .as_array()
        .expect("findings")
        .iter()
        .map(|f| {
            (
                f["check"].as_str().expect("").to_owned(),
                f["line"].as_u64().unwrap_or(0),
                f["column"].as_u64().unwrap_or(0),
            )
        })
        .collect();
    for wanted in [
        ("unknown-key", 3, 22),
        ("unknown-key", 5, 16),
        ("bad-size", 6, 8),
        ("missing-key", 7, 3),
        ("unknown-key", 8, 28),
    ] {
        assert!(found.iter().any(|f| (f.0.as_str(), f.1, f.2) == wanted), "{wanted:?} in {found:?}");
    }
}

#[test]
fn text_reads_like_a_chart() {
    let (code, out, _) = chart(GOOD, &[]);
    assert_eq!(code, 0);
    for part in [
        "◁A",
        "C▷",
        "o----",
        "0.55 (0.30 to 0.80, at least 0.30)",
        "guaranteed",
        "1.100 of what can be held",
        "good to cut",
    ] {
        assert!(out.contains(part), "{part} in\n{out}");
    }
    let (code, _, err) = chart("", &[]);
    assert_eq!((code, err.is_empty()), (1, true));
    let missing =
        Command::new(env!("CARGO_BIN_EXE_turnwright")).args(["chart", "no-such.yaml"]).output().expect("it runs");
    assert_eq!(missing.status.code(), Some(2));
}

/// With all that can be held, the drawing asks more than the shop can do: an error, with what relief is worth.
#[test]
fn tolerances_closer_than_can_be_held_are_an_error() {
    let text = GOOD
        .replace("can hold: 0.05}\n    - {op: 30", "can hold: 0.2}\n    - {op: 30")
        .replace("cut: B, from: A, can hold: 0.05", "cut: B, from: A, can hold: 0.11");
    let (code, d) = json(&text);
    assert_eq!(code, 1);
    assert_eq!(d["factor"], 0.5);
    assert!(d["results"][1]["guaranteed"] == true, "the tolerances found would do");
    let help = d["findings"][0]["help"].to_string();
    assert!(help.contains("Open A to B by ±0.055"), "{help}");
}
