//! Hard use: random descriptions through every stage. No panic, no hang, no runaway memory, whatever the text.
//!
//! `cargo test --test fuzz` runs a few; `tests/run` runs the full number in an optimised profile:
//! `cargo test --profile hard --test fuzz -- --read 100000 --plan 2000 --pdf 50`. `--seed N` begins elsewhere; each case is made
//! from its own seed, which a failure prints. A failing text is cut down to what still fails and written to the folder named in
//! the message: put it into `tests/fuzz/found/`, where every run tries it first.

mod corpus;
#[path = "../reading/generate.rs"]
#[expect(dead_code, reason = "only what spoils a text is wanted here")]
mod generate;
mod make;
mod shrink;
mod stages;
mod watch;

use std::path::Path;
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering};

use corpus::Corpus;
use stages::Stage;

/// Most memory the whole run may have taken, bytes (the bound for one input; here for all of them together).
const MEMORY: u64 = 500 << 20;

struct Wanted {
    read: u64,
    plan: u64,
    pdf: u64,
    seed: u64,
}

fn wanted() -> Wanted {
    let mut wanted = Wanted { read: 400, plan: 12, pdf: 1, seed: 1 };
    let args: Vec<String> = std::env::args().collect();
    for pair in args.windows(2) {
        let Ok(n) = pair[1].parse() else { continue };
        match pair[0].as_str() {
            "--read" => wanted.read = n,
            "--plan" => wanted.plan = n,
            "--pdf" => wanted.pdf = n,
            "--seed" => wanted.seed = n,
            _ => {}
        }
    }
    wanted
}

fn main() -> ExitCode {
    if std::env::args().any(|a| a == "--list") {
        println!("fuzz: test");
        return ExitCode::SUCCESS;
    }
    std::panic::set_hook(Box::new(|_| {}));
    let corpus = Corpus::gather(Path::new(env!("CARGO_MANIFEST_DIR")));
    let wanted = wanted();
    let mut failed = found_before();
    let (read, plan) = (wanted.seed + wanted.read, wanted.seed + wanted.plan);
    failed += run(&corpus, Stage::Check, wanted.seed..read);
    failed += run(&corpus, Stage::Sheet, wanted.seed..plan);
    if turnwright::sheet::pdf::program().is_ok() {
        failed += run(&corpus, Stage::Pdf, wanted.seed..wanted.seed + wanted.pdf);
    } else {
        println!("NOT RUN: PDF, for want of typst");
        failed += u64::from(std::env::var_os("TURNWRIGHT_ALL").is_some());
    }
    let peak = watch::peak_memory();
    println!("peak memory {} MB", peak >> 20);
    if peak > MEMORY {
        println!("FAILED: more than {} MB", MEMORY >> 20);
        failed += 1;
    }
    if failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Texts that failed once.
fn found_before() -> u64 {
    let mut failed = 0;
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/found");
    let mut files: Vec<_> = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path()).collect();
    files.sort();
    for file in &files {
        let text = std::fs::read(file).expect("a text that failed once");
        let watched = watch::Watch::begin(&text, Stage::Sheet);
        if let Err(why) = stages::tried(&text, Stage::Sheet) {
            println!("FAILED again: {}: {why}", file.display());
            failed += 1;
        }
        drop(watched);
    }
    println!("{} texts that failed once, tried again", files.len());
    failed
}

fn run(corpus: &Corpus, stage: Stage, seeds: std::ops::Range<u64>) -> u64 {
    let begun = std::time::Instant::now();
    let tenth = ((seeds.end - seeds.start) / 10).max(50);
    let (next, failed, whole, planned) =
        (AtomicU64::new(seeds.start), AtomicU64::new(0), AtomicU64::new(0), AtomicU64::new(0));
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    std::thread::scope(|scope| {
        for _ in 0..cores {
            // Deep nesting must be refused by the reader, not end the stack: threads get what a main thread has.
            let worker = std::thread::Builder::new().stack_size(8 << 20).spawn_scoped(scope, || {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= seeds.end || failed.load(Ordering::Relaxed) > 4 {
                        break;
                    }
                    if seed > seeds.start && (seed - seeds.start) % tenth == 0 {
                        let seconds = begun.elapsed().as_secs_f64();
                        println!("{stage:?}: {} of {} in {seconds:.0} s", seed - seeds.start, seeds.end - seeds.start);
                    }
                    let text = make::text(corpus, seed, stage);
                    let watched = watch::Watch::begin(&text, stage);
                    match stages::tried(&text, stage) {
                        Ok(got) => {
                            whole.fetch_add(u64::from(got.whole), Ordering::Relaxed);
                            planned.fetch_add(u64::from(got.planned), Ordering::Relaxed);
                        }
                        Err(why) => {
                            failed.fetch_add(1, Ordering::Relaxed);
                            drop(watched);
                            let small = shrink::shrunk(&text, |t| stages::tried(t, stage).is_err());
                            println!("FAILED: {stage:?}, seed {seed}: {why}\n  {}", watch::keep(&small, seed));
                        }
                    }
                }
            });
            worker.expect("a thread");
        }
    });
    let (whole, planned) = (whole.into_inner(), planned.into_inner());
    println!(
        "{stage:?}: {} texts from seed {} in {:.1} s; {whole} gave a part without an error, {planned} a plan",
        seeds.end - seeds.start,
        seeds.start,
        begun.elapsed().as_secs_f64()
    );
    // A generator that makes nothing but refused texts would prove nothing.
    let few = seeds.end - seeds.start >= 1000;
    let idle = (few && whole * 100 < seeds.end - seeds.start)
        || (few && stage == Stage::Sheet && planned * 4 < seeds.end - seeds.start);
    if idle {
        println!("FAILED: too few of the texts are parts at all");
    }
    failed.into_inner() + u64::from(idle)
}
