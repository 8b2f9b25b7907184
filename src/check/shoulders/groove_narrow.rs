#![doc = include_str!("groove_narrow.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "groove-narrow",
    severity: Severity::Error,
    group: "shoulders",
    source: "geometry: the grooving tools of the shop file",
    page: include_str!("groove_narrow.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let tools = facts.grooving_tools();
    let Some((_, narrowest)) = tools.first() else { return };
    for slot in facts.slots().filter(|s| s.widest < *narrowest) {
        let message = tell!(
            "{} is {} wide at most, narrower than the narrowest grooving tool of the shop file, {}",
            "{} ist höchstens {} breit, schmaler als der schmalste Stechstahl der Werkstattdatei, {}",
            slot.feature.called(),
            facts.show(slot.widest),
            facts.show(*narrowest)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(slot.feature.head)
                .of(slot.feature.letter.clone())
                .length("widest", slot.widest)
                .length("tool", *narrowest)
                .help(tell!(
                    "Grind a tool of {} or less and list it, or widen the groove",
                    "Einen Stahl von {} oder weniger schleifen und eintragen, oder den Einstich weiten",
                    facts.at_most(slot.widest)
                )),
        );
    }
}
