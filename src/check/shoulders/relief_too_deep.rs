#![doc = include_str!("relief_too_deep.md")]

use crate::check::shape::{relief_that_clears, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "relief-too-deep",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source",
    page: include_str!("relief_too_deep.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (_, thread, _, relief) in facts.reliefs() {
        let below = thread.root - relief.diameter.min;
        let pitches = times(thread.pitch, facts.limit_number(CHECK.id, "pitches"));
        let most = facts.limit(CHECK.id, "deep").max(pitches);
        let narrow = times(thread.pitch, facts.limit_number(CHECK.id, "narrow"));
        if below <= most || (!relief.called && relief.width > narrow) {
            continue;
        }
        let message = tell!(
            "{} may be {}, {} below the root of {} ({}): deeper than the tool needs by more than {}",
            "{} kann {} haben, {} unter dem Grund von {} ({}): tiefer, als der Stahl braucht, um mehr als {}",
            relief.feature.called(),
            facts.show(relief.diameter.min),
            facts.show(below),
            thread.designation,
            facts.show(thread.root),
            facts.show(most)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(relief.feature.value)
                .of(relief.feature.letter.clone())
                .by_limit(if most == pitches { "pitches" } else { "deep" })
                .length("below_the_root", below)
                .length("most", most)
                .help(tell!(
                    "Make it {}: the neck keeps its strength",
                    "Auf {} machen: der Hals behält seine Festigkeit",
                    relief_that_clears(thread, facts.part.units)
                )),
        );
    }
}
