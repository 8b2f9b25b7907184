//! The relaxed problem in which tools cost nothing and all that is possible in a setup is done before it is left: how to
//! get round the setups still needed at the least cost.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use rustc_hash::FxHashMap;

use super::core::Core;
use super::meter::table_bytes;
use super::set::{Bits, Set};

/// Most stops looked at for one answer; beyond it the answer is what has been proved so far.
const MOST_STOPS: usize = 400;
/// No way round at all.
const NEVER: u64 = u64::MAX;

/// Set done, setup, and the number of a set of ended setups.
type Key<const W: usize> = (Set<W>, u16, u16);

/// Answers, each worked out once.
pub(super) struct Tours<const W: usize> {
    /// `from * setups + to`: cost of a change by the cheapest way round.
    hop: Vec<u64>,
    /// By setup: the cheapest way in from any other.
    way_in: Vec<u64>,
    /// Sets of setups and the blocks that can be done in just those, small sets first.
    classes: Vec<(u128, Set<W>)>,
    /// The sets of ended setups met.
    ended: Vec<u128>,
    known: FxHashMap<Key<W>, u64>,
    best: FxHashMap<(Set<W>, usize), u64>,
}

struct Stop<const W: usize> {
    done: Set<W>,
    setup: usize,
    cost: u64,
    parent: usize,
}

impl<const W: usize> Tours<W> {
    /// `hop` is closed: no way round is cheaper than straight.
    pub(super) fn new(core: &Core<W>, hop: Vec<u64>) -> Self {
        let n = core.setups;
        let into = |to: usize| (0..n).filter(|&from| from != to).map(|from| hop[from * n + to]).min().unwrap_or(0);
        let mut classes: Vec<(u128, Set<W>)> = Vec::new();
        for i in core.all.iter() {
            let mask = core.rules.allowed[i];
            match classes.iter_mut().find(|class| class.0 == mask) {
                Some(class) => class.1.insert(i),
                None => classes.push((mask, Set::of([i]))),
            }
        }
        classes.sort_by_key(|class| class.0.count_ones());
        let (known, best) = (FxHashMap::default(), FxHashMap::default());
        Self { way_in: (0..n).map(into).collect(), hop, classes, ended: Vec::new(), known, best }
    }

    /// By setup: the cheapest way in from any other.
    pub(super) fn way_in(&self) -> &[u64] {
        &self.way_in
    }

    /// Least cost of the setup changes still needed from here; `None` when the rest cannot be done.
    pub(super) fn least(&mut self, core: &Core<W>, done: &Set<W>, setup: usize, ended: u128) -> Option<u64> {
        let done = stay(core, *done, setup, ended);
        if done == core.all {
            return Some(0);
        }
        let ended_as = self.number(ended);
        let key = (done, setup as u16, ended_as);
        let least = match self.known.get(&key) {
            Some(&known) => known,
            None => self.walk(core, key, ended),
        };
        (least != NEVER).then_some(least)
    }

    /// Bytes held.
    pub(super) fn bytes(&self) -> usize {
        table_bytes::<(Key<W>, u64)>(self.known.len(), self.known.capacity())
    }

    fn number(&mut self, ended: u128) -> u16 {
        let at = self.ended.iter().position(|&known| known == ended).unwrap_or_else(|| {
            self.ended.push(ended);
            self.ended.len() - 1
        });
        // More sets than that are not told apart by number, so they share the last one, which is then never kept.
        at.min(usize::from(u16::MAX)) as u16
    }

    /// Best first over (done, setup).
    fn walk(&mut self, core: &Core<W>, (done, setup, ended_as): Key<W>, ended: u128) -> u64 {
        let root = Stop { done, setup: usize::from(setup), cost: 0, parent: 0 };
        let mut queue = BinaryHeap::from([Reverse((self.guess(core, &root, ended_as), 0_usize, 0_u64))]);
        self.best.clear();
        let mut stops = vec![root];
        let mut looked_at = 0;
        while let Some(Reverse((total, at, cost))) = queue.pop() {
            let Stop { done, setup: from, .. } = stops[at];
            let settled = done == core.all || self.known.contains_key(&(done, from as u16, ended_as));
            if settled || looked_at == MOST_STOPS {
                self.keep(&stops, if settled { at } else { 0 }, total, ended_as);
                return total;
            }
            if self.best.get(&(done, from)).is_some_and(|&best| best < cost) {
                continue;
            }
            looked_at += 1;
            for to in Bits(core.worth & !ended).filter(|&to| to != from) {
                if !core.rules.needs[to].is_subset(&done) {
                    continue;
                }
                let next = stay(core, done, to, ended);
                let cost = cost + self.hop[from * core.setups + to];
                if next == done || self.best.get(&(next, to)).is_some_and(|&best| best <= cost) {
                    continue;
                }
                self.best.insert((next, to), cost);
                let stop = Stop { done: next, setup: to, cost, parent: at };
                let guess = self.guess(core, &stop, ended_as);
                if guess != NEVER {
                    queue.push(Reverse((cost + guess, stops.len(), cost)));
                    stops.push(stop);
                }
            }
        }
        self.keep(&stops, 0, NEVER, ended_as);
        NEVER
    }

    /// Notes what the way to `last` has shown for each stop on it.
    fn keep(&mut self, stops: &[Stop<W>], last: usize, total: u64, ended_as: u16) {
        if ended_as == u16::MAX {
            return;
        }
        let mut at = last;
        loop {
            let stop = &stops[at];
            let rest = if total == NEVER { NEVER } else { total - stop.cost };
            self.known.insert((stop.done, stop.setup as u16, ended_as), rest);
            if at == 0 {
                return;
            }
            at = stop.parent;
        }
    }

    /// At least this much from a stop: what is known, or one way in for each of the setups that cannot stand in for
    /// one another.
    fn guess(&self, core: &Core<W>, stop: &Stop<W>, ended_as: u16) -> u64 {
        if let Some(&known) = self.known.get(&(stop.done, stop.setup as u16, ended_as)) {
            return known;
        }
        let rest = core.all.minus(&stop.done);
        let mut taken = 1_u128 << stop.setup;
        let mut sum = 0;
        for (mask, blocks) in &self.classes {
            if mask & taken == 0 && blocks.meets(&rest) {
                taken |= mask;
                sum += Bits(*mask).map(|s| self.way_in[s]).min().unwrap_or(0);
            }
        }
        sum
    }
}

/// All that can be done without leaving the setup.
fn stay<const W: usize>(core: &Core<W>, mut done: Set<W>, setup: usize, ended: u128) -> Set<W> {
    if ended >> setup & 1 == 0 {
        // Numbers are in topological order: one pass is enough, but for those that wait for a higher number.
        loop {
            let before = done;
            for i in core.users[setup].minus(&done).iter() {
                if core.rules.before[i].is_subset(&done) && !core.rules.waits(i, setup, &done) {
                    done.insert(i);
                }
            }
            if core.rules.gates[setup].is_empty() || done == before {
                break;
            }
        }
    }
    done
}
