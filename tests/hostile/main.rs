//! Hostile descriptions through the commands, each in a process of its own: the exit code that is due, no panic, no endless output, no more
//! memory than promised. `cargo test --test hostile` takes small ones; `tests/run` takes them in full in an optimised profile:
//! `cargo test --profile hard --test hostile -- --full`. How long each takes is for `cargo bench --bench hostile`.

mod corpus;
#[expect(dead_code, reason = "how long it took is for the benchmark")]
mod probe;

use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use corpus::{Hostile, Scale};

/// Most memory one command may hold, bytes.
const MEMORY: u64 = 500 << 20;
/// Most bytes a report for people may have.
const REPORT: usize = 2 << 20;
/// A hang is not a matter of speed: nothing takes this long on any machine.
const HANG: Duration = Duration::from_secs(120);

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().collect();
    if args.iter().any(|a| a == "--list") {
        println!("hostile: test");
        return ExitCode::SUCCESS;
    }
    let full = args.iter().any(|a| a == "--full");
    let inputs = corpus::all(if full { Scale::FULL } else { Scale::SMALL });
    let folder = tempfile::tempdir().expect("a folder");
    let (next, failed) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    std::thread::scope(|scope| {
        for _ in 0..cores {
            scope.spawn(|| {
                while let Some(input) = inputs.get(next.fetch_add(1, Ordering::Relaxed)) {
                    for wrong in wrong(folder.path(), input, full) {
                        println!("FAILED: {}: {wrong}", input.name);
                        failed.fetch_add(1, Ordering::Relaxed);
                    }
                }
            });
        }
    });
    let size = if full { "full" } else { "small" };
    println!(
        "{} hostile descriptions ({size}) through check, plan and sheet: {} wrong",
        inputs.len(),
        failed.load(Ordering::Relaxed)
    );
    if failed.into_inner() == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// What is wrong with the answers to one input.
fn wrong(folder: &std::path::Path, input: &Hostile, full: bool) -> Vec<String> {
    let file = probe::put(folder, input);
    let name = file.file_name().expect("a name").to_str().expect("a plain name");
    let folder = file.parent().expect("a folder");
    let mut wrong = Vec::new();
    for args in commands(name) {
        let ended = probe::run(folder, &args, HANG);
        let what = args[..args.len() - 1].join(" ");
        // A plan may fail for reasons of its own; what may not happen is any other end.
        let exact = args[0] == "check" && input.code != corpus::EITHER;
        let due = if exact { vec![input.code] } else { vec![0, 1, input.code] };
        if !ended.code.is_some_and(|c| due.contains(&c)) {
            let said: String = ended.said.chars().rev().take(400).collect::<Vec<_>>().into_iter().rev().collect();
            wrong.push(format!("{what} ended with {:?}, not {due:?}: …{said}", ended.code));
        }
        if ended.said.contains("panicked at") || ended.said.contains("RUST_BACKTRACE") {
            wrong.push(format!("{what} panicked"));
        }
        // In full another limit may speak first.
        if !full && args[0] == "check" && !ended.said.contains(input.says) {
            wrong.push(format!(
                "{what} does not say {:?}: {}",
                input.says,
                ended.said.chars().take(600).collect::<String>()
            ));
        }
        if ended.peak > MEMORY {
            wrong.push(format!("{what} held {} MB", ended.peak >> 20));
        }
        if ended.out > REPORT && !args.contains(&"json") {
            wrong.push(format!("{what} printed {} kB", ended.out >> 10));
        }
    }
    let _ = std::fs::remove_dir_all(folder);
    wrong
}

/// The commands an input goes through, its name last.
fn commands(name: &str) -> Vec<Vec<&str>> {
    vec![
        vec!["check", name],
        vec!["check", "--format", "json", name],
        vec!["plan", "--seconds", "1", name],
        vec!["sheet", "--seconds", "1", "-o", "sheet.html", name],
    ]
}
