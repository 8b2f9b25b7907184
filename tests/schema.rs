//! `schema part|shop`: a JSON Schema of draft 2020-12 that lets through whatever reading takes, and refuses what it does not.
//! Validated by the `jsonschema` crate, a general-purpose library; YAML is turned to JSON by `serde_yaml` as an editor would.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use turnwright::editor::{Which, schema};
use turnwright::read::{self, keys};

fn validator(which: Which) -> jsonschema::Validator {
    jsonschema::options().with_draft(jsonschema::Draft::Draft202012).build(&schema(which)).expect("a schema")
}

fn value(yaml: &str) -> Option<Value> {
    serde_yaml::from_str::<Value>(yaml.trim_start_matches('\u{FEFF}')).ok()
}

fn faults(validator: &jsonschema::Validator, value: &Value) -> Vec<String> {
    validator.iter_errors(value).map(|e| format!("{}: {e}", e.instance_path())).collect()
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files(&path, out);
        } else {
            out.push(path);
        }
    }
}

/// Every description in the tree: samples, templates, the README's, those of other tests.
fn descriptions() -> Vec<(String, String)> {
    let mut paths = Vec::new();
    for folder in ["samples", "templates", "tests"] {
        files(&root().join(folder), &mut paths);
    }
    paths.sort();
    let mut found = Vec::new();
    for path in paths {
        let name = path.strip_prefix(root()).expect("inside").display().to_string();
        let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default();
        if let ("yaml" | "yml", Ok(text)) = (ending, std::fs::read_to_string(&path)) {
            found.push((name, text));
        }
    }
    let readme = std::fs::read_to_string(root().join("README.md")).expect("README.md");
    for (i, block) in readme.split("```yaml\n").skip(1).enumerate() {
        found.push((format!("README block {i}"), block.split("```").next().unwrap_or_default().to_owned()));
    }
    found
}

#[test]
fn the_schema_is_one() {
    for which in [Which::Part, Which::Shop] {
        let schema = schema(which);
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        jsonschema::meta::validate(&schema).unwrap_or_else(|e| panic!("{e}"));
    }
}

/// What reading takes without a slip, the schema lets through.
#[test]
fn whatever_is_read_is_valid() {
    let (part, shop) = (validator(Which::Part), validator(Which::Shop));
    let (mut parts, mut shops) = (0, 0);
    for (name, text) in descriptions() {
        let Some(value) = value(&text) else { continue };
        let is_shop = turnwright::editor::which(&text) == Some(Which::Shop);
        let clean = if is_shop {
            read::shop(&name, text.as_bytes()).slips.is_empty()
        } else {
            let read = read::part(&name, text.as_bytes());
            read.part.is_some() && read.slips.is_empty()
        };
        if !clean {
            continue;
        }
        *(if is_shop { &mut shops } else { &mut parts }) += 1;
        let found = faults(if is_shop { &shop } else { &part }, &value);
        assert!(found.is_empty(), "{name}: {}", found.join("\n"));
    }
    assert!(parts >= 8 && shops >= 1, "{parts} parts and {shops} shop files were there to try");
}

const GOOD: &str = "part: x\nunits: in\ndatum: a\noverall: 4\nfeatures:\n  - turn: 1.000\n    to: 4\n";

#[test]
fn keys_may_be_spelt_as_reading_takes_them() {
    let part = validator(Which::Part);
    for text in [
        GOOD.to_owned(),
        GOOD.replace("part:", "Name:").replace("units:", "UNITS:"),
        GOOD.replace("turn:", "Journal:").replace("to:", "up-to:"),
        GOOD.to_owned() + "heat_treatment: none\n",
        GOOD.to_owned() + "  - centre-hole: A 1/8\n    end: both\n",
        GOOD.to_owned() + "tolerances: {2-places: ±0.010, 3 Places: ±0.005}\n",
        GOOD.to_owned() + "tolerances: ISO 2768-m\n",
        GOOD.replace("    to: 4", "    to: 4\n    carries: [{part: a, bore: 1}, {part: b, bore: 1}]"),
        GOOD.to_owned() + "plan: {holding: {datum: chuck, far: chuck and center}, before: [[a, b]], part off: yes}\n",
    ] {
        assert!(read::part("x", text.as_bytes()).slips.iter().all(|s| !matches!(
            s.fault,
            turnwright::model::Fault::UnknownWord { of: turnwright::model::slip::WordOf::Key, .. }
                | turnwright::model::Fault::WrongShape { .. }
        )));
        let found = faults(&part, &value(&text).expect("YAML"));
        assert!(found.is_empty(), "{text}: {}", found.join("\n"));
    }
}

#[test]
fn broken_ones_are_refused() {
    let part = validator(Which::Part);
    for (what, text) in [
        ("no units", GOOD.replace("units: in\n", "")),
        ("an unknown key of the head", GOOD.to_owned() + "materal: 1045\n"),
        ("an unknown kind", GOOD.replace("turn:", "trun:")),
        ("a key of another kind", GOOD.replace("to: 4", "to: 4\n    ring: 1")),
        ("a unit of another kind", GOOD.replace("units: in", "units: feet")),
        ("a decimal comma", GOOD.replace("turn: 1.000", "turn: 1,000")),
        ("features that are no list", GOOD.replace("features:\n  - turn: 1.000\n    to: 4", "features: 1")),
        ("an entry that is a word", GOOD.to_owned() + "  - stock\n"),
        ("a size that is a mapping", GOOD.replace("turn: 1.000", "turn: {a: 1}")),
        ("a dimension without its size", GOOD.to_owned() + "dims: [{from: 1, to: 2}]\n"),
        ("an end that is none", GOOD.to_owned() + "  - center hole: A 1/8\n    end: left\n"),
        ("no mapping at all", "- turn: 1\n".to_owned()),
    ] {
        let value = value(&text).expect("YAML");
        assert!(!part.is_valid(&value), "{what} is let through: {text}");
    }
    let shop = validator(Which::Shop);
    for (what, text) in [
        ("an unknown key", "units: in\nspeds: [60]\n"),
        ("a dial that reads nothing known", "units: in\ncross dial: {reads: feet}\n"),
        ("a chuck with a tool's key", "units: in\nchucks: [{jaws: 3, nose: 1}]\n"),
    ] {
        assert!(!shop.is_valid(&value(text).expect("YAML")), "{what} is let through");
    }
}

/// Every key and kind that reading knows stands in the schema with its meaning, under every spelling.
#[test]
fn every_key_is_there() {
    for which in [Which::Part, Which::Shop] {
        let schema = schema(which);
        for key in keys::all() {
            for scope in key.scopes.iter().filter(|s| s.is_shop() == (which == Which::Shop)) {
                let at = if *scope == which.scope() {
                    schema.clone()
                } else {
                    schema["$defs"][format!("{scope:?}")].clone()
                };
                let property = &at["properties"][key.word];
                let said = property["description"].as_str().unwrap_or_default();
                assert!(said.starts_with(key.about), "{} in {scope:?}: {property}", key.word);
            }
        }
    }
    let schema = schema(Which::Part);
    for kind in keys::KINDS {
        let said = schema["$defs"]["feature"]["properties"][kind.word]["description"].as_str().unwrap_or_default();
        assert!(said.starts_with(kind.about), "{}", kind.word);
        let part = validator(Which::Part);
        for word in std::iter::once(&kind.word).chain(kind.also) {
            let text = json!({"part": "x", "units": "in", "datum": "a", "overall": 1, "features": [{*word: "1"}]});
            assert!(part.is_valid(&text), "{word}");
        }
    }
}

/// The command prints it; every sample names it.
#[test]
fn the_command_and_the_line_in_the_samples() {
    for (of, which) in [("part", Which::Part), ("shop", Which::Shop)] {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_turnwright"))
            .args(["schema", of])
            .output()
            .expect("the program starts");
        assert!(output.status.success());
        assert_eq!(serde_json::from_slice::<Value>(&output.stdout).expect("JSON"), schema(which));
    }
    let mut samples = Vec::new();
    files(&root().join("samples"), &mut samples);
    samples.retain(|p| p.extension().is_some_and(|e| e == "yaml"));
    assert!(!samples.is_empty());
    for sample in samples {
        let text = std::fs::read_to_string(&sample).expect("a sample");
        // A tolerance chart is neither file, and has no schema.
        let Some(which) = turnwright::editor::which(&text) else { continue };
        let of = if which == Which::Shop { "shop" } else { "part" };
        let line = format!("# yaml-language-server: $schema={of}.schema.json");
        assert!(text.lines().any(|l| l.starts_with(&line)), "{}: {line}", sample.display());
    }
}
