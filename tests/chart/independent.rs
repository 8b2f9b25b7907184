//! Charts worked again by a second program in plain fractions, which shares no line with the first: those of every sample's plan,
//! the chart in `samples/`, and forty random ones. It solves the sharing of tolerances by filling, not by linear programs.

use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

const SAMPLES: [&str; 8] = [
    "pulley-stub.yaml",
    "pulley-stub-no-shop.yaml",
    "idler-shaft.yaml",
    "tool-post-stud.yaml",
    "press-screw.yaml",
    "pump-shaft.yaml",
    "vise-screw.yaml",
    "winch-axle.yaml",
];
const RANDOM: usize = 40;

fn turnwright(args: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright")).args(args).output().expect("turnwright runs");
    assert!(output.status.code().is_some_and(|c| c < 2), "{args:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// A chart of faces from both ends, each cut once, some again, with distances asked between neighbours and from the datum.
fn random(seed: u64) -> String {
    let mut dice = fastrand::Rng::with_seed(seed);
    let faces = dice.usize(3..8);
    let looks = |i: usize| if i < faces.div_ceil(2) { "datum" } else { "far" };
    let names: Vec<String> = (0..faces).map(|i| format!("F{i}: {}", looks(i))).collect();
    let mut text = format!("part: random {seed}\nunits: mm\nfaces: {{{}}}\ncuts:\n", names.join(", "));
    let mut cut = |op: usize, face: usize, from: usize, dice: &mut fastrand::Rng| {
        let held = if dice.u8(0..5) == 0 {
            format!("tol: 0.0{}", dice.u8(1..9))
        } else {
            format!("can hold: 0.0{}", dice.u8(1..9))
        };
        let _ = writeln!(text, "  - {{op: {op}, cut: F{face}, from: F{from}, {held}}}");
    };
    for face in 1..faces {
        cut(face * 10, face, dice.usize(0..face), &mut dice);
    }
    for again in 0..dice.usize(0..4) {
        let (face, from) = (dice.usize(0..faces), dice.usize(0..faces));
        if face != from {
            cut(1_000 + again * 10, face, from, &mut dice);
        }
    }
    text.push_str("dims:\n");
    for i in 1..faces {
        let from = if dice.bool() { 0 } else { i - 1 };
        let _ = writeln!(text, "  - {{from: F{from}, to: F{i}, is: {} ±0.{:02}}}", (i - from) * 10, dice.u8(3..40));
    }
    text
}

#[test]
fn a_second_program_works_every_chart_to_the_same_numbers() {
    if !Command::new("python3").arg("--version").output().is_ok_and(|o| o.status.success()) {
        eprintln!("NOT RUN: the second program needs python3");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "python3 is missing");
        return;
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = tempfile::tempdir().expect("a folder");
    let mut replies: Vec<(String, String)> = Vec::new();
    for sample in SAMPLES {
        let path = root.join("samples").join(sample);
        replies.push((sample.to_owned(), turnwright(&["plan", &path.to_string_lossy(), "--format", "json"])));
    }
    let hand = root.join("samples/charts/spacer.yaml");
    replies.push(("spacer".to_owned(), turnwright(&["chart", &hand.to_string_lossy(), "--format", "json"])));
    for seed in 0..RANDOM as u64 {
        let path = folder.path().join(format!("random-{seed}.yaml"));
        std::fs::write(&path, random(seed)).expect("written");
        replies.push((format!("random {seed}"), turnwright(&["chart", &path.to_string_lossy(), "--format", "json"])));
    }
    let script = root.join("tests/independent/chart_check.py");
    let check = |text: &str| {
        let file = folder.path().join("reply.json");
        std::fs::write(&file, text).expect("written");
        let output = Command::new("python3").arg(&script).arg(&file).output().expect("python3");
        (output.status.success(), String::from_utf8_lossy(&output.stdout).into_owned())
    };
    for (name, reply) in &replies {
        let (agrees, says) = check(reply);
        assert!(agrees && says.contains("agrees"), "{name}: {says}");
    }
    // It must be able to disagree: one tolerance a little wider than was shared out.
    let mut spoiled: serde_json::Value = serde_json::from_str(&replies[0].1).expect("JSON");
    let cuts = spoiled["chart"]["whole"]["cuts"].as_array_mut().expect("cuts");
    let shared = cuts.iter_mut().find(|c| c["set_here"] == true).expect("a tolerance shared out");
    shared["tolerance"] = serde_json::json!(shared["tolerance"].as_f64().expect("a number") * 1.01);
    let (agrees, says) = check(&spoiled.to_string());
    assert!(!agrees && says.contains("WRONG"), "{says}");
}
