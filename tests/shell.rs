//! Completions and man pages come from the arguments themselves, so every command is in them.

use std::process::{Command, Output};

fn run(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright")).args(args).output().expect("the program starts")
}

fn text(args: &[&str]) -> String {
    let output = run(args);
    assert!(output.status.success(), "{args:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

const COMMANDS: [&str; 10] =
    ["check", "plan", "marks", "sheet", "explain", "handbook", "start", "watch", "schema", "language-server"];

#[test]
fn every_shell_knows_every_command() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = text(&["completions", shell]);
        for command in COMMANDS {
            assert!(script.contains(command), "{shell}: {command}");
        }
    }
    assert_eq!(run(&["completions", "cmd"]).status.code(), Some(2));
}

/// `bash -n` reads the script as bash will.
#[test]
fn bash_can_read_its_script() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("turnwright");
    std::fs::write(&path, text(&["completions", "bash"])).expect("written");
    match Command::new("bash").arg("-n").arg(&path).status() {
        Ok(status) => assert!(status.success()),
        Err(_) => eprintln!("not run: there is no bash here"),
    }
}

#[test]
fn every_command_has_a_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("man1");
    text(&["man", "--out-dir", path.to_str().expect("a path")]);
    for command in COMMANDS {
        let page = std::fs::read_to_string(path.join(format!("turnwright-{command}.1"))).expect("a page");
        assert!(page.contains(".SH NAME") && page.contains(".TH turnwright"), "{command}");
    }
    let main = text(&["man"]);
    assert_eq!(main, std::fs::read_to_string(path.join("turnwright.1")).expect("a page"));
}
