//! The whole search: read, bound, find, prove, count.

use super::Minutes;
use super::beam::{Path, beam};
use super::best_first::Sweep;
use super::bound::Bound;
use super::conflict::conflict;
use super::core::Core;
use super::count::{Order, Tally, count, first_listed};
use super::feasible::{Feasible, feasible};
use super::finish::Finish;
use super::index::{Indexed, name_rule};
use super::meter::{Limits, Meter};
use super::moves::State;
use super::problem::{Malformed, Problem, Rule};
use super::relations::Contradiction;

/// Most operations the search takes.
pub const MOST_OPS: usize = 64 * 64;

/// The best order found and what is proved about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// Operation id and setup name, in the order done. Among equally good orders the one that follows the listed
    /// order of operations most closely: at each point the operation listed first.
    pub order: Vec<(String, String)>,
    /// What the order costs.
    pub cost: Minutes,
    /// No order costs less.
    pub lower_bound: Minutes,
    /// Whether `cost` is proved to be the least.
    pub proven_optimal: bool,
    /// How many sequences of (operation, setup) have the least cost; `None` when not known.
    pub optimal_orders: Option<u128>,
    /// States looked at.
    pub states: usize,
    /// Most states on best orders after the same number of operations; 0 when not counted.
    pub widest_layer: usize,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// The problem cannot be read.
    Malformed(Malformed),
    /// No order keeps all rules.
    Conflict {
        /// Rules that cannot all be kept.
        rules: Vec<Rule>,
        /// Whether dropping any one of them would leave an order; false when the limits came first.
        minimal: bool,
    },
    /// The limits came before any order was found or shown to be impossible.
    Undecided,
}

/// Finds the cheapest order of operations and proves it, or the best that the limits allow.
///
/// # Errors
/// [`Refusal`]: a problem that contradicts itself, names what it does not list, or is beyond the limits altogether.
pub fn solve(problem: &Problem, limits: Limits) -> Result<Answer, Refusal> {
    let indexed = Indexed::read(problem).map_err(Refusal::Malformed)?;
    let meter = Meter::start(limits);
    match indexed.ops.len() {
        0..=64 => search::<1>(problem, &indexed, &meter),
        65..=128 => search::<2>(problem, &indexed, &meter),
        129..=256 => search::<4>(problem, &indexed, &meter),
        257..=1024 => search::<16>(problem, &indexed, &meter),
        1025..=MOST_OPS => search::<64>(problem, &indexed, &meter),
        _ => Err(Refusal::Malformed(Malformed::TooMany("operations", MOST_OPS))),
    }
}

fn search<const W: usize>(problem: &Problem, indexed: &Indexed, meter: &Meter) -> Result<Answer, Refusal> {
    let refuse = || {
        let found = conflict::<W>(indexed, meter);
        let rules = found.links.iter().map(|&link| name_rule(problem, link)).collect();
        Refusal::Conflict { rules, minimal: found.minimal }
    };
    let core = Core::<W>::prepare(indexed, &indexed.links).map_err(|Contradiction| refuse())?;
    let mut bound = Bound::new(&core);
    // Wide where that is cheap: the work grows with the width and the square of the number of blocks.
    let width = (2_000_000 / core.blocks.len().pow(2).max(1)).clamp(1, 256);
    let mut best = beam(&core, &mut bound, width, meter);
    let mut fallback = None;
    if best.is_none() {
        match feasible(&core, meter) {
            Feasible::Yes(order) => fallback = Some(order),
            Feasible::No => return Err(refuse()),
            Feasible::Unknown => {}
        }
        best = fallback.as_ref().map(|order| Path { cost: cost(&core, order), moves: Vec::new() });
    }
    let sweep = Sweep::run(&core, &mut bound, best, meter);
    let (order, tally) = match &sweep.best {
        None if sweep.finished => return Err(refuse()),
        None => return Err(Refusal::Undecided),
        Some(path) => {
            let found = match fallback {
                Some(order) if path.moves.is_empty() => order,
                _ => unfold(&core, path),
            };
            if sweep.finished { settle(&core, &mut bound, &sweep, meter, found) } else { (found, Tally::default()) }
        }
    };
    let tool_free = Minutes::from_thousandths;
    Ok(Answer {
        cost: tool_free(core.base + cost(&core, &order)),
        lower_bound: tool_free(core.base + sweep.lower),
        proven_optimal: sweep.finished,
        optimal_orders: tally.orders,
        states: sweep.states() + tally.states,
        widest_layer: tally.widest,
        order: spell(problem, &core, &order),
    })
}

/// The preferred one of the best orders, and their number; `found` where the limits come first.
fn settle<'a, const W: usize>(
    core: &'a Core<W>,
    bound: &mut Bound<'a, W>,
    sweep: &Sweep<W>,
    meter: &Meter,
    found: Order,
) -> (Order, Tally) {
    let mut finish = Finish::new(core, bound, sweep, meter, sweep.lower);
    let Ok(order) = first_listed(core, &mut finish) else { return (found, Tally::default()) };
    let tally = count(core, &mut finish, meter.bytes).unwrap_or_default();
    (order, tally)
}

/// The moves with all that is done freely between them.
fn unfold<const W: usize>(core: &Core<W>, path: &Path) -> Order {
    let mut order = Order::new();
    let mut state = State::START;
    for &(block, setup) in &path.moves {
        order.push((block, setup));
        state = core.close(core.enter(&state, block, setup).next, |i| order.push((i, setup)));
    }
    order
}

fn cost<const W: usize>(core: &Core<W>, order: &Order) -> u64 {
    let mut state = State::START;
    let mut sum = 0;
    for &(block, setup) in order {
        let step = core.enter(&state, block, setup);
        sum += step.cost;
        state = step.next;
    }
    sum
}

fn spell<const W: usize>(problem: &Problem, core: &Core<W>, order: &Order) -> Vec<(String, String)> {
    let members = |&(block, setup): &(usize, usize)| {
        let name = &problem.setups[setup].name;
        core.blocks[block].members.iter().map(move |&m| (problem.ops[m].id.clone(), name.clone()))
    };
    order.iter().flat_map(members).collect()
}
