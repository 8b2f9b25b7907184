#![doc = include_str!("jaws_room.md")]

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
        let Some((gap, op)) = nearest(facts, setup).filter(|(gap, _)| *gap < wanted && *gap >= Length::ZERO) else {
            continue;
        };
        let message = tell!(
            "setup {}: the cut of operation {} ends {} before the jaws, less than {}: tool or holder strikes them",
            "Aufspannung {}: der Schnitt von Arbeitsgang {} endet {} vor den Backen, weniger als {}: Stahl oder Halter schlägt an",
            setup.number,
            op.number,
            facts.show(gap),
            facts.show(wanted)
        );
        let section = op.feature.and_then(|id| facts.part.features.get(id));
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
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

/// The outside cut that ends nearest to the jaws, and how far before them.
pub fn nearest<'a>(facts: &Facts<'_>, setup: &'a Setup) -> Option<(Length, &'a Operation)> {
    let chuck = matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest);
    let (grip, end) = (setup.grip.as_ref().filter(|_| chuck)?, setup.works?);
    let overall = facts.chain.overall(facts.part)?;
    let depth = |at: Station| match end {
        End::Datum => at - Station::DATUM,
        End::Far => at.from_far_end(overall),
    };
    let jaws = depth(grip.from).min(depth(grip.to));
    let cuts = setup.operations.iter().filter(|o| !o.inside && cuts_along(o.verb));
    let ends = cuts.filter_map(|o| Some((jaws - depth(o.from?).max(depth(o.to?)), o)));
    ends.min_by_key(|(gap, _)| *gap)
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
    )
}
