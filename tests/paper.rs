//! The sheet as paper: PDF through the real `typst`, HTML through the real Chromium, read again by poppler's tools.
//!
//! Where a program is missing the test says loudly what it did not run; under `tests/run` (`TURNWRIGHT_ALL`) it fails instead.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

const SAMPLES: [&str; 7] =
    ["tool-post-stud", "idler-shaft", "pulley-stub", "pulley-stub-no-shop", "winch-axle", "vise-screw", "press-screw"];

fn turnwright(args: &[&str]) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(args)
        .output()
        .expect("the program starts")
}

/// Whether a program can be run; if not, says so, and fails where everything must run.
fn have(program: &str, what: &str) -> bool {
    let there = Command::new(program).arg("--version").output().is_ok_and(|o| o.status.success())
        || Command::new(program).arg("-v").output().is_ok_and(|o| o.status.success());
    if !there {
        eprintln!("\nNOT RUN: {what}: there is no {program} here (tests/run installs it)\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "{program} is missing: {what}");
    }
    there
}

fn have_typst() -> bool {
    let typst = turnwright::sheet::pdf::program();
    if let Err(why) = &typst {
        eprintln!("\nNOT RUN: PDF: {why}\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "typst is missing");
    }
    typst.is_ok()
}

fn chromium() -> String {
    std::env::var("TURNWRIGHT_CHROMIUM").unwrap_or_else(|_| "chromium".to_owned())
}

fn pages(pdf: &Path) -> usize {
    let info = Command::new("pdfinfo").arg(pdf).output().expect("pdfinfo");
    let info = String::from_utf8_lossy(&info.stdout).into_owned();
    let line = info.lines().find(|l| l.starts_with("Pages:")).expect("a page count");
    line.trim_start_matches("Pages:").trim().parse().expect("a number")
}

fn text(pdf: &Path) -> String {
    let out = Command::new("pdftotext").arg("-layout").arg(pdf).arg("-").output().expect("pdftotext");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

fn aims(sample: &str) -> Vec<String> {
    let output = turnwright(&["plan", &format!("samples/{sample}.yaml"), "--format", "json"]);
    let plan: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let operations =
        plan["setups"].as_array().expect("setups").iter().flat_map(|s| s["operations"].as_array().expect("ops"));
    operations
        .filter(|o| o["verb"] != "polish")
        .filter_map(|o| o["to_diameter"].as_f64())
        .map(|aim| format!("{aim:.4}").trim_start_matches('0').trim_end_matches('0').to_owned())
        .collect()
}

#[test]
fn a_pdf_holds_every_size_on_both_papers() {
    if !have_typst() || !have("pdftotext", "reading the PDF again") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for sample in SAMPLES {
        for paper in ["letter", "a4"] {
            let pdf = folder.path().join(format!("{sample}-{paper}.pdf"));
            let path = pdf.to_str().expect("a path");
            let output = turnwright(&["sheet", &format!("samples/{sample}.yaml"), "-o", path, "--paper", paper]);
            assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
            let text = text(&pdf);
            for aim in aims(sample) {
                assert!(text.contains(&aim), "{sample} on {paper}: {aim}");
            }
            assert!(
                text.contains("DATUM END") && text.contains(&format!("{} / {}", pages(&pdf), pages(&pdf))),
                "{sample}"
            );
            assert!(std::fs::metadata(&pdf).expect("a file").len() < 400_000, "{sample} is too large");
        }
    }
}

#[test]
fn html_prints_to_the_pages_of_the_pdf() {
    if !have_typst() || !have(&chromium(), "printing the HTML") || !have("pdfinfo", "counting pages") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for sample in SAMPLES {
        let at = |ending: &str| folder.path().join(format!("{sample}{ending}"));
        let part = format!("samples/{sample}.yaml");
        for ending in [".html", ".pdf"] {
            let output = turnwright(&["sheet", &part, "-o", at(ending).to_str().expect("a path")]);
            assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        }
        let printed = at("-printed.pdf");
        let status = Command::new(chromium())
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"])
            .args(["--disable-component-update", "--disable-sync", "--no-pdf-header-footer"])
            .arg(format!("--user-data-dir={}", folder.path().join("profile").display()))
            .arg(format!("--print-to-pdf={}", printed.display()))
            .arg(format!("file://{}", at(".html").display()))
            .output()
            .expect("chromium");
        assert!(printed.exists(), "{}", String::from_utf8_lossy(&status.stderr));
        assert_eq!(pages(&printed), pages(&at(".pdf")), "{sample}: the browser prints other pages than the PDF has");
        let text = text(&printed);
        for aim in aims(sample) {
            assert!(text.contains(&aim), "{sample}: {aim}");
        }
    }
}

/// Nothing is fetched: the page names no address outside itself, and its policy forbids every request.
#[test]
fn html_asks_nothing_of_the_network() {
    for sample in SAMPLES {
        let html = String::from_utf8(turnwright(&["sheet", &format!("samples/{sample}.yaml"), "-o", "-"]).stdout)
            .expect("UTF-8");
        assert!(html.contains("Content-Security-Policy") && html.contains("default-src 'none'"), "{sample}");
        for outside in ["src=\"http", "href=\"http", "url(http", "@import"] {
            assert!(!html.contains(outside), "{sample}: {outside}");
        }
    }
}

#[test]
fn without_typst_the_error_says_how_to_get_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let pdf = folder.path().join("stub.pdf");
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder.path())
        .env("PATH", folder.path())
        .env("TURNWRIGHT_TYPST", folder.path().join("no-such-typst"))
        .arg("sheet")
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/pulley-stub-no-shop.yaml"))
        .arg("-o")
        .arg(&pdf)
        .output()
        .expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("typst") && said.contains("cargo install") && said.contains("HTML"), "{said}");
    assert!(!pdf.exists());
}
