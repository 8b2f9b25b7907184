#![doc = include_str!("wire.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::thread::Wire;
use crate::tell;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "thread-wire",
    severity: Severity::Warning,
    group: "threads",
    source: "wire range by form: 60° 0.56 to 0.90 P (three-wire texts), Acme 0.4873 to 0.6500 P (Machinery's Handbook)",
    page: include_str!("wire.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop.filter(|s| !s.wires.is_empty()) else { return };
    for (section, thread, _) in facts.threads() {
        let Some(wire) = Facts::thread_data(thread).and_then(|d| d.wire) else { continue };
        let Some(nearest) = nearest(&shop.wires, wire) else { continue };
        // One in the range will do, be another nearer to the best.
        if shop.wires.iter().any(|w| wire.smallest <= *w && *w <= wire.largest) {
            continue;
        }
        let message = tell!(
            "the shop's nearest wire for {} is {}, outside {} to {}; the best is {}",
            "der nächste Draht der Werkstatt für {} ist {}, außerhalb {} bis {}; am besten ist {}",
            thread.designation,
            facts.show(nearest),
            facts.show(wire.smallest),
            facts.show(wire.largest),
            facts.show(wire.best)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(thread.place)
                .of(section.letter.clone())
                .length("wire", nearest)
                .length("smallest", wire.smallest)
                .length("largest", wire.largest)
                .help(tell!(
                    "Get wires of {}, or three equal drills or needles in that range, and list them",
                    "Drähte von {} besorgen, oder drei gleiche Bohrer oder Nadeln in diesem Bereich, und eintragen",
                    facts.show(wire.best)
                )),
        );
    }
}

fn nearest(wires: &[Length], wire: Wire) -> Option<Length> {
    wires.iter().copied().min_by_key(|w| (*w - wire.best).abs())
}
