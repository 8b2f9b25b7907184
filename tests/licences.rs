//! What the program is built of, offline: every crate of the tree under a licence that lets a shop use and pass on the program, the
//! stated oldest compiler old enough for all of them and new enough for none too new, and nothing fetched from outside the registry.

use std::collections::BTreeSet;
use std::process::Command;

use serde_json::Value;

/// Licences (SPDX names) that ask no more than to be passed on with the program.
const ALLOWED: [&str; 14] = [
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "CC0-1.0",
    "Unlicense",
    "Unicode-3.0",
    "BSL-1.0",
    "MIT-0",
    "OFL-1.1",
];

/// The tree as `cargo` resolves it for this machine; with what other systems need too, where their crates were fetched before.
fn metadata() -> Value {
    let host = Command::new("rustc").arg("-vV").output().expect("rustc");
    let host = String::from_utf8_lossy(&host.stdout).into_owned();
    let host = host.lines().find_map(|l| l.strip_prefix("host: ")).expect("a host").to_owned();
    let ask = |more: &[&str]| {
        Command::new(env!("CARGO"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .args(["metadata", "--format-version", "1", "--locked", "--offline"])
            .args(more)
            .output()
            .expect("cargo")
    };
    let all = ask(&[]);
    let output = if all.status.success() {
        all
    } else {
        eprintln!("the crates of other systems are not here: those for {host} alone are looked at");
        ask(&["--filter-platform", &host])
    };
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// Whether an SPDX expression can be met with allowed licences: one side of every OR, both of every AND.
fn allowed(expression: &str) -> bool {
    let text = expression.replace('/', " OR ");
    let text = text.trim();
    if let Some(inner) = text.strip_prefix('(').and_then(|t| t.strip_suffix(')')).filter(|t| balanced(t)) {
        return allowed(inner);
    }
    for (word, any) in [(" OR ", true), (" AND ", false)] {
        if let Some(at) = outside_brackets(text, word) {
            let (left, right) = (allowed(&text[..at]), allowed(&text[at + word.len()..]));
            return if any { left || right } else { left && right };
        }
    }
    ALLOWED.contains(&text)
}

fn balanced(text: &str) -> bool {
    let mut depth = 0;
    text.chars().all(|c| {
        depth += i32::from(c == '(') - i32::from(c == ')');
        depth >= 0
    })
}

fn outside_brackets(text: &str, word: &str) -> Option<usize> {
    text.match_indices(word).map(|(at, _)| at).find(|at| {
        let before = &text[..*at];
        before.matches('(').count() == before.matches(')').count()
    })
}

#[test]
fn expressions_are_read() {
    for yes in ["MIT", "MIT/Apache-2.0", "(MIT OR GPL-2.0) AND Unicode-3.0", "Apache-2.0 WITH LLVM-exception OR MIT"] {
        assert!(allowed(yes), "{yes}");
    }
    for no in ["GPL-3.0", "MIT AND GPL-3.0", "(MIT OR ISC) AND AGPL-3.0", ""] {
        assert!(!allowed(no), "{no}");
    }
}

#[test]
fn every_crate_may_be_passed_on() {
    let metadata = metadata();
    let packages = metadata["packages"].as_array().expect("packages");
    assert!(packages.len() > 100);
    let (mut bad, mut outside) = (Vec::new(), Vec::new());
    for package in packages {
        let name =
            format!("{} {}", package["name"].as_str().unwrap_or("?"), package["version"].as_str().unwrap_or("?"));
        let licence = package["license"].as_str().unwrap_or_default();
        if !allowed(licence) {
            bad.push(format!("{name}: {licence:?}"));
        }
        let from = package["source"].as_str();
        if from.is_some_and(|s| !s.starts_with("registry+https://github.com/rust-lang/crates.io-index")) {
            outside.push(name);
        }
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
    assert!(outside.is_empty(), "{}", outside.join("\n"));
}

/// The stated compiler is at least what every crate that is built states; this toolchain is at least that one.
#[test]
fn the_stated_compiler_is_enough() {
    let metadata = metadata();
    let version = |text: &str| -> (u32, u32) {
        let mut numbers = text.split('.').map(|n| n.parse().unwrap_or(0));
        (numbers.next().unwrap_or(0), numbers.next().unwrap_or(0))
    };
    let own = version(env!("CARGO_PKG_RUST_VERSION"));
    let root = metadata["resolve"]["root"].as_str().expect("a root");
    let nodes = metadata["resolve"]["nodes"].as_array().expect("nodes");
    let (mut built, mut next) = (BTreeSet::new(), vec![root.to_owned()]);
    // Dev-dependencies are not what a user builds.
    while let Some(id) = next.pop() {
        if !built.insert(id.clone()) {
            continue;
        }
        let node = nodes.iter().find(|n| n["id"] == id.as_str()).expect("a node");
        for dep in node["deps"].as_array().expect("deps") {
            let kinds = dep["dep_kinds"].as_array().expect("kinds");
            if kinds.iter().any(|k| k["kind"] != "dev") {
                next.push(dep["pkg"].as_str().expect("an id").to_owned());
            }
        }
    }
    let mut newer = Vec::new();
    for package in metadata["packages"].as_array().expect("packages") {
        let needs = package["rust_version"].as_str().map(version);
        if built.contains(package["id"].as_str().unwrap_or_default()) && needs.is_some_and(|v| v > own) {
            newer.push(format!("{} {:?}", package["name"], needs));
        }
    }
    assert!(newer.is_empty(), "need a newer compiler than {own:?}: {}", newer.join(", "));
    assert!(built.len() > 50, "{}", built.len());
}
