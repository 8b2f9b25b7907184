#![doc = include_str!("depth_from.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::unit::Unit;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-depth-from",
    severity: Severity::Note,
    group: "keyseats",
    source: "ISO 773 gives t1 from the top of the shaft; f = (S − √(S² − w²))/2 (US Navy Machinery Repairman manual)",
    page: include_str!("depth_from.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats() {
        let Kind::ParallelKeyseat { width, .. } = &key.feature.kind else { continue };
        if width.unit != Unit::Millimetre {
            continue;
        }
        let d = key.depths;
        let message = tell!(
            "the depth of {} is {} from the top of the round: {} at the side, {} across the bottom; top and side differ by {}",
            "die Tiefe von {} ist {} von oben: {} an der Seite, {} über den Grund; oben und Seite unterscheiden sich um {}",
            key.feature.called(),
            facts.show(d.from_top),
            facts.show(d.at_side),
            facts.show(d.across_bottom),
            facts.show(d.arc_height)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Note, message)
                .at(key.feature.head)
                .of(key.feature.letter.clone())
                .length("from_top", d.from_top)
                .length("at_side", d.at_side)
                .length("across_bottom", d.across_bottom)
                .length("difference", d.arc_height)
                .help(told!(
                    "Measure across the bottom: that reading needs no feel for the top of the round",
                    "Über den Grund messen: dafür braucht es kein Gefühl für die Kuppe"
                )),
        );
    }
}
