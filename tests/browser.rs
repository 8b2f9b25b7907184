//! The sheet in a real Chromium: HTML's own rules, WCAG A and AA, three widths of window and paper, what survives a reload, and
//! the sums of the correction against whole-number arithmetic. `tests/browser/look.mjs` asks; here it gets its sheets.
//!
//! Needs node, Chromium and the packages of `tests/browser/package.json` in `target/tools` (`tests/run` puts them there; another
//! folder is named by `TURNWRIGHT_TOOLS`). Without them the test says what it did not run; under `tests/run` it fails instead.

use std::path::{Path, PathBuf};
use std::process::Command;

const SAMPLES: [&str; 8] = [
    "pulley-stub",
    "pulley-stub-no-shop",
    "tool-post-stud",
    "idler-shaft",
    "winch-axle",
    "vise-screw",
    "press-screw",
    "pump-shaft",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn tools() -> PathBuf {
    std::env::var_os("TURNWRIGHT_TOOLS").map_or_else(|| root().join("target/tools"), PathBuf::from)
}

fn chromium() -> String {
    std::env::var("TURNWRIGHT_CHROMIUM").unwrap_or_else(|_| "/usr/bin/chromium".to_owned())
}

/// What is missing of what the test needs.
fn missing() -> Option<&'static str> {
    let runs = |program: &str| Command::new(program).arg("--version").output().is_ok_and(|o| o.status.success());
    if !runs("node") {
        Some("node")
    } else if !runs(&chromium()) {
        Some("chromium")
    } else if !["playwright-core", "axe-core", "html-validate"]
        .iter()
        .all(|p| tools().join("node_modules").join(p).is_dir())
    {
        Some("the packages of tests/browser/package.json")
    } else {
        None
    }
}

fn sheet(args: &[&str], out: &Path) {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(root())
        .arg("sheet")
        .args(args)
        .arg("-o")
        .arg(out)
        .output()
        .expect("the program starts");
    assert!(out.exists(), "{}", String::from_utf8_lossy(&output.stderr));
}

fn look(sheets: &[PathBuf]) -> std::process::Output {
    Command::new("node")
        .arg(root().join("tests/browser/look.mjs"))
        .arg(tools())
        .arg(chromium())
        .args(sheets)
        .output()
        .expect("node starts")
}

#[test]
fn sheets_are_valid_accessible_and_keep_what_is_written() {
    if let Some(what) = missing() {
        eprintln!("\nNOT RUN: the sheet in a browser: {what} missing (tests/run installs it)\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "{what} missing");
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    let mut sheets = Vec::new();
    for (i, sample) in SAMPLES.iter().enumerate() {
        let part = format!("samples/{sample}.yaml");
        let out = at(&format!("{sample}.html"));
        sheet(&[&part, "--paper", if i % 2 == 0 { "letter" } else { "a4" }], &out);
        sheets.push(out);
    }
    let compact = at("compact.html");
    sheet(&["samples/tool-post-stud.yaml", "--pages", "compact", "--strip"], &compact);
    sheets.push(compact);
    let german = at("german.html");
    sheet(&["samples/pump-shaft.yaml", "--language", "de"], &german);
    sheets.push(german);
    let cards = at("cards.html");
    sheet(&["samples/pulley-stub.yaml", "--pages", "cards"], &cards);
    sheets.push(cards);
    // A part that must not be cut: a relief above the root of its thread.
    let text = std::fs::read_to_string(root().join("samples/pulley-stub-no-shop.yaml")).expect("the sample");
    std::fs::write(at("wrong.yaml"), text.replace("0.545 +0/-0.010", "0.600 +0/-0.010")).expect("a file");
    sheet(&[at("wrong.yaml").to_str().expect("a path")], &at("wrong.html"));
    sheets.push(at("wrong.html"));
    let output = look(&sheets);
    let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    println!("{said}");

    // The questions can be answered with no: a sheet with a pale text, a box too wide, lines too far apart and a field without a name.
    let html = std::fs::read_to_string(&sheets[0]).expect("the sheet");
    let spoiled = html
        .replace("#555", "#bbb")
        .replace("--h:", "min-width:400mm;--h:")
        .replace(" aria-label=\"10 Face  done\"", "")
        .replace("id=\"inspection\"", "id=\"cover\"")
        .replace("</style>", ".page .b p, .page .b .second { line-height: 3 }</style>");
    assert_ne!(html, spoiled);
    std::fs::write(at("spoiled.html"), spoiled).expect("a file");
    let output = look(&[at("spoiled.html")]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert_eq!(output.status.code(), Some(1), "{said}");
    for fault in ["color-contrast", "wider than the window", "no-dup-id", "px below", "label"] {
        assert!(said.contains(fault), "{fault}: {said}");
    }
}
