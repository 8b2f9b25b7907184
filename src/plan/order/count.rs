//! All best orders: the first of them by the listed order of operations, and how many there are.
//!
//! Here every state counts, closed or not, but only those on best orders are met, layer by layer.

use rustc_hash::FxHashMap;

use super::core::Core;
use super::finish::{Finish, OutOfLimits};
use super::found::Order;
use super::meter::table_bytes;
use super::moves::{Move, State};
use super::set::Bits;

/// The best order that does at each point the operation listed first, in the setup that operation lists first.
pub(super) fn first_listed<const W: usize>(core: &Core<W>, finish: &mut Finish<W>) -> Result<Order, OutOfLimits> {
    let mut by_list: Vec<usize> = (0..core.blocks.len()).collect();
    by_list.sort_by_key(|&i| core.blocks[i].members.first().copied());
    let (mut state, mut paid, mut order) = (State::START, 0, Order::new());
    while state.done != core.all {
        let open = core.open(&state);
        let ready = by_list.iter().filter(|&&i| core.ready(i, &state.done));
        let ways = ready.flat_map(|&i| {
            let usable = core.ways(i, open, &state.done);
            let setups = core.blocks[i].preferred.iter().filter(move |&s| usable >> s & 1 == 1);
            setups.map(move |&s| (i, s))
        });
        let mut chosen = None;
        for (i, s) in ways {
            let step = core.enter(&state, i, s);
            if on_best(finish, &step, paid)? {
                chosen = Some(step);
                break;
            }
        }
        // Only a state on a best order is ever entered, so there is always a way on.
        let step: Move<W> = chosen.ok_or(OutOfLimits)?;
        order.push((step.block, step.setup));
        paid += step.cost;
        state = step.next;
    }
    Ok(order)
}

/// How many there are, and the widest layer of states met in counting.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Tally {
    /// `None` past what 128 bits hold.
    pub(super) orders: Option<u128>,
    pub(super) states: usize,
    pub(super) widest: usize,
}

/// Counts the best orders.
pub(super) fn count<const W: usize>(core: &Core<W>, finish: &mut Finish<W>) -> Result<Tally, OutOfLimits> {
    let mut tally = Tally { orders: None, states: 1, widest: 1 };
    let mut layer = vec![(State::START, 0_u64, 1_u128)];
    for _ in 0..core.all.len() {
        let mut next: Vec<(State<W>, u64, u128)> = Vec::new();
        let mut index: FxHashMap<State<W>, usize> = FxHashMap::default();
        for &(state, paid, ways) in &layer {
            let open = core.open(&state);
            for i in core.all.minus(&state.done).iter().filter(|&i| core.ready(i, &state.done)) {
                for s in Bits(core.ways(i, open, &state.done)) {
                    let step = core.enter(&state, i, s);
                    if !on_best(finish, &step, paid)? {
                        continue;
                    }
                    let at = *index.entry(step.next).or_insert_with(|| {
                        next.push((step.next, paid + step.cost, 0));
                        next.len() - 1
                    });
                    // Every way so far goes on to the end, so there are at least as many in all.
                    let Some(sum) = next[at].2.checked_add(ways) else { return Ok(tally) };
                    next[at].2 = sum;
                }
            }
            finish.beside = table_bytes::<(State<W>, u64, u128)>(next.len(), next.capacity())
                + table_bytes::<(State<W>, usize)>(index.len(), index.capacity());
        }
        tally.states += next.len();
        tally.widest = tally.widest.max(next.len());
        layer = next;
    }
    tally.orders = layer.iter().try_fold(0_u128, |sum, (_, _, ways)| sum.checked_add(*ways));
    Ok(tally)
}

fn on_best<const W: usize>(finish: &mut Finish<W>, step: &Move<W>, paid: u64) -> Result<bool, OutOfLimits> {
    match finish.best.checked_sub(paid + step.cost) {
        Some(budget) => finish.fits(&step.next, budget),
        None => Ok(false),
    }
}
