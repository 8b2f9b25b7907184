//! Difference constraints as arcs, in whole picometres: loops that cannot be, places that can, shortest ways.

/// `x(to) ≤ x(from) + most`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) most: i64,
    /// The stated length it comes from, and whether it is its upper limit; none for metal.
    pub(super) limit: Option<(usize, bool)>,
}

/// A loop that adds up to less than nothing.
pub(super) struct Loop {
    /// Its arcs.
    pub(super) arcs: Vec<Arc>,
    /// Their places in the list.
    pub(super) places: Vec<usize>,
    /// Their sum, below zero.
    pub(super) sum: i64,
}

/// Finds a loop that adds up to less than nothing (Bellman and Ford, from everywhere at once).
pub(super) fn negative_loop(arcs: &[Arc], nodes: usize) -> Option<Loop> {
    let mut best = vec![0_i64; nodes];
    let mut by: Vec<usize> = vec![usize::MAX; nodes];
    let mut last = None;
    for _ in 0..=nodes {
        last = relax(arcs, &mut best, &mut by);
        last?;
    }
    let mut node = last?;
    for _ in 0..nodes {
        node = arcs[by[node]].from;
    }
    let start = node;
    let (mut places, mut sum) = (Vec::new(), 0_i64);
    loop {
        let arc = arcs[by[node]];
        places.push(by[node]);
        sum = sum.saturating_add(arc.most);
        node = arc.from;
        if node == start || places.len() > nodes {
            break;
        }
    }
    places.reverse();
    Some(Loop { arcs: places.iter().map(|i| arcs[*i]).collect(), places, sum })
}

/// One round over all arcs; the last node that came nearer.
fn relax(arcs: &[Arc], best: &mut [i64], by: &mut [usize]) -> Option<usize> {
    let mut last = None;
    for (i, arc) in arcs.iter().enumerate() {
        let there = best[arc.from].saturating_add(arc.most);
        if there < best[arc.to] {
            best[arc.to] = there;
            by[arc.to] = i;
            last = Some(arc.to);
        }
    }
    last
}

/// Places that keep every arc, where there is no loop against it.
pub(super) fn potentials(arcs: &[Arc], nodes: usize) -> Vec<i64> {
    let (mut best, mut by) = (vec![0_i64; nodes], vec![usize::MAX; nodes]);
    for _ in 0..=nodes {
        if relax(arcs, &mut best, &mut by).is_none() {
            break;
        }
    }
    best
}

/// Shortest ways from a node, or to it; none when a loop has no shortest way.
pub(super) fn shortest(arcs: &[Arc], nodes: usize, source: usize, back: bool) -> Option<Vec<Option<i64>>> {
    let mut best: Vec<Option<i64>> = vec![None; nodes];
    best[source] = Some(0);
    for _ in 0..=nodes {
        let mut nearer = false;
        for arc in arcs {
            let (from, to) = if back { (arc.to, arc.from) } else { (arc.from, arc.to) };
            let Some(here) = best[from] else { continue };
            let there = here.saturating_add(arc.most);
            if best[to].is_none_or(|b| there < b) {
                best[to] = Some(there);
                nearer = true;
            }
        }
        if !nearer {
            return Some(best);
        }
    }
    None
}
