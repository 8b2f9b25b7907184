//! The sheet of a sample beside what a person would otherwise script, in one run on one machine.
//!
//! `cargo bench --bench beside`. Wanted: `TURNWRIGHT_TYPST`; a Python with `jinja2` and `weasyprint`: `TURNWRIGHT_PYTHON`, else that of
//! `target/tools/scripted` (DEVELOPERS.md says how it gets there), else `python3`;
//! an office suite's `soffice` on the path. What is not here is told as not run. The others get the plan as JSON, made before and not counted: they only
//! lay numbers out, while ours also reads, checks, plans and draws. Runs are interleaved, and the middle one of each is shown.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const ROUNDS: usize = 7;

struct Way {
    name: &'static str,
    command: Vec<String>,
    makes: &'static str,
    times: Vec<Duration>,
}

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let own = env!("CARGO_BIN_EXE_turnwright");
    let sample = root.join("samples/pulley-stub.yaml").display().to_string();
    let script = root.join("tests/bench/scripted/sheet.py").display().to_string();
    let installed = root.join("target/tools/scripted/bin/python");
    let installed = if installed.is_file() { installed.display().to_string() } else { "python3".to_owned() };
    let python = std::env::var("TURNWRIGHT_PYTHON").unwrap_or(installed);
    let at = |name: &str| folder.path().join(name).display().to_string();
    let plan = Command::new(own).args(["plan", &sample, "--format", "json"]).output().expect("a plan");
    std::fs::write(at("plan.json"), plan.stdout).expect("written");
    let _ = Command::new(own).args(["sheet", &sample, "-o", &at("sheet.typ")]).output();
    let fonts = folder.path().join("fonts");
    std::fs::create_dir(&fonts).expect("a folder");
    std::fs::write(fonts.join("r.ttf"), notosans::REGULAR_TTF).expect("a font");
    std::fs::write(fonts.join("b.ttf"), notosans::BOLD_TTF).expect("a font");
    let typst = turnwright::sheet::pdf::program().map_or_else(|_| "typst".to_owned(), |p| p.display().to_string());
    let way = |name, command: &[&str], makes| {
        let command = command.iter().map(|s| (*s).to_owned()).collect();
        Way { name, command, makes, times: Vec::new() }
    };
    let (html, pdf) = (at("own.html"), at("own.pdf"));
    let (json, plain, theirs) = (at("plan.json"), at("script.html"), at("theirs.pdf"));
    let (typ, alone, fonts, folder_name) = (at("sheet.typ"), at("alone.pdf"), at("fonts"), at(""));
    let ua =
        ["--pdf-standard", "ua-1", "--creation-timestamp", "0", "--ignore-system-fonts", "--ignore-embedded-fonts"];
    let typst_alone = [&[&typst, "compile"][..], &ua, &["--font-path", &fonts, &typ, &alone]].concat();
    let mut ways = vec![
        way("an empty process (true)", &["true"], ""),
        way("start-up (--version)", &[own, "--version"], ""),
        way("check", &[own, "check", &sample], ""),
        way("plan", &[own, "plan", &sample], ""),
        way("sheet to HTML", &[own, "sheet", &sample, "-o", &html], "own.html"),
        way("sheet to PDF", &[own, "sheet", &sample, "-o", &pdf], "own.pdf"),
        way("  typst alone on the same source", &typst_alone, "alone.pdf"),
        way("Python, Jinja2: HTML", &[&python, &script, &json, &plain], "script.html"),
        way("Python, Jinja2, WeasyPrint: PDF", &[&python, &script, &json, &theirs], "theirs.pdf"),
        way(
            "office suite, headless: that HTML to PDF",
            &["soffice", "--headless", "--convert-to", "pdf:writer_web_pdf_Export", "--outdir", &folder_name, &plain],
            "script.pdf",
        ),
    ];
    // The first round warms caches and lets the office suite lay out its profile; it does not count.
    for round in 0..=ROUNDS {
        for way in &mut ways {
            if !way.makes.is_empty() {
                let _ = std::fs::remove_file(folder.path().join(way.makes));
            }
            let begun = Instant::now();
            let mut command = Command::new(&way.command[0]);
            command.args(&way.command[1..]).stdout(Stdio::null()).stderr(Stdio::null()).env("HOME", folder.path());
            let done = command.status().is_ok_and(|s| s.code().is_some_and(|c| c < 2));
            let took = begun.elapsed();
            let there = way.makes.is_empty() || folder.path().join(way.makes).is_file();
            if done && there && round > 0 {
                way.times.push(took);
            }
        }
    }
    let middle = |way: &Way| {
        let mut times = way.times.clone();
        times.sort();
        times.get(times.len() / 2).copied()
    };
    let own = ways.iter().find(|w| w.name == "sheet to PDF").and_then(middle);
    println!("load {}", std::fs::read_to_string("/proc/loadavg").unwrap_or_else(|_| "not told".to_owned()).trim());
    println!("{:44} {:>10} {:>10} {:>10}   beside our PDF", "pulley-stub", "middle", "least", "most");
    for way in &ways {
        let Some(time) = middle(way) else {
            println!("{:44} NOT RUN: {} is not here, or failed", way.name, way.command[0]);
            continue;
        };
        let (least, most) = (way.times.iter().min(), way.times.iter().max());
        let ratio = own.map(|own| format!("{:.2}", time.as_secs_f64() / own.as_secs_f64())).unwrap_or_default();
        let ms = |t: Duration| format!("{:.1} ms", t.as_secs_f64() * 1e3);
        let (least, most) = (least.copied().map(ms), most.copied().map(ms));
        println!(
            "{:44} {:>10} {:>10} {:>10}   {ratio}",
            way.name,
            ms(time),
            least.unwrap_or_default(),
            most.unwrap_or_default()
        );
    }
}
