#![doc = include_str!("not_guaranteed.md")]

use crate::chain::Distance;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Limits;
use crate::{tell, told};

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
    let message = tell!(
        "{} to {}: asked {} to {}, but the lengths that make it only keep it between {} and {}",
        "{} bis {}: verlangt {} bis {}, aber die Längen, die es machen, halten es nur zwischen {} und {}",
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
        .length("worst_case_max", worst.max);
    for help in remedies(facts, distance) {
        finding = finding.help(help);
    }
    if let Some(rss) = distance.rss
        && stated.covers(rss)
    {
        finding = finding.help(tell!(
            "The root sum square, {} to {}, would fit, but one part is no series: it promises nothing",
            "Die quadratische Summe, {} bis {}, würde passen, aber ein Teil ist keine Serie: sie verspricht nichts",
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

/// What would make it hold: moving the middle, equal shares, the fewest lengths that suffice, a dimension of its own.
fn remedies(facts: &Facts<'_>, distance: &Distance) -> Vec<String> {
    let Some(remedies) = distance.remedies(facts.chain) else { return Vec::new() };
    let links = distance.path.len();
    let mut help = Vec::new();
    if let Some(shift) = remedies.shift {
        let way = if shift.is_positive() { "more" } else { "less" };
        help.push(tell!(
            "The bands would fit: aim the lengths that make it {} {way}",
            "Die Toleranzen würden passen: die Längen, die es machen, um {} {way} anzielen",
            facts.show(shift.abs())
        ));
    }
    if !remedies.each.is_positive() {
        help.push(
            told!(
                "Change the lengths that make it, or dimension this distance directly",
                "Die Längen, die es machen, ändern, oder diesen Abstand unmittelbar bemaßen"
            )
            .to_owned(),
        );
        return help;
    }
    if links == 1 {
        help.push(tell!("Hold that length to ±{}", "Diese Länge auf ±{} halten", facts.show(remedies.each)));
        return help;
    }
    help.push(tell!(
        "Hold each of the {links} lengths that make it to ±{}, or dimension this distance directly",
        "Jede der {links} Längen, die es machen, auf ±{} halten, oder diesen Abstand unmittelbar bemaßen",
        facts.show(remedies.each)
    ));
    if let Some((fewest, half)) = remedies.fewest.filter(|(fewest, _)| fewest.len() < links) {
        let named: Vec<String> = fewest
            .iter()
            .map(|i| {
                let link = &facts.chain.graph.links[*i];
                let faces = &facts.chain.graph.faces;
                format!("{} to {}", faces[link.from].name, faces[link.to].name)
            })
            .collect();
        help.push(tell!(
            "Or hold {} alone to ±{}",
            "Oder {} allein auf ±{} halten",
            named.join(" and "),
            facts.show(half)
        ));
    }
    help
}
