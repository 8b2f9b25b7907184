#![doc = include_str!("unknown.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-unknown",
    severity: Severity::Error,
    group: "threads",
    source: "the series of ASME B1.1, B1.5, ISO 261, ISO 2902",
    page: include_str!("unknown.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, _) in facts.threads().filter(|(_, t, _)| !t.standard) {
        let nearest = &thread.nearest;
        let message = tell!(
            "{} is in no series of its standard: diameter {}, pitch {}",
            "{} steht in keiner Reihe seiner Norm: Durchmesser {}, Steigung {}",
            thread.designation,
            facts.show(thread.nominal),
            facts.show(thread.pitch)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Error, message)
            .at(thread.place)
            .of(section.letter.clone())
            .length("nominal", thread.nominal)
            .length("pitch", thread.pitch);
        if !nearest.is_empty() {
            finding = finding.help(tell!(
                "Measure the mate again; the nearest are {}",
                "Das Gegenstück noch einmal messen; am nächsten sind {}",
                nearest.join(", ")
            ));
        }
        out.push(finding.help(
            told!("If the mate really is odd, accept this with the reason; its limits are then those of a special thread", "Wenn das Gegenstück wirklich so ist, dies mit Grund annehmen; die Grenzen sind dann die eines Sondergewindes"),
        ));
    }
}
