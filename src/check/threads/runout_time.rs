#![doc = include_str!("runout_time.md")]

use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-runout-time",
    severity: Severity::Warning,
    group: "threads",
    source: "time = width · 60 / (lead · rpm); the second is common practice, no source",
    page: include_str!("runout_time.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(slowest) = facts.shop.and_then(|s| s.speeds.iter().copied().filter(|n| *n > 0).min()) else { return };
    let least = facts.limit_number(CHECK.id, "seconds");
    for (_, thread, _, relief) in facts.reliefs() {
        if !relief.shut || !thread.lead.is_positive() {
            continue;
        }
        let seconds = relief.width.mm() / thread.lead.mm() * 60.0 / f64::from(slowest);
        if seconds >= least {
            continue;
        }
        let message = tell!(
            "even at the slowest gear, {slowest} rpm, the tool of {} passes {} ({} wide) in {} s, less than {} s",
            "selbst im langsamsten Gang, {slowest} U/min, ist der Stahl für {} durch {} ({} breit) in {} s, weniger als {} s",
            thread.designation,
            relief.feature.called(),
            facts.show(relief.width),
            number(seconds),
            number(least)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message).by_limit("seconds")
                .at(relief.feature.head)
                .of(relief.feature.letter.clone())
                .number("seconds", seconds)
                .number("least_seconds", least)
                .number("rpm", f64::from(slowest))
                .help(told!("Turn the spindle by hand through the last turns, or cut away from the shoulder with the tool upside down", "Die letzten Umdrehungen von Hand drehen, oder von der Schulter weg schneiden, mit dem Stahl über Kopf")),
        );
    }
}
