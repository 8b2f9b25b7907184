//! States of the search and the moves between them.
//!
//! A state is what has been done, the setup and the tool in use. All else that the rules depend on follows from it:
//! whether a setup is still to be had, and whether the part may be taken out.
//!
//! Doing at once what costs nothing is never worse than doing it later, as long as it closes no way: take any
//! completion, move such a block to the front, and no change gets dearer. So the search for the best cost goes from
//! one *closed* state to the next, where nothing free is left, and the states between them are never kept. A block that
//! waits for another in the setup in use is not free there: what is done only ever opens such gates, so that one that is
//! open stays open, and what is brought forward through it may be done there whatever comes between.

use std::hash::{Hash, Hasher};

use super::core::Core;
use super::set::{Bits, Set};

/// Before the first setup.
const NONE: u16 = u16::MAX;

/// What is done, and what is set up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct State<const W: usize> {
    pub(super) done: Set<W>,
    setup: u16,
    tool: u16,
}

impl<const W: usize> Hash for State<W> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.done.hash(state);
        state.write_u32(u32::from(self.setup) << 16 | u32::from(self.tool));
    }
}

impl<const W: usize> State<W> {
    pub(super) const START: Self = Self { done: Set::EMPTY, setup: NONE, tool: NONE };

    /// The setup in use; none before the first.
    pub(super) fn setup(&self) -> Option<usize> {
        (self.setup != NONE).then_some(self.setup as usize)
    }

    /// The tool in use; 0 before the first.
    pub(super) fn tool(&self) -> usize {
        if self.setup == NONE { 0 } else { self.tool as usize }
    }
}

/// A block done next in some setup.
#[derive(Debug, Clone, Copy)]
pub(super) struct Move<const W: usize> {
    pub(super) block: usize,
    pub(super) setup: usize,
    pub(super) cost: u64,
    /// The state right after it.
    pub(super) next: State<W>,
}

impl<const W: usize> Core<W> {
    /// Setups that the next block may use.
    pub(super) fn open(&self, state: &State<W>) -> u128 {
        let mut open = 0_u128;
        let ended = self.enders.meets(&state.done);
        for s in 0..self.setups {
            let shut = ended && self.rules.ends[s].meets(&state.done);
            if !shut && self.rules.needs[s].is_subset(&state.done) {
                open |= 1 << s;
            }
        }
        match state.setup() {
            Some(s) if self.held(&state.done).next().is_some() => open & 1 << s,
            _ => open,
        }
    }

    /// Groups begun and not finished: the part must stay where it is.
    pub(super) fn held(&self, done: &Set<W>) -> impl Iterator<Item = usize> {
        self.rules
            .groups
            .iter()
            .enumerate()
            .filter(|(_, group)| group.meets(done) && !group.is_subset(done))
            .map(|(g, _)| g)
    }

    /// Whether all that must come before the block is done, and the block is not.
    pub(super) fn ready(&self, block: usize, done: &Set<W>) -> bool {
        !done.contains(block) && self.rules.before[block].is_subset(done)
    }

    /// Of the setups that are open those that a block which is ready may be done in now.
    pub(super) fn ways(&self, block: usize, open: u128, done: &Set<W>) -> u128 {
        let usable = self.rules.allowed[block] & open;
        if self.gated.contains(block) {
            Bits(usable).filter(|&s| !self.rules.waits(block, s, done)).fold(0, |mask, s| mask | 1 << s)
        } else {
            usable
        }
    }

    /// Whether doing the block now takes no possibility away from the rest.
    pub(super) fn harmless(&self, block: usize, done: &Set<W>) -> bool {
        if self.group[block].is_some_and(|g| !self.rules.groups[g].meets(done)) {
            return false;
        }
        if !self.enders.contains(block) {
            return true;
        }
        let rest = self.all.minus(&done.with(block));
        (0..self.setups).all(|s| {
            !self.rules.ends[s].contains(block) || self.rules.ends[s].meets(done) || !self.users[s].meets(&rest)
        })
    }

    /// The state after doing a block in a setup, and the cost of that above the unavoidable.
    pub(super) fn enter(&self, state: &State<W>, block: usize, setup: usize) -> Move<W> {
        let b = &self.blocks[block];
        let swap = u64::from(state.tool as usize != b.first_tool) * self.tool_change;
        let way_in = match state.setup() {
            None => self.first[setup] + self.tool_first,
            Some(s) if s == setup => swap,
            Some(s) if self.tool_kept => self.change[s * self.setups + setup] + swap,
            Some(s) => self.change[s * self.setups + setup] + self.tool_change,
        };
        Move {
            block,
            setup,
            cost: way_in + self.extra[block * self.setups + setup],
            next: State { done: state.done.with(block), setup: setup as u16, tool: b.last_tool as u16 },
        }
    }

    /// Does all that is free in the setup and with the tool in use, telling each block.
    pub(super) fn close(&self, mut state: State<W>, mut tell: impl FnMut(usize)) -> State<W> {
        let Some(s) = state.setup() else { return state };
        let cell = &self.cell[s * self.tools + state.tool()];
        if self.rules.ends[s].meets(&state.done) {
            return state;
        }
        loop {
            let before = state.done;
            for i in cell.minus(&before).iter() {
                let waits = || self.gated.contains(i) && self.rules.waits(i, s, &state.done);
                if self.ready(i, &state.done) && !waits() && self.harmless(i, &state.done) {
                    state.done.insert(i);
                    tell(i);
                }
            }
            if state.done == before {
                return state;
            }
        }
    }

    /// The moves out of a closed state that can lead to a best order: of the free blocks that share a setup and a tool
    /// one is enough, since the others follow at once.
    pub(super) fn moves(&self, state: &State<W>, moves: &mut Vec<Move<W>>) {
        moves.clear();
        let here = state.setup().map_or(0, |s| 1_u128 << s);
        let open = self.open(state) & (self.worth | here);
        let ready = self.all.minus(&state.done).iter().filter(|&i| self.ready(i, &state.done));
        let mut rest = Set::<W>::EMPTY;
        for i in ready {
            let harmless = self.harmless(i, &state.done);
            let tool = self.blocks[i].first_tool;
            for s in Bits(self.ways(i, open, &state.done)) {
                if !harmless || !self.cell[s * self.tools + tool].contains(i) {
                    rest.insert(i);
                } else if !self.entered(moves, s, tool) {
                    moves.push(self.enter(state, i, s));
                }
            }
        }
        let free = moves.len();
        for i in rest.iter() {
            let tool = self.blocks[i].first_tool;
            let harmless = self.harmless(i, &state.done);
            for s in Bits(self.ways(i, open, &state.done)) {
                let taken = harmless && self.cell[s * self.tools + tool].contains(i);
                if !taken && !self.entered(&moves[..free], s, tool) {
                    moves.push(self.enter(state, i, s));
                }
            }
        }
    }

    fn entered(&self, moves: &[Move<W>], setup: usize, tool: usize) -> bool {
        moves.iter().any(|m| m.setup == setup && self.blocks[m.block].first_tool == tool)
    }
}
