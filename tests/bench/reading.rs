//! How long reading takes: a sample, then parts of more and more sections, with what a check of them takes.
//!
//! `cargo bench --bench reading`. The limits stand beside the numbers; nothing is asserted, since machines differ. What counts is
//! time on the processor, where the system tells it (Linux): on a busy machine the clock on the wall says little of long runs.

use std::fmt::Write as _;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::read;

fn main() {
    println!("{:44} {:>12} {:>14}  limit", "", "time", "a section");
    let sample = include_str!("../../samples/pulley-stub.yaml");
    let time = best(|| drop(read::part("sample", sample.as_bytes())));
    println!("{:44} {:>12} {:>14}  under 1 ms", "read a sample", shown(time), "");
    let shop = include_str!("../../samples/shop.yaml");
    println!("{:44} {:>12}", "read a shop file", shown(best(|| drop(read::shop("shop", shop.as_bytes())))));
    let mut before: Option<Duration> = None;
    for count in [125, 250, 500, 1000, 2000] {
        let text = shaft(count);
        let time = best(|| drop(read::part("shaft", text.as_bytes())));
        row(&format!("read {count} sections"), time, count);
        if let Some(before) = before {
            println!("{:44} {:>12.2}", "    times that of half as many", time.as_secs_f64() / before.as_secs_f64());
        }
        before = Some(time);
        let read = read::part("shaft", text.as_bytes());
        let Some(part) = read.part else { continue };
        let time = best(|| drop(chain::locate(&part)));
        row(&format!("locate {count} sections"), time, count);
        let chain = chain::locate(&part);
        let profile = Profile::of(&part, &chain);
        let facts = Facts {
            part: &part,
            slips: &read.slips,
            chain: &chain,
            profile: &profile,
            shop: None,
            derived: None,
            plan: None,
        };
        let time = best(|| drop(check::check(&facts)));
        row(&format!("check {count} sections"), time, count);
        if count == 1000 {
            slowest(&facts);
        }
    }
}

/// The checks that take longest.
fn slowest(facts: &Facts<'_>) {
    let mut times: Vec<(Duration, &str)> = check::ALL
        .iter()
        .map(|c| {
            let begun = Instant::now();
            (c.look)(facts, &mut Vec::new());
            (begun.elapsed(), c.id)
        })
        .collect();
    times.sort();
    for (time, id) in times.iter().rev().take(6) {
        println!("    {id:40} {:>12}", shown(*time));
    }
}

fn row(what: &str, time: Duration, count: u32) {
    println!("{what:44} {:>12} {:>14}  linear", shown(time), shown(time / count));
}

fn shown(time: Duration) -> String {
    format!("{time:.1?}")
}

/// The best of a few measures, each of runs enough for a fifth of a second.
fn best(mut run: impl FnMut()) -> Duration {
    let mut measure = || {
        let (begun, mut runs) = (on_processor(), 0);
        loop {
            run();
            runs += 1;
            let taken = on_processor().saturating_sub(begun);
            if taken > Duration::from_millis(200) {
                return taken / runs;
            }
        }
    };
    (0..4).map(|_| measure()).min().unwrap_or_default()
}

/// What this thread has had of the processor; elsewhere than on Linux the clock on the wall.
fn on_processor() -> Duration {
    static BEGUN: LazyLock<Instant> = LazyLock::new(Instant::now);
    // The first figure is nanoseconds, and lags by a tick of the system.
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|t| t.split(' ').next().and_then(|n| n.parse().ok()));
    nanoseconds.map_or_else(|| BEGUN.elapsed(), Duration::from_nanos)
}

/// A shaft of many steps, each with a name, half of them with a fillet.
fn shaft(count: u32) -> String {
    let mut text = format!(
        "part: shaft\nunits: mm\nmaterial: C45 cold drawn\nstock: 90 x {}\ndatum: left end\noverall: {} ±0.5\n\
         tolerances: ISO 2768-m\nfeatures:\n",
        count + 5,
        count
    );
    for i in 1..=count {
        let _ = write!(text, "  - turn: {}\n    to: {i}\n    name: step number {i}\n", 40 + (i * 7) % 40);
        if i % 2 == 0 {
            let _ = write!(text, "  - fillet: 0.4 max\n    at: {i}\n");
        }
    }
    text
}
