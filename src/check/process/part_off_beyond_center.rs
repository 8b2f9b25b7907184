#![doc = include_str!("part_off_beyond_center.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::Verb;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "part-off-beyond-center",
    severity: Severity::Warning,
    group: "process",
    source: "common practice, no source: never part between centers",
    page: include_str!("part_off_beyond_center.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let wishes = &facts.part.wishes;
    if !wishes.part_off {
        return;
    }
    let wished = wishes.holding.into_iter().chain(wishes.holding_by_end.values().copied());
    let planned = facts.plan.into_iter().flat_map(crate::model::Plan::operations);
    let parted = planned.filter(|(_, o)| o.verb == Verb::PartOff).map(|(s, _)| s.holding);
    let Some(holding) = wished.chain(parted).find(|h| matches!(h, Holding::BetweenCenters | Holding::ChuckAndCenter))
    else {
        return;
    };
    let message = tell!(
        "the part is parted off while it is held by {}: it drops against the center and jams the tool",
        "das Teil wird abgestochen, während es von {} gehalten wird: es fällt gegen die Spitze und klemmt den Stahl",
        holding.word()
    );
    let mut finding =
        Finding::new(CHECK.id, Severity::Warning, message).at(wishes.place.unwrap_or(facts.part.place)).help(told!(
            "Draw the center back before parting and support the piece, or saw it off and face it",
            "Vor dem Abstechen die Spitze zurückziehen und das Stück stützen, oder absägen und plandrehen"
        ));
    finding.compared.push(("holding", Compared::Text(holding.word().to_owned())));
    out.push(finding);
}
