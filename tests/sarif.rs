//! `check --format sarif` against the published JSON schema of SARIF 2.1.0: `reference/sarif-schema-2.1.0.json` is the file
//! `sarif-2.1/schema/sarif-schema-2.1.0.json` of github.com/oasis-tcs/sarif-spec (OASIS, errata 01), unchanged.

use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

fn sarif(args: &[&str]) -> (Value, Option<i32>) {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["check", "--format", "sarif"])
        .args(args)
        .output()
        .expect("the program starts");
    (serde_json::from_slice(&output.stdout).expect("JSON"), output.status.code())
}

fn published() -> jsonschema::Validator {
    let text = include_str!("reference/sarif-schema-2.1.0.json");
    let schema: Value = serde_json::from_str(text).expect("the schema");
    jsonschema::options().with_draft(jsonschema::Draft::Draft4).build(&schema).expect("a schema of draft 4")
}

fn valid(log: &Value) {
    let faults: Vec<String> = published().iter_errors(log).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn results(log: &Value) -> &Vec<Value> {
    log["runs"][0]["results"].as_array().expect("results")
}

fn written(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    std::fs::write(&path, text).expect("written");
    path.to_string_lossy().into_owned()
}

#[test]
fn the_schema_refuses_what_is_no_log() {
    assert!(!published().is_valid(&json!({"version": "2.1.0"})));
    assert!(!published().is_valid(&json!({"version": "2.1.0", "runs": [{"tool": {"driver": {}}}]})));
}

#[test]
fn every_sample_makes_a_valid_log() {
    let (log, code) = sarif(&["samples"]);
    assert_eq!(code, Some(0));
    valid(&log);
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().expect("rules");
    assert_eq!(rules.len(), turnwright::check::ALL.len());
    for rule in rules {
        assert!(rule["help"]["text"].as_str().is_some_and(|t| t.contains("What to do")), "{rule:#}");
    }
    for result in results(&log) {
        let index = usize::try_from(result["ruleIndex"].as_u64().expect("an index")).expect("small");
        assert_eq!(rules[index]["id"], result["ruleId"]);
    }
    // The stub accepts a short relief, with its reason.
    let accepted: Vec<&Value> = results(&log).iter().filter(|r| r.get("suppressions").is_some()).collect();
    assert!(accepted.iter().any(|r| r["ruleId"] == "relief-width"
        && r["suppressions"][0]["kind"] == "inSource"
        && r["suppressions"][0]["justification"] == "short nut; two leads of clearance are enough"));
}

/// Columns are UTF-16 code units from 1 (SARIF 2.1.0, 3.30.6): the letter before the size has two of them, and four bytes.
#[test]
fn regions_and_fixes_are_in_utf16() {
    let folder = tempfile::tempdir().expect("a folder");
    let text =
        "part: x\nunits: in\ndatum: a\noverall: 4\nfeatures:\n  - {name: \u{1D6FC} ± µ, turn: \"1,000\", to: 4}\n";
    let part = written(folder.path(), "ø 1.yaml", text);
    let (log, code) = sarif(&[&part]);
    assert_eq!(code, Some(1));
    valid(&log);
    let result = results(&log).iter().find(|r| r["ruleId"] == "bad-size").expect("the comma");
    let location = &result["locations"][0]["physicalLocation"];
    let uri = location["artifactLocation"]["uri"].as_str().expect("a URI");
    assert!(uri.starts_with("file:///") && uri.ends_with("/%C3%B8%201.yaml"), "{uri}");
    assert_eq!(location["region"]["startLine"], 6);
    let line: Vec<u16> = text.lines().nth(5).expect("the line").encode_utf16().collect();
    let column = |name: &str| usize::try_from(location["region"][name].as_u64().expect("a column")).expect("small") - 1;
    let marked = String::from_utf16(&line[column("startColumn")..column("endColumn")]).expect("whole characters");
    assert!("\"1,000\"".contains(&marked) && marked.contains(','), "{marked}");
}

#[test]
fn a_fix_mends_the_text() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "part: x\nunits: in\ndatum: a\noverall: 4 ±.1\ntolerances: {lengths: ±.1, diameters: ±.1}\nfeatures:\n  - turn: 1,000\n    to: 4\n";
    let part = written(folder.path(), "comma.yaml", text);
    let (log, _) = sarif(&[&part]);
    valid(&log);
    let result = results(&log).iter().find(|r| r.get("fixes").is_some()).expect("a fix");
    let change = &result["fixes"][0]["artifactChanges"][0]["replacements"][0];
    let region = &change["deletedRegion"];
    let number = |name: &str| usize::try_from(region[name].as_u64().expect("a number")).expect("small");
    assert_eq!(number("startLine"), number("endLine"));
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let line = &mut lines[number("startLine") - 1];
    line.replace_range(
        number("startColumn") - 1..number("endColumn") - 1,
        change["insertedContent"]["text"].as_str().expect("a text"),
    );
    assert_eq!(line, "  - turn: 1.000");
}

#[test]
fn a_part_that_cannot_be_read_is_told() {
    let (log, code) = sarif(&["samples/pulley-stub.yaml", "missing.yaml"]);
    assert_eq!(code, Some(2));
    valid(&log);
    let run = &log["runs"][0]["invocations"][0];
    assert_eq!(run["executionSuccessful"], false);
    assert!(
        run["toolExecutionNotifications"][0]["message"]["text"].as_str().is_some_and(|t| t.contains("missing.yaml"))
    );
}
