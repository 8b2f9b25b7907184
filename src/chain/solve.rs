//! Exact shortest paths over difference constraints.
//!
//! A length with limits says `lo <= x(to) - x(from) <= hi`: two arcs of a graph, `from → to` of `hi` and `to → from` of `-lo`.
//! Shortest paths are the tightest limits that follow; a negative loop is a contradiction (Dechter, Meiri and Pearl, "Temporal
//! constraint networks", Artificial Intelligence 49, 1991).

use super::graph::{Graph, Says};
use super::{Contradiction, Suspect};
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

/// Links made ready for many questions.
struct Net {
    arcs: Vec<Arc>,
    out_of: Vec<Vec<usize>>,
}

/// Shortest distances from a source, and the arc each was reached by.
type Shortest = Vec<Option<(i64, usize)>>;

impl Net {
    fn of(arcs: Vec<Arc>, nodes: usize) -> Self {
        let mut out_of: Vec<Vec<usize>> = vec![Vec::new(); nodes];
        for (i, arc) in arcs.iter().enumerate() {
            out_of[arc.from].push(i);
        }
        Self { arcs, out_of }
    }

    /// Bellman-Ford with a queue of nodes in order; none when a loop has no shortest way.
    fn shortest(&self, source: usize) -> Option<Shortest> {
        let nodes = self.out_of.len();
        let mut best: Shortest = vec![None; nodes];
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
            for &i in &self.out_of[node] {
                let arc = self.arcs[i];
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
}

/// The links of a graph in both directions.
pub(super) struct Nets {
    out: Net,
    back: Net,
}

/// What is known from one face.
pub(super) struct Reached<'a> {
    net: &'a Net,
    from: usize,
    up: Shortest,
    down: Shortest,
}

impl Nets {
    pub(super) fn of(graph: &Graph, which: Use) -> Self {
        let arcs = arcs(graph, which);
        let nodes = graph.faces.len();
        // Shortest paths back to a face are those outward along the arcs turned round.
        let back = arcs.iter().map(|a| Arc { from: a.to, to: a.from, ..*a }).collect();
        Self { out: Net::of(arcs, nodes), back: Net::of(back, nodes) }
    }

    /// All limits from one face; none when the links contradict each other.
    pub(super) fn from(&self, from: usize) -> Option<Reached<'_>> {
        let (up, down) = (self.out.shortest(from)?, self.back.shortest(from)?);
        Some(Reached { net: &self.out, from, up, down })
    }
}

impl Reached<'_> {
    fn limits(&self, to: usize) -> Option<Limits> {
        Some(Limits::new(-Length::from_pm(self.down[to]?.0), Length::from_pm(self.up[to]?.0)))
    }

    /// Limits to another face, and the links that give the upper one.
    pub(super) fn between(&self, to: usize) -> Option<Between> {
        let limits = self.limits(to)?;
        let mut path = Vec::new();
        let mut node = to;
        while node != self.from && path.len() <= self.net.arcs.len() {
            let arc = self.net.arcs[self.up[node]?.1];
            path.push(arc.link);
            node = arc.from;
        }
        path.reverse();
        Some(Between { limits, path })
    }
}

/// Limits between two faces; none when nothing connects them or the links contradict each other.
pub(super) fn between(graph: &Graph, from: usize, to: usize, which: Use) -> Option<Between> {
    Nets::of(graph, which).from(from)?.between(to)
}

/// Limits from one face to every other that the links reach; nothing where they contradict each other.
pub(super) fn from_one(graph: &Graph, from: usize, which: Use) -> Vec<Option<Limits>> {
    let nets = Nets::of(graph, which);
    let nodes = graph.faces.len();
    nets.from(from).map_or_else(|| vec![None; nodes], |r| (0..nodes).map(|to| r.limits(to)).collect())
}

/// Links of a loop that are left out in turn to see whether the rest holds.
const MOST_TRIED: usize = 12;

/// Finds a loop of stated lengths that cannot hold together, if there is one. The loop is simple: without any one of its
/// links the others of it can hold.
pub(super) fn contradiction(graph: &Graph) -> Option<Contradiction> {
    let found = negative_loop(graph, None)?;
    let few = found.len() <= MOST_TRIED;
    let sum: i64 = found.iter().fold(0, |sum, a| sum.saturating_add(a.most));
    let signed = |arc: &Arc| {
        let link = &graph.links[arc.link];
        if arc.from == link.from { link.nominal } else { -link.nominal }
    };
    let open = found.iter().fold(Length::ZERO, |open, arc| open + signed(arc));
    let suspect = |arc: &Arc| Suspect {
        link: arc.link,
        would_be: if arc.from == graph.links[arc.link].from { signed(arc) - open } else { open - signed(arc) },
        clears_all: few && negative_loop(graph, Some(arc.link)).is_none(),
    };
    Some(Contradiction {
        links: found.iter().map(|a| a.link).collect(),
        misclosure: Length::from_pm(-sum),
        suspects: found.iter().map(suspect).collect(),
    })
}

/// The arcs of a loop whose greatest lengths sum to less than nothing, in order; one link may be left out.
fn negative_loop(graph: &Graph, but: Option<usize>) -> Option<Vec<Arc>> {
    let mut arcs = arcs(graph, Use::All);
    arcs.retain(|a| Some(a.link) != but);
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
    let mut found = Vec::new();
    loop {
        let arc = arcs[by[node]];
        found.push(arc);
        node = arc.from;
        if node == start || found.len() > nodes {
            break;
        }
    }
    found.reverse();
    Some(found)
}
