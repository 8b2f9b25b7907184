//! A lower bound on the cost of what is left, from two relaxed problems whose costs do not overlap.
//!
//! - Setups: how to get round all setups still needed; see `tour`.
//! - Visits: a visit is a stay in one setup with one tool. Two blocks cannot share one if they take different tools,
//!   have no setup in common, or something that must lie between them cannot be part of it. So many blocks of which
//!   no two can share a visit, so many visits are still to be begun.
//!
//! Beginning a visit costs a tool change, a setup change or both: at least `step`. The setup changes of the first
//! problem are counted with `step` taken off, so both bounds may be added.

use rustc_hash::FxHashMap;

use super::core::Core;
use super::moves::State;
use super::openings::Openings;
use super::set::{Bits, Set};
use super::tour::Tours;

/// The bound, and what it has worked out so far.
pub(super) struct Bound<'a, const W: usize> {
    core: &'a Core<W>,
    /// Least cost of beginning a visit.
    step: u64,
    tours: Tours<W>,
    /// Where blocks cost more in one setup than in another.
    openings: Option<Openings>,
    /// Blocks, those that can share a visit with fewest others first.
    hardest: Vec<usize>,
    /// By block: itself and those it can share a visit with.
    share: Vec<Set<W>>,
    /// `setup * tools + tool`: blocks that can be part of a visit there.
    visit: Vec<Set<W>>,
    /// By set of ended setups: what blocks then cost above the least.
    surcharges: FxHashMap<u128, Surcharge<W>>,
}

/// What ended setups do to the blocks that could use them.
struct Surcharge<const W: usize> {
    /// No setup is left for these.
    stranded: Set<W>,
    /// Blocks and what they cost more at least.
    dearer: Vec<(usize, u64)>,
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
        let mut hardest: Vec<usize> = core.all.iter().collect();
        hardest.sort_by_key(|&i| share[i].len());
        let mut visit = vec![Set::EMPTY; n * core.tools];
        for i in core.all.iter() {
            for s in Bits(core.rules.allowed[i]) {
                visit[s * core.tools + core.blocks[i].first_tool].insert(i);
            }
        }
        let tours = Tours::new(core, hop);
        let openings = Openings::new(core, tours.way_in());
        Self { core, step, tours, openings, hardest, share, visit, surcharges: FxHashMap::default() }
    }

    /// At least this much is still to be paid; `None` when the rest cannot be done at all.
    pub(super) fn rest(&mut self, state: &State<W>) -> Option<u64> {
        if state.done == self.core.all {
            return Some(0);
        }
        let ended = self.ended(&state.done);
        let surcharge = self.surcharge(&state.done, ended)?;
        let core = self.core;
        let tour = match state.setup() {
            Some(s) if self.stuck(&state.done, s, ended) => return None,
            Some(s) => self.tours.least(core, &state.done, s, ended)?,
            None => {
                let usable = Bits(core.worth).filter(|&s| core.rules.needs[s].is_empty());
                let tours = usable.filter_map(|s| Some(core.first[s] + self.tours.least(core, &state.done, s, ended)?));
                tours.min()? + core.tool_first
            }
        };
        let rest = tour + surcharge;
        let rest = match (&self.openings, state.setup()) {
            (Some(openings), Some(s)) => rest.max(openings.least(&state.done, s, ended)),
            _ => rest,
        };
        Some(rest + self.step * self.visits(state, ended))
    }

    /// Bytes held by what has been worked out.
    pub(super) fn bytes(&self) -> usize {
        self.tours.bytes()
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
                if open.is_empty() {
                    break;
                }
            }
        }
        count - paid.min(count)
    }

    /// What the rest costs above the least because of the setups it has to use; `None` when a block has none left.
    fn surcharge(&mut self, done: &Set<W>, ended: u128) -> Option<u64> {
        let table = self.surcharges.entry(ended).or_insert_with(|| Surcharge::new(self.core, ended));
        if !table.stranded.is_subset(done) {
            return None;
        }
        Some(table.dearer.iter().filter(|(i, _)| !done.contains(*i)).map(|(_, more)| more).sum())
    }
}

impl<const W: usize> Surcharge<W> {
    fn new(core: &Core<W>, ended: u128) -> Self {
        let mut table = Self { stranded: Set::EMPTY, dearer: Vec::new() };
        for i in core.all.iter() {
            let usable = Bits(core.rules.allowed[i] & !ended);
            match usable.map(|s| core.extra[i * core.setups + s]).min() {
                None => table.stranded.insert(i),
                Some(least) => {
                    // The last tool change inside a block may begin the visit of another, which is counted there.
                    let more = least - core.blocks[i].inner.min(core.tool_change);
                    if more > 0 {
                        table.dearer.push((i, more));
                    }
                }
            }
        }
        table
    }
}

/// By block: itself and those that can share a visit with it.
fn shares<const W: usize>(core: &Core<W>) -> Vec<Set<W>> {
    let n = core.blocks.len();
    let mut after = vec![Set::<W>::EMPTY; n];
    for i in core.all.iter() {
        for b in core.rules.before[i].iter() {
            after[b].insert(i);
        }
    }
    let mut share: Vec<Set<W>> = (0..n).map(|i| Set::of([i])).collect();
    for i in core.all.iter() {
        for j in core.all.iter().filter(|&j| j > i) {
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
