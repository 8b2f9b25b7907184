#![doc = include_str!("feature_in_jaws.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::Station;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "feature-in-jaws",
    severity: Severity::Warning,
    group: "holding",
    source: "geometry of the holding",
    page: include_str!("feature_in_jaws.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for refused in facts.derived.into_iter().flat_map(|d| &d.refused).filter(|r| r.why.rule == CHECK.id) {
        let mut finding =
            Finding::new(CHECK.id, Severity::Warning, format!("`{}`: {}", refused.wish, refused.why.reason))
                .at(refused.place)
                .help(told!(
                    "Ask for them in two holdings, or hold the work between centers",
                    "In zwei Aufspannungen verlangen, oder zwischen Spitzen spannen"
                ));
        finding.compared.push(("wish", Compared::Text(refused.wish.clone())));
        out.push(finding);
    }
    for (operation, setup, (from, to, how)) in held_where_it_cuts(facts) {
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let called = feature.map_or_else(|| told!("the end", "das Ende").to_owned(), crate::model::Feature::called);
        let message = tell!(
            "{} {called} lies where {} {how} the work, {} to {}",
            "{} {called} liegt, wo {} das Werkstück {how}, {} bis {}",
            operation.verb.word(),
            setup.name,
            facts.show(from.0),
            facts.show(to.0)
        );
        // In a plan it is no doubt any more: that cut cannot be made there.
        let mut finding = Finding::new(CHECK.id, Severity::Error, message)
            .length("held_from", from.0)
            .length("held_to", to.0)
            .help(away(facts, operation));
        finding.place = feature.map(|f| f.head).or(Some(facts.setup_place(setup)));
        finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
        out.push(finding);
    }
}

/// What would free it.
fn away(facts: &Facts<'_>, operation: &Operation) -> &'static str {
    if facts.part.wishes.part_off && operation.verb == Verb::Chamfer {
        return told!(
            "Break this edge before parting off: the parting tool in a little deeper than the chamfer, the chamfer from inside that groove, then part off; or wish a mandrel",
            "Diese Kante vor dem Abstechen brechen: etwas tiefer als die Fase einstechen, aus der Nut heraus anfasen, dann abstechen; oder einen Dorn wünschen"
        );
    }
    told!(
        "Saw the bar longer and part it off (`plan: {part off: true}`), allow center holes, or wish another holding",
        "Länger sägen und abstechen (`plan: {part off: true}`), Zentrierungen zulassen oder anders spannen lassen"
    )
}

/// A stretch that is held, and how.
type Held = (Station, Station, &'static str);

/// Operations of the plan under the jaws, the dog or a steady rest.
fn held_where_it_cuts<'a>(facts: &Facts<'a>) -> Vec<(&'a Operation, &'a Setup, Held)> {
    let planned = facts.plan.into_iter().flat_map(crate::model::Plan::operations);
    planned.filter_map(|(s, o)| under(s, o).map(|held| (o, s, held))).collect()
}

fn under(setup: &Setup, operation: &Operation) -> Option<Held> {
    let (a, b) = (operation.from?, operation.to?);
    if matches!(operation.verb, Verb::Face | Verb::Center | Verb::PartOff) || operation.inside {
        return None;
    }
    // On the mill a slot lies up, over the block that carries it.
    let grip =
        setup.grip.as_ref().filter(|_| setup.holding != Holding::Mill).map(|g| (g.from, g.to, told!("holds", "hält")));
    let rest = setup.rest.as_ref().filter(|r| !r.follows).map(|r| (r.from, r.to, told!("carries", "führt")));
    grip.into_iter().chain(rest).find(|(from, to, _)| a.min(b) < *to && *from < a.max(b))
}
