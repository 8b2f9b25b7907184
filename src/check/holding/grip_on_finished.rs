#![doc = include_str!("grip_on_finished.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::plan::{Grip, Setup, State, Verb};
use crate::model::{Feature, Kind, Plan};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "grip-on-finished",
    severity: Severity::Error,
    group: "holding",
    source: "shims under the dog and the jaws (US Army, Machinist's course OD1645)",
    page: include_str!("grip_on_finished.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    for setup in &plan.setups {
        let Some(grip) = &setup.grip else { continue };
        let bare = if grip.protect || setup.by.spares() { None } else { finished_under(facts, setup, grip) };
        let Some((feature, what)) = bare.or_else(|| slot_under(facts, plan, setup, grip)) else { continue };
        let message = tell!(
            "setup {} holds the work on {} from {} to {}: {what}",
            "Aufspannung {} hält das Werkstück an {} von {} bis {}: {what}",
            setup.number,
            feature.called(),
            facts.show(grip.from.0),
            facts.show(grip.to.0)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(feature.head)
                .of(feature.letter.clone())
                .length("held_from", grip.from.0)
                .length("held_to", grip.to.0)
                .help(told!("Put copper or brass under the jaws or the dog, bore soft jaws, or hold it elsewhere", "Kupfer oder Messing unter Backen oder Drehherz legen, weiche Backen ausdrehen, oder anderswo spannen")),
        );
    }
}

/// A finished or threaded surface under bare jaws.
fn finished_under<'a>(facts: &Facts<'a>, setup: &Setup, grip: &Grip) -> Option<(&'a Feature, &'static str)> {
    let spans = setup.before.iter().filter(|s| s.from < grip.to && grip.from < s.to);
    let mut done = spans.filter(|s| matches!(s.state, State::Finished | State::Threaded));
    done.find_map(|s| {
        let what = if s.state == State::Threaded {
            told!("on a thread, bare", "blank auf einem Gewinde")
        } else {
            told!("on a finished surface, bare", "blank auf einer fertigen Fläche")
        };
        Some((facts.feature(s.feature?)?, what))
    })
}

/// A slot or hole across, cut before, under jaws or dog; a bore along the axis leaves the outside whole.
fn slot_under<'a>(facts: &Facts<'a>, plan: &Plan, setup: &Setup, grip: &Grip) -> Option<(&'a Feature, &'static str)> {
    let earlier = plan.setups.iter().take_while(|s| s.number < setup.number);
    let mut cut =
        earlier.flat_map(|s| &s.operations).filter(|o| !o.inside && matches!(o.verb, Verb::Mill | Verb::Drill));
    cut.find_map(|o| {
        let feature = facts.feature(o.feature?)?;
        let (from, to) = extent(facts, feature)?;
        (from < grip.to && grip.from < to).then_some((
            feature,
            told!("over a slot or hole that is already cut", "über einer schon geschnittenen Nut oder Bohrung"),
        ))
    })
}

/// How far it reaches along the work: a Woodruff slot by its cutter, a hole by its diameter.
fn extent(facts: &Facts<'_>, feature: &Feature) -> Option<(Station, Station)> {
    if let Some(slot) = facts.keyseats().find(|k| k.feature.id == feature.id) {
        return Some((slot.from, slot.to));
    }
    let (from, to) = facts.chain.span(feature.id)?;
    let beside = match &feature.kind {
        Kind::CrossHole { diameter, .. } => diameter.nominal.half(),
        _ => Length::ZERO,
    };
    Some((from - beside, to + beside))
}
