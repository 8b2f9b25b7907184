//! Every number of a sample's plan that follows from its neighbours, worked again by a second program that shares no code with the first
//! (`tests/independent/figures_check.py`, which names the sources of its formulas).

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use crate::planning::generated_wide::wide;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn have_python() -> bool {
    let have = Command::new("python3").arg("--version").output().is_ok_and(|o| o.status.success());
    if !have {
        eprintln!("\nNOT RUN: the second reckoning needs python3 (tests/run installs it)\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "python3 is missing");
    }
    have
}

/// Every description under `samples/` and `tests/figures/parts/`, with its shop file if it names one. Parts in `wished/` wish for an order that costs more from one
/// end than from the other, so the tests that turn every part round do not read that folder.
fn samples() -> Vec<(PathBuf, Option<PathBuf>)> {
    let mut out = Vec::new();
    for folder in ["samples", "tests/figures/parts", "tests/figures/parts/wished"].map(|f| root().join(f)) {
        for entry in std::fs::read_dir(&folder).expect("samples") {
            let path = entry.expect("an entry").path();
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            if text.lines().any(|l| l.starts_with("part:")) {
                let shop =
                    text.lines().find_map(|l| l.strip_prefix("lathe:")).map(|l| l.split('#').next().unwrap_or(l));
                out.push((path, shop.map(|name| folder.join(name.trim()))));
            }
        }
    }
    out.sort();
    out
}

fn plan_of(part: &Path) -> String {
    reply("plan", part)
}

fn reply(command: &str, part: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(root())
        .args([command, "--format", "json"])
        .arg(part)
        .output()
        .expect("the program starts");
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn again(plan: &str, shop: Option<&Path>, marks: Option<&str>) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("plan.json");
    std::fs::write(&file, plan).expect("written");
    let mut command = Command::new("python3");
    command.arg("-B").arg(root().join("tests/independent/figures_check.py")).arg(file).args(shop);
    if let Some(marks) = marks.filter(|_| shop.is_some()) {
        let file = folder.path().join("marks.json");
        std::fs::write(&file, marks).expect("written");
        command.arg(file);
    }
    command.output().expect("python3")
}

#[test]
fn a_second_program_works_out_the_same_numbers() {
    if !have_python() {
        return;
    }
    for (part, shop) in samples() {
        let output = again(&plan_of(&part), shop.as_deref(), Some(&reply("marks", &part)));
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(output.status.success(), "{}: {said}{}", part.display(), String::from_utf8_lossy(&output.stderr));
        eprintln!("{}: {said}", part.display());
    }
}

/// The same of generated parts, whose plans nobody has looked at; their marks apart.
#[test]
fn a_second_program_works_out_the_same_of_generated_parts() {
    if !have_python() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for (part, shop) in generated(folder.path(), 16) {
        let output = again(&plan_of(&part), shop.as_deref(), None);
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        let text = std::fs::read_to_string(&part).expect("written");
        assert!(output.status.success(), "{text}{said}{}", String::from_utf8_lossy(&output.stderr));
    }
}

/// Every number in the replies stands in `tests/independent/numbers.csv` with the test that holds it, and no key there is of yesterday; of those it says are
/// worked again, a spoilt one is noticed (`figures_spoil.py`). So it is with the digits in its sentences, and `tests/independent/sentences.csv`: nine of ten are noticed. `TURNWRIGHT_LONG=1` spoils more places and prints the shares.
#[test]
fn every_number_is_listed_and_a_spoilt_one_is_noticed() {
    if !have_python() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut command = Command::new("python3");
    let long = std::env::var_os("TURNWRIGHT_LONG").is_some();
    command
        .arg("-B")
        .arg(root().join("tests/independent/figures_spoil.py"))
        .arg(root().join("tests/independent/numbers.csv"))
        .arg(root().join("tests/independent/sentences.csv"));
    command.arg(if long { "12" } else { "1" });
    for (part, shop) in samples() {
        let name = part.file_stem().expect("a name").to_string_lossy().into_owned();
        for (command_word, ending) in [("plan", "plan"), ("marks", "marks")] {
            let file = folder.path().join(format!("{name}.{ending}.json"));
            std::fs::write(&file, reply(command_word, &part)).expect("written");
        }
        command.arg(folder.path().join(format!("{name}.plan.json")));
        command.arg(shop.unwrap_or_else(|| PathBuf::from("-")));
        command.arg(folder.path().join(format!("{name}.marks.json")));
    }
    let output = command.output().expect("python3");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    eprintln!("{said}");
}

/// Every number that a sheet prints stands in the plan at its printed digits, in the description or the shop file, or in a short list
/// (`sheet_numbers.py`); of numbers with a spoilt last digit four of five are missed.
#[test]
fn every_number_of_a_sheet_is_in_its_plan() {
    if !have_python() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut command = Command::new("python3");
    command.arg("-B").arg(root().join("tests/independent/sheet_numbers.py"));
    for (part, shop) in samples() {
        let name = part.file_stem().expect("a name").to_string_lossy().into_owned();
        let (plan, sheet) = (folder.path().join(format!("{name}.json")), folder.path().join(format!("{name}.md")));
        std::fs::write(&plan, plan_of(&part)).expect("written");
        let marks = folder.path().join(format!("{name}.marks.json"));
        std::fs::write(&marks, reply("marks", &part)).expect("written");
        let made =
            Command::new(env!("CARGO_BIN_EXE_turnwright")).arg("sheet").arg(&part).arg("--output").arg(&sheet).output();
        assert!(made.is_ok_and(|o| o.status.code().is_some_and(|c| c < 2)), "{name}");
        command.args([plan, marks, sheet, part, shop.unwrap_or_else(|| PathBuf::from("-"))]);
    }
    let output = command.output().expect("python3");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
}

/// Generated parts of every kind of work, each a file in this folder, with its shop file beside it if it names one: eighty under `TURNWRIGHT_ALL`, else some.
fn generated(folder: &Path, some: u64) -> Vec<(PathBuf, Option<PathBuf>)> {
    for shop in ["shop.yaml", "shop-mm.yaml"] {
        std::fs::copy(root().join("samples").join(shop), folder.join(shop)).expect("copied");
    }
    let part = |seed: u64| {
        let g = wide(seed, 4);
        let shop = if g.text.contains("units: mm\n") { "shop-mm.yaml" } else { "shop.yaml" };
        let lathe = format!("lathe: {shop}\nfeatures:");
        let text = if g.with_shop { g.text.replacen("features:", &lathe, 1) } else { g.text.clone() };
        let path = folder.join(format!("wide-{seed:03}.yaml"));
        std::fs::write(&path, text).expect("written");
        (path, g.with_shop.then(|| folder.join(shop)))
    };
    (0..if std::env::var_os("TURNWRIGHT_ALL").is_some() { 80 } else { some }).map(part).collect()
}

/// The numbers of every finding of a `plan` and a `check` reply are worked again from the description, the shop file and the setups (`figures_findings.py`, which names the sources);
/// `findings.csv` lists the checks that these parts have a finding of. Each number is spoilt in turn, and nine of ten, and of each check the half, must be noticed.
#[test]
fn the_numbers_of_findings_are_worked_again() {
    if !have_python() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut command = Command::new("python3");
    command.arg("-B").arg(root().join("tests/independent/figures_findings.py")).current_dir(root());
    command.arg(root().join("tests/independent/findings.csv"));
    for (part, shop) in samples().into_iter().chain(generated(folder.path(), 24)) {
        let name = part.file_stem().expect("a name").to_string_lossy().into_owned();
        for word in ["plan", "check"] {
            let file = folder.path().join(format!("{name}.{word}.json"));
            std::fs::write(&file, reply(word, &part)).expect("written");
            command.arg(file);
        }
        command.arg(shop.unwrap_or_else(|| PathBuf::from("-")));
    }
    let output = command.output().expect("python3");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    eprintln!("{said}");
}

/// The same of checks that no part at hand has a finding of, in the cases of their pages (`figures_pages.py`).
#[test]
fn the_numbers_of_cases_are_worked_again() {
    if !have_python() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut command = Command::new("python3");
    command.arg("-B").arg(root().join("tests/independent/figures_pages.py"));
    command.arg(root().join("tests/independent/findings.csv")).arg(env!("CARGO_BIN_EXE_turnwright"));
    let output = command.arg(root().join("src/check")).arg(folder.path()).output().expect("python3");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    eprintln!("{said}");
}

/// Every test that the lists name is there, so that a row cannot outlive its proof: for each number (`numbers.csv`), and for each kind of number that the hands are
/// given, with its published example or "common practice" (`kinds.csv`).
#[test]
fn the_tests_named_for_the_numbers_are_there() {
    for (list, least) in [("numbers", 200), ("kinds", 80)] {
        let bytes = std::fs::read(root().join(format!("tests/independent/{list}.csv"))).expect("the list");
        let mut rows = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(bytes.as_slice());
        let head = rows.headers().expect("a head").clone();
        let column = |name: &str| head.iter().position(|h| h == name).expect("a column");
        let (test, source) = (column("test"), column("source"));
        let mut named = 0;
        for row in rows.records().map(|r| r.expect("a row")) {
            let (key, tests) = (row.get(0).expect("a key"), row.get(test).expect("tests"));
            assert!(!row.get(source).expect("a source").is_empty(), "{key}");
            for test in tests.split("; ") {
                let (file, function) =
                    test.split_once("::").unwrap_or_else(|| panic!("{key}: `{test}` is no file::function"));
                let under = if file.starts_with("src/") { root().to_owned() } else { root().join("tests") };
                let text = std::fs::read_to_string(under.join(format!("{file}.rs")));
                let text = text.unwrap_or_else(|e| panic!("{key}: {file}: {e}"));
                assert!(text.contains(&format!("fn {function}(")), "{key}: {file} has no {function}");
                named += 1;
            }
        }
        assert!(named > least, "{list}: {named}");
    }
}

/// The second program can fail: one digit changed in a place of each kind.
#[test]
fn a_changed_digit_is_found() {
    if !have_python() {
        return;
    }
    let part = root().join("samples/pulley-stub.yaml");
    let shop = root().join("samples/shop.yaml");
    let plan = plan_of(&part);
    let marks = reply("marks", &part);
    for (from, to) in [
        ("\"carriage\": 3.35,", "\"carriage\": 3.36,"),
        ("\"carriage\": 0.943,", "\"carriage\": 0.934,"),
        ("\"infeed\": 0.173,", "\"infeed\": 0.346,"),
        ("\"from_far_end\": 0.98,", "\"from_far_end\": 0.89,"),
        ("\"across_bottom\": 0.6500314,", "\"across_bottom\": 0.6602,"),
        ("\"side_touch\": 0.531,", "\"side_touch\": 0.4373,"),
        ("\"rpm\": 500,", "\"rpm\": 780,"),
        ("\"best_wire\": 0.0321,", "\"best_wire\": 0.0289,"),
        ("\"gearbox\": \"18 tpi\"", "\"gearbox\": \"19 tpi\""),
        ("then .2245 deep from the top", "then .2255 deep from the top"),
        ("\"behind_jaws\": 4.8125,", "\"behind_jaws\": 4.75,"),
    ] {
        let spoilt = plan.replacen(from, to, 1);
        assert_ne!(spoilt, plan, "the plan has {from}");
        assert_eq!(again(&spoilt, Some(&shop), Some(&marks)).status.code(), Some(1), "{from} → {to}");
    }
    let (label, spoilt) = ("\"label\": \"M2\"", marks.replacen("\"label\": \"M2\"", "\"label\": \"M3\"", 1));
    assert_ne!(spoilt, marks, "the marks have {label}");
    assert_eq!(again(&plan, Some(&shop), Some(&spoilt)).status.code(), Some(1), "{label}");
}
