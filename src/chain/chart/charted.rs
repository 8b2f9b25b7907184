//! A plan's chart, worked, with what measuring gains.

use super::super::{Chain, Profile};
use super::of_plan::{PlanChart, of_plan};
use super::retarget::{Retarget, retarget};
use super::work::{Worked, work};
use crate::model::chart::MeasuredBy;
use crate::model::{Part, Plan, Shop};
use crate::unit::{Length, show};

/// A plan's chart after working.
#[derive(Debug, Clone, PartialEq)]
pub struct Charted {
    /// The chart.
    pub plan: PlanChart,
    /// What it comes to.
    pub worked: Worked,
    /// Cuts that a reading aims better, where what can be held is not enough.
    pub aims: Vec<Retarget>,
}

/// What correcting a zero gains the lengths of a mounting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ZeroGain {
    /// Number of the setup.
    pub setup: u32,
    /// A length from the datum face, ±, with 0 on the far face as it comes.
    pub before: Length,
    /// With the zero corrected by the measured overall.
    pub after: Length,
}

/// Charts a plan; none when the part has no located length.
pub fn charted(part: &Part, chain: &Chain, profile: &Profile, plan: &Plan, shop: Option<&Shop>) -> Option<Charted> {
    let plan = of_plan(part, chain, profile, plan, shop)?;
    let worked = work(&plan.chart);
    let mut aims = Vec::new();
    if worked.factor.is_some_and(|f| f < 1.0 - 1e-9) {
        // With every cut held as it can be, some distance is missed: what does a reading mend?
        let mut held = plan.chart.clone();
        for cut in &mut held.cuts {
            cut.tolerance = cut.tolerance.or(cut.can_hold);
        }
        let as_held = work(&held);
        aims = retarget(&held, &as_held, plan.error).cuts;
    }
    Some(Charted { plan, worked, aims })
}

impl Charted {
    /// A face as a person is told of it: a corrected zero is the far face.
    pub fn face(&self, face: usize) -> &str {
        if self.plan.zeros.contains_key(&face) { "far face" } else { &self.plan.chart.faces[face].name }
    }

    /// Whether a cut is the reading that corrects a zero.
    pub fn is_reading(&self, cut: usize) -> bool {
        self.plan.zeros.contains_key(&self.plan.chart.cuts[cut].face)
    }

    /// Whether a row of the stock is one: walls that two tools meet at take nothing off each other.
    pub fn is_removal(&self, row: usize) -> bool {
        let cut = self.worked.stock[row].cut;
        let cuts = &self.plan.chart.cuts;
        let before = (0..cut).rev().find(|i| cuts[*i].face == cuts[cut].face);
        // The datum face has no cut before the first but the saw's, which is not drawn.
        before.is_none_or(|b| self.plan.proud.contains(&b))
    }

    /// The retarget formula with blanks: `3.250 + measured ____ − 7.000 = ____`.
    pub fn formula(&self, aim: &Retarget) -> String {
        let unit = self.plan.chart.units;
        let decimals = show::usual_decimals(unit);
        let text = |l: Length| show::exact(l, unit, decimals, decimals + 2);
        let (a, b) = (self.face(aim.measure.0), self.face(aim.measure.1));
        let sum = if aim.sign > 0 {
            format!("{} + measured ____ \u{2212} {} = ____", text(aim.aim), text(aim.reading))
        } else {
            format!("{} \u{2212} measured ____ + {} = ____", text(aim.aim), text(aim.reading))
        };
        let cut = &self.plan.chart.cuts[aim.cut];
        format!("measure {a} to {b}; cut {} to {sum}", self.face(cut.face))
    }

    /// What each corrected zero gains.
    pub fn zeros(&self) -> impl Iterator<Item = ZeroGain> {
        let chart = &self.plan.chart;
        let far = chart.faces.len() - 1;
        let overall = (0..chart.cuts.len()).rev().find(|i| chart.cuts[*i].face == far);
        // A share that is closer than the shop can hold gains nobody anything.
        let held = |i: usize| self.worked.cuts[i].tolerance.map(|t| chart.cuts[i].can_hold.map_or(t, |c| t.max(c)));
        let faced = overall.and_then(held).unwrap_or_default();
        self.plan.zeros.iter().filter_map(move |(face, setup)| {
            let first = (0..chart.cuts.len()).filter(|i| chart.cuts[*i].by == MeasuredBy::From(*face));
            let widest = first.filter_map(held).min()?;
            Some(ZeroGain { setup: *setup, before: widest + faced, after: widest + self.plan.error })
        })
    }
}
