//! The way of the data, kept true: a folder of `src/` uses only folders before it, files stay readable in one sitting, and the
//! top level holds only what it should. Common practice, no source.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The order of the folders.
const ORDER: [&str; 12] =
    ["unit", "handbook", "finding", "model", "read", "chain", "check", "plan", "figures", "sheet", "editor", "cli"];

/// Files that may be longer than a sitting, each with its reason.
const LONG: [(&str, &str); 1] =
    [("src/sheet/words.rs", "every English word of the sheet in one place, so that another language is one more file")];

const LINES: usize = 400;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut out = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of the tree") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            out.extend(files(&path, ending));
        } else if path.to_string_lossy().ends_with(ending) {
            out.push(path);
        }
    }
    out.sort();
    out
}

/// The folders that a line of code names through `crate::`.
fn named(line: &str) -> impl Iterator<Item = &str> {
    let code = if line.trim_start().starts_with("//") { "" } else { line };
    code.split("crate::").skip(1).filter_map(|rest| rest.split(|c: char| !c.is_alphanumeric() && c != '_').next())
}

#[test]
fn a_folder_uses_only_those_before_it() {
    let place = |folder: &str| ORDER.iter().position(|f| *f == folder);
    let mut wrong = Vec::new();
    let mut seen = 0;
    for folder in ORDER {
        for file in files(&root().join("src").join(folder), ".rs") {
            for (i, line) in fs::read_to_string(&file).expect("a source file").lines().enumerate() {
                for other in named(line).filter(|o| ORDER.contains(o)) {
                    seen += 1;
                    if place(other) > place(folder) {
                        wrong.push(format!("{}:{}: uses {other}", file.display(), i + 1));
                    }
                }
            }
        }
    }
    assert!(seen > 100, "the test sees the imports ({seen})");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_folder_has_its_place_in_the_order() {
    let on_disk: BTreeSet<String> = fs::read_dir(root().join("src"))
        .expect("src")
        .filter_map(|e| e.ok().filter(|e| e.path().is_dir()).map(|e| e.file_name().to_string_lossy().into_owned()))
        .collect();
    assert_eq!(on_disk, ORDER.iter().map(|f| (*f).to_owned()).collect());
}

#[test]
fn files_are_read_in_one_sitting() {
    let mut long = Vec::new();
    for file in files(&root().join("src"), ".rs") {
        let lines = fs::read_to_string(&file).expect("a source file").lines().count();
        let name = file.strip_prefix(root()).expect("inside").display().to_string();
        if lines > LINES && !LONG.iter().any(|(f, _)| *f == name) {
            long.push(format!("{name}: {lines} lines"));
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn lengths_are_exact_where_they_must_be() {
    // `to_f64`, `mm()` and `inches()` are for physics and pictures: a chain never goes through floating point.
    let mut wrong = Vec::new();
    for folder in ["src/chain", "src/plan/order"] {
        for file in files(&root().join(folder), ".rs") {
            for (i, line) in fs::read_to_string(&file).expect("a source file").lines().enumerate() {
                if line.contains("to_f64(") || line.contains("from_f64(") || line.contains(".inches()") {
                    wrong.push(format!("{}:{}", file.display(), i + 1));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_top_level_holds_what_it_should() {
    let may =
        ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "src", "templates", "tests", "samples", "target"];
    for entry in fs::read_dir(root()).expect("the top level") {
        let name = entry.expect("an entry").file_name().to_string_lossy().into_owned();
        let fine = may.contains(&name.as_str()) || name.starts_with('.') || name.starts_with("LICENSE");
        assert!(fine, "{name} does not belong at the top level");
    }
}

/// A file of tests that `tests/all.rs` does not name is never compiled, and looks as if it passed.
#[test]
fn every_file_of_tests_is_linked() {
    let tests = root().join("tests");
    let all = fs::read_to_string(tests.join("all.rs")).expect("all.rs");
    let manifest = fs::read_to_string(root().join("Cargo.toml")).expect("Cargo.toml");
    let mut seen = 0;
    for entry in fs::read_dir(&tests).expect("the tests") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let rust = path.extension().is_some_and(|e| e == "rs") && name != "all";
        if !rust && !path.join("mod.rs").is_file() {
            continue;
        }
        seen += 1;
        let own = manifest.contains(&format!("path = \"tests/{name}.rs\""));
        assert!(own || all.contains(&format!("mod {name};")), "tests/all.rs does not name {name}");
        let Ok(module) = fs::read_to_string(path.join("mod.rs")) else { continue };
        for part in fs::read_dir(&path).expect("a folder").map(|e| e.expect("an entry").path()) {
            let part_name = part.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            let rust = part.extension().is_some_and(|e| e == "rs") && part_name != "mod";
            assert!(
                !rust || module.contains(&format!("mod {part_name};")),
                "tests/{name}/mod.rs does not name {part_name}"
            );
        }
    }
    assert!(seen > 40, "{seen} files of tests: the folder is read");
}

/// No input makes the program stop with a panic: outside of tests and of the examples in the documentation, `src` unwraps nothing.
#[test]
fn nothing_in_src_unwraps_or_panics() {
    let ways = [".unwrap()", ".expect(", "panic!(", "unreachable!(", "todo!(", "unimplemented!("];
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for file in files(&root().join("src"), ".rs") {
        let text = fs::read_to_string(&file).expect("a source file");
        // A file's own tests are its last part.
        let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
        seen += usize::from(code.len() < text.len());
        for (i, line) in code.lines().enumerate().filter(|(_, l)| !l.trim_start().starts_with("//")) {
            if ways.iter().any(|w| line.contains(w)) {
                wrong.push(format!("{}:{}: {}", file.display(), i + 1, line.trim()));
            }
        }
    }
    assert!(seen > 30, "{seen} files with tests of their own: the sources are read");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
