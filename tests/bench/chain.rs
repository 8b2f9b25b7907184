//! Times of the chain and the chart: 1 000 faces with 2 000 dimensions, all verdicts; tolerances of 40 cuts.
//! Printed beside the limits of the project, not asserted: `cargo bench --bench chain`.

use std::fmt::Write as _;

use cpu_time::ProcessTime;
use turnwright::chain::{self, chart};
use turnwright::read;

fn main() {
    verdicts(1_000, 1_000);
    tolerances(40);
}

/// A bar of `faces` sections from the datum end, and as many distances asked between them.
fn verdicts(faces: usize, asked: usize) {
    let mut text = String::from(
        "part: long bar\nunits: mm\ndatum: left\noverall: 10000 ±1\ntolerances: {lengths: ±0.05, diameters: ±0.05}\nfeatures:\n",
    );
    for i in 1..=faces {
        let _ = writeln!(text, "  - turn: {}\n    to: {}", 40 + i % 2, i * 10_000 / faces);
    }
    text.push_str("dims:\n");
    for i in 0..asked {
        let from = 1 + i * 7 % (faces - 1);
        let to = 1 + (from + 3 + i % 11) % (faces - 1);
        let (from, to) = (from.min(to), from.max(to).max(from.min(to) + 1));
        let at = |n: usize| n * 10_000 / faces;
        let _ = writeln!(text, "  - {{from: {}, to: {}, is: {} ±0.2}}", at(from), at(to), at(to) - at(from));
    }
    let read = read::part("bench.yaml", text.as_bytes());
    let part = read.part.expect("a part");
    let start = ProcessTime::now();
    let located = chain::locate(&part);
    let kept = located.distances.iter().filter(|(_, d)| d.is_guaranteed()).count();
    let took = start.elapsed();
    println!("{faces} faces, {} dimensions: {kept} distances kept, {took:?} (limit 200 ms)", located.graph.links.len());
}

/// A shaft of `cuts` cuts from both ends, with a distance asked between each two neighbours and each face and the datum.
fn tolerances(cuts: usize) {
    let mut text = String::from("part: shaft\nunits: mm\nfaces: {F0: datum");
    for i in 1..=cuts {
        let _ = write!(text, ", F{i}: far");
    }
    text.push_str("}\ncuts:\n");
    for i in 1..=cuts {
        let from = if i % 5 == 0 || i < 5 { 0 } else { i / 5 * 5 };
        let _ = writeln!(text, "  - {{op: {i}, cut: F{i}, from: F{from}, can hold: 0.0{}}}", 2 + i % 7);
    }
    text.push_str("dims:\n");
    for i in 1..=cuts {
        let _ = writeln!(text, "  - {{from: F0, to: F{i}, is: {} ±0.{}}}", i * 10, 15 + i % 9);
        if i > 1 {
            let _ = writeln!(text, "  - {{from: F{}, to: F{i}, is: 10 ±0.{}}}", i - 1, 11 + i % 8);
        }
    }
    let chart = read::chart("bench.yaml", text.as_bytes()).chart.expect("a chart");
    let start = ProcessTime::now();
    let worked = chart::work(&chart);
    let took = start.elapsed();
    println!(
        "{cuts} cuts, {} distances: factor {:.4}, {took:?} (limit 50 ms)",
        worked.results.len(),
        worked.factor.unwrap_or_default()
    );
}
