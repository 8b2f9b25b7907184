#![doc = include_str!("index.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::shop::StartIndex;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-index",
    severity: Severity::Error,
    group: "threads",
    source: "the shop file's `start index`",
    page: include_str!("index.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    if facts.shop.and_then(|s| s.start_index) != Some(StartIndex::None) {
        return;
    }
    for (section, thread, _) in facts.threads().filter(|(_, t, _)| t.starts > 1) {
        let message = tell!(
            "{} has {} starts, {} apart, and the shop file says there is no way to index them",
            "{} hat {} Gänge, {} auseinander, und die Werkstattdatei sagt, dass man sie nicht teilen kann",
            thread.designation,
            thread.starts,
            facts.show(thread.pitch)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(thread.place)
                .of(section.letter.clone())
                .number("starts", f64::from(thread.starts))
                .length("pitch", thread.pitch)
                .help(told!("Set the compound parallel to the bed and shift it by the pitch, or mark a gear whose teeth divide by the starts", "Den Oberschlitten längs stellen und um die Steigung versetzen, oder ein Rad markieren, dessen Zähne sich durch die Gänge teilen lassen"))
                .help(told!("Then say so in the shop file: `start index: compound`", "Das dann in der Werkstattdatei sagen: `start index: compound`")),
        );
    }
}
