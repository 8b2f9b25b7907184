//! Bad descriptions with the reports a person reads: `tests/bad/NAME.yaml` beside `NAME.txt`, each read one by one. Only the
//! checks of the description and of its chain run, so that other checks may change without touching these.
//!
//! `TURNWRIGHT_BLESS=1 cargo test bad_descriptions::` writes the reports anew: read what changed before it is committed.
//! The sentences are this project's own; no other source.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad")
}

fn names() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder())
        .expect("the folder")
        .map(|e| e.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|n| Path::new(n).extension().is_some_and(|e| e == "yaml"))
        .collect();
    names.sort();
    names
}

/// What the screen shows, 100 columns wide, and the exit code.
fn report(name: &str) -> (String, i32) {
    let checks = turnwright::check::ALL.iter().filter(|c| matches!(c.group, "description" | "chain"));
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder())
        .env("COLUMNS", "100")
        .arg("check")
        .arg(name)
        .args(checks.flat_map(|c| ["--check", c.id]))
        .output()
        .expect("the program starts");
    let code = output.status.code().expect("an exit code, not a signal");
    let text = String::from_utf8(output.stdout).expect("UTF-8") + &String::from_utf8_lossy(&output.stderr);
    // Which checks were asked for is this test's affair, and grows with the list of checks.
    let cut: Vec<&str> = text.lines().map(|l| l.split(" (only ").next().unwrap_or(l)).collect();
    (cut.join("\n") + "\n", code)
}

#[test]
fn every_bad_description_has_its_report() {
    let bless = std::env::var_os("TURNWRIGHT_BLESS").is_some();
    let mut wrong = String::new();
    let names = names();
    assert!(names.len() >= 150, "{}", names.len());
    for name in names {
        let (found, code) = report(&name);
        assert!((0..=2).contains(&code), "{name}: {code}");
        assert!(!found.contains("nothing found"), "{name}: nothing is said of it");
        let file = folder().join(&name).with_extension("txt");
        if bless {
            std::fs::write(&file, &found).expect("written");
            continue;
        }
        let wanted = std::fs::read_to_string(&file).unwrap_or_default();
        if found != wanted {
            let _ = writeln!(wrong, "== {name}\n-- wanted\n{wanted}-- found\n{found}");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// No line of a report is wider than the screen, but for lines of the file itself and words too long to break.
#[test]
fn reports_keep_to_the_width() {
    for name in names() {
        let text = std::fs::read_to_string(folder().join(name).with_extension("txt")).expect("a report");
        for line in text.lines() {
            let of_file = line.contains('|') || line.contains("-->");
            assert!(of_file || line.chars().count() <= 100 || !line.trim().contains(' '), "{line}");
        }
    }
}

/// Every remedy that is offered as a replacement mends its line: that finding is gone when it is put in.
#[test]
fn a_fix_mends_what_it_stands_beside() {
    let mut tried = 0;
    for name in names() {
        let path = folder().join(&name);
        let Ok(text) = std::fs::read_to_string(&path) else { continue };
        let lines: Vec<&str> = text.split('\n').collect();
        for finding in json(&path)["findings"].as_array().cloned().unwrap_or_default() {
            let fix = &finding["fix"];
            let (Some(line), Some(from)) = (fix["line"].as_u64(), fix["column"].as_u64()) else { continue };
            let (end_line, to) = (fix["end_line"].as_u64().unwrap_or(0), fix["end_column"].as_u64().unwrap_or(0));
            let at = |line: u64, column: u64| {
                let before: usize = lines[..line as usize - 1].iter().map(|l| l.len() + 1).sum();
                let row = lines[line as usize - 1];
                before + row.char_indices().nth(column as usize - 1).map_or(row.len(), |(i, _)| i)
            };
            let mended = format!(
                "{}{}{}",
                &text[..at(line, from)],
                fix["text"].as_str().expect("text"),
                &text[at(end_line, to)..]
            );
            let folder = tempfile::tempdir().expect("a folder");
            let again = folder.path().join("part.yaml");
            std::fs::write(&again, &mended).expect("written");
            let same = |f: &serde_json::Value| {
                f["check"] == finding["check"] && f["line"] == finding["line"] && f["column"] == finding["column"]
            };
            let left = json(&again);
            let left = left["findings"].as_array().expect("findings");
            assert!(!left.iter().any(same), "{name}: {} is still there in\n{mended}", finding["message"]);
            tried += 1;
        }
    }
    assert!(tried >= 25, "{tried}");
}

fn json(path: &Path) -> serde_json::Value {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .args(["check", "--format", "json"])
        .arg(path)
        .output()
        .expect("the program starts");
    serde_json::from_slice(&output.stdout).unwrap_or_default()
}
