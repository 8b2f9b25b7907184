#![doc = include_str!("grip_short.md")]

use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::Setup;

/// The check.
pub const CHECK: Check = Check {
    id: "grip-short",
    severity: Severity::Warning,
    group: "holding",
    source: "common practice, no source",
    page: include_str!("grip_short.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let limit = |diameters: &str, long: &str, diameter| {
        times(diameter, facts.limit_number(CHECK.id, diameters)).min(facts.limit(CHECK.id, long))
    };
    let grips = |setup: &Setup| {
        let grip = setup
            .grip
            .as_ref()
            .filter(|_| matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest))?;
        Some((grip.to - grip.from, grip.diameter))
    };
    let short = |setup: &Setup| grips(setup).is_some_and(|(long, d)| long < limit("diameters", "long", d));
    let mut said = Vec::new();
    for setup in facts.unavoidable(short) {
        let (Some(grip), Some((long, diameter))) = (&setup.grip, grips(setup)) else { continue };
        // What hangs out of the middle pulls at the jaws with every turn: no short grip is long enough for it.
        let thrown = setup.by.throw().is_some();
        if facts.plan.is_none() && said.contains(&(long, diameter, thrown)) {
            continue;
        }
        said.push((long, diameter, thrown));
        let wanted = limit("diameters", "long", diameter);
        let least = if thrown {
            times(diameter, facts.limit_number(CHECK.id, "least diameters"))
        } else {
            limit("least diameters", "least long", diameter)
        };
        let (severity, against) = if long < least { (Severity::Error, least) } else { (Severity::Warning, wanted) };
        let message = format!(
            "{}: the jaws grip {} of a diameter of {}, less than {}",
            setup.name,
            facts.show(long),
            facts.show(grip.diameter),
            facts.show(against)
        );
        // Of the two limits of each step the smaller one decides.
        let (by_diameter, by_length) =
            if severity == Severity::Error { ("least diameters", "least long") } else { ("diameters", "long") };
        let by_its_length = against == facts.limit(CHECK.id, by_length);
        out.push(
            Finding::new(CHECK.id, severity, message)
                .by_limit(if by_its_length { by_length } else { by_diameter })
                .at(facts.setup_place(setup))
                .of(grip.letter.clone())
                .length("grip", long)
                .length("wanted", against)
                .help(if setup.holding == Holding::Chuck {
                    "Hold it by a longer length, saw the bar longer, or bring up the center and take light cuts"
                } else {
                    "Hold it by a longer length, saw the bar longer, or take light cuts"
                }),
        );
    }
}
