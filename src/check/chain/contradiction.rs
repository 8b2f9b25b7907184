#![doc = include_str!("contradiction.md")]

use crate::check::description::of_slip;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-contradiction",
    severity: Severity::Error,
    group: "chain",
    source: "temporal constraint networks (Dechter, Meiri and Pearl 1991): a negative loop has no solution",
    page: include_str!("contradiction.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // A section may be missing, or a length be no length: then that is the finding.
    if of_slip::text_is_broken(facts) || facts.part.overall.as_ref().is_some_and(|o| !o.nominal.is_positive()) {
        return;
    }
    let Some(found) = &facts.chain.contradiction else { return };
    let links: Vec<_> = found.links.iter().map(|i| &facts.chain.graph.links[*i]).collect();
    let mut places: Vec<_> = links.iter().map(|l| l.place).collect();
    places.sort_by_key(|p| p.start);
    places.dedup();
    let Some(last) = places.last().copied() else { return };
    let message = format!(
        "no part can meet these {} dimensions together: their limits miss each other by {}",
        places.len(),
        facts.show(found.misclosure)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .at(last)
        .length("misclosure", found.misclosure)
        .help("Measure again, and change the one that is wrong; or put the one that matters least in round brackets");
    for link in &links {
        if link.place != last {
            let (from, to) = (&facts.chain.graph.faces[link.from].name, &facts.chain.graph.faces[link.to].name);
            let label = format!("{from} to {to}: {} to {}", facts.show(link.limits.min), facts.show(link.limits.max));
            finding = finding.also(link.place, label);
        }
    }
    finding.others.sort_by_key(|o| o.0.start);
    finding.chain_loop = places;
    out.push(finding);
}
