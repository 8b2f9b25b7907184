//! What the rules imply together: transitive order, setups that remain possible, groups that share a mounting.

use super::set::{Bits, Set};

/// The rules leave no order at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Contradiction;

/// Rules between blocks, tightened until nothing more follows.
#[derive(Debug, Clone)]
pub(super) struct Relations<const W: usize> {
    /// By block: all that must be done before it.
    pub(super) before: Vec<Set<W>>,
    /// By block: mask of the setups it can still be done in.
    pub(super) allowed: Vec<u128>,
    /// By setup: done before its first use.
    pub(super) needs: Vec<Set<W>>,
    /// By setup: any of these ends its use.
    pub(super) ends: Vec<Set<W>>,
    /// By setup: a block, and those that wait for it there.
    pub(super) gates: Vec<Vec<(usize, Set<W>)>>,
    /// Sets of two or more blocks that must share one mounting; disjoint.
    pub(super) groups: Vec<Set<W>>,
}

impl<const W: usize> Relations<W> {
    /// Draws every conclusion that needs no search. Nothing it removes was possible in any order.
    pub(super) fn tighten(&mut self) -> Result<(), Contradiction> {
        loop {
            self.close()?;
            let mut changed = self.narrow_setups()?;
            changed |= self.widen_groups()?;
            changed |= self.imply_order();
            if !changed {
                return Ok(());
            }
        }
    }

    /// Makes `before` transitive; a block before itself is a contradiction.
    fn close(&mut self) -> Result<(), Contradiction> {
        let n = self.before.len();
        for middle in 0..n {
            let earlier = self.before[middle];
            for set in &mut self.before {
                if set.contains(middle) {
                    *set = set.or(&earlier);
                }
            }
        }
        if (0..n).any(|i| self.before[i].contains(i)) { Err(Contradiction) } else { Ok(()) }
    }

    /// A block cannot use a setup that waits for it, or that is ended by something before it.
    fn narrow_setups(&mut self) -> Result<bool, Contradiction> {
        let mut changed = false;
        for s in 0..self.needs.len() {
            let needed = self.needs[s].iter().fold(self.needs[s], |all, x| all.or(&self.before[x]));
            for i in 0..self.before.len() {
                if self.allowed[i] >> s & 1 == 1 && (needed.contains(i) || self.ends[s].meets(&self.before[i])) {
                    self.allowed[i] &= !(1 << s);
                    changed = true;
                }
            }
            for (first, waiting) in &self.gates[s] {
                // It waits for what comes after it, or for what ends the setup.
                let too_late = self.before[*first].with(*first);
                let over = self.ends[s].meets(&too_late);
                for i in waiting.iter().filter(|&i| over || too_late.contains(i)) {
                    changed |= self.allowed[i] >> s & 1 == 1;
                    self.allowed[i] &= !(1 << s);
                }
            }
        }
        if self.allowed.contains(&0) { Err(Contradiction) } else { Ok(changed) }
    }

    /// What must lie between two members of a group belongs to it; all share their setups; groups that meet are one.
    fn widen_groups(&mut self) -> Result<bool, Contradiction> {
        let mut changed = false;
        for group in &mut self.groups {
            let above = group.iter().fold(Set::EMPTY, |all: Set<W>, i| all.or(&self.before[i]));
            let below = (0..self.before.len()).filter(|&i| self.before[i].meets(group));
            let wider = above.and(&Set::of(below)).or(group);
            changed |= wider != *group;
            *group = wider;
        }
        changed |= merge(&mut self.groups);
        for group in &self.groups {
            let shared = group.iter().fold(u128::MAX, |mask, i| mask & self.allowed[i]);
            for i in group.iter() {
                changed |= self.allowed[i] != shared;
                self.allowed[i] = shared;
            }
        }
        if self.allowed.contains(&0) { Err(Contradiction) } else { Ok(changed) }
    }

    /// What all setups of a block wait for comes before it; what would end them all comes after it.
    fn imply_order(&mut self) -> bool {
        let mut changed = false;
        for i in 0..self.before.len() {
            let common = |table: &[Set<W>]| {
                Bits(self.allowed[i]).map(|s| table[s]).reduce(|a, b| a.and(&b)).unwrap_or(Set::EMPTY)
            };
            let (mut later, earlier) = (common(&self.ends), self.awaited(i));
            later.remove(i);
            changed |= !earlier.is_subset(&self.before[i]);
            self.before[i] = self.before[i].or(&earlier);
            for e in later.iter() {
                changed |= !self.before[e].contains(i);
                self.before[e].insert(i);
            }
        }
        changed
    }
}

impl<const W: usize> Relations<W> {
    /// What a block waits for in each of its setups.
    fn awaited(&self, block: usize) -> Set<W> {
        let in_setup = |s: usize| {
            let gates = self.gates[s].iter().filter(|(_, waiting)| waiting.contains(block));
            gates.fold(self.needs[s], |all, (first, _)| all.with(*first))
        };
        Bits(self.allowed[block]).map(in_setup).reduce(|a, b| a.and(&b)).unwrap_or(Set::EMPTY)
    }

    /// What a block still waits for in a setup is not done.
    pub(super) fn waits(&self, block: usize, setup: usize, done: &Set<W>) -> bool {
        self.gates[setup].iter().any(|(first, waiting)| waiting.contains(block) && !done.contains(*first))
    }

    /// Notes that a block waits for another in a setup.
    pub(super) fn gate(&mut self, setup: usize, waiting: usize, first: usize) {
        let gates = &mut self.gates[setup];
        match gates.iter_mut().find(|(f, _)| *f == first) {
            Some((_, those)) => those.insert(waiting),
            None => gates.push((first, Set::of([waiting]))),
        }
    }
}

/// Joins sets that share a member; `true` when any did.
fn merge<const W: usize>(groups: &mut Vec<Set<W>>) -> bool {
    let mut merged: Vec<Set<W>> = Vec::with_capacity(groups.len());
    for group in groups.iter() {
        let mut joined = *group;
        merged.retain(|other| {
            let apart = !other.meets(&joined);
            if !apart {
                joined = joined.or(other);
            }
            apart
        });
        merged.push(joined);
    }
    let changed = merged.len() != groups.len();
    *groups = merged;
    changed
}
