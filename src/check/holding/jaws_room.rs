#![doc = include_str!("jaws_room.md")]

use crate::check::stock::length;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "jaws-room",
    severity: Severity::Warning,
    group: "holding",
    source: "common practice, no source",
    page: include_str!("jaws_room.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    let wanted = facts.limit(CHECK.id, "room");
    for setup in &plan.setups {
        if let Some(finding) = parting_in_the_jaws(facts, setup) {
            out.push(finding);
        }
        let Some((gap, op)) = nearest(facts, setup).filter(|(gap, _)| *gap < wanted && *gap >= Length::ZERO) else {
            continue;
        };
        let (severity, message) = so_near(facts, setup, op, gap, wanted);
        let section = op.feature.and_then(|id| facts.part.features.get(id));
        let mut finding = Finding::new(CHECK.id, severity, message)
            .at(section.map_or(facts.setup_place(setup), |f| f.head))
            .by_limit("room")
            .length("gap", gap)
            .length("wanted", wanted)
            .help(told!("Set the carriage stop and turn the jaws past the tool by hand first; grip shorter if enough is left, or leave the last of it for the other setup", "Den Schlittenanschlag setzen und die Backen erst von Hand am Stahl vorbeidrehen; kürzer fassen, wenn genug bleibt, oder den Rest der anderen Aufspannung lassen"));
        if let Some(f) = section {
            finding = finding.of(f.letter.clone());
        }
        out.push(finding);
    }
}

/// An error where nothing is left: no stop is set to the jaws themselves.
fn so_near(facts: &Facts<'_>, setup: &Setup, op: &Operation, gap: Length, wanted: Length) -> (Severity, String) {
    let (number, op) = (setup.number, op.number);
    let wanted = facts.show(wanted);
    if gap.is_positive() {
        let gap = facts.show(gap);
        let message = tell!(
            "setup {number}: the cut of operation {op} ends {gap} before the jaws, less than {wanted}: tool or holder strikes them",
            "Aufspannung {number}: der Schnitt von Arbeitsgang {op} endet {gap} vor den Backen, weniger als {wanted}: Stahl oder Halter schlägt an"
        );
        return (Severity::Warning, message);
    }
    let message = tell!(
        "setup {number}: the cut of operation {op} ends at the very jaws, {wanted} is wanted: tool or holder strikes them",
        "Aufspannung {number}: der Schnitt von Arbeitsgang {op} endet unmittelbar an den Backen, {wanted} soll sein: Stahl oder Halter schlägt an"
    );
    (Severity::Error, message)
}

/// A parting tool that goes in where the jaws are: what else is cut there is told by another check.
fn parting_in_the_jaws(facts: &Facts<'_>, setup: &Setup) -> Option<Finding> {
    let op = setup.operations.iter().find(|o| o.verb == Verb::PartOff)?;
    let gap = gap(facts, setup, op).filter(|gap| *gap < Length::ZERO)?;
    let message = tell!(
        "setup {}: parted off in operation {}, the tool's other edge stands {} inside the jaws",
        "Aufspannung {}: in Arbeitsgang {} abgestochen, steht die andere Kante des Stahls {} in den Backen",
        setup.number,
        op.number,
        facts.show(gap.abs())
    );
    let help = told!(
        "Let the bar stand out by the part, what is faced off, the width of the parting tool and room before the jaws",
        "Die Stange so weit ausspannen: das Teil, was abgeplant wird, die Breite des Abstechstahls und Platz vor den Backen"
    );
    Some(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(facts.setup_place(setup))
            .length("inside", gap.abs())
            .help(help),
    )
}

/// The outside cut that ends nearest to the jaws, and how far before them.
pub fn nearest<'a>(facts: &Facts<'_>, setup: &'a Setup) -> Option<(Length, &'a Operation)> {
    let cuts = setup.operations.iter().filter(|o| !o.inside && cuts_along(o.verb));
    cuts.filter_map(|o| Some((gap(facts, setup, o)?, o))).min_by_key(|(gap, _)| *gap)
}

/// How far before the jaws a cut ends, by the edge of the tool that is nearer to them; negative inside them.
fn gap(facts: &Facts<'_>, setup: &Setup, op: &Operation) -> Option<Length> {
    let chuck = matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest);
    let (grip, end) = (setup.grip.as_ref().filter(|_| chuck)?, setup.works?);
    let overall = facts.chain.overall(facts.part)?;
    let depth = |at: Station| match end {
        End::Datum => at - Station::DATUM,
        End::Far => at.from_far_end(overall),
    };
    let jaws = depth(grip.from).min(depth(grip.to));
    let wide = if op.verb == Verb::PartOff { length::parting(facts) } else { Length::ZERO };
    Some(jaws - depth(op.from?).max(depth(op.to?)) - wide)
}

const fn cuts_along(verb: Verb) -> bool {
    matches!(
        verb,
        Verb::Rough
            | Verb::Finish
            | Verb::Turn
            | Verb::Groove
            | Verb::Taper
            | Verb::Thread
            | Verb::Knurl
            | Verb::Chamfer
            | Verb::PartOff
    )
}
