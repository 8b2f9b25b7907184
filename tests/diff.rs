//! `diff`: two descriptions compared, and their sheets page by page. What a page says is known here by changing one thing whose
//! pages are known; nothing is a published value.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

const OLD: &str = "part: stud\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.375 x 4.125\ndatum: head\noverall: 4.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n- turn: 1.000\n  to: 1.000\n  name: left seat\n- turn: 1.250\n  to: 3.250\n  name: collar\n\
    - turn: 1.000\n  to: 4.000\n  name: right seat\n- chamfer: 0.030 x 45°\n  end: both\nnotes: keep it clean\n";

fn diff(old: &str, new: &str, more: &[&str]) -> (i32, String) {
    let folder = tempfile::tempdir().unwrap();
    let put = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path
    };
    run(&put("old.yaml", old), &put("new.yaml", new), more)
}

fn run(old: &Path, new: &Path, more: &[&str]) -> (i32, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_turnwright")).arg("diff").arg(old).arg(new).args(more).output().unwrap();
    let text = String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr);
    (out.status.code().unwrap(), text)
}

fn json(old: &str, new: &str) -> Value {
    let (_, text) = diff(old, new, &["--format", "json"]);
    serde_json::from_str(&text).unwrap_or_else(|e| panic!("{e}: {text}"))
}

fn row<'a>(d: &'a Value, called: &str) -> &'a Value {
    let rows = d["changed"].as_array().unwrap();
    rows.iter().find(|r| r["called"].as_str().unwrap().contains(called)).unwrap_or_else(|| panic!("{called}: {d:#}"))
}

#[test]
fn the_same_part_says_so_and_keeps_every_page() {
    // Spelling and order of keys are no change of the part.
    let new = OLD.replace("overall: 4.000 ±0.010", "overall: 4.000 +0.010/-0.010");
    let d = json(OLD, &new);
    assert_eq!(d["changed"].as_array().unwrap().len(), 0, "{d:#}");
    assert_eq!(d["sheet"]["replace"].as_array().unwrap().len(), 0, "{d:#}");
    assert!(!d["sheet"]["keep"].as_array().unwrap().is_empty());
    assert_eq!(diff(OLD, &new, &[]).0, 0);
}

#[test]
fn a_moved_a_renamed_and_a_resized_feature_are_matched() {
    let new = OLD
        .replace("to: 3.250", "to: 3.125")
        .replace("right seat", "pinion seat")
        .replace("- turn: 1.000\n  to: 1.000", "- turn: 0.990\n  to: 1.000");
    let d = json(OLD, &new);
    assert_eq!(row(&d, "collar")["how"], "moved");
    assert_eq!(row(&d, "right seat")["how"], "renamed");
    let seat = row(&d, "left seat");
    assert_eq!(seat["how"], "changed");
    assert_eq!(seat["says"][0]["old"], "1.000");
    assert_eq!(seat["says"][0]["new"], "0.990");
    assert_eq!(d["changed"].as_array().unwrap().len(), 3, "{d:#}");
}

#[test]
fn added_and_removed_features_dims_and_head() {
    let new = OLD
        .replace("- chamfer: 0.030 x 45°\n  end: both\n", "dims:\n- {from: 1.000, to: 3.250, is: 2.250 ±0.010}\n")
        .replace("1045", "1018");
    let d = json(OLD, &new);
    assert_eq!(row(&d, "chamfer")["how"], "removed");
    assert_eq!(row(&d, "from 1.000")["of"], "dims");
    assert_eq!(row(&d, "material")["says"][0]["new"], "1018 cold drawn");
}

/// Notes stand on pages of the sheet of their own or on the inspection page, never in a setup: a changed note replaces no setup.
#[test]
fn pages_are_compared_by_what_they_say() {
    let d = json(OLD, &OLD.replace("keep it clean", "keep it very clean"));
    let names = |key: &str| -> Vec<String> {
        d["sheet"][key].as_array().unwrap().iter().map(|p| p["name"].as_str().unwrap().to_owned()).collect()
    };
    assert!(names("replace").iter().all(|n| !n.starts_with("Setup")), "{d:#}");
    assert!(names("keep").iter().any(|n| n.starts_with("Setup")), "{d:#}");
    assert_eq!(d["sheet"]["operations"].as_array().unwrap().len(), 0, "{d:#}");
    // A diameter of one section stands in the operation that cuts it.
    let d = json(OLD, &OLD.replace("- turn: 1.250", "- turn: 1.200"));
    assert!(!d["sheet"]["operations"].as_array().unwrap().is_empty(), "{d:#}");
    assert!(
        d["sheet"]["replace"].as_array().unwrap().iter().any(|p| p["name"].as_str().unwrap().starts_with("Setup")),
        "{d:#}"
    );
}

#[test]
fn exit_codes() {
    assert_eq!(diff(OLD, &OLD.replace("to: 3.250", "to: 0.500"), &[]).0, 1, "the new one has errors");
    assert_eq!(diff(OLD, "part: [", &[]).0, 2);
    assert_eq!(run(Path::new("no-such-file.yaml"), Path::new("no-such-file.yaml"), &[]).0, 2);
}
