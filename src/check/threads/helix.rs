#![doc = include_str!("helix.md")]

use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-helix",
    severity: Severity::Warning,
    group: "threads",
    source: "lead angle = atan(lead / (π · basic pitch diameter)); the limit is common practice, no source",
    page: include_str!("helix.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let most = facts.limit_number(CHECK.id, "degrees");
    for (section, thread, _) in facts.threads() {
        let Some(data) = Facts::thread_data(thread).filter(|d| d.lead_angle > most) else { continue };
        let message = format!(
            "the lead angle of {} is {:.2}°, over {}°: a tool with usual side clearance rubs on its leading flank",
            thread.designation,
            data.lead_angle,
            number(most)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("degrees")
                .at(thread.place)
                .of(section.letter.clone())
                .number("lead_angle_deg", data.lead_angle)
                .number("limit_deg", most)
                .help(format!(
                    "Grind the leading side of the tool to {:.0}° or more, the trailing side to {:.0}° or less",
                    (data.lead_angle + 3.0).ceil(),
                    (3.0 - data.lead_angle).ceil()
                )),
        );
    }
}
