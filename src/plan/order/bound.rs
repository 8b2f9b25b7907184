//! A lower bound on the cost of what is left, from two relaxed problems whose costs do not overlap.
//!
//! - Setups: how to get round all setups still needed if tools cost nothing and everything possible in a setup is
//!   done before it is left. Solved exactly, once for each set that can be reached so.
//! - Visits: a visit is a stay in one setup with one tool. Two blocks cannot share one if they take different tools,
//!   have no setup in common, or something that must lie between them cannot be part of it. So many blocks of which
//!   no two can share a visit, so many visits are still to be begun.
//!
//! Beginning a visit costs a tool change, a setup change or both: at least `step`. The setup changes of the first
//! problem are counted with `step` taken off, so both bounds may be added.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use rustc_hash::FxHashMap;

use super::core::Core;
use super::moves::State;
use super::set::{Bits, Set};

/// Most states looked at in one relaxed setup problem; beyond it the bound is what has been proved so far.
const MOST_STOPS: usize = 400;

/// The bound, and what it has worked out so far.
pub(super) struct Bound<'a, const W: usize> {
    core: &'a Core<W>,
    /// Least cost of beginning a visit.
    step: u64,
    /// Setup change less `step`, by the cheapest way round.
    hop: Vec<u64>,
    /// Blocks, those that can share a visit with fewest others first.
    hardest: Vec<usize>,
    /// By block: itself and those it can share a visit with.
    share: Vec<Set<W>>,
    /// `setup * tools + tool`: blocks that can be part of a visit there.
    visit: Vec<Set<W>>,
    /// Blocks that cost more in one setup than in another.
    uneven: Vec<usize>,
    tours: FxHashMap<(Set<W>, u16, u128), Option<u64>>,
}

impl<'a, const W: usize> Bound<'a, W> {
    pub(super) fn new(core: &'a Core<W>) -> Self {
        let n = core.setups;
        let pairs = || (0..n * n).filter(|p| p / n != p % n);
        let cheapest = pairs().map(|p| core.change[p]).min().unwrap_or(u64::MAX);
        let step = if core.tool_kept { core.tool_change.min(cheapest) } else { core.tool_change };
        let mut hop = core.change.clone();
        for p in pairs() {
            hop[p] -= if core.tool_kept { step } else { 0 };
        }
        for via in 0..n {
            for p in 0..n * n {
                hop[p] = hop[p].min(hop[p / n * n + via] + hop[via * n + p % n]);
            }
        }
        let share = shares(core);
        let mut hardest: Vec<usize> = (0..core.blocks.len()).collect();
        hardest.sort_by_key(|&i| share[i].len());
        let mut visit = vec![Set::EMPTY; n * core.tools];
        for (i, block) in core.blocks.iter().enumerate() {
            for s in Bits(core.rules.allowed[i]) {
                visit[s * core.tools + block.first_tool].insert(i);
            }
        }
        let costs_extra = |i: &usize| Bits(core.rules.allowed[*i]).any(|s| core.extra[*i * n + s] > 0);
        let uneven = (0..core.blocks.len()).filter(costs_extra).collect();
        Self { core, step, hop, hardest, share, visit, uneven, tours: FxHashMap::default() }
    }

    /// At least this much is still to be paid; `None` when the rest cannot be done at all.
    pub(super) fn rest(&mut self, state: &State<W>) -> Option<u64> {
        if state.done == self.core.all {
            return Some(0);
        }
        let ended = self.ended(&state.done);
        let tour = match state.setup() {
            Some(s) if self.stuck(&state.done, s, ended) => return None,
            Some(s) => self.tour(state.done, s, ended)?,
            None => {
                let first = (0..self.core.setups)
                    .filter(|&s| self.core.rules.needs[s].is_empty())
                    .filter_map(|s| Some(self.core.first[s] + self.tour(state.done, s, ended)?))
                    .min()?;
                first + self.core.tool_first
            }
        };
        Some(tour + self.step * self.visits(state, ended) + self.surcharge(&state.done, ended)?)
    }

    /// Bytes held by what has been worked out.
    pub(super) fn bytes(&self) -> usize {
        self.tours.capacity() * (size_of::<(Set<W>, u16, u128)>() + 32)
    }

    fn ended(&self, done: &Set<W>) -> u128 {
        if !self.core.enders.meets(done) {
            return 0;
        }
        let ends = self.core.rules.ends.iter().enumerate();
        ends.filter(|(_, ends)| ends.meets(done)).fold(0, |mask, (s, _)| mask | 1 << s)
    }

    /// Whether the part must stay in a setup where what holds it there cannot be finished.
    fn stuck(&self, done: &Set<W>, setup: usize, ended: u128) -> bool {
        let users = &self.core.users[setup];
        self.core.held(done).any(|g| ended >> setup & 1 == 1 || !self.core.group_needs[g].minus(done).is_subset(users))
    }

    /// All that can be done without leaving the setup.
    fn stay(&self, mut done: Set<W>, setup: usize, ended: u128) -> Set<W> {
        if ended >> setup & 1 == 0 {
            // Numbers are in topological order: one pass is enough.
            for i in self.core.users[setup].minus(&done).iter() {
                if self.core.rules.before[i].is_subset(&done) {
                    done.insert(i);
                }
            }
        }
        done
    }

    /// Least cost of the setup changes still needed.
    fn tour(&mut self, done: Set<W>, setup: usize, ended: u128) -> Option<u64> {
        let done = self.stay(done, setup, ended);
        if done == self.core.all {
            return Some(0);
        }
        let key = (done, setup as u16, ended);
        if let Some(known) = self.tours.get(&key) {
            return *known;
        }
        let least = self.walk(done, setup, ended);
        self.tours.insert(key, least);
        least
    }

    fn walk(&self, done: Set<W>, setup: usize, ended: u128) -> Option<u64> {
        let mut stops = vec![(done, setup)];
        let mut best = FxHashMap::from_iter([((done, setup), 0_u64)]);
        let mut queue = BinaryHeap::from([Reverse((0_u64, 0_usize))]);
        let mut looked_at = 0;
        while let Some(Reverse((cost, stop))) = queue.pop() {
            let (done, from) = stops[stop];
            if done == self.core.all || looked_at == MOST_STOPS {
                return Some(cost);
            }
            if best.get(&stops[stop]).is_some_and(|&known| known < cost) {
                continue;
            }
            looked_at += 1;
            for to in (0..self.core.setups).filter(|&to| to != from && ended >> to & 1 == 0) {
                if !self.core.rules.needs[to].is_subset(&done) {
                    continue;
                }
                let next = self.stay(done, to, ended);
                let cost = cost + self.hop[from * self.core.setups + to];
                let known = best.get(&(next, to)).is_some_and(|&known| known <= cost);
                if next != done && !known {
                    best.insert((next, to), cost);
                    queue.push(Reverse((cost, stops.len())));
                    stops.push((next, to));
                }
            }
        }
        None
    }

    /// How many visits must still be begun.
    fn visits(&self, state: &State<W>, ended: u128) -> u64 {
        let rest = self.core.all.minus(&state.done);
        let mut open = rest;
        // The first visit of all is paid for as first setup and first tool.
        let mut paid = 1;
        if let Some(s) = state.setup() {
            paid = 0;
            if ended >> s & 1 == 0 {
                let here = &self.visit[s * self.core.tools + state.tool()];
                for i in rest.and(here).iter() {
                    if self.core.rules.before[i].and(&rest).is_subset(here) {
                        open.remove(i);
                    }
                }
            }
        }
        let mut count = 0;
        for &i in &self.hardest {
            if open.contains(i) {
                open = open.minus(&self.share[i]);
                count += 1;
            }
        }
        count - paid.min(count)
    }

    /// What the rest costs above the least because of the setups it has to use.
    fn surcharge(&self, done: &Set<W>, ended: u128) -> Option<u64> {
        let mut sum = 0;
        for &i in self.uneven.iter().filter(|&&i| !done.contains(i)) {
            let usable = Bits(self.core.rules.allowed[i] & !ended);
            let least = usable.map(|s| self.core.extra[i * self.core.setups + s]).min()?;
            // The last tool change inside a block may begin the visit of another block, which is counted there.
            sum += least - self.core.blocks[i].inner.min(self.core.tool_change);
        }
        Some(sum)
    }
}

/// By block: itself and those that can share a visit with it.
fn shares<const W: usize>(core: &Core<W>) -> Vec<Set<W>> {
    let n = core.blocks.len();
    let mut after = vec![Set::<W>::EMPTY; n];
    for i in 0..n {
        for b in core.rules.before[i].iter() {
            after[b].insert(i);
        }
    }
    let mut share: Vec<Set<W>> = (0..n).map(|i| Set::of([i])).collect();
    for i in 0..n {
        for j in i + 1..n {
            let tool = core.blocks[i].first_tool;
            let setups = core.rules.allowed[i] & core.rules.allowed[j];
            if core.blocks[j].first_tool != tool || setups == 0 {
                continue;
            }
            // Numbers are in topological order: only i can be before j.
            let one_visit = !core.rules.before[j].contains(i)
                || after[i]
                    .and(&core.rules.before[j])
                    .with(i)
                    .iter()
                    .try_fold(setups, |mask, k| {
                        let b = &core.blocks[k];
                        let stays = b.first_tool == tool && b.one_tool();
                        let mask = mask & core.rules.allowed[k];
                        (stays && mask != 0).then_some(mask)
                    })
                    .is_some();
            if one_visit {
                share[i].insert(j);
                share[j].insert(i);
            }
        }
    }
    share
}
