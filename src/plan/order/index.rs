//! Names to numbers: a [`Problem`] checked and indexed, its rules still one by one.

use std::collections::{BTreeMap, BTreeSet};

use super::problem::{Cost, Malformed, Problem, Rule};
use super::{Minutes, set::Bits};

/// Setups are a mask in one word.
pub(super) const MOST_SETUPS: usize = 128;

/// A rule between numbered operations (and setups).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Link {
    Before(usize, usize),
    Adjacent(usize, usize),
    Together(usize, usize),
    /// setup, operation
    Needs(usize, usize),
    /// setup, operation
    Ends(usize, usize),
    /// setup, operation that waits there, operation it waits for
    Gate(usize, usize, usize),
}

/// One operation: cost in thousandths for each setup it may be done in.
#[derive(Debug, Clone)]
pub(super) struct Choice {
    /// In the order preferred.
    pub(super) setups: Vec<usize>,
    pub(super) mask: u128,
    /// By setup number; meaningless outside `mask`.
    pub(super) cost: Vec<u64>,
    pub(super) tool: usize,
}

/// The whole problem by numbers.
#[derive(Debug, Clone)]
pub(super) struct Indexed {
    pub(super) ops: Vec<Choice>,
    pub(super) links: Vec<Link>,
    pub(super) setups: usize,
    pub(super) tools: usize,
    /// `from * setups + to`
    pub(super) change: Vec<u64>,
    pub(super) first: Vec<u64>,
    pub(super) tool_change: u64,
    pub(super) tool_first: u64,
    pub(super) tool_kept: bool,
}

type Names<'a> = BTreeMap<&'a str, usize>;

impl Indexed {
    pub(super) fn read(problem: &Problem) -> Result<Self, Malformed> {
        let setup_names = number(problem.setups.iter().map(|s| s.name.as_str())).map_err(Malformed::SetupTwice)?;
        let op_names = number(problem.ops.iter().map(|o| o.id.as_str())).map_err(Malformed::OpTwice)?;
        let setups = setup_names.len();
        if setups > MOST_SETUPS {
            return Err(Malformed::TooMany("setups", MOST_SETUPS));
        }
        let tool_change = bounded(problem.tool_change, "tool_change")?;
        let mut tools = Names::new();
        let mut ops = Vec::with_capacity(problem.ops.len());
        for op in &problem.ops {
            let fresh = tools.len();
            // Tools that cost nothing to change need not be told apart.
            let tool = if tool_change == 0 { 0 } else { *tools.entry(&op.tool).or_insert(fresh) };
            let mut wanted = Vec::new();
            for name in &op.setups {
                let s = look_up(&setup_names, name, Malformed::UnknownSetup)?;
                if !wanted.contains(&s) {
                    wanted.push(s);
                }
            }
            if wanted.is_empty() {
                return Err(Malformed::NoSetup(op.id.clone()));
            }
            known_setups(&op.cost, &setup_names)?;
            let mask = wanted.iter().fold(0_u128, |m, &s| m | 1 << s);
            let mut cost = vec![0; setups];
            for s in Bits(mask) {
                cost[s] = price(&op.cost, &problem.setups[s].name, "cost")?;
            }
            ops.push(Choice { setups: wanted, mask, cost, tool });
        }
        known_setups(&problem.setup_first, &setup_names)?;
        let first = problem
            .setups
            .iter()
            .map(|s| price(&problem.setup_first, &s.name, "setup_first"))
            .collect::<Result<_, _>>()?;
        Ok(Self {
            ops,
            links: links(problem, &op_names, &setup_names)?,
            setups,
            tools: tools.len().max(1),
            change: changes(problem)?,
            first,
            tool_change,
            tool_first: bounded(problem.tool_first, "tool_first")?,
            tool_kept: problem.tool_kept_over_setup,
        })
    }
}

/// The rule again with its names.
pub(super) fn name_rule(problem: &Problem, link: Link) -> Rule {
    let op = |i: usize| problem.ops[i].id.clone();
    let setup = |s: usize| problem.setups[s].name.clone();
    match link {
        Link::Before(a, b) => Rule::Precedence(op(a), op(b)),
        Link::Adjacent(a, b) => Rule::Adjacent(op(a), op(b)),
        Link::Together(a, b) => Rule::SameSetup(op(a), op(b)),
        Link::Needs(s, a) => Rule::SetupNeeds(setup(s), op(a)),
        Link::Ends(s, a) => Rule::SetupEnds(setup(s), op(a)),
        Link::Gate(s, a, b) => Rule::SetupGate(setup(s), op(a), op(b)),
    }
}

fn number<'a>(names: impl Iterator<Item = &'a str>) -> Result<Names<'a>, String> {
    let mut numbers = Names::new();
    for (i, name) in names.enumerate() {
        if numbers.insert(name, i).is_some() {
            return Err(name.to_owned());
        }
    }
    Ok(numbers)
}

fn look_up(names: &Names, name: &str, error: fn(String) -> Malformed) -> Result<usize, Malformed> {
    names.get(name).copied().ok_or_else(|| error(name.to_owned()))
}

fn bounded(time: Minutes, field: &'static str) -> Result<u64, Malformed> {
    if time > Minutes::MOST { Err(Malformed::CostTooLarge(field)) } else { Ok(time.thousandths()) }
}

fn price(cost: &Cost, name: &str, field: &'static str) -> Result<u64, Malformed> {
    let time = match cost {
        Cost::Same(time) => *time,
        Cost::Each(table) => {
            *table.get(name).or_else(|| table.get("*")).ok_or_else(|| Malformed::NoCost(field, name.to_owned()))?
        }
    };
    bounded(time, field)
}

fn known_setups(cost: &Cost, setups: &Names) -> Result<(), Malformed> {
    let Cost::Each(table) = cost else { return Ok(()) };
    match table.keys().find(|name| *name != "*" && !setups.contains_key(name.as_str())) {
        Some(name) => Err(Malformed::UnknownSetup(name.clone())),
        None => Ok(()),
    }
}

fn changes(problem: &Problem) -> Result<Vec<u64>, Malformed> {
    let mut costs = Vec::with_capacity(problem.setups.len().pow(2));
    let mut pairs = BTreeSet::from(["*".to_owned()]);
    for from in &problem.setups {
        for to in &problem.setups {
            let name = format!("{}>{}", from.name, to.name);
            let stay = from.name == to.name;
            costs.push(if stay { 0 } else { price(&problem.setup_change, &name, "setup_change")? });
            pairs.insert(name);
        }
    }
    if let Cost::Each(table) = &problem.setup_change
        && let Some(stray) = table.keys().find(|name| !pairs.contains(*name))
    {
        return Err(Malformed::UnknownSetup(stray.clone()));
    }
    Ok(costs)
}

fn links(problem: &Problem, ops: &Names, setups: &Names) -> Result<Vec<Link>, Malformed> {
    let op = |name: &str| look_up(ops, name, Malformed::UnknownOp);
    let mut links = Vec::new();
    for (a, b) in &problem.precedences {
        links.push(Link::Before(op(a)?, op(b)?));
    }
    for (a, b) in &problem.adjacent {
        links.push(Link::Adjacent(op(a)?, op(b)?));
    }
    for (a, b) in &problem.same_setup {
        links.push(Link::Together(op(a)?, op(b)?));
    }
    let needs = problem.setup_needs.iter().map(|entry| (entry, true));
    let ends = problem.setup_ends.iter().map(|entry| (entry, false));
    for ((name, listed), needed) in needs.chain(ends) {
        let s = look_up(setups, name, Malformed::UnknownSetup)?;
        for a in listed {
            links.push(if needed { Link::Needs(s, op(a)?) } else { Link::Ends(s, op(a)?) });
        }
    }
    for (name, listed) in &problem.setup_gates {
        let s = look_up(setups, name, Malformed::UnknownSetup)?;
        for (a, b) in listed {
            links.push(Link::Gate(s, op(a)?, op(b)?));
        }
    }
    Ok(links)
}
