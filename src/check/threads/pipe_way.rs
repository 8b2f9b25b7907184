#![doc = include_str!("pipe_way.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Workholder;
use crate::model::plan::Verb;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-pipe-way",
    severity: Severity::Error,
    group: "threads",
    source: "US Navy, Machinery Repairman (NAVEDTRA 14345), taper threads",
    page: include_str!("pipe_way.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    if facts.shop.is_some_and(|s| s.taper_attachment == Some(true)) {
        return;
    }
    let Some(plan) = facts.plan else { return };
    for setup in plan.setups.iter().filter(|s| !matches!(s.by, Workholder::SetOver(_))) {
        for operation in setup.operations.iter().filter(|o| o.verb == Verb::Thread && !o.inside) {
            let Some(feature) = operation.feature.and_then(|f| facts.feature(f)) else { continue };
            if facts.part.pipe_small_end(feature.id).is_none() {
                continue;
            }
            let message = tell!(
                "{} is a taper thread in setup {}, {}: nothing there leads the tool along its taper",
                "{} ist ein Kegelgewinde in Aufspannung {}, {}: nichts führt dort den Stahl den Kegel entlang",
                feature.called(),
                setup.number,
                setup.by.word(setup.holding)
            );
            out.push(
                Finding::new(CHECK.id, CHECK.severity, message)
                    .at(feature.head)
                    .of(feature.letter.clone())
                    .help(told!("Cut it with a pipe die, the blank turned by the compound, and say so under `accept:`; or list a `taper attachment`", "Mit einer Rohrkluppe schneiden, den Durchmesser mit dem Oberschlitten drehen, und das unter `accept:` sagen; oder ein `taper attachment` eintragen"))
                    .help(told!("Or give it centers, a pipe on plugs or its bore beveled to 60°, and set the tailstock over", "Oder ihm Spitzen geben, ein Rohr auf Pfropfen oder seine Bohrung mit 60° gefast, und den Reitstock verstellen")),
            );
        }
    }
}
