#![doc = include_str!("bow.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Feature, Kind};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-bow",
    severity: Severity::Warning,
    group: "stock",
    source: "drawing stress let go on one side (a trade magazine's report, 2021; a model engineers' forum)",
    page: include_str!("bow.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let state = facts.bar_state();
    if state.assumed || !state.condition.bows() {
        return;
    }
    for key in facts.keyseats() {
        if facts.part.features.iter().any(|f| opposite(facts, key.feature, f)) {
            continue;
        }
        let short = key.cutter.is_some();
        let severity = if short { Severity::Note } else { Severity::Warning };
        let message = format!(
            "a keyseat {} long on one side of {} bar of {} lets its drawing stress go: the bar bows{}",
            facts.show(key.long()),
            state.words(),
            facts.show(key.shaft),
            if short { " a little" } else { "" }
        );
        out.push(
            Finding::new(CHECK.id, severity, message)
                .at(key.feature.head)
                .of(key.feature.letter.clone())
                .of(key.seat.letter.clone())
                .length("length", key.long())
                .length("shaft", key.shaft)
                .help("Rough all diameters, let the bar move, and finish the seats last; or take annealed or stress-relieved bar"),
        );
    }
}

/// A keyseat on the other side of the shaft beside this one takes as much stress from there.
fn opposite(facts: &Facts<'_>, one: &Feature, other: &Feature) -> bool {
    if one.id == other.id || !matches!(other.kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. }) {
        return false;
    }
    let (Some(a), Some(b)) = (facts.chain.span(one.id), facts.chain.span(other.id)) else { return false };
    let apart = (one.angle_mdeg.unwrap_or(0) - other.angle_mdeg.unwrap_or(0)).rem_euclid(360_000);
    apart == 180_000 && a.0 < b.1 && b.0 < a.1
}
