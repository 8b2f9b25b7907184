//! `start` from answers and from a plain table, and `tidy`, as commands. The sentences are this project's own; no other source.

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn turnwright(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright")).current_dir(folder).args(args).output().expect("the program starts")
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn answers_make_a_description_that_checks_clean() {
    for (i, answers) in [
        ["--units", "in", "--overall", "7", "--stock", "1.25"],
        ["--units", "in", "--overall", "7.000 ±0.005", "--stock", "1 1/4 x 7 1/4"],
        ["--units", "in", "--overall", "4 1/2", "--stock", "3/4"],
        ["--units", "mm", "--overall", "180", "--stock", "32"],
        ["--units", "mm", "--overall", "100 ±0.2", "--stock", "20"],
        ["--units", "mm", "--overall", "300", "--stock", "50"],
    ]
    .iter()
    .enumerate()
    {
        let folder = tempfile::tempdir().expect("a folder");
        let mut args =
            vec!["start", "--datum", "pulley end: the thick one", "--material", "1018 cold drawn", "-o", "p.yaml"];
        args.extend(answers);
        let made = turnwright(folder.path(), &args);
        assert_eq!(made.status.code(), Some(0), "{i}: {}", err(&made));
        let checked = turnwright(folder.path(), &["check", "--strict", "p.yaml"]);
        assert_eq!(checked.status.code(), Some(0), "{answers:?}: {}", out(&checked));
        let again = turnwright(folder.path(), &args);
        assert_eq!(again.status.code(), Some(2), "an existing file is refused");
        let tidy = turnwright(folder.path(), &["tidy", "--check", "p.yaml"]);
        assert_eq!(tidy.status.code(), Some(0), "{}", out(&tidy));
    }
}

#[test]
fn answers_that_lack_something_are_refused_by_name() {
    let folder = tempfile::tempdir().expect("a folder");
    for (args, said) in [
        (&["start", "--overall", "7"][..], "units are never assumed"),
        (&["start", "--units", "in", "--overall", "7", "--stock", "1"], "--datum"),
        (&["start", "--units", "in", "--stock", "1", "--datum", "a"], "--overall"),
        (&["start", "--units", "in", "--overall", "7", "--datum", "a"], "--stock"),
        (
            &["start", "--units", "in", "--overall", "7,5", "--stock", "1", "--datum", "a"],
            "--overall: `,` cannot be read",
        ),
        (&["start", "--units", "in", "--overall", "0", "--stock", "1", "--datum", "a"], "not above zero"),
    ] {
        let output = turnwright(folder.path(), args);
        assert_eq!(output.status.code(), Some(2));
        assert!(err(&output).contains(said), "{args:?}: {}", err(&output));
    }
}

#[test]
fn a_table_becomes_a_description() {
    let folder = tempfile::tempdir().expect("a folder");
    let tables = [
        "kind,size,to,name\nturn,0.7495 +0/-0.001,1.5,seat\nturn,7/8,2 1/4,\nturn,5/8,4,\nchamfer,0.03 x 45°,,\n".replace(
            "chamfer,0.03 x 45°,,\n",
            "",
        ),
        "Feature;Dia.;Until;Called\njournal;0,7495 +0/-0,001;1,5;seat\nturn;0,875;2,25;\nturn;0,625;4;\n".to_owned(),
        "\u{feff}Type\tØ\tTo\tName\tRemarks\r\nturn\t0.7495 +0/-0.001\t1.5\tseat\tfits the pulley\r\n\r\nturn\t0.875\t2.25\r\nturn\t0.625\t4\r\n".to_owned(),
    ];
    let mut all = Vec::new();
    for table in tables {
        std::fs::write(folder.path().join("t.csv"), &table).expect("written");
        let args = ["start", "--units", "in", "--from", "t.csv", "--stock", "1", "--datum", "head"];
        let made = turnwright(folder.path(), &args);
        assert_eq!(made.status.code(), Some(0), "{table}: {}", err(&made));
        std::fs::write(folder.path().join("t.yaml"), &made.stdout).expect("written");
        let reply: serde_json::Value =
            serde_json::from_slice(&turnwright(folder.path(), &["check", "--format", "json", "t.yaml"]).stdout)
                .expect("JSON");
        assert_eq!(reply["errors"], 0, "{reply}");
        all.push(reply["faces"].clone());
    }
    assert!(all.windows(2).all(|w| w[0] == w[1]), "{all:?}");
    assert_eq!(all[0].as_array().map(Vec::len), Some(4));
}

#[test]
fn slips_of_a_table_are_told_by_row_and_column() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = "kind,size,to\nturn,l.75,1\nturn,0.5,2 5 0\nthread,1/2-20 UNF-9A,3\n";
    std::fs::write(folder.path().join("t.csv"), table).expect("written");
    let args = ["start", "--units", "in", "--from", "t.csv", "--stock", "1", "--datum", "head", "-o", "t.yaml"];
    let output = turnwright(folder.path(), &args);
    assert_eq!(output.status.code(), Some(2));
    let said = err(&output);
    for wanted in ["row 2, column 2: `l`", "row 3, column 3: the digits", "row 4, column 2: `1/2-20 UNF-9A`"] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    assert!(!folder.path().join("t.yaml").exists(), "nothing is written");
    std::fs::write(folder.path().join("t.csv"), "kind,size,to\ntrun,0.75,1\nneck,1,2\n").expect("written");
    let said = err(&turnwright(folder.path(), &args));
    assert!(said.contains("row 2, column 1: `trun` is no kind of feature; write `turn`"), "{said}");
    assert!(said.contains("row 3, column 1: `neck` has two readings"), "{said}");
}

const UNTIDY: &str =
    "Part:  pin   # short\nunits: inch\nZero-End: head\noal: 1\nfeatures:\n  - {journal: 0.5,to: end}\n";
const TIDY: &str = "part: pin   # short\nunits: in\ndatum: head\noverall: 1\nfeatures:\n  - {turn: 0.5, to: end}\n";

#[test]
fn tidy_rewrites_in_place_or_prints() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("p.yaml");
    std::fs::write(&file, UNTIDY).expect("written");
    let checked = turnwright(folder.path(), &["tidy", "--check", "p.yaml"]);
    assert_eq!(checked.status.code(), Some(1), "{}", out(&checked));
    assert_eq!(std::fs::read_to_string(&file).expect("there"), UNTIDY);
    let printed = turnwright(folder.path(), &["tidy", "--print", "p.yaml"]);
    assert_eq!(out(&printed), TIDY);
    assert_eq!(std::fs::read_to_string(&file).expect("there"), UNTIDY);
    assert_eq!(turnwright(folder.path(), &["tidy", "p.yaml"]).status.code(), Some(0));
    assert_eq!(std::fs::read_to_string(&file).expect("there"), TIDY);
    assert!(out(&turnwright(folder.path(), &["tidy", "p.yaml"])).contains("tidy already"));
    let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .args(["tidy", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(UNTIDY.as_bytes()).expect("written");
    assert_eq!(out(&child.wait_with_output().expect("it ends")), TIDY);
}

#[test]
fn tidy_leaves_what_does_not_read_and_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let bad = UNTIDY.replace("0.5", "0,5 x");
    std::fs::write(folder.path().join("bad.yaml"), &bad).expect("written");
    std::fs::write(folder.path().join("good.yaml"), UNTIDY).expect("written");
    let output = turnwright(folder.path(), &["tidy", "bad.yaml", "missing.yaml", "good.yaml"]);
    assert_eq!(output.status.code(), Some(2), "{}", err(&output));
    assert!(err(&output).contains("left as it is"), "{}", err(&output));
    assert_eq!(std::fs::read_to_string(folder.path().join("bad.yaml")).expect("there"), bad);
    assert_eq!(std::fs::read_to_string(folder.path().join("good.yaml")).expect("there"), TIDY);
    assert_eq!(std::fs::read_dir(folder.path()).expect("the folder").count(), 2, "no temporary file is left");
}
