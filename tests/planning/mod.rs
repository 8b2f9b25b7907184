//! The plan against the hand-worked parts of the trade notes, against wishes, and against random parts.

mod begun;
mod believable;
mod both_roughed;
mod bounds;
mod by_chart;
mod cornered;
mod eccentrics;
mod from_bar;
pub(crate) mod generated;
pub(crate) mod generated_wide;
mod held;
mod holes;
mod independent;
mod inside_true;
mod outside_kinds;
mod parts;
mod pipes;
mod random;
mod rules;
mod samples;
mod second;
mod shapes;
mod spots;
mod stiff;
mod trade_rules;
mod wishes;
mod workholders;

use turnwright::chain::{self, Profile};
use turnwright::model::Part;
use turnwright::model::plan::{Derived, Operation, Setup};
use turnwright::plan::{self, NoPlan, Planned};

pub(crate) fn try_plan(part: &Part) -> Result<Planned, NoPlan> {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    plan::plan(part, &chain, &profile, Some(&parts::shop()), 10)
}

/// The plan of a description.
pub(crate) fn plan_of(text: &str) -> Planned {
    planned(&parts::part(text))
}

pub(crate) fn planned(part: &Part) -> Planned {
    try_plan(part).unwrap_or_else(|e| panic!("{}: {e:?}", part.name.text))
}

pub(crate) fn derived(part: &Part) -> Derived {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    plan::derive(part, &chain, &profile, Some(&parts::shop()))
}

/// The operation with an id, and the setup it stands in.
pub(crate) fn found<'a>(p: &'a Planned, id: &str) -> (&'a Setup, &'a Operation) {
    p.plan.operations().find(|(_, o)| o.id == id).unwrap_or_else(|| panic!("no operation {id}"))
}

/// Number of an operation: later is larger.
pub(crate) fn number(p: &Planned, id: &str) -> u32 {
    found(p, id).1.number
}
