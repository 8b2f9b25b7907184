//! What the README shows is run: its example description checks clean and plans, and its commands exist.

use std::process::Command;

fn readme() -> String {
    std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/README.md")).expect("README.md")
}

/// The blocks fenced as `language`.
fn blocks(language: &str) -> Vec<String> {
    let readme = readme();
    let mut out = Vec::new();
    let mut open: Option<String> = None;
    for line in readme.lines() {
        match &mut open {
            None if line == format!("```{language}") => open = Some(String::new()),
            Some(_) if line.starts_with("```") => out.extend(open.take()),
            Some(text) => {
                text.push_str(line);
                text.push('\n');
            }
            None => {}
        }
    }
    out
}

fn turnwright(args: &[&str]) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(args)
        .output()
        .expect("the program starts")
}

#[test]
fn every_description_in_the_readme_is_good_to_cut() {
    let folder = tempfile::tempdir().expect("a folder");
    let examples = blocks("yaml");
    assert!(!examples.is_empty());
    for example in examples {
        let path = folder.path().join("part.yaml");
        std::fs::write(&path, &example).expect("written");
        let path = path.to_str().expect("a path");
        for command in ["check", "plan", "marks"] {
            let output = turnwright(&[command, path]);
            assert_eq!(output.status.code(), Some(0), "{command}: {}", String::from_utf8_lossy(&output.stdout));
        }
    }
}

#[test]
fn the_two_commands_are_real() {
    let shown = blocks("sh").concat();
    assert!(shown.contains("cargo run --release -- sheet samples/pulley-stub.yaml"));
    assert!(shown.contains("tests/run"));
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("stub.html");
    let output = turnwright(&["sheet", "samples/pulley-stub.yaml", "-o", out.to_str().expect("a path")]);
    assert_eq!(output.status.code(), Some(0));
    assert!(out.exists());
}

#[test]
fn every_command_of_the_table_has_help_with_an_example() {
    let commands: Vec<String> =
        readme().lines().filter_map(|l| l.strip_prefix("| `")?.split(['`', ' ']).next().map(str::to_owned)).collect();
    assert!(commands.len() >= 7, "{commands:?}");
    for command in commands {
        let output = turnwright(&[&command, "--help"]);
        let help = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(output.status.success() && help.contains("Example"), "{command}: {help}");
    }
}
