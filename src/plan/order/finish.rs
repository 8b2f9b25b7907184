//! Whether a state can still be completed within a given cost: with the best cost known, this picks out the states and
//! moves that lie on best orders, and no others.

use rustc_hash::FxHashMap;

use super::best_first::Sweep;
use super::bound::Bound;
use super::core::Core;
use super::meter::{Meter, Pace, table_bytes};
use super::moves::{Move, State};

/// The search ran out of time, memory or steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct OutOfLimits;

/// Steps times the square of the number of blocks: some seconds. Beyond it, which of the best orders and how many there
/// are is left open, at the same point on every machine.
const MOST_WORK: usize = 10_000_000_000;

/// Least cost of the rest lies between these.
#[derive(Clone, Copy)]
struct Known {
    least: u64,
    most: u64,
}

/// Answers about the rest, each worked out once.
pub(super) struct Finish<'a, const W: usize> {
    core: &'a Core<W>,
    bound: Bound<'a, W>,
    sweep: Sweep<W>,
    meter: Meter,
    /// The best cost of all, above `Core::base`.
    pub(super) best: u64,
    known: FxHashMap<State<W>, Known>,
    moves: Vec<Move<W>>,
    pace: Pace,
    /// Bytes its user holds.
    pub(super) beside: usize,
    /// Steps left.
    left: usize,
}

struct Frame<const W: usize> {
    state: State<W>,
    budget: u64,
    /// Cost and closed state after each move, the most promising first.
    ways: Vec<(u64, State<W>)>,
    next: usize,
    least: u64,
}

impl<'a, const W: usize> Finish<'a, W> {
    /// `sweep` must have finished with a best order.
    pub(super) fn new(core: &'a Core<W>, bound: Bound<'a, W>, sweep: Sweep<W>, meter: Meter) -> Self {
        let best = sweep.lower;
        let (known, moves, pace) = (FxHashMap::default(), Vec::new(), Pace::of(core.all.len()));
        let left = MOST_WORK / core.all.len().pow(2).max(1);
        Self { core, bound, sweep, meter, best, known, moves, pace, beside: 0, left }
    }

    /// Bytes held, the searches before it included.
    fn bytes(&self) -> usize {
        table_bytes::<(State<W>, Known)>(self.known.len(), self.known.capacity())
            + self.bound.bytes()
            + self.sweep.bytes()
            + self.beside
    }

    /// Whether the rest after `state` can be done for `budget`.
    pub(super) fn fits(&mut self, state: &State<W>, budget: u64) -> Result<bool, OutOfLimits> {
        self.spend(1)?;
        let root = self.core.close(*state, |_| ());
        if let Some(answer) = self.settled(&root, budget) {
            return Ok(answer);
        }
        let mut stack = vec![self.frame(root, budget)?];
        while let Some(frame) = stack.last_mut() {
            let Some(&(cost, way)) = frame.ways.get(frame.next) else {
                let (state, least) = (frame.state, frame.least);
                self.note(&state).least = least;
                stack.pop();
                continue;
            };
            let answer = match frame.budget.checked_sub(cost) {
                Some(rest) => self.settled(&way, rest),
                None => Some(false),
            };
            match answer {
                Some(true) => {
                    let (state, most) = (frame.state, cost + self.note(&way).most);
                    self.note(&state).most = most;
                    stack.pop();
                }
                Some(false) => {
                    frame.next += 1;
                    frame.least = frame.least.min(self.note(&way).least.saturating_add(cost));
                }
                None => {
                    let rest = frame.budget - cost;
                    stack.push(self.frame(way, rest)?);
                }
            }
        }
        Ok(self.settled(&root, budget) == Some(true))
    }

    /// Counts the work, and looks at the limits now and then.
    fn spend(&mut self, steps: usize) -> Result<(), OutOfLimits> {
        self.left = self.left.checked_sub(steps).ok_or(OutOfLimits)?;
        let over = self.pace.due() && (self.meter.out_of_time() || self.bytes() > self.meter.bytes);
        if over { Err(OutOfLimits) } else { Ok(()) }
    }

    fn settled(&mut self, state: &State<W>, budget: u64) -> Option<bool> {
        let known = self.note(state);
        if known.most <= budget {
            Some(true)
        } else if known.least > budget {
            Some(false)
        } else {
            None
        }
    }

    fn note(&mut self, state: &State<W>) -> &mut Known {
        self.known.entry(*state).or_insert_with(|| {
            if state.done == self.core.all {
                return Known { least: 0, most: 0 };
            }
            let rest = self.bound.rest(state).unwrap_or(u64::MAX);
            // Were the rest cheaper than this, the whole would be cheaper than the best.
            let other = self.sweep.paid(state).map_or(0, |paid| self.best.saturating_sub(paid));
            Known { least: rest.max(other), most: u64::MAX }
        })
    }

    fn frame(&mut self, state: State<W>, budget: u64) -> Result<Frame<W>, OutOfLimits> {
        let mut moves = std::mem::take(&mut self.moves);
        self.core.moves(&state, &mut moves);
        let mut ways: Vec<(u64, State<W>)> = moves.iter().map(|m| (m.cost, self.core.close(m.next, |_| ()))).collect();
        ways.sort_by_cached_key(|(cost, way)| self.note(way).least.saturating_add(*cost));
        self.moves = moves;
        self.spend(ways.len())?;
        Ok(Frame { state, budget, ways, next: 0, least: u64::MAX })
    }
}
