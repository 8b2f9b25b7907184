#![doc = include_str!("relief_diameter.md")]

use crate::check::shape::relief_that_clears;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "relief-diameter",
    severity: Severity::Error,
    group: "shoulders",
    source: "the root a single-point tool leaves: PD min − 0.64952 P (ASME B1.1 geometry); minor min (ASME B1.5, ISO 2904)",
    page: include_str!("relief_diameter.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (_, thread, _, relief) in facts.reliefs() {
        if relief.diameter.max < thread.root {
            continue;
        }
        let message = tell!(
            "{} may be {}, but the tool of {} cuts down to {}: it would plough into it",
            "{} kann {} haben, aber der Stahl für {} schneidet bis {}: er würde hineinpflügen",
            relief.feature.called(),
            facts.show(relief.diameter.max),
            thread.designation,
            facts.show(thread.root)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(relief.feature.value)
                .of(relief.feature.letter.clone())
                .length("largest", relief.diameter.max)
                .length("root", thread.root)
                .help(tell!("Make it {}", "Auf {} machen", relief_that_clears(thread, facts.part.units)))
                .mend(relief.feature.value, relief_that_clears(thread, facts.part.units)),
        );
    }
}
