//! How work and memory grow: sections of a part through check, parts of a folder through check, steps of a shaft through plan; and the gate
//! on their ratios.
//!
//! `cargo bench --bench growth`; with `-- --gate` it ends with an error when a ratio is out of bounds. Judged are ratios of two runs on one
//! machine, never seconds: where `valgrind` is, of instructions, which come out alike to a few parts in a thousand whatever else the machine
//! does; where it is not, of processor time, the least of several, with twice the room. A ratio that should be n and comes out at n log n or
//! with a fixed share passes; one that has become n² does not.

#[path = "../hostile/corpus.rs"]
#[expect(dead_code, reason = "only the shape of an input is wanted here")]
mod corpus;
#[path = "../hostile/probe.rs"]
#[expect(dead_code, reason = "only running and measuring is wanted here")]
mod probe;

use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Duration;

/// What one command cost.
struct Cost {
    /// Processor time, the least of a few runs.
    cpu: Duration,
    /// Most memory held, bytes.
    peak: u64,
    /// Instructions, where they can be counted.
    instructions: Option<u64>,
}

/// A bound on how many times more the second costs than the first.
struct Bound {
    what: &'static str,
    ratio: f64,
    most: f64,
}

fn main() -> ExitCode {
    let gate = std::env::args().any(|a| a == "--gate");
    let counting = Command::new("valgrind").arg("--version").output().is_ok_and(|o| o.status.success());
    if !counting {
        println!("valgrind is not here: processor time is judged, with twice the room");
    }
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    println!("{:32} {:>10} {:>8} {:>18} {:>18}", "", "cpu", "memory", "million instr.", "beside the first");
    let mut bounds = Vec::new();

    let counts: &[usize] = &[100, 250, 500, 1000, 2000];
    let sections: Vec<Cost> = counts.iter().map(|n| of_sections(folder, *n, counting)).collect();
    table("check, sections", counts, &sections);
    bounds.push(Bound {
        what: "check: 1000 sections beside 100",
        ratio: ratio(&sections[3], &sections[0]),
        most: 14.0,
    });
    bounds.push(Bound {
        what: "check: 2000 sections beside 1000",
        ratio: ratio(&sections[4], &sections[3]),
        most: 2.6,
    });

    let counts: &[usize] = if gate { &[100, 1000] } else { &[100, 1000, 10_000] };
    let parts: Vec<Cost> = counts.iter().map(|n| of_parts(folder, *n, counting)).collect();
    table("check, parts of one shop", counts, &parts);
    bounds.push(Bound { what: "check: 1000 parts beside 100", ratio: ratio(&parts[1], &parts[0]), most: 12.0 });
    let (first, last) = (&parts[0], parts.last().expect("runs"));
    bounds.push(Bound {
        what: "check: memory of the most parts beside the fewest",
        ratio: last.peak as f64 / first.peak.max(1) as f64,
        most: 1.5,
    });

    let counts: &[usize] = &[2, 4, 8];
    let steps: Vec<Cost> = counts.iter().map(|n| of_steps(folder, *n, counting)).collect();
    table("plan, steps at each end", counts, &steps);
    bounds.push(Bound { what: "plan: 8 steps at each end beside 2", ratio: ratio(&steps[2], &steps[0]), most: 30.0 });

    let bad = bounds.iter().filter(|b| !judged(b, counting)).count();
    println!("{bad} of {} ratios out of bounds", bounds.len());
    if gate && bad > 0 { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

/// How many times more the first costs: instructions where they were counted, else processor time.
fn ratio(of: &Cost, to: &Cost) -> f64 {
    match (of.instructions, to.instructions) {
        (Some(of), Some(to)) => of as f64 / to.max(1) as f64,
        // The system counts hundredths of a second: what is shorter counts as one.
        _ => of.cpu.as_secs_f64() / to.cpu.as_secs_f64().max(0.01),
    }
}

fn judged(bound: &Bound, counting: bool) -> bool {
    let most = if counting { bound.most } else { 2.0 * bound.most };
    let fine = bound.ratio <= most;
    println!("  {}: {:.2} times, at most {most}{}", bound.what, bound.ratio, if fine { "" } else { "  OUT OF BOUNDS" });
    fine
}

fn table(what: &str, counts: &[usize], runs: &[Cost]) {
    for (n, run) in counts.iter().zip(runs) {
        let instructions = run.instructions.map_or("-".to_owned(), |i| format!("{:.1}", i as f64 / 1e6));
        println!(
            "{:32} {:>8.2} s {:>5} MB {instructions:>18} {:>18.2}",
            format!("{what}: {n}"),
            run.cpu.as_secs_f64(),
            run.peak >> 20,
            ratio(run, &runs[0])
        );
    }
}

/// The least of a few runs, and its instructions once.
fn cost(folder: &Path, args: &[&str], rounds: usize, counting: bool) -> Cost {
    let patience = Duration::from_secs(120);
    let runs: Vec<probe::Ended> = (0..rounds).map(|_| probe::run(folder, args, patience)).collect();
    for run in &runs {
        assert!(matches!(run.code, Some(0 | 1)), "{args:?} ended with {:?}: {}", run.code, run.said);
    }
    Cost {
        cpu: runs.iter().map(|r| r.cpu).min().expect("a run"),
        peak: runs.iter().map(|r| r.peak).max().expect("a run"),
        instructions: if counting { instructions(folder, args) } else { None },
    }
}

/// Instructions of one run on one thread, so that threads that wait for work do not count.
fn instructions(folder: &Path, args: &[&str]) -> Option<u64> {
    let output = Command::new("valgrind")
        .args(["--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"])
        .arg(env!("CARGO_BIN_EXE_turnwright"))
        .args(args)
        .current_dir(folder)
        .env("RAYON_NUM_THREADS", "1")
        .output()
        .ok()?;
    let said = String::from_utf8_lossy(&output.stderr);
    let line = said.lines().find(|l| l.contains('I') && l.contains("refs:"))?;
    line.rsplit(':').next()?.trim().replace(',', "").parse().ok()
}

fn of_sections(folder: &Path, count: usize, counting: bool) -> Cost {
    let mut text = format!(
        "part: shaft\nunits: mm\nmaterial: C45 cold drawn\nstock: 90 x {}\ndatum: left end\noverall: {count} ±0.5\n\
         tolerances: ISO 2768-m\nfeatures:\n",
        count + 5
    );
    for i in 1..=count {
        let _ = write!(text, "  - turn: {}\n    to: {i}\n    name: step number {i}\n", 40 + (i * 7) % 40);
    }
    std::fs::write(folder.join("shaft.yaml"), text).expect("a part");
    cost(folder, &["check", "shaft.yaml"], 5, counting)
}

fn of_parts(folder: &Path, count: usize, counting: bool) -> Cost {
    let folder = folder.join(format!("parts{count}"));
    std::fs::create_dir(&folder).expect("a folder");
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    std::fs::copy(samples.join("shop.yaml"), folder.join("shop.yaml")).expect("a shop file");
    let part = std::fs::read_to_string(samples.join("idler-shaft.yaml")).expect("a sample");
    for i in 0..count {
        let text = part.replacen("part: ", &format!("part: {i} "), 1);
        std::fs::write(folder.join(format!("{i:05}.yaml")), text).expect("a part");
    }
    let few = count <= 1000;
    let cost = cost(&folder, &["check", "."], if few { 3 } else { 2 }, counting && few);
    let _ = std::fs::remove_dir_all(&folder);
    cost
}

/// A shaft turned from both ends, `steps` smaller and smaller diameters toward each.
fn of_steps(folder: &Path, steps: usize, counting: bool) -> Cost {
    let whole = 20 * (2 * steps + 1);
    let mut text = format!(
        "part: shaft\nunits: mm\nmaterial: C45 cold drawn\nstock: 80 x {}\ndatum: left end\noverall: {whole} ±0.5\n\
         tolerances: ISO 2768-m\nfeatures:\n",
        whole + 5
    );
    for i in 0..=2 * steps {
        let diameter = 72 - 4 * i.abs_diff(steps);
        let size = if i % 2 == 0 { format!("{diameter} h7") } else { diameter.to_string() };
        let _ = write!(text, "  - turn: {size}\n    to: {}\n", 20 * (i + 1));
    }
    text.push_str("  - center hole: A 4\n    end: both\n");
    std::fs::write(folder.join("steps.yaml"), text).expect("a part");
    cost(folder, &["plan", "--seconds", "60", "steps.yaml"], 2, counting)
}
