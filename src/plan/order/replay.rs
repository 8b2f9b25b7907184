//! A second look at an answer: every rule read straight from the problem's names, every cost added up again.
//!
//! It shares nothing with the search but the problem itself, so a slip there shows here.

use std::collections::BTreeMap;

use super::Minutes;
use super::problem::{Cost, Problem, Rule};

/// The first thing wrong with an order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Violation {
    /// The order names an operation that the problem does not list.
    UnknownOp(String),
    /// The operation comes twice.
    Repeated(String),
    /// The operation does not come at all.
    Missing(String),
    /// The operation cannot be done in this setup: operation, setup.
    WrongSetup(String, String),
    /// The first comes before the second against `precedences`.
    Precedence(String, String),
    /// The second does not come right after the first in the same mounting.
    Adjacent(String, String),
    /// There is a setup change between the two.
    SameSetup(String, String),
    /// The setup is used before this operation is done: setup, operation.
    SetupNeeds(String, String),
    /// The setup is used after this operation has ended it: setup, operation.
    SetupEnds(String, String),
    /// The first operation is done in this setup before the second: setup, the two.
    SetupGate(String, String, String),
    /// The problem gives no cost: field, name.
    NoCost(&'static str, String),
}

impl Violation {
    /// The rule of the problem that is broken; none where the order is no order of this problem at all.
    pub fn rule(&self) -> Option<Rule> {
        Some(match self {
            Self::Precedence(a, b) => Rule::Precedence(a.clone(), b.clone()),
            Self::Adjacent(a, b) => Rule::Adjacent(a.clone(), b.clone()),
            Self::SameSetup(a, b) => Rule::SameSetup(a.clone(), b.clone()),
            Self::SetupNeeds(setup, op) => Rule::SetupNeeds(setup.clone(), op.clone()),
            Self::SetupEnds(setup, op) => Rule::SetupEnds(setup.clone(), op.clone()),
            Self::SetupGate(setup, op, first) => Rule::SetupGate(setup.clone(), op.clone(), first.clone()),
            _ => return None,
        })
    }
}

/// Checks an order of (operation, setup) against every rule and adds up its cost.
///
/// # Errors
/// The first [`Violation`] met.
pub fn replay(problem: &Problem, order: &[(String, String)]) -> Result<Minutes, Violation> {
    let place = places(problem, order)?;
    match broken(problem, order, &place).into_iter().next() {
        Some(violation) => Err(violation),
        None => total(problem, order, &place),
    }
}

/// Everything that is wrong with an order: what makes it no order of this problem, alone, or else every rule it breaks.
pub fn violations(problem: &Problem, order: &[(String, String)]) -> Vec<Violation> {
    match places(problem, order) {
        Ok(place) => broken(problem, order, &place),
        Err(violation) => vec![violation],
    }
}

/// Every rule that an order breaks.
fn broken(problem: &Problem, order: &[(String, String)], place: &BTreeMap<&str, usize>) -> Vec<Violation> {
    let mountings = mountings(order);
    let at = |id: &String| place.get(id.as_str()).copied();
    let mut list = Vec::new();
    // A rule about an operation that is not listed is broken by that.
    let mut pair = |a: &String, b: &String, kept: &dyn Fn(usize, usize) -> bool, breaks: Violation| match (at(a), at(b))
    {
        (Some(x), Some(y)) if kept(x, y) => {}
        (Some(_), Some(_)) => list.push(breaks),
        (None, _) => list.push(Violation::UnknownOp(a.clone())),
        (_, None) => list.push(Violation::UnknownOp(b.clone())),
    };
    for (a, b) in &problem.precedences {
        pair(a, b, &|x, y| x < y, Violation::Precedence(a.clone(), b.clone()));
    }
    for (a, b) in &problem.adjacent {
        let right_after = |x: usize, y: usize| x + 1 == y && mountings[x] == mountings[y];
        pair(a, b, &right_after, Violation::Adjacent(a.clone(), b.clone()));
    }
    for (a, b) in &problem.same_setup {
        pair(a, b, &|x, y| mountings[x] == mountings[y], Violation::SameSetup(a.clone(), b.clone()));
    }
    for (setup, gates) in &problem.setup_gates {
        for (op, first) in gates {
            let kept = |x: usize, y: usize| order[x].1 != *setup || y < x;
            pair(op, first, &kept, Violation::SetupGate(setup.clone(), op.clone(), first.clone()));
        }
    }
    for (setup, needed) in &problem.setup_needs {
        let first = order.iter().position(|(_, s)| s == setup);
        let late = |op: &&String| first.is_some_and(|first| at(op).is_none_or(|p| p >= first));
        list.extend(needed.iter().filter(late).map(|op| Violation::SetupNeeds(setup.clone(), op.clone())));
    }
    for (setup, enders) in &problem.setup_ends {
        let last = order.iter().rposition(|(_, s)| s == setup);
        let early = |op: &&String| last.is_some_and(|last| at(op).is_some_and(|p| p < last));
        list.extend(enders.iter().filter(early).map(|op| Violation::SetupEnds(setup.clone(), op.clone())));
    }
    list
}

/// Where each operation comes, once each is known to come once and in a setup of its own list.
fn places<'a>(problem: &Problem, order: &'a [(String, String)]) -> Result<BTreeMap<&'a str, usize>, Violation> {
    let mut place = BTreeMap::new();
    for (position, (id, setup)) in order.iter().enumerate() {
        let Some(op) = problem.ops.iter().find(|op| op.id == *id) else {
            return Err(Violation::UnknownOp(id.clone()));
        };
        if !op.setups.contains(setup) {
            return Err(Violation::WrongSetup(id.clone(), setup.clone()));
        }
        if place.insert(id.as_str(), position).is_some() {
            return Err(Violation::Repeated(id.clone()));
        }
    }
    match problem.ops.iter().find(|op| !place.contains_key(op.id.as_str())) {
        Some(op) => Err(Violation::Missing(op.id.clone())),
        None => Ok(place),
    }
}

/// The number of the mounting each position is in, counting from 0.
fn mountings(order: &[(String, String)]) -> Vec<usize> {
    let mut number = 0;
    let mut numbers = Vec::with_capacity(order.len());
    for (position, (_, setup)) in order.iter().enumerate() {
        if position > 0 && order[position - 1].1 != *setup {
            number += 1;
        }
        numbers.push(number);
    }
    numbers
}

fn total(problem: &Problem, order: &[(String, String)], place: &BTreeMap<&str, usize>) -> Result<Minutes, Violation> {
    let mut by_position: Vec<_> = problem.ops.iter().collect();
    by_position.sort_by_key(|op| place.get(op.id.as_str()));
    let mut sum = 0_u64;
    let mut add = |time: Minutes| sum = sum.saturating_add(time.thousandths());
    for (position, (op, (_, setup))) in by_position.iter().zip(order).enumerate() {
        add(price(&op.cost, setup, "cost")?);
        let Some(before) = position.checked_sub(1) else {
            add(price(&problem.setup_first, setup, "setup_first")?);
            add(problem.tool_first);
            continue;
        };
        let from = &order[before].1;
        let moved = from != setup;
        if moved {
            add(price(&problem.setup_change, &format!("{from}>{setup}"), "setup_change")?);
        }
        if by_position[before].tool != op.tool || (moved && !problem.tool_kept_over_setup) {
            add(problem.tool_change);
        }
    }
    Ok(Minutes::from_thousandths(sum))
}

fn price(cost: &Cost, name: &str, field: &'static str) -> Result<Minutes, Violation> {
    match cost {
        Cost::Same(time) => Ok(*time),
        Cost::Each(table) => {
            table.get(name).or_else(|| table.get("*")).copied().ok_or_else(|| Violation::NoCost(field, name.to_owned()))
        }
    }
}
