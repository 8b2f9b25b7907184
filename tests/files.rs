//! Files under hard use: a full disk, a folder that may not be written, a run that is ended in the middle, two runs at once, names and notes
//! that mean harm. Whatever happens, what stands under a sheet's name is the old file whole or the new one whole.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn program(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_turnwright"));
    command.current_dir(folder);
    command
}

fn run(folder: &Path, args: &[&str]) -> Output {
    program(folder).args(args).output().expect("the program starts")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// A test that cannot run here says so, and fails where everything must run.
fn not_run(what: &str, why: &str) {
    eprintln!("\nNOT RUN: {what}: {why}\n");
}

const PIN: &str = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 1/8 x 3.2\ndatum: head\noverall: 3.000 ±0.010\n\
                   tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.750\n    to: 1.000\n    name: seat\n  \
                   - turn: 1.000\n    to: end\n";

fn folder_with(parts: usize) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for i in 0..parts {
        std::fs::write(folder.path().join(format!("p{i:03}.yaml")), PIN.replace("pin", &format!("pin {i}")))
            .expect("a part");
    }
    folder
}

/// The sheets of a folder, and what else is in it.
fn sheets(folder: &Path) -> (Vec<PathBuf>, Vec<String>) {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path()).collect();
    all.sort();
    let (sheets, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|p| p.extension().is_some_and(|e| e == "html"));
    (sheets, rest.iter().map(|p| p.file_name().unwrap_or_default().to_string_lossy().into_owned()).collect())
}

fn is_whole(sheet: &Path) -> bool {
    let text = std::fs::read_to_string(sheet).expect("a sheet");
    text.starts_with("<!") && text.trim_end().ends_with("</html>")
}

/// `/dev/full` refuses every byte, as a full disk does.
#[test]
fn a_full_disk_is_told_and_loses_nothing() {
    let folder = folder_with(1);
    if cfg!(target_os = "linux") {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("/dev/full");
        let mut command = program(folder.path());
        command.args(["sheet", "p000.yaml", "-o", "-"]).stdout(full).stderr(Stdio::piped());
        let output = command.output().expect("starts");
        assert_eq!(output.status.code(), Some(2), "results that could not be written");
        for args in [&["check", "p000.yaml"][..], &["plan", "p000.yaml", "--format", "json"], &["explain", "--all"]] {
            let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("/dev/full");
            let output = program(folder.path()).args(args).stdout(full).output().expect("starts");
            assert_eq!(output.status.code(), Some(2), "{args:?}");
            let said = text(&output.stderr);
            assert_eq!(said.matches("cannot write to standard output").count(), 1, "{args:?}: {said}");
        }
    } else {
        not_run("standard output to a full disk", "there is no /dev/full here");
    }
    // A real small disk, where one can be had.
    let disk = folder.path().join("disk");
    std::fs::create_dir(&disk).expect("a folder");
    let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", "size=256k", "tmpfs"]).arg(&disk).output();
    if !mounted.is_ok_and(|o| o.status.success()) {
        return not_run("a sheet on a full disk", "a small disk cannot be mounted without the rights for it");
    }
    let old = "the sheet of yesterday";
    std::fs::write(disk.join("p000.html"), old).expect("room for a line");
    let output = run(folder.path(), &["sheet", "p000.yaml", "--out-dir", "disk"]);
    let after = std::fs::read_to_string(disk.join("p000.html"));
    let left = std::fs::read_dir(&disk).map(Iterator::count);
    let unmounted = Command::new("umount").arg(&disk).status();
    assert!(unmounted.is_ok_and(|s| s.success()), "the small disk is given back");
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("cannot write"), "{}", text(&output.stderr));
    assert_eq!(after.expect("still there"), old);
    assert_eq!(left.expect("a count"), 1, "no half file stays behind");
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder_with(1);
    let out = folder.path().join("out");
    std::fs::create_dir(&out).expect("a folder");
    std::fs::set_permissions(&out, std::fs::Permissions::from_mode(0o555)).expect("read-only");
    let output = if std::fs::write(out.join("probe"), "x").is_err() {
        run(folder.path(), &["sheet", "p000.yaml", "--out-dir", "out"])
    } else {
        // Root may write everywhere but where the kernel lets nobody.
        let _ = std::fs::remove_file(out.join("probe"));
        run(folder.path(), &["sheet", "p000.yaml", "-o", "/proc/p000.html"])
    };
    let _ = std::fs::set_permissions(&out, std::fs::Permissions::from_mode(0o755));
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("cannot write"), "{}", text(&output.stderr));
    assert!(sheets(&out).0.is_empty());
}

/// A batch is ended in the middle, gently and by force, and each time begun again: no sheet is ever half of one.
#[cfg(unix)]
#[test]
fn an_interrupted_run_leaves_whole_sheets() {
    let folder = folder_with(24);
    let out = folder.path().join("out");
    for signal in ["-INT", "-KILL", "-TERM"] {
        let mut child = program(folder.path())
            .args(["sheet", ".", "--out-dir", "out"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("starts");
        // As soon as the first sheets are there, while others are being written.
        while sheets(&out).0.len() < 2 && child.try_wait().expect("ours").is_none() {
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
        let id = child.id().to_string();
        let _ = Command::new("kill").args([signal, &id]).status();
        let _ = child.wait();
        let (made, _) = sheets(&out);
        assert!(!made.is_empty());
        for sheet in &made {
            assert!(is_whole(sheet), "{} after {signal}", sheet.display());
        }
        std::fs::remove_dir_all(&out).expect("cleared");
    }
    // What was left behind by force does not disturb the next run.
    let output = run(folder.path(), &["sheet", ".", "--out-dir", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let (made, rest) = sheets(&out);
    assert_eq!((made.len(), rest), (24, Vec::new()));
}

#[test]
fn two_runs_at_once_do_not_mix_their_sheets() {
    let folder = folder_with(12);
    let start = || {
        program(folder.path())
            .args(["sheet", ".", "--out-dir", "out", "--changed"])
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .expect("starts")
    };
    let runs = [start(), start(), start()];
    for run in runs {
        let output = run.wait_with_output().expect("ends");
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    }
    let (made, rest) = sheets(&folder.path().join("out"));
    assert!(made.len() == 12 && made.iter().all(|s| is_whole(s)));
    assert_eq!(rest, [".turnwright.json"], "nothing else stays behind");
    // One run after another makes the same bytes.
    let once = std::fs::read(&made[3]).expect("a sheet");
    assert_eq!(run(folder.path(), &["sheet", "p003.yaml", "-o", "alone.html"]).status.code(), Some(0));
    assert!(once == std::fs::read(folder.path().join("alone.html")).expect("a sheet"));
}

#[test]
fn no_description_and_no_shop_file_is_written_over() {
    let folder = folder_with(2);
    let at = |name: &str| folder.path().join(name);
    std::fs::copy(at("p001.yaml"), at("other.md")).expect("a copy");
    std::fs::copy("samples/shop.yaml", at("shop.md")).expect("a copy");
    for (args, file) in [
        (vec!["sheet", "p000.yaml", "-o", "other.md"], "other.md"),
        (vec!["sheet", "p000.yaml", "-o", "shop.md"], "shop.md"),
        (vec!["sheet", "p000.yaml", "-o", "p001.yaml", "--format", "md"], "p001.yaml"),
        (vec!["sheet", "p000.yaml", "-o", "x.html", "--depfile", "p001.yaml"], "p001.yaml"),
        (vec!["start", "-o", "p001.yaml"], "p001.yaml"),
    ] {
        let before = std::fs::read(at(file)).expect("there");
        let output = run(folder.path(), &args);
        assert_eq!(output.status.code(), Some(2), "{args:?}: {}", text(&output.stderr));
        assert_eq!(std::fs::read(at(file)).expect("still there"), before, "{args:?}");
    }
    // A sheet of before is written over without a question.
    assert_eq!(run(folder.path(), &["sheet", "p000.yaml", "-o", "a.md"]).status.code(), Some(0));
    assert_eq!(run(folder.path(), &["sheet", "p000.yaml", "-o", "a.md"]).status.code(), Some(0));
}

/// What stands in a description names no file to write.
#[test]
fn names_in_a_description_lead_nowhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let inner = folder.path().join("inner");
    std::fs::create_dir(&inner).expect("a folder");
    for (i, name) in ["../../evil", "/tmp/evil", "a/b", "..\\evil", "CON", "-o evil"].iter().enumerate() {
        let part = PIN.replacen("pin", &format!("\"{}\"", name.replace('\\', "\\\\")), 1);
        std::fs::write(inner.join(format!("p{i}.yaml")), part.replace("seat", "../seat")).expect("a part");
    }
    let output = run(&inner, &["sheet", ".", "--out-dir", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let names: Vec<_> = sheets(&inner.join("out")).0.iter().map(|p| p.file_name().map(ToOwned::to_owned)).collect();
    assert_eq!(names.len(), 6);
    assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), 1, "nothing beside the inner folder");
}

#[cfg(unix)]
#[test]
fn a_pipe_for_a_shop_file_does_not_hang_the_run() {
    let folder = folder_with(1);
    let made = Command::new("mkfifo").arg(folder.path().join("pipe.yaml")).status();
    assert!(made.is_ok_and(|s| s.success()), "a pipe");
    std::fs::write(folder.path().join("p.yaml"), format!("lathe: pipe.yaml\n{PIN}")).expect("a part");
    let output = run(folder.path(), &["check", "p.yaml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("a device or a pipe"), "{}", text(&output.stderr));
}

/// `--changed` looks at what is in the files: part, shop file, options, and the sheet itself.
#[test]
fn what_did_not_change_is_left_alone() {
    let folder = folder_with(3);
    let at = |name: &str| folder.path().join(name);
    std::fs::copy("samples/shop.yaml", at("shop.yaml")).expect("a shop");
    std::fs::write(at("p002.yaml"), format!("lathe: shop.yaml\n{PIN}")).expect("a part");
    std::fs::write(at("bad.yaml"), PIN.replace("0.750", "1,5")).expect("a part");
    let again = |more: &[&str]| {
        let args = [&["sheet", ".", "--out-dir", "out", "--changed", "--depfile", "d"], more].concat();
        let output = run(folder.path(), &args);
        assert_eq!(output.status.code(), Some(1), "the bad part is told every time: {}", text(&output.stderr));
        let rules = std::fs::read_to_string(at("d")).expect("rules");
        assert!(rules.contains("p000.yaml") && rules.contains("shop.yaml"), "{rules}");
        let err = text(&output.stderr);
        let told = err.lines().last().unwrap_or_default().to_owned();
        let count = told.split("; ").nth(1).and_then(|s| s.split(' ').next()?.parse::<usize>().ok());
        count.unwrap_or(0)
    };
    assert_eq!(again(&[]), 0);
    assert_eq!(again(&[]), 4, "the bad part's marked sheet among them");
    std::fs::write(at("p000.yaml"), PIN.replace("3.000", "2.900")).expect("saved");
    assert_eq!(again(&[]), 3, "a part was changed");
    let shop = std::fs::read_to_string(at("shop.yaml")).expect("a shop");
    std::fs::write(at("shop.yaml"), format!("{shop}# a word\n")).expect("saved");
    assert_eq!(again(&[]), 3, "the shop of one part was changed");
    std::fs::write(at("out/p001.html"), "scribbled on").expect("saved");
    assert_eq!(again(&[]), 3, "a sheet was changed");
    std::fs::remove_file(at("out/p001.html")).expect("gone");
    assert_eq!(again(&[]), 3, "a sheet is gone");
    assert_eq!(again(&["--paper", "a4"]), 0, "other paper");
    assert_eq!(again(&["--paper", "a4"]), 4);
    std::fs::write(at("out/.turnwright.json"), "{\"sheets\": 5").expect("saved");
    assert_eq!(again(&["--paper", "a4"]), 0, "a record that cannot be read counts for nothing");
    assert!(is_whole(&at("out/p001.html")));
    let output = run(folder.path(), &["sheet", "p000.yaml", "--changed"]);
    assert_eq!(output.status.code(), Some(2), "the record needs a folder");
}
