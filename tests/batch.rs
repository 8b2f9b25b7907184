//! Many parts in one run: folders, patterns, order, one bad part among good ones, whole files, rules for make and ninja.

use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

fn run(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright")).current_dir(folder).args(args).output().expect("the program starts")
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).expect("UTF-8")
}

/// A folder of parts: two good ones, one in a folder of its own, a bad one, a shop file, and what is no description.
fn parts() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let at = |name: &str| folder.path().join(name);
    std::fs::create_dir_all(at("more")).expect("a folder");
    std::fs::create_dir_all(at(".hidden")).expect("a folder");
    std::fs::copy(samples.join("shop.yaml"), at("shop.yaml")).expect("copied");
    std::fs::copy(samples.join("idler-shaft.yaml"), at("b.yaml")).expect("copied");
    std::fs::copy(samples.join("pulley-stub-no-shop.yaml"), at("a.yaml")).expect("copied");
    std::fs::copy(samples.join("pulley-stub-no-shop.yaml"), at("more/c.yml")).expect("copied");
    std::fs::copy(samples.join("pulley-stub-no-shop.yaml"), at(".hidden/d.yaml")).expect("copied");
    std::fs::write(at("bad.yaml"), "part: x\nunits: in\n").expect("written");
    std::fs::write(at("readme.txt"), "no part").expect("written");
    std::fs::write(at("more/other.yaml"), "name: x\non: push\njobs: {}\n").expect("written");
    folder
}

fn names(reply: &Value) -> Vec<String> {
    let list = reply.as_array().expect("an array");
    list.iter().map(|p| p["file"].as_str().expect("a file").replace('\\', "/")).collect()
}

#[test]
fn a_folder_and_a_pattern_are_spread_in_the_order_of_names() {
    let folder = parts();
    let output = run(folder.path(), &["check", ".", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let reply: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(names(&reply), ["./a.yaml", "./b.yaml", "./bad.yaml", "./more/c.yml"]);
    let err = text(&output.stderr);
    assert!(err.contains("other.yaml: left out") && !err.contains("shop.yaml") && !err.contains("readme"), "{err}");
    let output = run(folder.path(), &["check", "?.yaml", "more", "--format", "json"]);
    assert_eq!(output.status.code(), Some(0));
    let reply: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(names(&reply), ["a.yaml", "b.yaml", "more/c.yml"]);
    let output = run(folder.path(), &["check", "*.yml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("*.yml"));
}

/// The layout of the array is what one serializer would make of the whole.
#[test]
fn a_growing_array_is_laid_out_as_a_whole_one() {
    let folder = parts();
    let output = run(folder.path(), &["check", ".", "--format", "json"]);
    let reply: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(text(&output.stdout), serde_json::to_string_pretty(&reply).expect("text") + "\n");
    let one = run(folder.path(), &["check", "a.yaml", "--format", "json"]);
    let one: Value = serde_json::from_slice(&one.stdout).expect("JSON");
    assert!(one.is_object());
}

#[test]
fn lines_of_json_tell_every_part() {
    let folder = parts();
    let output = run(folder.path(), &["check", "a.yaml", "missing.yaml", "bad.yaml", "--format", "jsonl"]);
    assert_eq!(output.status.code(), Some(2));
    let lines: Vec<Value> =
        text(&output.stdout).lines().map(|l| serde_json::from_str(l).expect("one object a line")).collect();
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[0]["part"], "Pulley stub for a line shaft");
    assert!(lines[1]["error"].as_str().is_some_and(|e| e.contains("missing.yaml")));
    assert!(lines[2]["errors"].as_u64().is_some_and(|n| n > 0));
}

#[test]
fn the_table_at_the_end_counts_every_part() {
    let folder = parts();
    let output = run(folder.path(), &["check", ".", "missing.yaml"]);
    assert_eq!(output.status.code(), Some(2));
    let out = text(&output.stdout);
    let last = out.lines().last().expect("a line");
    assert!(last.starts_with("5 parts: ") && last.contains("1 DO NOT CUT") && last.contains("1 not read"), "{out}");
    assert!(out.contains("missing.yaml  could not be read"), "{out}");
}

/// A hundred parts, twice: the same bytes, whatever thread was first.
#[test]
fn the_order_does_not_hang_on_the_threads() {
    let folder = tempfile::tempdir().expect("a folder");
    let sample = std::fs::read_to_string("samples/pulley-stub-no-shop.yaml").expect("a sample");
    for i in 0..100 {
        let part = sample.replace("LS-104", &format!("LS-{i:03}"));
        std::fs::write(folder.path().join(format!("{i:03}.yaml")), part).expect("written");
    }
    let once = run(folder.path(), &["check", ".", "--format", "json"]);
    let again = run(folder.path(), &["check", ".", "--format", "json"]);
    assert!(once.stdout == again.stdout);
    let reply: Value = serde_json::from_slice(&once.stdout).expect("JSON");
    let names = names(&reply);
    assert_eq!(names.len(), 100);
    assert!(names.is_sorted());
}

#[test]
fn sheets_of_a_folder_with_their_rules() {
    let folder = parts();
    let output = run(folder.path(), &["sheet", ".", "--out-dir", "out", "--depfile", "sheets.d"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    let mut made: Vec<String> = std::fs::read_dir(folder.path().join("out"))
        .expect("sheets")
        .map(|e| e.expect("entry").file_name().to_string_lossy().into_owned())
        .collect();
    made.sort();
    assert_eq!(made, ["a.html", "b.html", "c.html"]);
    let rules = std::fs::read_to_string(folder.path().join("sheets.d")).expect("rules").replace('\\', "/");
    assert_eq!(rules, "out/a.html: ./a.yaml\nout/b.html: ./b.yaml ./shop.yaml\nout/c.html: ./more/c.yml\n");
    assert!(text(&output.stderr).contains("4 parts: "), "{}", text(&output.stderr));
}

#[test]
fn two_parts_of_one_name_do_not_share_a_sheet() {
    let folder = parts();
    std::fs::copy(folder.path().join("a.yaml"), folder.path().join("more/a.yaml")).expect("copied");
    let output = run(folder.path(), &["sheet", "a.yaml", "more", "--out-dir", "out"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("would both be written"), "{}", text(&output.stderr));
}

/// Several plans are an array too, and lines are plans.
#[test]
fn plans_of_many_parts() {
    let folder = parts();
    let output = run(folder.path(), &["plan", "a.yaml", "bad.yaml", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let reply: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(reply.as_array().map(Vec::len), Some(1));
    let output = run(folder.path(), &["marks", "a.yaml", "more", "--format", "jsonl"]);
    assert_eq!(text(&output.stdout).lines().count(), 2);
}
