//! Exact shortest paths over difference constraints.
//!
//! A length with limits says `lo <= x(to) - x(from) <= hi`: two arcs of a graph, `from → to` of `hi` and `to → from` of `-lo`.
//! Shortest paths are the tightest limits that follow; a negative loop is a contradiction (Dechter, Meiri and Pearl, "Temporal
//! constraint networks", Artificial Intelligence 49, 1991).

use super::Contradiction;
use super::graph::{Graph, Says};
use crate::unit::{Length, Limits};

/// Which links count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Use {
    /// Those that make the part.
    Worked,
    /// Every stated length.
    All,
}

impl Use {
    fn takes(self, says: Says) -> bool {
        self == Self::All || says.is_worked()
    }
}

/// The limits between two faces and the links that give the upper one.
pub(super) struct Between {
    pub(super) limits: Limits,
    pub(super) path: Vec<usize>,
}

/// One direction of a link.
#[derive(Clone, Copy)]
struct Arc {
    from: usize,
    to: usize,
    most: i64,
    link: usize,
}

fn arcs(graph: &Graph, which: Use) -> Vec<Arc> {
    let links = graph.links.iter().enumerate().filter(|(_, l)| which.takes(l.says));
    links
        .flat_map(|(i, l)| {
            [
                Arc { from: l.from, to: l.to, most: l.limits.max.pm(), link: i },
                Arc { from: l.to, to: l.from, most: -l.limits.min.pm(), link: i },
            ]
        })
        .collect()
}

/// Shortest distances from `source` (Bellman-Ford with a queue of nodes in order), and the arc each was reached by.
fn shortest(arcs: &[Arc], nodes: usize, source: usize) -> Option<Vec<Option<(i64, usize)>>> {
    let mut out_of: Vec<Vec<usize>> = vec![Vec::new(); nodes];
    for (i, arc) in arcs.iter().enumerate() {
        out_of[arc.from].push(i);
    }
    let mut best: Vec<Option<(i64, usize)>> = vec![None; nodes];
    best[source] = Some((0, usize::MAX));
    let mut queue = std::collections::VecDeque::from([source]);
    let mut queued = vec![false; nodes];
    let mut visits = vec![0_usize; nodes];
    while let Some(node) = queue.pop_front() {
        queued[node] = false;
        visits[node] += 1;
        if visits[node] > nodes + 1 {
            return None;
        }
        let here = best[node].map_or(0, |b| b.0);
        for &i in &out_of[node] {
            let arc = arcs[i];
            let there = here.saturating_add(arc.most);
            if best[arc.to].is_none_or(|b| there < b.0) {
                best[arc.to] = Some((there, i));
                if !queued[arc.to] {
                    queued[arc.to] = true;
                    queue.push_back(arc.to);
                }
            }
        }
    }
    Some(best)
}

/// Limits between two faces; none when nothing connects them or the links contradict each other.
pub(super) fn between(graph: &Graph, from: usize, to: usize, which: Use) -> Option<Between> {
    let arcs = arcs(graph, which);
    let up = shortest(&arcs, graph.faces.len(), from)?;
    let down = shortest(&arcs, graph.faces.len(), to)?;
    let max = Length::from_pm(up[to]?.0);
    let min = -Length::from_pm(down[from]?.0);
    let mut path = Vec::new();
    let mut node = to;
    while node != from && path.len() <= arcs.len() {
        let arc = arcs[up[node]?.1];
        path.push(arc.link);
        node = arc.from;
    }
    path.reverse();
    Some(Between { limits: Limits::new(min, max), path })
}

/// Limits from one face to every other that the links reach; nothing where they contradict each other.
pub(super) fn from_one(graph: &Graph, from: usize, which: Use) -> Vec<Option<Limits>> {
    let arcs = arcs(graph, which);
    let nodes = graph.faces.len();
    // Shortest paths back to the face are those outward along the arcs turned round.
    let back: Vec<Arc> = arcs.iter().map(|a| Arc { from: a.to, to: a.from, ..*a }).collect();
    let (Some(up), Some(down)) = (shortest(&arcs, nodes, from), shortest(&back, nodes, from)) else {
        return vec![None; nodes];
    };
    let limits = |(up, down): (Option<(i64, usize)>, Option<(i64, usize)>)| {
        Some(Limits::new(-Length::from_pm(down?.0), Length::from_pm(up?.0)))
    };
    up.into_iter().zip(down).map(limits).collect()
}

/// Finds a loop of stated lengths that cannot hold together, if there is one. The loop is simple: without any one of its
/// links the others can hold.
pub(super) fn contradiction(graph: &Graph) -> Option<Contradiction> {
    let arcs = arcs(graph, Use::All);
    let nodes = graph.faces.len();
    let mut best = vec![0_i64; nodes];
    let mut by: Vec<usize> = vec![usize::MAX; nodes];
    let mut last = None;
    for _ in 0..=nodes {
        last = None;
        for (i, arc) in arcs.iter().enumerate() {
            let there = best[arc.from].saturating_add(arc.most);
            if there < best[arc.to] {
                best[arc.to] = there;
                by[arc.to] = i;
                last = Some(arc.to);
            }
        }
        last?;
    }
    let mut node = last?;
    for _ in 0..nodes {
        node = arcs[by[node]].from;
    }
    let start = node;
    let (mut links, mut sum) = (Vec::new(), 0_i64);
    loop {
        let arc = arcs[by[node]];
        links.push(arc.link);
        sum = sum.saturating_add(arc.most);
        node = arc.from;
        if node == start || links.len() > nodes {
            break;
        }
    }
    links.reverse();
    Some(Contradiction { links, misclosure: Length::from_pm(-sum) })
}
