#![doc = include_str!("blank.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::LimitsFrom;
use crate::tell;
use crate::unit::Limits;

/// The check.
pub const CHECK: Check = Check {
    id: "thread-blank",
    severity: Severity::Warning,
    group: "threads",
    source: "major diameter limits of the thread's standard",
    page: include_str!("blank.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, _) in facts.threads() {
        let Some(blank) = &thread.blank else { continue };
        let size = match blank.from {
            LimitsFrom::Written | LimitsFrom::Fit => blank.limits_or_nominal(),
            _ => Limits::exactly(blank.nominal),
        };
        if thread.major.covers(size) {
            continue;
        }
        let outside = if size.max > thread.major.max { size.max } else { size.min };
        let message = tell!(
            "the blank may be {}, outside the major diameter of {}: {} to {}",
            "der Durchmesser kann {} haben, außerhalb des Außendurchmessers von {}: {} bis {}",
            facts.show(outside),
            thread.designation,
            facts.show(thread.major.min),
            facts.show(thread.major.max)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(blank.place)
                .of(section.letter.clone())
                .length("blank", outside)
                .length("major_min", thread.major.min)
                .length("major_max", thread.major.max)
                .help(tell!(
                    "Turn the blank to {}, or leave `blank` out",
                    "Auf {} drehen, oder `blank` weglassen",
                    facts.show(thread.major.middle())
                )),
        );
    }
}
