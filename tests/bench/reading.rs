//! How long reading takes: a sample, then parts of more and more sections, with what a check of them takes.
//!
//! `cargo bench --bench reading`. The limits stand beside the numbers; nothing is asserted, since machines differ.

use std::fmt::Write as _;
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
    for count in [125, 250, 500, 1000, 2000] {
        let text = shaft(count);
        let time = best(|| drop(read::part("shaft", text.as_bytes())));
        row(&format!("read {count} sections"), time, count);
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

/// The best of a few.
fn best(mut run: impl FnMut()) -> Duration {
    let once = |run: &mut dyn FnMut()| {
        let begun = Instant::now();
        run();
        begun.elapsed()
    };
    (0..9).map(|_| once(&mut run)).min().unwrap_or_default()
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
