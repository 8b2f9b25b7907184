//! One change at a time: each sample is spoiled in hundreds of ways, and nothing that makes the part unmakeable or wrong may
//! pass silently.
//!
//! What "wrong" means is decided per kind of change in [`kinds`], by the geometry of the unchanged sample ([`shape`]) and never by
//! asking a check: a change that this geometry cannot call wrong is left out. A mutant counts as caught when a finding stands there
//! that did not stand there before, of error or warning severity, and of one of the checks that its kind names as those that say the
//! right thing. The shares are printed by kind (`cargo test mutations:: -- --nocapture`); the floors stand beside the kinds.
//!
//! The files are those of `samples/`; the rules are geometry and the limits of the checks' own pages: common practice, no source.

mod kinds;
mod sample;
mod shape;

use std::collections::BTreeMap;

use kinds::{KINDS, Mutant};
use rayon::prelude::*;
use sample::Sample;

/// How a kind of change fared over all samples.
#[derive(Default)]
struct Tally {
    wrong: usize,
    caught: usize,
    by: BTreeMap<String, usize>,
    silent: Vec<String>,
}

fn tally(samples: &[Sample], make: fn(&Sample) -> Vec<Mutant>, by: &[&str]) -> Tally {
    let mut tally = Tally::default();
    for sample in samples {
        let judge = |m: Mutant| (sample.new_findings(&m.text, m.shop.as_deref(), by), m);
        let judged: Vec<_> = make(sample).into_par_iter().map(judge).collect();
        for (new, mutant) in judged {
            tally.wrong += 1;
            let told = new.iter().find(|f| by.is_empty() || by.contains(&f.0.as_str()));
            if let Some((id, _)) = told {
                tally.caught += 1;
                *tally.by.entry(id.clone()).or_default() += 1;
            } else {
                let others: Vec<&str> = new.iter().map(|f| f.0.as_str()).collect();
                tally.silent.push(format!("{}: {} ({}); found only {others:?}", sample.name, mutant.said, mutant.why));
            }
        }
    }
    tally
}

#[test]
fn nothing_that_spoils_a_sample_passes_silently() {
    let samples = sample::all();
    assert!(samples.len() >= 3, "the samples are in samples/");
    let (mut below, mut count, mut caught) = (Vec::new(), 0, 0);
    println!("{:<34} {:>6} {:>7} {:>6}  by", "change", "wrong", "caught", "floor");
    for kind in KINDS {
        let tally = tally(&samples, kind.make, kind.by);
        let share = if tally.wrong == 0 { 1.0 } else { tally.caught as f64 / tally.wrong as f64 };
        let by: Vec<String> = tally.by.iter().map(|(id, n)| format!("{id} {n}")).collect();
        println!(
            "{:<34} {:>6} {:>6.1}% {:>5.0}%  {}",
            kind.name,
            tally.wrong,
            share * 100.0,
            kind.floor * 100.0,
            by.join(", ")
        );
        for silent in tally.silent.iter().take(12) {
            println!("    silent: {silent}");
        }
        if tally.wrong == 0 || share < kind.floor {
            below.push(format!("{}: {:.1}% of {}", kind.name, share * 100.0, tally.wrong));
        }
        count += tally.wrong;
        caught += tally.caught;
    }
    println!("{:<34} {count:>6} {:>6.1}%", "all", caught as f64 / count as f64 * 100.0);
    assert!(below.is_empty(), "kinds of change that pass silently too often: {below:#?}");
    assert!(count >= 100 * samples.len(), "only {count} changes over {} samples", samples.len());
}

/// What changes nothing about the part must change nothing about the findings.
#[test]
fn changes_of_writing_raise_nothing() {
    for sample in sample::all() {
        for mutant in kinds::harmless(&sample) {
            let new = sample.new_findings(&mutant.text, None, &[]);
            assert!(new.is_empty(), "{}: {}: {new:#?}", sample.name, mutant.said);
        }
    }
}
