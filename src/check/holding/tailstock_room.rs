#![doc = include_str!("tailstock_room.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "tailstock-room",
    severity: Severity::Warning,
    group: "holding",
    source: "the shop file's distance between centers; the room is common practice, no source",
    page: include_str!("tailstock_room.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(plan), Some(between)) = (facts.plan, facts.shop.and_then(|s| s.between_centers)) else { return };
    for setup in &plan.setups {
        let drilled = setup.operations.iter().filter_map(|o| Some((o, deep(facts, o)?)));
        let Some((operation, deep)) = drilled.max_by_key(|(_, deep)| *deep) else { continue };
        let Some(wanted) = room(facts, setup, deep).filter(|wanted| *wanted > between) else { continue };
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let message = tell!(
            "drilling {} {} deep in setup {} takes {} from the spindle's nose to the tailstock, and the lathe has {} between centers",
            "{} {} tief bohren braucht in Aufspannung {} {} von der Spindelnase bis zum Reitstock, und die Maschine hat {} zwischen den Spitzen",
            feature.map_or_else(|| operation.verb.word().to_owned(), crate::model::Feature::called),
            facts.show(deep),
            setup.number,
            facts.show(wanted),
            facts.show(between)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(feature.map_or(facts.part.name.place, |f| f.head))
            .length("wanted", wanted)
            .length("between_centers", between)
            .by_limit("chuck")
            .by_limit("drill chuck")
            .help(told!(
                "Start with a short drill and change to the long one in the hole, or drill from the tool post",
                "Mit einem kurzen Bohrer anfangen und im Loch zum langen wechseln, oder vom Stahlhalter aus bohren"
            ));
        finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
        out.push(finding);
    }
}

/// How deep the tailstock drills into an end; none of other cuts.
fn deep(facts: &Facts<'_>, operation: &Operation) -> Option<Length> {
    let (from, to) = operation.from.zip(operation.to).filter(|_| operation.inside && operation.verb == Verb::Drill)?;
    match operation.end? {
        End::Datum => Some(from.max(to).0),
        End::Far => Some(facts.chain.overall(facts.part)? - from.min(to).0),
    }
}

/// From the spindle's nose to the tailstock: the chuck, what stands out of it, the drill before the hole and what holds it.
fn room(facts: &Facts<'_>, setup: &Setup, deep: Length) -> Option<Length> {
    let chucks = [Holding::Chuck, Holding::ChuckAndRest];
    let out = setup.stick_out.filter(|_| chucks.contains(&setup.holding))?;
    Some(facts.limit(CHECK.id, "chuck") + out + deep + facts.limit(CHECK.id, "drill chuck"))
}
