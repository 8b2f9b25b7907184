//! The part cut from the bar in one holding and parted off, where the bar is long enough for it: another plan to weigh by its cost.

use super::{Given, Planned, overhangs, too_soft};
use crate::chain::Chain;
use crate::check::Facts;
use crate::model::plan::{Setup, Verb};
use crate::model::{End, Plan};
use crate::plan::derive::{Layout, from_the_bar, of_layout};
use crate::plan::holding::{Lengths, bar_for_one_holding};
use crate::plan::order::Limits;
use crate::tell;
use crate::unit::show;

/// The end that stands out of the chuck while the part is cut from the bar; none where nothing is parted off.
pub(super) fn parted(plan: &Plan) -> Option<End> {
    plan.operations().find(|(_, o)| o.verb == Verb::PartOff).and_then(|(s, _)| s.works)
}

/// A plan from the bar that holds the work better than the one found, or as well and costs less.
pub(super) fn cheaper_from_the_bar(
    given: &Given<'_>,
    chain: &Chain,
    found: Option<&Planned>,
    limits: &dyn Fn() -> Limits,
) -> Option<(Layout, Planned)> {
    let rank = |plan: &Plan| (faults(&given.facts, plan), plan.cost);
    let mut best: Option<(Layout, Planned)> = None;
    for layout in from_the_bar(given.part, given.layout, given.shop) {
        let derived = of_layout(given.part, chain, &layout, given.shop);
        let Ok(planned) = (Given { layout: &layout, ..*given }).plan(derived, limits()) else { continue };
        let proven = planned.certificate.proven_optimal;
        let least = best.as_ref().map(|(_, p)| p).or(found);
        if proven && least.is_none_or(|p| rank(&planned.plan) < rank(&p.plan)) {
            best = Some((layout, planned));
        }
    }
    best
}

/// Setups that overhang, or hold on a place that is too short; last cuts that give way by more than their band.
fn faults(facts: &Facts<'_>, plan: &Plan) -> usize {
    plan.setups.iter().filter(|s| overhangs(s) || is_poor(s)).count() + too_soft(facts, plan).len()
}

fn is_poor(setup: &Setup) -> bool {
    setup.why.iter().any(|w| w.rule == "grip-short")
}

/// Where the work is held badly for want of bar, how much it takes.
pub(super) fn held_badly(given: &Given<'_>, plan: &Plan) -> Option<String> {
    let poor = plan.setups.iter().find(|s| is_poor(s))?;
    let wanted = bar_for_one_holding(given.layout, &Lengths::of(given.layout, given.shop));
    let bar = wanted.filter(|bar| *bar > given.layout.sawn && parted(plan).is_none())?;
    let unit = given.part.units;
    let long = show::exact(bar, unit, show::usual_decimals(unit), 4);
    Some(tell!(
        "setup {} holds on too little: from a bar {long} long the whole part is cut in one holding and parted off",
        "Aufspannung {} fasst zu wenig: aus einer Stange von {long} wird das ganze Teil in einer Aufspannung gedreht und abgestochen",
        poor.number
    ))
}
