#![doc = include_str!("bow.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::plan::{Operation, Verb};
use crate::model::{Feature, Kind};
use crate::unit::Length;
use crate::{tell, told};

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
    if state.assumed || !state.condition.bows() || facts.part.wishes.is_off("R13") {
        return;
    }
    for key in facts.keyseats() {
        if facts.part.features.iter().any(|f| opposite(facts, key.feature, f)) {
            continue;
        }
        if finished_after(facts, key.feature) {
            continue;
        }
        let found = finding(facts, key.feature, key.seat, ("keyseat", key.long(), key.shaft), key.cutter.is_some());
        out.push(if can_wait(facts, key.seat) {
            found.help(tell!(
                "`plan: {{before: [[{}, finish {}]]}}` has it milled between the roughing and the finish",
                "`plan: {{before: [[{}, finish {}]]}}` lässt sie zwischen Schruppen und Schlichten fräsen",
                key.feature.letter,
                key.seat.letter
            ))
        } else {
            found
        });
    }
    for flat in facts.part.features.iter().filter(|f| matches!(f.kind, Kind::Flats { count: 1, .. })) {
        let Some((from, to)) = facts.chain.span(flat.id) else { continue };
        let Some(on) = facts.profile.between(from.min(to), from.max(to)).next() else { continue };
        let Some(section) = facts.feature(on.feature) else { continue };
        out.push(finding(facts, flat, section, ("flat", (to - from).abs(), on.largest()), false));
    }
}

/// What is cut on one side: its word, its length and the diameter it lies on. A short one bows it a little.
fn finding(
    facts: &Facts<'_>,
    cut: &Feature,
    section: &Feature,
    (word, long, shaft): (&str, Length, Length),
    short: bool,
) -> Finding {
    let severity = if short { Severity::Note } else { Severity::Warning };
    let message = tell!(
        "a {word} {} long on one side of {} bar of {} lets its drawing stress go: the bar bows{}",
        "{word} {} lang auf einer Seite von {} Stange mit {} löst deren Ziehspannung: die Stange krümmt sich{}",
        facts.show(long),
        facts.bar_state().words(),
        facts.show(shaft),
        if short { told!(" a little", " etwas") } else { "" }
    );
    Finding::new(CHECK.id, severity, message)
        .at(cut.head)
        .of(cut.letter.clone())
        .of(section.letter.clone())
        .length("length", long)
        .length("shaft", shaft)
        .help(
            told!("Rough all diameters, let the bar move, and finish the seats last; or take annealed or stress-relieved bar", "Alle Durchmesser schruppen, die Stange ruhen lassen, die Sitze zuletzt schlichten; oder geglühte Stange nehmen"),
        )
}

/// Milled before what the bar's bow would spoil is finished, as the derivation has it from a wish.
pub(in crate::check) fn finished_after(facts: &Facts<'_>, key: &Feature) -> bool {
    let Some(derived) = facts.derived else { return false };
    let mills =
        |i: usize| derived.operations.get(i).is_some_and(|(o, _)| o.feature == Some(key.id) && o.verb == Verb::Mill);
    derived.before.iter().any(|(a, b, _)| {
        let last = derived.operations.get(*b).is_some_and(|(o, _)| matches!(o.verb, Verb::Finish | Verb::Taper));
        mills(*a) && last
    })
}

/// A seat that is roughed first, and not polished, can be finished after its keyseat.
fn can_wait(facts: &Facts<'_>, seat: &Feature) -> bool {
    let Some(derived) = facts.derived else { return false };
    let any = |verb: Verb| {
        let on_it = |o: &Operation| o.feature == Some(seat.id) || o.with.contains(&seat.id);
        derived.operations.iter().any(|(o, _)| o.verb == verb && on_it(o))
    };
    any(Verb::Rough) && any(Verb::Finish) && !any(Verb::Polish)
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
