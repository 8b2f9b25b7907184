//! Where soft rules had to give way, whether holding an end as it is roughed keeps more of them.

use super::{Given, Planned, overhangs, too_soft};
use crate::chain::Chain;
use crate::plan::derive::on_roughed;
use crate::plan::order::Limits;

/// The plan that may hold an end as it is roughed, if it holds the work as well and keeps more rules, or as many in less time; else the one given.
pub(super) fn keeping_more(given: &Given<'_>, chain: &Chain, whole: Planned, left: &dyn Fn() -> Limits) -> Planned {
    if whole.plan.given_way.is_empty() || !whole.certificate.proven_optimal || given.layout.parted.is_some() {
        return whole;
    }
    let rank = |p: &Planned| {
        let badly = p.plan.setups.iter().filter(|s| overhangs(s)).count() + too_soft(&given.facts, &p.plan).len();
        (badly, p.plan.given_way.len(), p.plan.cost)
    };
    let derived = on_roughed(given.part, chain, given.layout, given.shop);
    match given.plan(derived, left()) {
        Ok(other) if other.certificate.proven_optimal && rank(&other) < rank(&whole) => other,
        _ => whole,
    }
}
