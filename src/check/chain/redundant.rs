#![doc = include_str!("redundant.md")]

use crate::chain::Says;
use crate::check::description::of_slip;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-redundant",
    severity: Severity::Warning,
    group: "chain",
    source: "ISO 129-1: a closed chain has one auxiliary (bracketed) dimension",
    page: include_str!("redundant.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let graph = &facts.chain.graph;
    // Where lengths disagree, that is the finding.
    let elsewhere = crate::check::description::no_overall::ends_elsewhere(facts).is_some();
    if elsewhere || facts.chain.contradiction.is_some() || of_slip::text_is_broken(facts) {
        return;
    }
    let mut root: Vec<usize> = (0..graph.faces.len()).collect();
    for link in &graph.links {
        let counts = link.says.is_worked() || link.says == Says::OverallRequired;
        if !counts {
            continue;
        }
        let (a, b) = (find(&mut root, link.from), find(&mut root, link.to));
        if a != b {
            root[a] = b;
            continue;
        }
        let (from, to) = (&graph.faces[link.from].name, &graph.faces[link.to].name);
        let message = tell!(
            "{from} to {to} is stated here and follows from other lengths too: the chain is closed and every link is toleranced",
            "{from} bis {to} steht hier und folgt auch aus anderen Längen: die Kette ist geschlossen und jedes Glied toleriert"
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message).at(link.place).length("stated", link.nominal).help(
                told!(
                    "Put the length that matters least in round brackets, so that it is for reference only",
                    "Die unwichtigste Länge in runde Klammern setzen, dann gilt sie nur als Hilfsmaß"
                ),
            ),
        );
    }
}

fn find(root: &mut [usize], mut node: usize) -> usize {
    while root[node] != node {
        root[node] = root[root[node]];
        node = root[node];
    }
    node
}
