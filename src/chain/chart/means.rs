//! Mean working dimensions: given ones first, then the middles of what the drawing asks, then stocks at their least and what
//! varies. Each joins states that nothing joined before, so every step is a sum of integers: no equation is left to be solved.

use std::collections::VecDeque;

use super::tree::{Affine, Terms, Tree};
use crate::model::chart::Chart;
use crate::unit::Length;

/// Places of all states of a chart, as far as they hang together.
#[derive(Debug)]
pub(super) struct Places {
    at: Vec<Option<(usize, Affine)>>,
}

/// A known mean between two states.
struct Known {
    from: usize,
    to: usize,
    mean: Affine,
}

impl Places {
    pub(super) fn of(chart: &Chart, tree: &Tree, paths: &Paths) -> Self {
        let mut known: Vec<Known> = Vec::new();
        let mut group: Vec<usize> = (0..tree.states()).collect();
        let mut join = |from: usize, to: usize, mean: Affine| {
            let (a, b) = (root(&mut group, from), root(&mut group, to));
            if a != b {
                group[a] = b;
                known.push(Known { from, to, mean });
            }
        };
        for (cut, joint) in tree.joints.iter().enumerate() {
            if let (Some(joint), Some(mean)) = (joint, chart.cuts[cut].mean) {
                join(joint.from, joint.to, Affine::of(mean.times(joint.sign)));
            }
        }
        // The closest first, so that where too much is asked the closest keeps the middle of its limits.
        let mut dims: Vec<usize> = (0..chart.dims.len()).collect();
        dims.sort_by_key(|i| chart.dims[*i].limits.map_or(i64::MAX, |l| l.band().pm()));
        for dim in dims {
            if let (Some((from, to)), Some(_)) = (ends(chart, tree, dim), &paths.dims[dim]) {
                join(from, to, Affine::of(chart.dims[dim].aim().times(direction(chart, dim))));
            }
        }
        let with_least = |r: &usize| chart.least(&chart.cuts[tree.removals[*r].cut]).is_none();
        let mut removals: Vec<usize> = (0..tree.removals.len()).rev().collect();
        removals.sort_by_key(with_least);
        for r in removals {
            let removal = tree.removals[r];
            if let Some(path) = &paths.removals[r] {
                let mut stock = Affine::of(chart.least(&chart.cuts[removal.cut]).unwrap_or(Length::ZERO));
                stock.add_tolerances(path, 1);
                let mut mean = Affine::default();
                mean.add(&stock, removal.sign);
                join(removal.old, removal.new, mean);
            }
        }
        Self::spread(tree.states(), &known)
    }

    fn spread(states: usize, known: &[Known]) -> Self {
        let mut next: Vec<Vec<(usize, usize, i64)>> = vec![Vec::new(); states];
        for (i, k) in known.iter().enumerate() {
            next[k.from].push((i, k.to, 1));
            next[k.to].push((i, k.from, -1));
        }
        let mut at: Vec<Option<(usize, Affine)>> = vec![None; states];
        for first in 0..states {
            if at[first].is_some() {
                continue;
            }
            at[first] = Some((first, Affine::default()));
            let mut queue = VecDeque::from([first]);
            while let Some(state) = queue.pop_front() {
                let Some((_, here)) = at[state].clone() else { continue };
                for (i, other, way) in &next[state] {
                    if at[*other].is_none() {
                        let mut there = here.clone();
                        there.add(&known[*i].mean, *way);
                        at[*other] = Some((first, there));
                        queue.push_back(*other);
                    }
                }
            }
        }
        Self { at }
    }

    /// Mean of the place of `to` less that of `from`, where both hang together.
    pub(super) fn between(&self, from: usize, to: usize) -> Option<Affine> {
        let ((a, from), (b, to)) = (self.at[from].as_ref()?, self.at[to].as_ref()?);
        (a == b).then(|| {
            let mut sum = to.clone();
            sum.add(from, -1);
            sum
        })
    }
}

/// The cuts that make each distance asked, and each removal; none where nothing joins its ends.
#[derive(Debug)]
pub(super) struct Paths {
    pub(super) dims: Vec<Option<Terms>>,
    pub(super) removals: Vec<Option<Terms>>,
}

impl Paths {
    pub(super) fn of(chart: &Chart, tree: &Tree) -> Self {
        let dims = (0..chart.dims.len()).map(|i| ends(chart, tree, i).and_then(|(from, to)| tree.path(from, to)));
        let removals = tree.removals.iter().map(|r| tree.path(r.old, r.new));
        Self { dims: dims.collect(), removals: removals.collect() }
    }
}

/// The finished states of a distance's faces.
pub(super) fn ends(chart: &Chart, tree: &Tree, dim: usize) -> Option<(usize, usize)> {
    let d = &chart.dims[dim];
    Some((tree.last[d.from]?, tree.last[d.to]?))
}

/// Whether a distance counts outward (1) or toward the datum end (−1).
pub(super) fn direction(chart: &Chart, dim: usize) -> i64 {
    let d = &chart.dims[dim];
    if d.to > d.from { 1 } else { -1 }
}

fn root(group: &mut [usize], mut node: usize) -> usize {
    while group[node] != node {
        group[node] = group[group[node]];
        node = group[node];
    }
    node
}
