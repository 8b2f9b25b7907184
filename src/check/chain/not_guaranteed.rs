#![doc = include_str!("not_guaranteed.md")]

use crate::chain::Distance;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::{Length, Limits};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-not-guaranteed",
    severity: Severity::Error,
    group: "chain",
    source: "worst case: the tolerances of a path add (Scholz, Boeing report on tolerance stack methods, 1995)",
    page: include_str!("not_guaranteed.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (index, distance) in &facts.chain.distances {
        let (Some(stated), Some(worst)) = (distance.stated, distance.worst_case) else { continue };
        if stated.covers(worst) || stated.reversed() || misses(facts, distance, stated) {
            continue;
        }
        let place = match index {
            Some(i) => facts.part.dims[*i].is.place,
            None if facts.chain.overall_is_required => match &facts.part.overall {
                Some(overall) => overall.place,
                None => continue,
            },
            None => continue,
        };
        out.push(finding(facts, distance, stated, worst).at(place));
    }
}

/// Where nominal and lengths disagree, that is the finding, not the band.
fn misses(facts: &Facts<'_>, distance: &Distance, stated: Limits) -> bool {
    !stated.holds(distance.nominal) || facts.chain.contradiction.is_some()
}

fn finding(facts: &Facts<'_>, distance: &Distance, stated: Limits, worst: Limits) -> Finding {
    let faces = &facts.chain.graph.faces;
    let message = format!(
        "{} to {}: asked {} to {}, but the lengths that make it only keep it between {} and {}",
        faces[distance.from].name,
        faces[distance.to].name,
        facts.show(stated.min),
        facts.show(stated.max),
        facts.show(worst.min),
        facts.show(worst.max)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .length("stated_min", stated.min)
        .length("stated_max", stated.max)
        .length("worst_case_min", worst.min)
        .length("worst_case_max", worst.max)
        .help(remedy(facts, distance, stated));
    if let Some(rss) = distance.rss
        && stated.covers(rss)
    {
        finding = finding.help(format!(
            "The root sum square, {} to {}, would fit, but one part is no series: it promises nothing",
            facts.show(rss.min),
            facts.show(rss.max)
        ));
    }
    for i in &distance.path {
        let link = &facts.chain.graph.links[*i];
        finding = finding.also(link.place, format!("takes {} of the band", facts.show(link.limits.band())));
    }
    finding
}

/// Equal shares that would hold: half the smaller side of the band over the number of links.
fn remedy(facts: &Facts<'_>, distance: &Distance, stated: Limits) -> String {
    let links = i64::try_from(distance.path.len().max(1)).unwrap_or(1);
    let side = (stated.max - distance.nominal).min(distance.nominal - stated.min);
    let share = Length::from_pm(side.pm() / links);
    if links == 1 {
        return format!("Hold that length to ±{}", facts.show(share));
    }
    format!(
        "Hold each of the {links} lengths that make it to ±{}, or dimension this distance directly",
        facts.show(share)
    )
}
