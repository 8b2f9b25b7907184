//! How time and memory grow: sections of a part through check, parts of a folder through check, and the gate on both.
//!
//! `cargo bench --bench growth`; with `-- --gate` it ends with an error when a ratio is out of bounds. Only ratios of two runs on one
//! machine are judged, each the least of several, and generously: a machine's own speed never fails the gate.

#[path = "../hostile/corpus.rs"]
#[expect(dead_code, reason = "only the shape of an input is wanted here")]
mod corpus;
#[path = "../hostile/probe.rs"]
#[expect(dead_code, reason = "only running and measuring is wanted here")]
mod probe;

use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;
use std::time::Duration;

use probe::Ended;

fn main() -> ExitCode {
    let gate = std::env::args().any(|a| a == "--gate");
    let folder = tempfile::tempdir().expect("a folder");
    let mut bad = 0;
    println!("{:36} {:>10} {:>8} {:>16}", "", "least", "memory", "beside the first");
    let sections: Vec<Ended> = [100, 250, 500, 1000, 2000].into_iter().map(|n| of_sections(folder.path(), n)).collect();
    table("check, sections", &[100, 250, 500, 1000, 2000], &sections);
    // Ten times the sections take ten times as long where it is linear; twice that is let pass for noise.
    bad += judged("1000 sections beside 100", ratio(&sections[3], &sections[0]), 20.0);
    let numbers: &[usize] = if gate { &[100, 1000] } else { &[100, 1000, 10_000] };
    let parts: Vec<Ended> = numbers.iter().map(|n| of_parts(folder.path(), *n)).collect();
    table("check, parts of one shop", numbers, &parts);
    bad += judged("1000 parts beside 100", ratio(&parts[1], &parts[0]), 20.0);
    let last = parts.last().expect("runs");
    bad += judged("memory of the most parts beside the fewest", last.peak as f64 / parts[0].peak.max(1) as f64, 1.5);
    println!("{bad} out of bounds");
    if gate && bad > 0 { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

fn ratio(of: &Ended, to: &Ended) -> f64 {
    of.took.as_secs_f64() / to.took.as_secs_f64()
}

fn judged(what: &str, ratio: f64, most: f64) -> u32 {
    let fine = ratio <= most;
    println!("  {what}: {ratio:.1} times, at most {most}{}", if fine { "" } else { "  OUT OF BOUNDS" });
    u32::from(!fine)
}

fn table(what: &str, numbers: &[usize], runs: &[Ended]) {
    for (n, run) in numbers.iter().zip(runs) {
        let name = format!("{what}: {n}");
        println!("{name:36} {:>8.3} s {:>5} MB {:>16.1}", run.took.as_secs_f64(), run.peak >> 20, ratio(run, &runs[0]));
    }
}

/// The least of a few.
fn least(folder: &Path, args: &[&str], rounds: usize) -> Ended {
    let runs = (0..rounds).map(|_| probe::run(folder, args, Duration::from_secs(120)));
    runs.min_by_key(|r| r.took).expect("a run")
}

fn of_sections(folder: &Path, count: usize) -> Ended {
    let mut text = format!(
        "part: shaft\nunits: mm\nmaterial: C45 cold drawn\nstock: 90 x {}\ndatum: left end\noverall: {count} ±0.5\n\
         tolerances: ISO 2768-m\nfeatures:\n",
        count + 5
    );
    for i in 1..=count {
        let _ = write!(text, "  - turn: {}\n    to: {i}\n    name: step number {i}\n", 40 + (i * 7) % 40);
    }
    std::fs::write(folder.join("shaft.yaml"), text).expect("a part");
    least(folder, &["check", "shaft.yaml"], 5)
}

fn of_parts(folder: &Path, count: usize) -> Ended {
    let folder = folder.join(format!("parts{count}"));
    std::fs::create_dir(&folder).expect("a folder");
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    std::fs::copy(samples.join("shop.yaml"), folder.join("shop.yaml")).expect("a shop file");
    let part = std::fs::read_to_string(samples.join("idler-shaft.yaml")).expect("a sample");
    for i in 0..count {
        std::fs::write(folder.join(format!("{i:05}.yaml")), part.replacen("part: ", &format!("part: {i} "), 1)).expect("a part");
    }
    let ended = least(&folder, &["check", "."], if count > 1000 { 2 } else { 3 });
    let _ = std::fs::remove_dir_all(&folder);
    ended
}
