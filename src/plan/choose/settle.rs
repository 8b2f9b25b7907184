//! The cheapest order of a derivation: each way round by itself, with the minutes that its cuts then take, and what is claimed of it.

use super::build::build;
use super::clash::{drop_soft, no_plan, smallest};
use super::eased::assumed;
use super::harm::{harm, of_plan};
use super::problem::{FOLLOW_REST, problem};
use super::rest::Begun;
use super::stiffness::{always_followed, stiffen};
use super::ways::{Way, follow, ways};
use super::{Given, NoPlan, Planned};
use crate::model::Plan;
use crate::model::part::Holding;
use crate::model::plan::{Assumed, Compared, Derived, Setup, Verb, Why};
use crate::plan::bounds::{Bounds, bounds};
use crate::plan::cost::Rates;
use crate::plan::derive::Layout;
use crate::plan::holding::Lengths;
use crate::plan::order::{self, Certificate, Limits};
use crate::told;

/// Searches again at most so often with the minutes and the rests of the order found: each of some holdings may turn out to want one.
const AGAIN: usize = 8;

impl Given<'_> {
    /// The cheapest order of all ways round.
    pub(super) fn plan_from(&self, derived: Derived, limits: Limits, begun: Option<&Begun>) -> Result<Planned, NoPlan> {
        let all: Vec<(String, Vec<usize>)> =
            derived.operations.iter().map(|(o, allowed)| (o.id.clone(), allowed.clone())).collect();
        let ways = match begun {
            Some(_) => vec![Way { derived, says: String::new(), least: false }],
            None => ways(&self.facts, self.layout, &derived),
        };
        let limits = Limits { seconds: (limits.seconds / ways.len().max(1) as u64).max(1), ..limits };
        let (mut best, mut floor, mut refusal): (Option<Planned>, f64, _) = (None, f64::INFINITY, None);
        let (mut compared, mut beside) = (Vec::new(), Vec::new());
        for way in ways {
            let says = way.says.clone();
            match self.settled(way, limits, begun) {
                Ok((planned, least)) => {
                    floor = floor.min(least);
                    compared.push(Compared {
                        says,
                        cost: planned.plan.cost,
                        lower_bound: least.min(planned.plan.cost),
                    });
                    let rank = |p: &Planned| (p.certificate.cost, of_plan(self.layout, &p.plan));
                    let cheaper = best.as_ref().is_none_or(|b| rank(&planned) < rank(b));
                    let other = if cheaper { best.replace(planned) } else { Some(planned) };
                    beside.extend(other.map(|p| p.certificate));
                }
                Err(why) => {
                    // Of a way whose search was too long nothing is known.
                    floor = if why == NoPlan::OutOfTime { 0.0 } else { floor };
                    refusal = refusal.or(Some(why));
                }
            }
        }
        let mut best = best.ok_or_else(|| refusal.unwrap_or(NoPlan::NothingToTurn))?;
        best.plan.floor = floor.min(best.plan.cost);
        best.plan.compared = if compared.len() > 1 { compared } else { Vec::new() };
        best.beside = beside;
        // Who searches on is not held to the end that was found the cheapest.
        for (operation, allowed) in &mut best.derived.operations {
            if let Some((_, before)) = all.iter().find(|(id, _)| *id == operation.id) {
                allowed.clone_from(before);
            }
        }
        Ok(best)
    }

    /// The cheapest order of one way, with the minutes that its cuts then take, and what no order of it costs less than.
    fn settled(&self, way: Way, limits: Limits, begun: Option<&Begun>) -> Result<(Planned, f64), NoPlan> {
        let rates = Rates::of(self.facts, self.layout);
        let mounted = begun.and_then(|b| b.mounted.as_ref()).map(|(name, _)| name.as_str());
        let restate = |derived: &Derived| problem(self.part, derived, &rates, mounted);
        let building = |derived: &Derived, c: &Certificate| {
            let mut plan = build(&self.facts, self.layout, derived, c, begun);
            stiffen(&self.facts, derived, &mut plan);
            again(&rates, &mut plan);
            plan
        };
        let mut derived = way.derived;
        derived.eased.clear();
        let (mut certificate, given_way) = search(self.layout, &mut derived, &restate, limits)?;
        // A follow rest that every order must set belongs to what no order costs less than.
        let followed = if always_followed(&self.facts, &derived) { FOLLOW_REST * rates.minutes.setup } else { 0.0 };
        let floor = minutes_of(certificate.lower_bound) + followed;
        let mut plan = building(&derived, &certificate);
        // Among orders that are equally good one may leave each cut as little as any order can.
        if way.least
            && certificate.proven_optimal
            && let Some(better) = self.sharpened(&derived, &plan, &certificate, &restate, limits)
        {
            let built = building(&derived, &better);
            if !as_found(&rates, &mut derived.clone(), &built) {
                (certificate, plan) = (better, built);
            }
        }
        // What a cut finds depends on what was cut before it: the minutes of the order found are the ones to prove.
        let mut cheapest: Option<(Derived, Certificate, Plan)> = None;
        for again in 0..=AGAIN {
            let same = !as_found(&rates, &mut derived, &plan);
            if !same {
                certificate = as_it_is(restate(&derived), &certificate);
                plan.cost = minutes_of(certificate.cost);
                (plan.lower_bound, plan.proven_optimal) = (minutes_of(certificate.lower_bound), false);
            }
            if cheapest.as_ref().is_none_or(|(_, _, known)| plan.cost < known.cost || same && plan.cost <= known.cost) {
                cheapest = Some((derived.clone(), certificate.clone(), plan.clone()));
            }
            if same || again == AGAIN {
                break;
            }
            match search(self.layout, &mut derived, &restate, limits) {
                Ok((found, _)) => certificate = found,
                // What was found before the time was over stands, and claims no more than it is.
                Err(NoPlan::OutOfTime) => break,
                Err(why) => return Err(why),
            }
            plan = building(&derived, &certificate);
        }
        let (mut derived, certificate, mut plan) = cheapest.unwrap_or((derived, certificate, plan));
        derived.mountings.iter_mut().for_each(|m| (m.rest, m.slow) = (m.rest.take().filter(|r| !r.follows), None));
        room_to_move(&derived, &mut plan);
        plan.given_way = derived.outweighed.iter().cloned().chain(given_way).collect();
        plan.assumed.clone_from(&derived.assumed);
        let by_rates = rates.assumed(&plan);
        plan.assumed.extend(by_rates);
        plan.assumed.extend(rests(&plan));
        plan.assumed.extend(assumed(&self.facts, &plan, !derived.too_soft.is_empty()));
        let holds = |h: &[Holding]| plan.setups.iter().any(|s| h.contains(&s.holding));
        let chuck = holds(&[Holding::Chuck, Holding::ChuckAndCenter, Holding::ChuckAndRest]);
        let dog = holds(&[Holding::BetweenCenters]);
        let rest = holds(&[Holding::ChuckAndRest]);
        plan.assumed.extend(Lengths::of(self.layout, self.shop).assumed(self.layout, chuck, dog, rest));
        let floor = if way.least { floor } else { minutes_of(certificate.lower_bound) };
        Ok((Planned { derived, plan, certificate, fewest_setups: None, beside: Vec::new(), begun: None }, floor))
    }
}

impl Given<'_> {
    /// Another order of the same cost in which what a cut found too much of is cut before it; none where there is none.
    fn sharpened(
        &self,
        derived: &Derived,
        plan: &Plan,
        certificate: &Certificate,
        restate: &dyn Fn(&Derived) -> order::Problem,
        limits: Limits,
    ) -> Option<Certificate> {
        let rates = Rates::of(self.facts, self.layout);
        let mut found = derived.clone();
        if !as_found(&rates, &mut found, plan) {
            return None;
        }
        let after = follow(derived);
        let place = |i: usize| certificate.order.iter().position(|(id, _)| *id == derived.operations[i].0.id);
        let mut tighter = derived.clone();
        for (i, (operation, _)) in derived.operations.iter().enumerate() {
            if (operation.minutes - found.operations[i].0.minutes).abs() < 1e-9 {
                continue;
            }
            for (j, (other, _)) in derived.operations.iter().enumerate() {
                let cuts = matches!(other.verb, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Taper);
                let late = cuts && j != i && !after[i][j] && place(j) > place(i);
                if late && (other.end == operation.end || other.end.is_none() || operation.end.is_none()) {
                    tighter.before.push((j, i, Why { rule: "", reason: String::new(), source: "" }));
                }
            }
        }
        let stated = restate(&tighter);
        let answer = order::solve(&stated, limits).ok()?;
        let answer = order::gentlest(&stated, answer, &harm(self.layout, &tighter), limits);
        (answer.proven_optimal && answer.cost == certificate.cost).then(|| Certificate {
            order: answer.order,
            gentlest: answer.gentlest,
            states: certificate.states + answer.states,
            ..certificate.clone()
        })
    }
}

fn minutes_of(m: order::Minutes) -> f64 {
    m.thousandths() as f64 / 1000.0
}

/// What setting a rest takes, where one is set.
fn rests(plan: &Plan) -> Option<Assumed> {
    let rests = plan.setups.iter().filter_map(|s| s.rest.as_ref());
    let (follows, steady): (Vec<_>, Vec<_>) = rests.partition(|r| r.follows);
    let value = match (steady.is_empty(), follows.is_empty()) {
        (true, true) => return None,
        (false, true) => told!(
            "setting a steady rest takes as long as a setup",
            "eine Lünette zu setzen dauert so lange wie eine Aufspannung"
        ),
        (true, false) => told!(
            "setting a follow rest takes half as long as a setup",
            "eine mitlaufende Lünette zu setzen dauert halb so lange wie eine Aufspannung"
        ),
        (false, false) => told!(
            "setting a steady rest takes as long as a setup, a follow rest half as long",
            "eine Lünette zu setzen dauert so lange wie eine Aufspannung, eine mitlaufende halb so lange"
        ),
    };
    Some(Assumed {
        what: told!("Rests", "Lünetten").to_owned(),
        value: value.to_owned(),
        source: "common practice, no source".to_owned(),
    })
}

/// Takes what each cut finds in a plan, as the order leaves the work to it; whether that changed any minutes.
fn as_found(rates: &Rates<'_>, derived: &mut Derived, plan: &Plan) -> bool {
    let mut changed = false;
    // A follow rest belongs to the plan that wants it.
    for mounting in &mut derived.mountings {
        let used = plan.setups.iter().find(|s| s.name == mounting.name);
        let wanted = used.and_then(|s| s.rest.as_ref()).filter(|r| r.follows);
        let known = mounting.rest.as_ref().filter(|r| r.follows);
        if used.is_some() && wanted.is_some() != known.is_some() {
            mounting.rest = wanted.cloned();
            changed = true;
        }
    }
    let mut slower: Vec<&Setup> = Vec::new();
    for (setup, found) in plan.operations() {
        changed |= derived.remember(found, &setup.name);
        let mounting = derived.mountings.iter().find(|m| m.name == setup.name);
        let known = derived.operations.iter_mut().find(|(o, _)| o.id == found.id);
        let Some(((known, _), mounting)) = known.zip(mounting) else { continue };
        (known.lighter, known.spring) = (found.lighter, found.spring);
        let minutes = rates.minutes_in(known, mounting);
        (known.lighter, known.spring) = (None, 0);
        if (minutes - found.minutes).abs() > 1e-9 {
            (known.from_diameter, known.travel) = (found.from_diameter, found.travel);
            known.minutes = rates.minutes(known);
            changed = true;
            slower.push(setup);
        }
    }
    // So does what keeps a mounting's cuts slow.
    for mounting in &mut derived.mountings {
        if let Some(used) = slower.iter().find(|s| s.name == mounting.name) {
            mounting.slow = used.slow;
        }
    }
    changed
}

/// The minutes of the cuts as they were eased.
fn again(rates: &Rates<'_>, plan: &mut Plan) {
    for setup in &mut plan.setups {
        let mut operations = std::mem::take(&mut setup.operations);
        for operation in operations.iter_mut().filter(|o| o.lighter.is_some() || o.spring > 0) {
            operation.minutes = rates.minutes_in(operation, setup);
        }
        setup.operations = operations;
    }
}

/// The order of an answer with the minutes its cuts really take: nothing is claimed of it but what it costs.
fn as_it_is(problem: order::Problem, found: &Certificate) -> Certificate {
    let cost = order::replay(&problem, &found.order).unwrap_or(found.cost);
    Certificate {
        problem,
        cost,
        lower_bound: found.lower_bound.min(cost),
        proven_optimal: false,
        optimal_orders: None,
        gentlest: false,
        ..found.clone()
    }
}

/// Each operation is told between which others it may stand.
fn room_to_move(derived: &Derived, plan: &mut Plan) {
    let mut bounds = bounds(derived, plan);
    for operation in plan.setups.iter_mut().flat_map(|s| &mut s.operations) {
        if let Some(Bounds { not_before, not_after }) = bounds.remove(&operation.id) {
            (operation.not_before, operation.not_after) = (not_before, not_after);
        }
    }
}

/// Searches; where no order keeps every rule, soft rules among those that clash give way one at a time.
fn search(
    layout: &Layout,
    derived: &mut Derived,
    restate: &dyn Fn(&Derived) -> order::Problem,
    limits: Limits,
) -> Result<(Certificate, Vec<Why>), NoPlan> {
    let mut given_way = Vec::new();
    loop {
        let problem = restate(derived);
        let refusal = match order::solve(&problem, limits) {
            Ok(answer) => {
                let answer = order::gentlest(&problem, answer, &harm(layout, derived), limits);
                return Ok((Certificate::new(problem, answer), given_way));
            }
            Err(refusal) => refusal,
        };
        let order::Refusal::Conflict { rules, .. } = &refusal else { return Err(no_plan(derived, &problem, &refusal)) };
        match rules.iter().find_map(|clash| drop_soft(derived, &problem, clash)) {
            Some(why) if !given_way.contains(&why) => given_way.push(why),
            Some(_) => {}
            None => {
                let few = smallest(derived, restate, limits);
                let stated = restate(&few);
                let refusal = order::solve(&stated, limits).err().unwrap_or(refusal);
                return Err(no_plan(&few, &stated, &refusal));
            }
        }
    }
}
