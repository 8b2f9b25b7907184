//! A lower bound for problems in which an operation costs more in one setup than in another: is it worth going to a further setup
//! for what it saves?
//!
//! Relaxed to a choice of setups: each that is gone to costs its cheapest way in, each block what it costs more in the cheapest of
//! those chosen. Any dual solution of that is a lower bound, and one is found by raising what each block is ready to pay (dual
//! ascent: D. Erlenkotter, Operations Research 26, 1978, 992-1009).

use super::core::Core;
use super::set::{Bits, Set};

/// What the ascent needs, worked out once.
pub(super) struct Openings {
    /// By setup: the cheapest way in from any other.
    way_in: Vec<u64>,
    /// By block, those with least choice first: its number, and its setups with what it costs more there, the cheapest first.
    choices: Vec<(usize, Vec<(usize, u64)>)>,
}

impl Openings {
    /// None where every block costs the same in all its setups: then the tours say all there is to say.
    pub(super) fn new<const W: usize>(core: &Core<W>, way_in: &[u64]) -> Option<Self> {
        let choice = |i: usize| {
            let inner = core.blocks[i].inner.min(core.tool_change);
            let more = |s: usize| (s, core.extra[i * core.setups + s].saturating_sub(inner));
            let mut list: Vec<(usize, u64)> = Bits(core.rules.allowed[i]).map(more).collect();
            list.sort_by_key(|(s, extra)| (*extra, *s));
            (i, list)
        };
        let mut choices: Vec<(usize, Vec<(usize, u64)>)> = core.all.iter().map(choice).collect();
        choices.sort_by_key(|(i, list)| (list.len(), *i));
        let unlike = choices.iter().any(|(_, list)| list.first().map(|c| c.1) != list.last().map(|c| c.1));
        unlike.then(|| Self { way_in: way_in.to_vec(), choices })
    }

    /// At least this much for further setups and for what the rest costs above the least, being in one now.
    pub(super) fn least<const W: usize>(&self, done: &Set<W>, setup: usize, ended: u128) -> u64 {
        let mut left = self.way_in.clone();
        left[setup] = 0;
        let open = |s: usize| ended >> s & 1 == 0;
        let mut sum = 0;
        for (i, all) in &self.choices {
            if done.contains(*i) {
                continue;
            }
            let list = || all.iter().filter(|(s, _)| open(*s));
            let Some((_, least)) = list().next() else { continue };
            let mut pays = *least;
            loop {
                // It pays for every setup that is no dearer than what it is ready to pay, up to the next dearer one.
                let next = list().map(|(_, extra)| *extra).find(|extra| *extra > pays);
                let reached = || list().take_while(|(_, extra)| *extra <= pays);
                let room = reached().map(|(s, _)| left[*s]).min().unwrap_or(0);
                let step = next.map_or(room, |n| room.min(n - pays));
                if step == 0 {
                    break;
                }
                let paid: Vec<usize> = reached().map(|(s, _)| *s).collect();
                for s in paid {
                    left[s] -= step;
                }
                pays += step;
            }
            sum += pays;
        }
        sum
    }
}
