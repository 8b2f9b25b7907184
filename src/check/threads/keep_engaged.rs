#![doc = include_str!("keep_engaged.md")]

use crate::check::gears::leadscrew;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-keep-engaged",
    severity: Severity::Warning,
    group: "threads",
    source: "a lathe maker's manual: metric thread on an inch leadscrew; the rule of whole numbers",
    page: include_str!("keep_engaged.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop else { return };
    let Some(screw) = leadscrew(shop) else { return };
    let inch_screw = shop.leadscrew_tpi.is_some();
    for (section, thread, _) in facts.threads().filter(|(_, t, _)| t.inch != inch_screw) {
        let (work, lathe) = if thread.inch {
            (told!("an inch", "ein Zoll-"), told!("a metric", "ein metrisches"))
        } else {
            (told!("a metric", "eine metrische"), told!("an inch", "eine Zoll-"))
        };
        let message = tell!(
            "{} is {work} thread and the lathe has {lathe} leadscrew: leads of {} and {} never meet on a thread dial",
            "{} ist {work} Gewinde, und die Maschine hat {lathe} Leitspindel: Steigungen von {} und {} treffen sich nie auf der Gewindeuhr",
            thread.designation,
            facts.show(thread.lead),
            facts.show(screw)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(thread.place)
                .of(section.letter.clone())
                .length("lead", thread.lead)
                .length("leadscrew", screw)
                .help(told!("Keep the half-nuts closed from the first pass to the last: back the tool out and reverse the spindle", "Die Schlossmutter vom ersten bis zum letzten Zug geschlossen lassen: Stahl zurückziehen und Spindel rückwärts laufen lassen")),
        );
    }
}
