//! How long the order search takes, how many states it keeps and how much memory the process has used at most.
//!
//! `cargo bench --bench order`. The limits stand beside the numbers; nothing is asserted, since machines differ.

#[path = "../order/shapes.rs"]
mod shapes;

use std::time::Instant;

use shapes::{gated, many_holdings, two_ended_shaft, unlike_costs};
use turnwright::plan::order::{Answer, Limits, Problem, Refusal, solve};

fn main() {
    let rows = [
        ("two-ended shaft", two_ended_shaft(2, true), ""),
        ("two-ended shaft", two_ended_shaft(3, true), "0.2 s"),
        ("two-ended shaft", two_ended_shaft(4, true), "4 s, 512 MiB"),
        ("two-ended shaft", two_ended_shaft(7, true), "60 s"),
        ("two-ended shaft, no roughing first", two_ended_shaft(4, false), "4 s, 512 MiB"),
        ("many holdings", many_holdings(2), ""),
        ("many holdings", many_holdings(3), "0.2 s"),
        ("many holdings", many_holdings(4), "4 s, 512 MiB"),
        ("many holdings", many_holdings(7), "60 s"),
        ("many holdings, gates between", gated(3), ""),
        ("costs differ between holdings", unlike_costs(2), ""),
        ("costs differ between holdings", unlike_costs(3), "0.2 s"),
        ("costs differ between holdings", unlike_costs(4), "4 s, 512 MiB"),
        ("costs differ between holdings", unlike_costs(6), "60 s"),
    ];
    println!("{:36} {:>4} {:>10} {:>9} {:>8} {:>8}  limit", "", "ops", "time", "states", "widest", "memory");
    for (name, problem, limit) in rows {
        let begun = Instant::now();
        let answer = solve(&problem, Limits { seconds: 60, ..Limits::default() });
        let time = begun.elapsed();
        println!("{name:36} {} {limit}", row(&problem, &answer, &format!("{time:.1?}")));
    }
}

fn row(problem: &Problem, answer: &Result<Answer, Refusal>, time: &str) -> String {
    let ops = problem.ops.len();
    match answer {
        Ok(a) => {
            let (states, widest, memory) = (a.states, a.widest_layer, peak_memory());
            let count = a.optimal_orders.map_or("not counted".into(), |n| format!("{n} best orders"));
            let proof = if a.proven_optimal { "proved" } else { "NOT PROVED" };
            format!("{ops:4} {time:>10} {states:9} {widest:8} {memory:>8}  {} {proof}, {count};", a.cost)
        }
        Err(refusal) => format!("{ops:4} {time:>10} {refusal:?};"),
    }
}

/// Most memory the process has held so far, where the system tells.
fn peak_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.map_or("-".into(), |text| text.trim().to_owned())
}
