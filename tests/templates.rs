//! Templates from a folder of the user's own, and the shop's logo.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn run(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright")).current_dir(folder).args(args).output().expect("the program starts")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

const PART: &str = "part: Pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 x 3 1/8\ndatum: head\noverall: 3.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.002}\nlathe: shop.yaml\nfeatures:\n- {turn: 0.750, to: 1.000}\n- {turn: 0.500, to: end}\n\
    - {fillet: 0.015 max, at: 1.000}\n- {chamfer: 0.030 x 45°, end: both}\n";

/// A folder with a part, a shop that has a company and this logo, and an empty folder of templates.
fn folder(logo: &str) -> tempfile::TempDir {
    let dir = tempfile::tempdir().expect("a folder");
    fs::write(dir.path().join("pin.yaml"), PART).expect("a file");
    let shop = format!("units: in\nshop: Shed\ncompany: Hillside <& Sons>\n{logo}");
    fs::write(dir.path().join("shop.yaml"), shop).expect("a file");
    fs::create_dir(dir.path().join("mine")).expect("a folder");
    dir
}

fn built_in(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("templates").join(name)).expect("a template")
}

#[test]
fn one_file_of_a_folder_stands_in_and_the_rest_is_built_in() {
    let dir = folder("");
    let plain = run(dir.path(), &["sheet", "pin.yaml", "-o", "-"]);
    fs::write(dir.path().join("mine/sheet.css"), built_in("sheet.css") + "\n.mine { color: #000 }\n").expect("a file");
    let args = ["sheet", "pin.yaml", "-o", "-", "--templates", "mine"];
    let styled = run(dir.path(), &args);
    assert_eq!(styled.status.code(), plain.status.code(), "{}", said(&styled));
    let (plain, styled) =
        (String::from_utf8_lossy(&plain.stdout), String::from_utf8_lossy(&styled.stdout).into_owned());
    assert_eq!(styled.replace("\n.mine { color: #000 }\n", ""), plain, "nothing else changed");
    // A script of one's own runs, and only that one: its hash is the policy's.
    fs::write(dir.path().join("mine/sheet.js"), "\"use strict\";").expect("a file");
    let other = String::from_utf8_lossy(&run(dir.path(), &args).stdout).into_owned();
    let policy = |html: &str| html.split("script-src '").nth(1).and_then(|p| p.split('\'').next()).map(str::to_owned);
    assert!(other.contains("<script>\"use strict\";</script>") && policy(&other) != policy(&plain));
    // `printf '"use strict";' | openssl dgst -sha256 -binary | openssl base64`
    assert_eq!(policy(&other).as_deref(), Some("sha256-Xs8vTYPmJg2r1uxI522N3rzPlWVj80ByIhv5YNO4wlU="));
    let rule = run(dir.path(), &["sheet", "pin.yaml", "-o", "pin.html", "--templates", "mine", "--depfile", "d"]);
    assert!(rule.status.code() < Some(2), "{}", said(&rule));
    let rule = fs::read_to_string(dir.path().join("d")).expect("a rule");
    assert!(rule.contains("shop.yaml") && rule.contains("sheet.css") && rule.contains("sheet.js"), "{rule}");
}

#[test]
fn a_template_that_does_not_fit_is_told_by_file_and_line() {
    let dir = folder("");
    let with = |name: &str, text: &str, out: &str| {
        fs::write(dir.path().join("mine").join(name), text).expect("a file");
        let output = run(dir.path(), &["sheet", "pin.yaml", "-o", out, "--templates", "mine"]);
        fs::remove_file(dir.path().join("mine").join(name)).expect("it was there");
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
        assert!(!dir.path().join(out).exists(), "half a sheet");
        said(&output)
    };
    let broken = with("sheet.html", "<!DOCTYPE html>\n<p>{{ view.title }}</p>\n<p>{% if %}</p>\n", "a.html");
    assert!(broken.contains("sheet.html, line 3"), "{broken}");
    let missing = with("sheet.html", "one\ntwo\nthree {{ view.no_such_thing }}\n", "a.html");
    assert!(missing.contains("sheet.html, line 3"), "{missing}");
    let text = with("sheet.md", "{{ view.title }}\n{{ colour }}\n", "a.md");
    assert!(text.contains("sheet.md, line 2"), "{text}");
    let include = with("sheet.html", "{% include \"../shop.yaml\" %}\n", "a.html");
    assert!(!include.contains("Hillside"), "{include}");
    if turnwright::sheet::pdf::program().is_ok() {
        let typst = with("sheet.typ", "#let view = json(bytes(\"@@DATA@@\"))\n\n#view.no_such_thing\n", "a.pdf");
        assert!(typst.contains("mine/sheet.typ:3"), "{typst}");
        let outside = with("sheet.typ", "#read(\"/etc/hostname\")\n", "a.pdf");
        assert!(outside.contains("sheet.typ:1"), "{outside}");
    } else {
        println!("NOT RUN: no typst program");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "typst is missing");
    }
}

#[test]
fn a_folder_that_is_none_or_leads_elsewhere_is_refused() {
    let dir = folder("");
    let refused = |folder: &str| {
        let output = run(dir.path(), &["sheet", "pin.yaml", "-o", "a.html", "--templates", folder]);
        assert_eq!(output.status.code(), Some(2));
        said(&output)
    };
    assert!(refused("nowhere").contains("nowhere"));
    assert!(refused("mine").contains("holds none of"), "an empty folder is a slip of the pen");
    fs::create_dir(dir.path().join("mine/sheet.md")).expect("a folder");
    assert!(refused("mine").contains("no file"));
    fs::remove_dir(dir.path().join("mine/sheet.md")).expect("it was there");
    fs::write(dir.path().join("mine/sheet.md"), [0xff, 0xfe]).expect("a file");
    assert!(refused("mine").contains("UTF-8"));
    fs::remove_file(dir.path().join("mine/sheet.md")).expect("it was there");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(dir.path().join("shop.yaml"), dir.path().join("mine/sheet.css")).expect("a link");
        assert!(refused("mine").contains("leads out of the folder"));
    }
}

#[test]
fn company_and_logo_stand_on_the_cover() {
    let svg =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 40 10\"><rect width=\"40\" height=\"10\"/></svg>\n";
    let dir = folder("logo: pictures/hill.svg\n");
    fs::create_dir(dir.path().join("pictures")).expect("a folder");
    fs::write(dir.path().join("pictures/hill.svg"), svg).expect("a file");
    let output = run(dir.path(), &["sheet", "pin.yaml", "-o", "-"]);
    let html = String::from_utf8_lossy(&output.stdout);
    assert!(html.contains("<p>Hillside &lt;&amp; Sons&gt;</p>"));
    // Twelve millimetres high, four times as wide.
    assert!(
        html.contains("alt=\"Logo of Hillside &lt;&amp; Sons&gt;\" style=\"width:48mm;height:12mm\""),
        "{}",
        said(&output)
    );
    assert!(html.contains("src=\"data:image/svg+xml;base64,PHN2ZyB4bWxucz0i"));
    if turnwright::sheet::pdf::program().is_ok() {
        let output = run(dir.path(), &["sheet", "pin.yaml", "-o", "pin.pdf"]);
        let pdf =
            lopdf::Document::load(dir.path().join("pin.pdf")).unwrap_or_else(|e| panic!("{e}: {}", said(&output)));
        let alts = pdf.objects.values().filter_map(|o| o.as_dict().ok()?.get(b"Alt").ok()?.as_str().ok());
        let alts: Vec<String> = alts.map(|a| String::from_utf8_lossy(a).replace('\0', "")).collect();
        assert!(alts.iter().any(|a| a.contains("Logo of Hillside")), "{alts:?}");
    }
    // What cannot be shown is a warning with its line, and the sheet is made.
    for (bytes, why) in [
        (None, "no such file"),
        (Some(vec![b'x'; 250_000]), "200 kB"),
        (Some(b"GIF89a".to_vec()), "neither PNG nor SVG"),
    ] {
        let file = dir.path().join("pictures/hill.svg");
        match bytes {
            Some(bytes) => fs::write(&file, bytes).expect("a file"),
            None => fs::remove_file(&file).expect("it was there"),
        }
        let checked = run(dir.path(), &["check", "pin.yaml"]);
        let told = String::from_utf8_lossy(&checked.stdout).into_owned() + &said(&checked);
        assert!(told.contains("logo-file") && told.contains(why) && told.contains("shop.yaml:4"), "{told}");
        let output = run(dir.path(), &["sheet", "pin.yaml", "-o", "-"]);
        let html = String::from_utf8_lossy(&output.stdout);
        assert!(html.contains("Hillside") && !html.contains("<img"), "{}", said(&output));
    }
}
