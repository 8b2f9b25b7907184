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

/// A folder of two parts and a shop file, as the section on folders has it.
fn folder_of_parts() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let samples = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    std::fs::create_dir(folder.path().join("parts")).expect("a folder");
    let part = std::fs::read_to_string(samples.join("pulley-stub.yaml")).expect("a sample");
    let part = part.replace("lathe: shop.yaml", "lathe: ../shop.yaml");
    std::fs::write(folder.path().join("parts/stub.yaml"), part).expect("written");
    std::fs::copy(samples.join("pulley-stub-no-shop.yaml"), folder.path().join("parts/other.yaml")).expect("copied");
    std::fs::copy(samples.join("shop.yaml"), folder.path().join("shop.yaml")).expect("copied");
    folder
}

/// Runs a build engine with the program on its path; none where the engine is not installed.
fn build(folder: &std::path::Path, engine: &str) -> Option<String> {
    let program = std::path::Path::new(env!("CARGO_BIN_EXE_turnwright")).parent().expect("its folder").to_owned();
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(std::iter::once(program).chain(std::env::split_paths(&path))).expect("a path");
    let Ok(output) = Command::new(engine).current_dir(folder).env("PATH", path).output() else {
        eprintln!("not run: {engine} is not installed");
        return None;
    };
    assert!(output.status.success(), "{engine}: {}", String::from_utf8_lossy(&output.stderr));
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

#[test]
fn the_makefile_makes_what_changed_and_nothing_else() {
    let folder = folder_of_parts();
    std::fs::write(folder.path().join("Makefile"), &blocks("make")[0]).expect("written");
    let Some(first) = build(folder.path(), "make") else { return };
    assert_eq!(first.matches("turnwright sheet").count(), 2, "{first}");
    assert!(folder.path().join("sheets/stub.html").exists());
    let again = build(folder.path(), "make").expect("make");
    assert!(!again.contains("turnwright sheet"), "{again}");
    // The stub names the shop file, the other part none. A time well past the sheets' own, whatever the file system's clock holds.
    let shop = std::fs::File::options().append(true).open(folder.path().join("shop.yaml")).expect("the shop file");
    shop.set_modified(std::time::SystemTime::now() + std::time::Duration::from_secs(60)).expect("a later time");
    let third = build(folder.path(), "make").expect("make");
    assert!(third.contains("parts/stub.yaml") && !third.contains("parts/other.yaml"), "{third}");
}

#[test]
fn the_ninja_file_works() {
    let folder = folder_of_parts();
    std::fs::create_dir(folder.path().join("sheets")).expect("a folder");
    std::fs::write(folder.path().join("build.ninja"), &blocks("ninja")[0]).expect("written");
    if build(folder.path(), "ninja").is_some() {
        assert!(folder.path().join("sheets/stub.html").exists());
        assert!(build(folder.path(), "ninja").expect("ninja").contains("no work to do"));
    }
}

#[test]
fn the_line_for_a_yaml_language_server_is_the_samples_own() {
    let line = &blocks("text").into_iter().find(|b| b.contains("yaml-language-server")).expect("the line");
    let sample = std::fs::read_to_string("samples/pulley-stub.yaml").expect("a sample");
    assert!(sample.lines().any(|l| l == line.trim_end()), "{line}");
    assert!(blocks("sh").concat().contains("turnwright schema part > part.schema.json"));
}

/// The table of JSON fields in DEVELOPERS.md names nothing that no reply has.
#[test]
fn the_listed_fields_are_there() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(root.join("DEVELOPERS.md")).expect("the file");
    let table =
        text.split("## Fields of the JSON replies").nth(1).and_then(|t| t.split("\n## ").next()).expect("the table");
    let mut source = String::new();
    for folder in ["src/cli", "src/plan/order", "src/check/chain"] {
        for entry in std::fs::read_dir(root.join(folder)).expect("a folder").flatten() {
            source += &std::fs::read_to_string(entry.path()).unwrap_or_default();
        }
    }
    let named = table.lines().filter_map(|l| l.strip_prefix("| `")?.split('`').next());
    let mut count = 0;
    for field in named {
        // Written out, or the name of a field that serde writes.
        let there = source.contains(&format!("\"{field}\"")) || source.contains(&format!("pub {field}:"));
        assert!(there, "{field} is in no reply");
        count += 1;
    }
    assert!(count > 35, "{count}");
}
