#![doc = include_str!("helix.md")]

use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

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
        let message = tell!(
            "the lead angle of {} is {:.2}°, over {}°: a tool with usual side clearance rubs on its leading flank",
            "der Steigungswinkel von {} ist {:.2}°, über {}°: ein Stahl mit üblichem Seitenfreiwinkel reibt an der vorderen Flanke",
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
                .help(ground(data.lead_angle)),
        );
    }
}

/// Side clearance that is left beside the flanks, in degrees (common practice, no source).
const CLEAR: f64 = 3.0;

/// How the sides of the tool are ground: below its edge the leading flank comes towards it, the trailing flank goes away from it.
fn ground(lead_angle: f64) -> String {
    let leading = (lead_angle + CLEAR).ceil();
    let trailing = CLEAR - lead_angle;
    if trailing < 0.0 {
        let over = (-trailing).floor();
        return tell!(
            "Grind the leading side of the tool back by {leading:.0}° or more; the trailing side may lean the other way by {over:.0}° at most",
            "Die vordere Seite des Stahls um {leading:.0}° oder mehr hinterschleifen; die hintere darf höchstens {over:.0}° andersherum stehen"
        );
    }
    tell!(
        "Grind the leading side of the tool back by {leading:.0}° or more, the trailing side by {:.0}° or more",
        "Die vordere Seite des Stahls um {leading:.0}° oder mehr hinterschleifen, die hintere um {:.0}° oder mehr",
        trailing.ceil()
    )
}

#[cfg(test)]
mod tests {
    use super::ground;

    #[test]
    fn three_degrees_stay_beside_each_flank() {
        // Worked by hand: 8.42 + 3 = 11.42, 8.42 - 3 = 5.42; a side that leaned over by 6 would leave 2.42 of the 3.
        assert!(ground(8.42).contains("by 12° or more") && ground(8.42).contains("by 5° at most"));
        assert!(ground(1.5).ends_with("trailing side by 2° or more"));
    }
}
