//! Whether any order exists at all, whatever it costs.
//!
//! With costs out of the way, whatever is possible and closes no way is done at once; only what ends a setup that is
//! still wanted, or holds the part where it is, is a choice.

use rustc_hash::FxHashSet;

use super::core::Core;
use super::found::Order;
use super::meter::Meter;
use super::moves::State;
use super::set::{Bits, Set};

/// Choices tried even when time is out, so that ordinary problems get an answer under any limit.
const AT_LEAST: usize = 2_000;

/// What is known about an order.
pub(super) enum Feasible {
    /// Here is one.
    Yes(Order),
    /// There is none.
    No,
    /// The limits came first.
    Unknown,
}

struct Trail<const W: usize> {
    state: State<W>,
    parent: usize,
    /// What was done on the way from the parent.
    way: Order,
}

/// Looks for any order, deepest first.
pub(super) fn feasible<const W: usize>(core: &Core<W>, meter: &Meter) -> Feasible {
    let mut trail = vec![Trail { state: State::START, parent: 0, way: Order::new() }];
    let mut seen = FxHashSet::default();
    let mut stack = vec![0];
    let mut tried = 0;
    while let Some(at) = stack.pop() {
        tried += 1;
        let over = trail.len() * (size_of::<Trail<W>>() + 64) > meter.bytes;
        if tried > AT_LEAST && (over || meter.out_of_time()) {
            return Feasible::Unknown;
        }
        let state = settle(core, trail[at].state, &mut trail[at].way);
        if state.done == core.all {
            return Feasible::Yes(retrace(&trail, at));
        }
        // Where the part may be moved, it does not matter where it is.
        let held = core.held(&state.done).next().is_some();
        if !seen.insert((state.done, if held { state.setup() } else { None })) {
            continue;
        }
        let open = core.open(&state);
        let ready: Vec<usize> = core.all.minus(&state.done).iter().filter(|&i| core.ready(i, &state.done)).collect();
        for &i in ready.iter().rev() {
            for s in Bits(core.ways(i, open, &state.done)) {
                let next = core.enter(&state, i, s).next;
                stack.push(trail.len());
                trail.push(Trail { state: next, parent: at, way: vec![(i, s)] });
            }
        }
    }
    Feasible::No
}

/// Does everything that is possible and closes no way.
fn settle<const W: usize>(core: &Core<W>, mut state: State<W>, way: &mut Order) -> State<W> {
    loop {
        let before: Set<W> = state.done;
        for i in core.all.minus(&before).iter() {
            if !core.ready(i, &state.done) || !core.harmless(i, &state.done) {
                continue;
            }
            if let Some(s) = Bits(core.ways(i, core.open(&state), &state.done)).next() {
                state = core.enter(&state, i, s).next;
                way.push((i, s));
            }
        }
        if state.done == before {
            return state;
        }
    }
}

fn retrace<const W: usize>(trail: &[Trail<W>], last: usize) -> Order {
    let mut legs = vec![last];
    while let Some(&at) = legs.last()
        && at != 0
    {
        legs.push(trail[at].parent);
    }
    legs.iter().rev().flat_map(|&at| trail[at].way.iter().copied()).collect()
}
