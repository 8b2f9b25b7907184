//! The ordering problem of a part, its answer, and the plan made of it.

mod build;
mod clash;
mod problem;

use crate::chain::{Chain, Profile};
use crate::model::part::Holding;
use crate::model::plan::{Derived, Why};
use crate::model::{Part, Plan, Shop};

use super::cost::Rates;
use super::derive::{Layout, of_layout};
use super::holding::Lengths;
use super::order::{self, Certificate, Limits};
use build::build;
use clash::{drop_soft, no_plan};
use problem::problem;

/// A plan with what it follows from and the problem a second program can solve again.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Operations, mountings and rules.
    pub derived: Derived,
    /// The chosen order.
    pub plan: Plan,
    /// The ordering problem and its answer.
    pub certificate: Certificate,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// The part has no known length or no section that can be turned.
    NothingToTurn,
    /// Rules and wishes leave no order; those that clash, with their reasons.
    Clash(Vec<Why>),
    /// The time allowed was over before any order was found.
    OutOfTime,
}

/// Derives the operations of a part and finds the cheapest order that keeps every rule, within `seconds`.
///
/// # Errors
/// [`NoPlan`]: nothing to turn, rules that clash, or no time.
pub fn plan(
    part: &Part,
    chain: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    seconds: u64,
) -> Result<Planned, NoPlan> {
    let layout = Layout::of(part, chain, profile).ok_or(NoPlan::NothingToTurn)?;
    let mut derived = of_layout(part, chain, &layout, shop);
    let rates = Rates::of(part, shop);
    let limits = Limits { seconds, ..Limits::default() };
    let (certificate, given_way) = search(part, &mut derived, &rates, limits)?;
    let mut plan = build(part, &layout, &derived, shop, &certificate);
    plan.given_way = given_way;
    plan.assumed.clone_from(&derived.assumed);
    plan.assumed.extend(rates.assumed());
    let holds = |h: &[Holding]| plan.setups.iter().any(|s| h.contains(&s.holding));
    let chuck = holds(&[Holding::Chuck, Holding::ChuckAndCenter]);
    let dog = holds(&[Holding::BetweenCenters]);
    plan.assumed.extend(Lengths::of(&layout, shop).assumed(chuck, dog));
    Ok(Planned { derived, plan, certificate })
}

/// Searches; where no order keeps every rule, soft rules among those that clash give way one at a time.
fn search(
    part: &Part,
    derived: &mut Derived,
    rates: &Rates,
    limits: Limits,
) -> Result<(Certificate, Vec<Why>), NoPlan> {
    let mut given_way = Vec::new();
    loop {
        let problem = problem(part, derived, rates);
        let refusal = match order::solve(&problem, limits) {
            Ok(answer) => return Ok((Certificate::new(problem, answer), given_way)),
            Err(refusal) => refusal,
        };
        let order::Refusal::Conflict { rules, .. } = &refusal else { return Err(no_plan(derived, &problem, &refusal)) };
        match rules.iter().find_map(|clash| drop_soft(derived, &problem, clash)) {
            Some(why) if !given_way.contains(&why) => given_way.push(why),
            Some(_) => {}
            None => return Err(no_plan(derived, &problem, &refusal)),
        }
    }
}
