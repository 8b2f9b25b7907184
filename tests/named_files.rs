//! Files that a description names: nothing of what lies elsewhere on the machine is read into a report, a sheet or a record.

use std::path::Path;
use std::process::{Command, Output, Stdio};

const PIN: &str = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 1/8 x 3.2\ndatum: head\noverall: 3.000 ±0.010\n\
                   tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.750\n    to: 1.000\n  \
                   - turn: 1.000\n    to: end\n";

/// A word that stands in every file which must not be opened, and in nothing else.
const SECRET: &str = "Zwetschgenwasser";

fn run(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder)
        .args(args)
        .stdin(Stdio::null())
        .output()
        .expect("the program starts")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// The beginning: whole sheets in a failure are read by nobody.
fn short(text: &str) -> String {
    text.chars().take(1500).collect()
}

/// A project three folders down, files around it, and a part that names one of them.
fn project(lathe: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path();
    for dir in ["home/hand/project/parts/pins", "home/hand/project/parts/lathes", "etc", "home/other"] {
        std::fs::create_dir_all(root.join(dir)).expect("a folder");
    }
    let secret = format!("{SECRET}: x\nuser: {SECRET}\n- {SECRET}\n");
    for file in [
        "etc/passwd",
        "etc/shadow.yaml",
        "home/other/keys.yaml",
        "home/hand/project/parts/keys.yaml",
        "home/hand/project/parts/pins/keys.txt",
    ] {
        std::fs::write(root.join(file), &secret).expect("a file");
    }
    let shop = std::fs::read("samples/shop.yaml").expect("a sample");
    for file in [
        "home/hand/project/parts/pins/shop.yaml",
        "home/hand/project/parts/lathes/shop.yaml",
        "home/hand/shop.yaml",
        "etc/shop.yaml",
    ] {
        std::fs::write(root.join(file), &shop).expect("a file");
    }
    let quoted = serde_json::to_string(lathe).expect("text");
    std::fs::write(root.join("home/hand/project/parts/pins/pin.yaml"), format!("{PIN}lathe: {quoted}\n"))
        .expect("a part");
    folder
}

/// Each command that reads a part, and what each prints and writes.
fn everything(pins: &Path, more: &[&str]) -> Vec<(Option<i32>, String)> {
    let commands: [&[&str]; 9] = [
        &["check", "pin.yaml"],
        &["check", "pin.yaml", "--format", "json"],
        &["check", "pin.yaml", "--format", "sarif"],
        &["check", ".", "--format", "jsonl"],
        &["plan", "pin.yaml", "--format", "json"],
        &["sheet", "pin.yaml", "-o", "out.html", "--depfile", "out.d"],
        &["sheet", "pin.yaml", "-o", "out.typ"],
        &["sheet", "pin.yaml", "-o", "out.md"],
        &["inspect", "pin.yaml"],
    ];
    let results = commands.iter().map(|args| {
        let output = run(pins, &[*args, more].concat());
        let written: String = ["out.html", "out.d", "out.typ", "out.md"]
            .iter()
            .map(|f| std::fs::read_to_string(pins.join(f)).unwrap_or_default())
            .collect();
        (output.status.code(), said(&output) + &written)
    });
    results.collect()
}

#[test]
fn names_that_lead_away_are_refused_at_their_line_and_nothing_is_shown() {
    let names: [(&str, &str); 14] = [
        ("../../../../etc/passwd", "leads away"),
        ("../../../../../../../../../../etc/passwd", "leads away"),
        ("lathes/../../../../../etc/passwd", "leads away"),
        ("../keys.txt", "does not end in .yaml"),
        ("keys.txt", "does not end in .yaml"),
        ("../keys.yaml", "keys are those of a shop file"),
        ("pin.yaml", "keys are those of a shop file"),
        ("/etc/passwd", "root of the machine"),
        ("/dev/stdin", "root of the machine"),
        ("//server/share/shop.yaml", "root of the machine"),
        ("~/shop.yaml", "somebody's home"),
        ("C:\\lathes\\shop.yaml", "a drive or a backslash"),
        ("\\\\server\\share\\shop.yaml", "a drive or a backslash"),
        ("-", "does not end in .yaml"),
    ];
    for (name, why) in names {
        let folder = project(name);
        let pins = folder.path().join("home/hand/project/parts/pins");
        for (code, text) in everything(&pins, &[]) {
            assert_eq!(code, Some(1), "{name}: {}", short(&text));
            assert!(!text.contains(SECRET) && !text.contains("root:x:0"), "{name}: {}", short(&text));
        }
        let told = said(&run(&pins, &["check", "pin.yaml"]));
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in ["error[shop-file]", "pin.yaml:13:", "--shop FILE", why] {
            assert!(told.contains(words), "{name}: {words}: {told}");
        }
    }
}

/// An absolute name of a file that is there, whatever is in it.
#[test]
fn a_real_shop_file_elsewhere_is_refused_too_and_taken_on_the_command_line() {
    let folder = project("shop.yaml");
    let shop = folder.path().join("etc/shop.yaml");
    let shop = shop.to_str().expect("a name");
    let pins = folder.path().join("home/hand/project/parts/pins");
    std::fs::write(pins.join("pin.yaml"), format!("{PIN}lathe: {shop}\n")).expect("a part");
    let refused = run(&pins, &["check", "pin.yaml"]);
    assert_eq!(refused.status.code(), Some(1), "{}", said(&refused));
    assert!(said(&refused).contains("shop-file"), "{}", said(&refused));
    for (code, text) in everything(&pins, &["--shop", shop]) {
        assert!(
            code.is_some_and(|c| c < 2) && !text.contains("is not read as the shop file"),
            "{code:?} {}",
            short(&text)
        );
    }
    let dials = said(&run(&pins, &["plan", "pin.yaml", "--format", "json", "--shop", shop]));
    assert!(dials.contains("\"divisions\""), "the dials of the shop that was named");
    let rule = std::fs::read_to_string(pins.join("out.d")).expect("a rule");
    assert!(rule.contains(shop), "make looks at the file that counted: {rule}");
}

#[test]
fn names_near_the_part_are_opened() {
    for name in ["shop.yaml", "./shop.yaml", "../lathes/shop.yaml", "../../../shop.yaml"] {
        let folder = project(name);
        let pins = folder.path().join("home/hand/project/parts/pins");
        let output = run(&pins, &["plan", "pin.yaml", "--format", "json"]);
        assert_eq!(output.status.code(), Some(0), "{name}: {}", said(&output));
        assert!(said(&output).contains("\"divisions\""), "{name}: the dials are the shop's");
    }
    // A file that may be named and is not there: the run says which.
    let folder = project("../none.yaml");
    let output = run(&folder.path().join("home/hand/project/parts/pins"), &["check", "pin.yaml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("../none.yaml: there is no such file"), "{}", said(&output));
}

#[cfg(unix)]
#[test]
fn links_that_lead_away_are_refused() {
    use std::os::unix::fs::symlink;
    for (to, refused) in [
        ("../../../../../etc/passwd", true),
        ("../../../../../etc/shadow.yaml", true),
        ("../../../../../etc/shop.yaml", true),
        ("/dev/stdin", true),
        ("/proc/self/environ", true),
        ("../keys.yaml", true),
        ("../lathes/shop.yaml", false),
        ("../../../shop.yaml", false),
    ] {
        let folder = project("link.yaml");
        let pins = folder.path().join("home/hand/project/parts/pins");
        symlink(to, pins.join("link.yaml")).expect("a link");
        for (code, text) in everything(&pins, &[]) {
            assert!(code.is_some_and(|c| c < 2), "{to}: {}", short(&text));
            assert_eq!(code == Some(1), refused, "{to}: {}", short(&text));
            assert!(!text.contains(SECRET) && !text.contains("PATH="), "{to}: {}", short(&text));
        }
    }
}

/// A logo is named by the shop file, which may come from anybody too.
#[test]
fn a_logo_stays_near_its_shop_file() {
    let picture = format!("<svg viewBox='0 0 4 1'><text>{SECRET}</text></svg>");
    for (name, shown) in [("logo.svg", true), ("../lathes/logo.svg", true), ("../../../../etc/logo.svg", false)] {
        let folder = project("shop.yaml");
        let pins = folder.path().join("home/hand/project/parts/pins");
        for file in [pins.join("logo.svg"), pins.join("../lathes/logo.svg"), folder.path().join("etc/logo.svg")] {
            std::fs::write(file, &picture).expect("a picture");
        }
        let shop = std::fs::read_to_string(pins.join("shop.yaml")).expect("a shop");
        std::fs::write(pins.join("shop.yaml"), format!("{shop}logo: {name}\n")).expect("a shop");
        let output = run(&pins, &["sheet", "pin.yaml", "-o", "out.html"]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        let told = said(&run(&pins, &["check", "pin.yaml"]));
        assert_eq!(told.contains("lies away from"), !shown, "{name}: {told}");
        let sheet = std::fs::read_to_string(pins.join("out.html")).expect("a sheet");
        assert_eq!(sheet.contains("data:image/svg+xml"), shown, "{name}");
    }
}

/// A line end in a name would begin a rule of its own in a depfile.
#[cfg(unix)]
#[test]
fn a_name_with_a_line_end_makes_no_rule() {
    let folder = tempfile::tempdir().expect("a folder");
    let name = "pin.yaml\nall: evil\n\ttouch evil";
    std::fs::write(folder.path().join(name), PIN).expect("a part");
    let output = run(folder.path(), &["sheet", name, "-o", "out.html", "--depfile", "out.d"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("cannot stand in a depfile"), "{}", said(&output));
    assert!(!std::fs::read_to_string(folder.path().join("out.d")).unwrap_or_default().contains("evil"));
    assert_eq!(
        run(folder.path(), &["sheet", name, "-o", "out.html"]).status.code(),
        Some(0),
        "without a depfile it may be so named"
    );
}

/// Why a file cannot be written is told by its folder, not by the temporary file beside it.
#[test]
fn what_cannot_be_written_is_told_by_its_own_name() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("pin.yaml"), PIN).expect("a part");
    let output = run(folder.path(), &["sheet", "pin.yaml", "-o", "nowhere/out.html"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("cannot write nowhere/out.html: there is no folder nowhere"), "{}", said(&output));
    assert!(!said(&output).contains(".turnwright-"), "{}", said(&output));
}
