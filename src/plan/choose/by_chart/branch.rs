//! Branch and bound over the ways to hold: the cheapest order, or the one of fewest setups, whose chart holds what is asked.
//!
//! A distance of the chart depends on the holdings its cuts are made in, on whether they are made without leaving a holding
//! between, and on the end that is faced first. A plan that misses a distance is excluded by taking just that way away; what is
//! left is searched again. The least of what is left is a lower bound for all below it, so the first plan taken up that misses
//! nothing is the best of all.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::super::Given;
use super::super::build::build;
use super::super::problem::problem;
use super::misses::{Miss, misses, places};
use crate::chain::{Chain, Profile};
use crate::model::plan::{Derived, Verb};
use crate::model::{End, Plan};
use crate::plan::cost::Rates;
use crate::plan::order::{self, Certificate, Cost, Limits, Minutes, Problem, Refusal};
use crate::plan::rules::because;

/// Most ways looked at in one search.
const MOST_WAYS: usize = 60;

/// What the search makes least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Count {
    Minutes,
    Setups,
}

/// Where plans come from, and how they are judged.
pub(super) struct Branching<'a> {
    pub(super) given: &'a Given<'a>,
    pub(super) faces: (&'a Chain, &'a Profile),
    pub(super) limits: &'a dyn Fn() -> Limits,
}

/// A way to hold with its best order.
#[derive(Debug, Clone)]
pub(super) struct Held {
    /// The derivation, what it may not do taken away.
    pub(super) derived: Derived,
    pub(super) certificate: Certificate,
    missed: Vec<Miss>,
}

/// How a search ended.
pub(super) enum Outcome {
    /// This one holds all that was asked, and none that does is less.
    Least(Box<Held>),
    /// All ways were tried, none holds it.
    None,
    /// Not all ways were tried.
    Unfinished,
}

impl Branching<'_> {
    /// The least of all ways from `root` that miss nothing that is `asked`.
    pub(super) fn least(&self, root: &Derived, count: Count, asked: &dyn Fn(&Miss) -> bool) -> Outcome {
        let mut ways: Vec<Held> = Vec::new();
        let mut queue = BinaryHeap::new();
        let mut next = vec![root.clone()];
        loop {
            for derived in next.drain(..) {
                match self.solve(derived, count) {
                    Ok(Some(way)) => {
                        queue.push(Reverse((way.certificate.cost, ways.len())));
                        ways.push(way);
                    }
                    Ok(None) => {}
                    Err(Unproven) => return Outcome::Unfinished,
                }
            }
            let Some(Reverse((_, at))) = queue.pop() else { return Outcome::None };
            let way = &ways[at];
            let Some(missed) = way.missed.iter().find(|m| asked(m)) else {
                return Outcome::Least(Box::new(way.clone()));
            };
            if ways.len() >= MOST_WAYS || (self.limits)().seconds <= 1 {
                return Outcome::Unfinished;
            }
            next = without(way, missed);
        }
    }

    /// The best order of a derivation and what its cuts miss; none where no order keeps the rules.
    fn solve(&self, derived: Derived, count: Count) -> Result<Option<Held>, Unproven> {
        let Given { part, layout, facts, .. } = *self.given;
        let stated = problem(part, &derived, &Rates::of(facts, layout), None);
        let stated = if count == Count::Setups { by_setups(stated) } else { stated };
        let answer = match order::solve(&stated, (self.limits)()) {
            Ok(answer) if answer.proven_optimal => answer,
            Err(Refusal::Conflict { .. }) => return Ok(None),
            _ => return Err(Unproven),
        };
        let certificate = Certificate::new(stated, answer);
        let plan = build(&facts, layout, &derived, &certificate, None);
        let missed = self.misses(&plan);
        Ok(Some(Held { derived, certificate, missed }))
    }

    /// What the cuts of a plan miss.
    pub(super) fn misses(&self, plan: &Plan) -> Vec<Miss> {
        misses(self.given, self.faces.0, self.faces.1, plan)
    }
}

/// The search ended without a proof.
struct Unproven;

/// The same problem where each setup counts one minute and all else next to nothing.
fn by_setups(mut problem: Problem) -> Problem {
    let one = Minutes::whole(1);
    for op in &mut problem.ops {
        op.cost = Cost::Same(Minutes::from_thousandths(1));
    }
    (problem.setup_first, problem.setup_change) = (Cost::Same(one), Cost::Same(one));
    (problem.tool_change, problem.tool_first) = (Minutes::ZERO, Minutes::ZERO);
    problem
}

/// Derivations that together leave out just the way in which `way` comes to miss a distance.
fn without(way: &Held, missed: &Miss) -> Vec<Derived> {
    let mut held = way.derived.clone();
    let mut list = Vec::new();
    let cuts = places(&held, missed);
    for i in cuts.iter().copied() {
        let Some(here) = mounting(way, i).filter(|_| held.operations[i].1.len() > 1) else { continue };
        let mut elsewhere = held.clone();
        elsewhere.operations[i].1.retain(|m| *m != here);
        list.push(elsewhere);
        held.operations[i].1 = vec![here];
    }
    // All its cuts are held as they were: what is left is not to leave a holding between them, or to face the other end first.
    list.extend(in_one_stay(&held, &cuts, missed));
    list.extend(other_end_first(&held, way));
    list
}

fn mounting(way: &Held, i: usize) -> Option<usize> {
    let id = &way.derived.operations[i].0.id;
    let (_, name) = way.certificate.order.iter().find(|(o, _)| o == id)?;
    way.derived.mountings.iter().position(|m| m.name == *name)
}

fn in_one_stay(held: &Derived, cuts: &[usize], missed: &Miss) -> Option<Derived> {
    let mut stay = held.clone();
    for (n, a) in cuts.iter().enumerate() {
        for b in &cuts[n + 1..] {
            let asked = held.together.iter().any(|(x, y, _)| (x, y) == (a, b) || (x, y) == (b, a));
            if a != b && !asked && held.operations[*a].1 == held.operations[*b].1 {
                stay.together.push((*a, *b, because("chart", missed.in_one_holding())));
            }
        }
    }
    (stay.together.len() > held.together.len()).then_some(stay)
}

fn other_end_first(held: &Derived, way: &Held) -> Option<Derived> {
    let face = |end: End| {
        let is = |o: &crate::model::plan::Operation| o.verb == Verb::Face && o.end == Some(end);
        held.operations.iter().position(|(o, _)| is(o))
    };
    let (a, b) = (face(End::Datum)?, face(End::Far)?);
    let at = |i: usize| way.certificate.order.iter().position(|(o, _)| *o == held.operations[i].0.id);
    let (first, second) = if at(a)? < at(b)? { (a, b) } else { (b, a) };
    if held.before.iter().any(|(x, y, _)| (*x, *y) == (first, second) || (*x, *y) == (second, first)) {
        return None;
    }
    let mut turned = held.clone();
    turned.before.push((
        second,
        first,
        because("chart", "this end is faced first: what is counted from it holds then"),
    ));
    Some(turned)
}
