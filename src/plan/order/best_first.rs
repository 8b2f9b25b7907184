//! The exact search: states in the order of what they must cost at least, so that the first complete one is proved best
//! and the bound is true whenever the search is cut short.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use rustc_hash::FxHashMap;

use super::bound::Bound;
use super::core::Core;
use super::found::Found;
use super::meter::{Meter, Pace, table_bytes};
use super::moves::State;

const ROOT: u32 = u32::MAX;

struct Node<const W: usize> {
    state: State<W>,
    paid: u64,
    parent: u32,
    block: u16,
    setup: u16,
}

/// What the search found out.
pub(super) struct Sweep<const W: usize> {
    nodes: Vec<Node<W>>,
    index: FxHashMap<State<W>, u32>,
    /// The best complete order known.
    pub(super) best: Option<Found>,
    /// No order costs less than this, above `Core::base`.
    pub(super) lower: u64,
    /// Whether `best` is proved best (or, without one, that there is none).
    pub(super) finished: bool,
}

/// Least cost, blocks done, node, paid: the cheapest and of those the deepest first.
type Waiting = Reverse<(u64, Reverse<u16>, u32, u64)>;
type Queue = BinaryHeap<Waiting>;

impl<const W: usize> Sweep<W> {
    /// Searches on from the best order known so far, if any, keeping at most so many states.
    pub(super) fn run(
        core: &Core<W>,
        bound: &mut Bound<W>,
        best: Option<Found>,
        most_states: usize,
        meter: &Meter,
    ) -> Self {
        let mut sweep = Self { nodes: Vec::new(), index: FxHashMap::default(), best, lower: 0, finished: false };
        let mut queue = Queue::new();
        let root = Node { state: State::START, paid: 0, parent: ROOT, block: 0, setup: 0 };
        sweep.reach(root, 0, core, bound, &mut queue);
        let mut moves = Vec::new();
        let mut pace = Pace::of(core.all.len());
        while let Some(Reverse((least, _, id, paid))) = queue.pop() {
            sweep.lower = sweep.lower.max(least);
            if sweep.best.as_ref().is_some_and(|best| best.cost <= least) {
                break;
            }
            if sweep.nodes.len() > most_states {
                return sweep;
            }
            if pace.due() {
                let waiting = table_bytes::<Waiting>(queue.len(), queue.capacity());
                let bytes = sweep.bytes() + bound.bytes() + waiting;
                if meter.out_of_time() || bytes > meter.bytes {
                    return sweep;
                }
            }
            if sweep.nodes[id as usize].paid < paid {
                continue;
            }
            let state = sweep.nodes[id as usize].state;
            core.moves(&state, &mut moves);
            for m in &moves {
                let node = Node {
                    state: core.close(m.next, |_| ()),
                    paid: paid + m.cost,
                    parent: id,
                    block: m.block as u16,
                    setup: m.setup as u16,
                };
                sweep.reach(node, least, core, bound, &mut queue);
            }
        }
        if let Some(best) = &sweep.best {
            sweep.lower = best.cost;
        }
        sweep.finished = true;
        sweep
    }

    /// Bytes held.
    pub(super) fn bytes(&self) -> usize {
        table_bytes::<Node<W>>(self.nodes.len(), self.nodes.capacity())
            + table_bytes::<(State<W>, u32)>(self.index.len(), self.index.capacity())
    }

    /// States kept.
    pub(super) fn states(&self) -> usize {
        self.nodes.len()
    }

    /// The cheapest way found to this closed state.
    pub(super) fn paid(&self, state: &State<W>) -> Option<u64> {
        self.index.get(state).map(|&id| self.nodes[id as usize].paid)
    }

    fn reach(&mut self, node: Node<W>, parent_least: u64, core: &Core<W>, bound: &mut Bound<W>, queue: &mut Queue) {
        let known = self.index.get(&node.state).copied();
        if known.is_some_and(|id| self.nodes[id as usize].paid <= node.paid) {
            return;
        }
        let Some(rest) = bound.rest(&node.state) else { return };
        let least = parent_least.max(node.paid + rest);
        if self.best.as_ref().is_some_and(|best| best.cost <= least) {
            return;
        }
        if node.state.done == core.all {
            self.best = Some(self.path(core, &node));
            return;
        }
        let (depth, paid) = (node.state.done.len() as u16, node.paid);
        let id = if let Some(id) = known {
            self.nodes[id as usize] = node;
            id
        } else {
            let id = self.nodes.len() as u32;
            self.index.insert(node.state, id);
            self.nodes.push(node);
            id
        };
        queue.push(Reverse((least, Reverse(depth), id, paid)));
    }

    fn path(&self, core: &Core<W>, last: &Node<W>) -> Found {
        let mut moves = Vec::new();
        let mut node = last;
        while node.parent != ROOT {
            moves.push((usize::from(node.block), usize::from(node.setup)));
            node = &self.nodes[node.parent as usize];
        }
        moves.reverse();
        Found::unfold(core, &moves)
    }
}
