#![doc = include_str!("stated_twice.md")]

use crate::chain::{Link, Says};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Length;

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
    let links = &facts.chain.graph.links;
    for (i, link) in links.iter().enumerate() {
        if link.nominal == Length::ZERO || link.says == Says::OverallRequired {
            continue;
        }
        let Some(first) = links[..i].iter().find(|other| same(other, link)) else { continue };
        let (first, again) = if first.place.start <= link.place.start { (first, link) } else { (link, first) };
        let message =
            format!("the length {} between the same two faces is stated twice", facts.show(link.nominal.abs()));
        out.push(
            Finding::new(CHECK.id, CHECK.severity, message)
                .at(again.place)
                .also(first.place, "first stated here")
                .length("length", link.nominal.abs())
                .help("Take one of them out, or put it in round brackets as a reference"),
        );
    }
}

/// The same distance between the same faces, either way round.
fn same(one: &Link, other: &Link) -> bool {
    if one.nominal == Length::ZERO || one.says == Says::OverallRequired {
        return false;
    }
    let along = one.from == other.from && one.to == other.to && one.nominal == other.nominal;
    let back = one.from == other.to && one.to == other.from && one.nominal == -other.nominal;
    along || back
}
