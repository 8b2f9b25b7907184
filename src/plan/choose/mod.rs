//! The ordering problem of a part, its answer, and the plan made of it.

mod both_roughed;
mod build;
mod by_chart;
mod clash;
mod eased;
mod from_bar;
mod harm;
mod idle_center;
mod keeping_more;
mod other;
mod problem;
mod replan;
mod rest;
mod settle;
mod spots;
mod stiffness;
mod struck;
mod too_soft;
mod ways;
mod worth;

use std::time::{Duration, Instant};

use crate::chain::{Chain, Profile};
use crate::check::Facts;
use crate::model::part::Holding;
use crate::model::plan::{Derived, Setup, Why};
use crate::model::{Part, Plan, Rest, Shop};

use super::derive::{Layout, of_layout, on_centers};
use super::holding::OVERHANG_DIAMETERS;
use super::order::{Certificate, Limits};
use build::build;
use by_chart::answered;
use from_bar::{cheaper_from_the_bar, held_badly, parted};
use idle_center::without_idle_centers;
use keeping_more::keeping_more;
use replan::readings;
use rest::{begun, left, move_stops};
use too_soft::{told, too_soft};
use worth::switched_off;

/// A plan with what it follows from and the problem a second program can solve again.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Operations, mountings and rules.
    pub derived: Derived,
    /// The chosen order.
    pub plan: Plan,
    /// The ordering problem and its answer.
    pub certificate: Certificate,
    /// The same problem with setups counted alone, where the tolerance chart asked for the fewest.
    pub fewest_setups: Option<Certificate>,
    /// The problems of the other ways round that were searched ([`Plan::compared`]), with their answers.
    pub beside: Vec<Certificate>,
    /// What it is a rest of, where work has begun.
    pub begun: Option<Box<Started>>,
}

/// The plan of the whole that a rest is left of, and the faces the rest is worked to.
#[derive(Debug, Clone)]
pub struct Started {
    /// The plan that was being followed.
    pub whole: Plan,
    /// Faces and sections as drawn, which it was worked to.
    pub drawn: (Chain, Profile),
    /// Faces where they came out, or where the readings aim them.
    pub now: (Chain, Profile),
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
    /// More features than orders are worked for.
    TooMany {
        /// Features of the part.
        features: usize,
        /// How many there may be.
        most: usize,
    },
}

/// Features of a part that is planned. No part of a manual lathe comes near; the tolerance chart of more takes longer than a person waits.
const MOST_FEATURES: usize = 200;

/// Derives the operations of a part and finds the cheapest order that keeps every rule, within `seconds`.
///
/// # Errors
/// [`NoPlan`]: nothing to turn, rules that clash, no time, or more features than are planned.
pub fn plan(
    part: &Part,
    chain: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    seconds: u64,
) -> Result<Planned, NoPlan> {
    if part.features.len() > MOST_FEATURES {
        return Err(NoPlan::TooMany { features: part.features.len(), most: MOST_FEATURES });
    }
    if part.done.is_empty() {
        let start = Instant::now();
        let mut whole = plan_whole(part, chain, profile, shop, seconds)?;
        let left = seconds.saturating_sub(start.elapsed().as_secs());
        whole.plan.remarks.extend(switched_off(part, chain, profile, shop, &whole, left));
        return Ok(whole);
    }
    // The numbers that are done are those of the sheet, which was worked before anything was measured.
    let drawn = crate::chain::locate(part);
    let sections = Profile::of(part, &drawn);
    let start = Instant::now();
    let whole = plan_whole(part, &drawn, &sections, shop, seconds)?;
    plan_rest(part, (drawn, sections), &whole, shop, seconds.saturating_sub(start.elapsed().as_secs()).max(1))
}

/// What is left of a plan, when some of it is done.
fn plan_rest(
    part: &Part,
    drawn: (Chain, Profile),
    whole: &Planned,
    shop: Option<&Shop>,
    seconds: u64,
) -> Result<Planned, NoPlan> {
    let read = readings(part, (&drawn.0, &drawn.1), &whole.plan, shop);
    let chain = drawn.0.with_faces_at(&read.moved, read.overall);
    let profile = Profile::of(part, &chain);
    let layout = Layout::of(part, &chain, &profile).ok_or(NoPlan::NothingToTurn)?;
    let layout = parted(&whole.plan).map_or_else(|| layout.clone(), |end| layout.parted_from(end));
    let facts = Facts { part, slips: &[], chain: &chain, profile: &profile, shop, derived: None, plan: None };
    let given = Given { part, layout: &layout, shop, facts };
    let mut begun = begun(part, whole, &read);
    let mut rest = if begun.done.is_empty() && begun.again.is_empty() {
        let mut same = whole.clone();
        same.plan.remarks.extend(begun.remarks);
        same
    } else {
        let mut derived = left(whole, &mut begun);
        move_stops(&mut derived, &drawn.0, &read.moved);
        let until = Instant::now().checked_add(Duration::from_secs(seconds));
        given.plan_from(derived, Limits { seconds, until, ..Limits::default() }, Some(&begun))?
    };
    let centers = begun.done.iter().filter(|(o, _)| o.is_true_center()).filter_map(|(o, _)| o.end).collect();
    rest.plan.rest = Some(Rest { centered: centers, ..read.rest });
    rest.begun = Some(Box::new(Started { whole: whole.plan.clone(), drawn, now: (chain, profile) }));
    Ok(rest)
}

/// Derives the operations of a part of which nothing is done, and searches.
fn plan_whole(
    part: &Part,
    chain: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    seconds: u64,
) -> Result<Planned, NoPlan> {
    let layout = Layout::of(part, chain, profile).ok_or(NoPlan::NothingToTurn)?;
    let facts = Facts { part, slips: &[], chain, profile, shop, derived: None, plan: None };
    let given = Given { part, layout: &layout, shop, facts };
    // All searches together take the time that was given, each at least a second of it.
    let start = Instant::now();
    let until = start.checked_add(Duration::from_secs(seconds.max(1)));
    let left =
        || Limits { seconds: seconds.saturating_sub(start.elapsed().as_secs()).max(1), until, ..Limits::default() };
    let usual = of_layout(part, chain, &layout, shop);
    // Held well by the usual holdings; else with a center at each end; else as well as it goes.
    let mut ways = given.well_held(&usual, &left);
    if ways.is_empty() {
        ways.push(usual.clone());
    }
    let carried = || {
        let carried = on_centers(part, chain, &layout, shop)?;
        let mut ways = given.well_held(&carried, &left);
        ways.push(carried);
        Some(ways)
    };
    let ways = ways.into_iter().chain(std::iter::once_with(carried).flatten().flatten()).chain([usual]);
    let mut best: Option<(usize, Planned)> = None;
    let mut refusal = None;
    let mut soft = Vec::new();
    for mut derived in ways {
        derived.too_soft.clone_from(&soft);
        match given.plan(derived, left()) {
            Ok(planned) => {
                let overhang = planned.plan.setups.iter().filter(|s| overhangs(s)).count();
                let faults = overhang + too_soft(&given.facts, &planned.plan).len();
                let proven = planned.certificate.proven_optimal;
                soft.extend(told(&given.facts, &planned.plan));
                if best.as_ref().is_none_or(|(fewest, _)| faults < *fewest) {
                    best = Some((faults, planned));
                }
                // A search that took all its time is not begun again.
                if faults == 0 || !proven {
                    break;
                }
            }
            Err(why) => {
                let late = why == NoPlan::OutOfTime;
                refusal = refusal.or(Some(why));
                if late {
                    break;
                }
            }
        }
    }
    let best = best.map(|(_, whole)| keeping_more(&given, chain, whole, &left));
    let late = best.as_ref().is_some_and(|b| !b.certificate.proven_optimal) || refusal == Some(NoPlan::OutOfTime);
    let cut_from_bar = if late { None } else { cheaper_from_the_bar(&given, chain, best.as_ref(), &left) };
    let (layout, whole) = match (cut_from_bar, best) {
        (Some((layout, whole)), _) => (layout, whole),
        (None, Some(whole)) => (layout.clone(), whole),
        (None, None) => return Err(refusal.unwrap_or(NoPlan::NothingToTurn)),
    };
    let given = Given { layout: &layout, ..given };
    let proven = whole.certificate.proven_optimal;
    let mut whole = if proven { answered(&given, (chain, profile), whole, &left) } else { whole };
    whole.plan.remarks.extend(held_badly(&given, &whole.plan));
    whole.plan.remarks.extend(given.told_between(&whole));
    whole.plan.remarks.extend(both_roughed::remark(&given, &whole.plan));
    Ok(whole)
}

/// Adds to a plan the cheapest plans that do without one of its holdings, the cheapest first ([`Plan::others`]), or why none is told
/// ([`Plan::no_second`]). `mountings` are those of the derivation.
pub fn without_each_holding(certificate: &Certificate, beside: &[Certificate], mountings: &[Setup], plan: &mut Plan) {
    other::without_each(certificate, beside, mountings, plan);
}

/// The plan that another order of the same problem makes: operations and holdings by their names in the certificate. None where
/// the part is cut from the bar and parted off, or nothing is to be turned.
pub fn in_order(
    part: &Part,
    (chain, profile): (&Chain, &Profile),
    shop: Option<&Shop>,
    planned: &Planned,
    order: &[(String, String)],
) -> Option<Plan> {
    let layout = Layout::of(part, chain, profile).filter(|_| parted(&planned.plan).is_none())?;
    let certificate = Certificate { order: order.to_vec(), ..planned.certificate.clone() };
    let facts = Facts { part, slips: &[], chain, profile, shop, derived: None, plan: None };
    Some(build(&facts, &layout, &planned.derived, &certificate, None))
}

/// What a plan is made from.
struct Given<'a> {
    part: &'a Part,
    layout: &'a Layout,
    shop: Option<&'a Shop>,
    facts: Facts<'a>,
}

impl Given<'_> {
    /// Searches one derivation and builds its plan.
    fn plan(&self, derived: Derived, limits: Limits) -> Result<Planned, NoPlan> {
        let planned = self.held_stiffly(self.plan_from(derived, limits, None)?, limits);
        let soft = too_soft(&self.facts, &planned.plan).len();
        let fewer =
            planned.certificate.proven_optimal.then(|| without_idle_centers(&planned.derived, &planned.plan)).flatten();
        let without = fewer.and_then(|fewer| self.plan_from(fewer, limits, None).ok());
        let better = |w: &Planned| w.plan.cost <= planned.plan.cost && too_soft(&self.facts, &w.plan).len() <= soft;
        let planned = without.filter(better).unwrap_or(planned);
        Ok(self.on_true_spots(planned, limits))
    }
}

/// Stands too far out of the jaws without a center.
fn overhangs(setup: &Setup) -> bool {
    let most = setup.grip.as_ref().map(|g| g.diameter.times(OVERHANG_DIAMETERS));
    setup.holding == Holding::Chuck
        && !setup.only_parts()
        && setup.stick_out.zip(most).is_some_and(|(out, most)| out > most)
}
