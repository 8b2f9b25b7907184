#![doc = include_str!("lead_travel.md")]

use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-lead-travel",
    severity: Severity::Warning,
    group: "threads",
    source: "common practice, no source",
    page: include_str!("lead_travel.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(bed) = facts.shop.and_then(|s| s.between_centers) else { return };
    for (section, thread, piece) in facts.threads() {
        let travel = piece.long() + times(thread.lead, facts.limit_number(CHECK.id, "leads"));
        if travel <= bed {
            continue;
        }
        let message = tell!(
            "cutting {} takes {} of carriage travel under the leadscrew, and the lathe has {} between centers",
            "{} braucht {} Schlittenweg mit der Leitspindel, und die Maschine hat {} zwischen den Spitzen",
            thread.designation,
            facts.show(travel),
            facts.show(bed)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("leads")
                .at(section.head)
                .of(section.letter.clone())
                .length("travel", travel)
                .length("bed", bed)
                .help(told!(
                    "Cut it on a longer lathe, or in two lengths picked up in the same groove",
                    "Auf einer längeren Maschine schneiden, oder in zwei Längen, in derselben Rille aufgenommen"
                )),
        );
    }
}
