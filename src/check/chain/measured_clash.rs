#![doc = include_str!("measured_clash.md")]

use super::measured_out;
use crate::check::lengths_read::lengths_read;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "measured-clash",
    severity: Severity::Error,
    group: "chain",
    source: "the drawing's own limits; difference constraints: Dechter, Meiri and Pearl, Artificial Intelligence 49, 1991",
    page: include_str!("measured_clash.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(read) = lengths_read(facts).filter(|r| !r.clash.is_empty()) else { return };
    // Of a finished part, a reading that is out by itself is told by `measured-out`, with what the drawing would have to give.
    if facts.part.done.is_empty() && facts.part.measured.iter().any(|m| measured_out::is_lost(facts, m)) {
        return;
    }
    let message = tell!(
        "no cut brings what was measured within all limits; these miss each other by {}: {}",
        "kein Schnitt bringt das Gemessene in alle Grenzen; diese verfehlen sich um {}: {}",
        facts.show(read.misses),
        read.clash.join("; ")
    );
    let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
        .length("misclosure", read.misses)
        .length("concession", read.sum())
        .help(tell!(
            "The least the drawing would have to give: {}",
            "Das wenigste, was die Zeichnung geben müsste: {}",
            read.asks(facts)
        ));
    if let Some(instead) = &read.instead {
        finding = finding.help(instead.clone());
    }
    if read.doubtful {
        finding = finding.help(told!(
            "Readings off by no more than their errors would leave no clash: measure again with something surer",
            "Läse man nur um die Messfehler anders, wäre nichts im Weg: mit etwas Genauerem noch einmal messen"
        ));
    }
    if let Some(place) = read.gives.iter().find_map(|g| g.place) {
        finding = finding.at(place);
    }
    out.push(finding);
}
