//! The whole search: read, bound, find, prove, count.

use super::Minutes;
use super::beam::beam;
use super::best_first::Sweep;
use super::bound::Bound;
use super::conflict::conflict;
use super::core::Core;
use super::count::{Tally, count, first_listed};
use super::feasible::{Feasible, feasible};
use super::finish::Finish;
use super::found::{Found, Order};
use super::index::{Indexed, name_rule};
use super::meter::{Limits, Meter};
use super::problem::{Malformed, Problem, Rule};
use super::relations::Contradiction;

/// States within which a problem counts as easy, so that a wide beam is not worth its while.
const EASY: usize = 3_000;
/// Widths of the first beam and of the one for what is not easy, and the blocks up to which the first takes no time.
const NARROW: usize = 16;
const SHORT: usize = 128;
const WIDE: usize = 256;

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
    /// Whether it is known to grip with the least harm of those that cost the same: `gentlest` looks for that.
    pub gentlest: bool,
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
    let (sweep, bound) = best_order(&core, meter).map_err(|Contradiction| refuse())?;
    let states = sweep.states();
    let (lower, proven) = (sweep.lower, sweep.finished);
    let Some(best) = sweep.best.clone() else {
        return Err(if proven { refuse() } else { Refusal::Undecided });
    };
    let (order, tally) = if proven {
        let mut finish = Finish::new(&core, bound, sweep, *meter);
        settle(&core, &mut finish, best.order)
    } else {
        (best.order, Tally::default())
    };
    Ok(Answer {
        cost: Minutes::from_thousandths(core.base + best.cost),
        lower_bound: Minutes::from_thousandths(core.base + lower),
        proven_optimal: proven,
        optimal_orders: tally.orders,
        gentlest: false,
        states: states + tally.states,
        widest_layer: tally.widest,
        order: spell(problem, &core, &order),
    })
}

/// Finds the best order step by step, each dearer and stronger than the one before.
fn best_order<'a, const W: usize>(core: &'a Core<W>, meter: &Meter) -> Result<(Sweep<W>, Bound<'a, W>), Contradiction> {
    // Wide where that is cheap: the work grows with the width and the square of the number of blocks.
    let width = |most: usize| (2_000_000 / core.all.len().pow(2).max(1)).clamp(1, most);
    let short = core.all.len() <= SHORT;
    let mut best = None;
    if !short {
        best = any_order(core, meter)?;
    }
    let mut bound = Bound::new(core);
    // The first beam is not hurried where it is short anyway: an order worth having, and the same on every machine.
    let first = if short { meter.patient() } else { *meter };
    best = cheaper(best, beam(core, &mut bound, width(NARROW), &first));
    if best.is_none() {
        best = any_order(core, meter)?;
    }
    let sweep = Sweep::run(core, &mut bound, best, EASY, meter);
    if sweep.finished {
        return Ok((sweep, bound));
    }
    let (lower, best) = (sweep.lower, sweep.best);
    let wider = beam(core, &mut bound, width(WIDE), meter);
    let mut sweep = Sweep::run(core, &mut bound, cheaper(best, wider), usize::MAX, meter);
    sweep.lower = sweep.lower.max(lower);
    Ok((sweep, bound))
}

/// Some order, where the limits allow to find one.
fn any_order<const W: usize>(core: &Core<W>, meter: &Meter) -> Result<Option<Found>, Contradiction> {
    match feasible(core, meter) {
        Feasible::Yes(order) => Ok(Some(Found::price(core, order))),
        Feasible::No => Err(Contradiction),
        Feasible::Unknown => Ok(None),
    }
}

fn cheaper(a: Option<Found>, b: Option<Found>) -> Option<Found> {
    a.into_iter().chain(b).min_by_key(|found| found.cost)
}

/// The preferred one of the best orders, and their number; `found` where the limits come first.
fn settle<const W: usize>(core: &Core<W>, finish: &mut Finish<W>, found: Order) -> (Order, Tally) {
    let Ok(order) = first_listed(core, finish) else { return (found, Tally::default()) };
    let tally = count(core, finish).unwrap_or_default();
    (order, tally)
}

fn spell<const W: usize>(problem: &Problem, core: &Core<W>, order: &Order) -> Vec<(String, String)> {
    let members = |&(block, setup): &(usize, usize)| {
        let name = &problem.setups[setup].name;
        core.blocks[block].members.iter().map(move |&m| (problem.ops[m].id.clone(), name.clone()))
    };
    order.iter().flat_map(members).collect()
}
