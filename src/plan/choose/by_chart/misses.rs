//! Drawn distances that the cuts of a plan do not hold.

use super::super::Given;
use crate::chain::chart::{Charted, Resultant, charted, work};
use crate::chain::{Chain, Profile};
use crate::model::Plan;
use crate::model::chart::MeasuredBy;
use crate::model::plan::Derived;
use crate::unit::{Length, Station, show};

/// A drawn distance that the cuts of a plan do not hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Miss {
    pub(super) from: String,
    pub(super) to: String,
    pub(super) at: (Station, Station),
    /// As it is asked: middle and half band.
    pub(super) wanted: String,
    /// Half the band asked.
    pub(super) asked: Length,
    /// What it comes out to, ±.
    pub(super) gives: Length,
    /// Ids of the operations whose cuts make it.
    pub(super) cuts: Vec<String>,
    /// Whether the reading that corrects a zero is between them.
    pub(super) reading: bool,
}

impl Miss {
    /// Whether it is the same drawn distance.
    pub(super) fn is(&self, other: &Self) -> bool {
        (&self.from, &self.to) == (&other.from, &other.to)
    }

    pub(super) fn in_one_holding(&self) -> String {
        format!("{} to {} holds {} only when both are cut in one holding", self.from, self.to, self.wanted)
    }
}

/// Distances that are not held when every cut is held as it can be.
pub(super) fn misses(given: &Given<'_>, chain: &Chain, profile: &Profile, plan: &Plan) -> Vec<Miss> {
    let Some(c) = charted(given.part, chain, profile, plan, given.shop) else { return Vec::new() };
    if c.worked.factor.is_none_or(|f| f >= 1.0 - 1e-9) && c.worked.results.iter().all(|r| r.guaranteed) {
        return Vec::new();
    }
    let mut held = c.plan.chart.clone();
    for cut in &mut held.cuts {
        cut.tolerance = cut.tolerance.or(cut.can_hold);
    }
    let as_held = work(&held);
    as_held.results.iter().filter(|r| !r.guaranteed).filter_map(|r| miss(given, &c, plan, r)).collect()
}

fn miss(given: &Given<'_>, c: &Charted, plan: &Plan, r: &Resultant) -> Option<Miss> {
    let dim = &c.plan.chart.dims[r.dim];
    let (limits, unit) = (dim.limits?, given.part.units);
    let shown = |l: Length| show::exact(l, unit, show::usual_decimals(unit), 5);
    let id = |number: u32| plan.operations().find(|(_, o)| o.number == number).map(|(_, o)| o.id.clone());
    // A face cut until it is clean is worked to no length: what hangs on it is for the findings of the chart.
    if r.path.iter().any(|(cut, _)| c.plan.chart.cuts[*cut].by == MeasuredBy::Stock) {
        return None;
    }
    let cuts = r.path.iter().filter(|(cut, _)| !c.is_reading(*cut));
    let mut cuts: Vec<String> = cuts.filter_map(|(cut, _)| id(c.plan.chart.cuts[*cut].op)).collect();
    cuts.dedup();
    Some(Miss {
        from: c.face(dim.from).to_owned(),
        to: c.face(dim.to).to_owned(),
        wanted: format!("{} \u{b1}{}", shown(limits.middle()), shown(limits.band().half())),
        at: (c.plan.at[dim.from], c.plan.at[dim.to]),
        asked: limits.band().half(),
        gives: r.plus_minus?,
        reading: r.path.iter().any(|(cut, _)| c.is_reading(*cut)),
        cuts,
    })
}

/// The operations of a miss, as numbers in a derivation.
pub(super) fn places(derived: &Derived, miss: &Miss) -> Vec<usize> {
    miss.cuts.iter().filter_map(|id| derived.operations.iter().position(|(o, _)| o.id == *id)).collect()
}
