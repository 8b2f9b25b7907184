#![doc = include_str!("too_long.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::Setup;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "too-long",
    severity: Severity::Error,
    group: "holding",
    source: "the shop file's distance between centers; the room is common practice, no source",
    page: include_str!("too_long.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(between) = facts.shop.and_then(|s| s.between_centers) else { return };
    let overall = facts.part.overall.as_ref().map(crate::model::Size::max).or_else(|| facts.chain.overall(facts.part));
    let Some(overall) = overall else { return };
    let needs = |setup: &Setup| {
        let name = match setup.holding {
            Holding::BetweenCenters => told!("dog and centers", "Drehherz und Spitzen"),
            Holding::ChuckAndCenter => told!("chuck and center", "Futter und Spitze"),
            _ => return None,
        };
        Some((overall + facts.limit(CHECK.id, name), name)).filter(|(wanted, _)| *wanted > between)
    };
    let found = facts.unavoidable(|s| needs(s).is_some());
    if let Some((setup, (wanted, name))) = found.into_iter().find_map(|s| Some((s, needs(s)?))) {
        let message = tell!(
            "{}: the work and {name} take {}, and the lathe has {} between centers",
            "{}: Werkstück und {name} brauchen {}, und die Maschine hat {} zwischen den Spitzen",
            setup.name,
            facts.show(wanted),
            facts.show(between)
        );
        let place = facts.part.overall.as_ref().map_or(facts.part.name.place, |o| o.place);
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(place)
                .length("wanted", wanted)
                .by_limit(name)
                .length("between_centers", between)
                .help(told!(
                    "Use a longer lathe, or hold one end in the chuck and the other in a steady rest",
                    "Eine längere Maschine, oder ein Ende ins Futter und das andere in die Lünette"
                )),
        );
    }
}
