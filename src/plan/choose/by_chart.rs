//! The tolerance chart judges the chosen plan: where its cuts cannot hold a drawn distance, the next best plan that can is looked
//! for, its faces cut in one holding or counted from one zero, and the fewest setups that do are proved.

use std::collections::BTreeSet;

use super::problem::problem;
use super::{Given, Planned};
use crate::chain::chart::{Charted, charted, work};
use crate::chain::{Chain, Profile};
use crate::model::Plan;
use crate::model::chart::MeasuredBy;
use crate::model::plan::{ChartAnswer, Derived, Zero};
use crate::plan::cost::Rates;
use crate::plan::order::{self, Certificate, Cost, Limits, Minutes, Problem};
use crate::plan::rules::because;
use crate::unit::{Length, Station, show};

/// Operations beyond which a plan is not planned again for its chart; the chart itself still tells what it does not hold.
const MOST_OPS: usize = 150;

/// A drawn distance that the cuts of a plan do not hold.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Miss {
    from: String,
    to: String,
    at: (Station, Station),
    wanted: String,
    asked: Length,
    gives: Length,
    /// Ids of the operations whose cuts make it.
    cuts: Vec<String>,
    /// Whether the reading that corrects a zero is between them.
    reading: bool,
}

/// The plan, or the cheapest found that holds what this one does not; with words about it.
pub(super) fn answered(
    given: &Given<'_>,
    (chain, profile): (&Chain, &Profile),
    whole: Planned,
    limits: &dyn Fn() -> Limits,
) -> Planned {
    if whole.certificate.order.len() > MOST_OPS {
        return whole;
    }
    let judged = |plan: &Plan| misses(given, chain, profile, plan);
    let missed = judged(&whole.plan);
    if missed.is_empty() {
        return whole;
    }
    let tried = [together(&whole.derived, &missed), from_the_datum_face(&whole.derived, &missed)];
    let plans = tried.into_iter().flatten().filter_map(|derived| given.plan_from(derived, limits(), None).ok());
    let best = plans
        .map(|p| (judged(&p.plan), p))
        .filter(|(left, _)| left.len() < missed.len())
        .min_by(|a, b| a.0.len().cmp(&b.0.len()).then(a.1.plan.cost.total_cmp(&b.1.plan.cost)));
    let (left, mut plan) = best.unwrap_or_else(|| (missed.clone(), whole.clone()));
    let kept = |m: &Miss| !left.iter().any(|l| (&l.from, &l.to) == (&m.from, &m.to));
    if missed.iter().any(kept) {
        let rates = Rates::of(given.part, given.shop);
        plan.fewest_setups = fewest(&problem(given.part, &plan.derived, &rates, None), limits());
    }
    let fewest = plan.fewest_setups.as_ref().filter(|c| c.proven_optimal).map(|c| setups_in(c.cost));
    let shown = |l: Length| show::exact(l, given.part.units, show::usual_decimals(given.part.units), 5);
    plan.plan.chart_answers = missed
        .iter()
        .map(|m| {
            let (holds, gives) = (kept(m), shown(m.gives));
            let says =
                if holds { solved(&whole.plan, &plan.plan, m, &gives, fewest) } else { unsolved(&whole, m, &gives) };
            ChartAnswer {
                from: m.from.clone(),
                to: m.to.clone(),
                at: m.at,
                asked: m.wanted.clone(),
                asked_half: m.asked,
                cheapest_gives: m.gives,
                holds,
                more_minutes: plan.plan.cost - whole.plan.cost,
                fewest_setups: fewest.filter(|_| holds),
                says,
            }
        })
        .collect();
    let solved: Vec<String> = plan.plan.chart_answers.iter().filter(|a| a.holds).map(|a| a.says.clone()).collect();
    plan.plan.remarks.extend(solved);
    plan
}

/// Distances that are not held when every cut is held as it can be.
fn misses(given: &Given<'_>, chain: &Chain, profile: &Profile, plan: &Plan) -> Vec<Miss> {
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

fn miss(given: &Given<'_>, c: &Charted, plan: &Plan, r: &crate::chain::chart::Resultant) -> Option<Miss> {
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

/// The derivation in which the cuts of what is missed are made in one holding; none where that cannot be.
fn together(derived: &Derived, missed: &[Miss]) -> Option<Derived> {
    let mut tighter = derived.clone();
    for m in missed {
        for pair in places(derived, m).windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if derived.operations[a].1.iter().any(|x| derived.operations[b].1.contains(x)) {
                let reason = format!("{} to {} holds {} only when both are cut in one holding", m.from, m.to, m.wanted);
                tighter.together.push((a, b, because("chart", reason)));
            }
        }
    }
    (tighter.together.len() > derived.together.len()).then_some(tighter)
}

/// The derivation in which they are all counted from the datum face itself.
fn from_the_datum_face(derived: &Derived, missed: &[Miss]) -> Option<Derived> {
    let mut tighter = derived.clone();
    for m in missed {
        for i in places(derived, m) {
            let own: Vec<usize> = derived.operations[i].1.clone();
            let datum: Vec<usize> =
                own.iter().copied().filter(|x| derived.mountings[*x].zero == Zero::DatumFace).collect();
            if !datum.is_empty() {
                tighter.operations[i].1 = datum;
            }
        }
    }
    (tighter.operations != derived.operations).then_some(tighter)
}

/// The operations of a miss.
fn places(derived: &Derived, miss: &Miss) -> Vec<usize> {
    miss.cuts.iter().filter_map(|id| derived.operations.iter().position(|(o, _)| o.id == *id)).collect()
}

/// The same problem where each setup counts one minute and all else next to nothing: the fewest setups, proved.
fn fewest(problem: &Problem, limits: Limits) -> Option<Certificate> {
    let mut count = problem.clone();
    let one = Minutes::whole(1);
    for op in &mut count.ops {
        op.cost = Cost::Same(Minutes::from_thousandths(1));
    }
    (count.setup_first, count.setup_change) = (Cost::Same(one), Cost::Same(one));
    (count.tool_change, count.tool_first) = (Minutes::ZERO, Minutes::ZERO);
    let few = count.ops.len() < 1000;
    let answer = few.then(|| order::solve(&count, limits).ok()).flatten()?;
    Some(Certificate::new(count, answer))
}

const fn setups_in(cost: Minutes) -> u64 {
    cost.thousandths() / 1000
}

fn solved(cheapest: &Plan, plan: &Plan, m: &Miss, gives: &str, fewest: Option<u64>) -> String {
    let least = fewest.map_or(String::new(), |n| format!("; no plan with fewer than {n} setups holds {}", m.wanted));
    format!(
        "the cheapest plan, {:.1} minutes, would hold {} to {} only to \u{b1}{gives}: this one costs {:.1} more and holds it{least}",
        cheapest.cost,
        m.from,
        m.to,
        plan.cost - cheapest.cost
    )
}

fn unsolved(whole: &Planned, m: &Miss, gives: &str) -> String {
    let setups: BTreeSet<u32> =
        whole.plan.operations().filter(|(_, o)| m.cuts.contains(&o.id)).map(|(s, _)| s.number).collect();
    let shared = together(&whole.derived, std::slice::from_ref(m)).is_some();
    let (claim, why) = match (setups.len() > 1 || m.reading, shared) {
        (true, false) => (
            "no plan of these holdings holds",
            "its faces are cut from both ends, and no holding at hand leaves both free",
        ),
        (true, true) => {
            ("no plan was found that holds", "its faces in one holding, or all from the datum face, were tried")
        }
        (false, _) => ("no plan was found that holds", "its cuts are made in one holding already"),
    };
    format!(
        "{claim} {} to {}, asked {}: {why}, and with the cuts as close as `can hold` says it comes out to \u{b1}{gives}",
        m.from, m.to, m.wanted
    )
}
