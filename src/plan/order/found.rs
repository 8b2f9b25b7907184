//! A complete order and what it costs.

use super::core::Core;
use super::moves::State;

/// Block and setup, one after the other.
pub(super) type Order = Vec<(usize, usize)>;

/// An order and its cost above `Core::base`.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) cost: u64,
    pub(super) order: Order,
}

impl Found {
    /// Adds up the cost of an order.
    pub(super) fn price<const W: usize>(core: &Core<W>, order: Order) -> Self {
        let mut state = State::START;
        let mut cost = 0;
        for &(block, setup) in &order {
            let step = core.enter(&state, block, setup);
            cost += step.cost;
            state = step.next;
        }
        Self { cost, order }
    }

    /// The moves between closed states, with all that is done freely between them.
    pub(super) fn unfold<const W: usize>(core: &Core<W>, moves: &[(usize, usize)]) -> Self {
        let mut order = Order::new();
        let mut state = State::START;
        for &(block, setup) in moves {
            order.push((block, setup));
            state = core.close(core.enter(&state, block, setup).next, |i| order.push((i, setup)));
        }
        Self::price(core, order)
    }
}
