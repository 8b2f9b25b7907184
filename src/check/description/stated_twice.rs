#![doc = include_str!("stated_twice.md")]

use std::collections::BTreeMap;

use crate::chain::{Link, Says};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stated-twice",
    severity: Severity::Warning,
    group: "description",
    source: "ISO 129-1: a dimension is given once, repetitions are auxiliary",
    page: include_str!("stated_twice.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // The first link of each distance between two faces: a lookup for each, so that many sections take no longer each than few.
    let mut seen: BTreeMap<(usize, usize, Length), &Link> = BTreeMap::new();
    for link in &facts.chain.graph.links {
        if link.nominal == Length::ZERO || link.says == Says::OverallRequired {
            continue;
        }
        let Some(first) = seen.get(&either_way(link)).copied() else {
            seen.insert(either_way(link), link);
            continue;
        };
        let (first, again) = if first.place.start <= link.place.start { (first, link) } else { (link, first) };
        let message = tell!(
            "the length {} between the same two faces is stated twice",
            "die Länge {} zwischen denselben zwei Flächen steht zweimal",
            facts.show(link.nominal.abs())
        );
        out.push(
            Finding::new(CHECK.id, CHECK.severity, message)
                .at(again.place)
                .also(first.place, "first stated here")
                .length("length", link.nominal.abs())
                .help(told!(
                    "Take one of them out, or put it in round brackets as a reference",
                    "Eine davon streichen oder als Hilfsmaß in runde Klammern setzen"
                )),
        );
    }
}

/// The two faces and the distance, the same whichever face it is counted from.
fn either_way(link: &Link) -> (usize, usize, Length) {
    if link.from <= link.to { (link.from, link.to, link.nominal) } else { (link.to, link.from, -link.nominal) }
}
