//! What is stated, implied and guaranteed between two faces.

use super::graph::Graph;
use super::solve::{Nets, Use};
use crate::unit::{Length, Limits};

/// Root-sum-square limits: shown beside the worst case, never instead of it.
pub type Rss = Limits;

/// A distance that matters.
#[derive(Debug, Clone)]
pub struct Distance {
    /// Near node.
    pub from: usize,
    /// Far node.
    pub to: usize,
    /// Nominal by the lengths that make the part.
    pub nominal: Length,
    /// What is asked; none for a reference size.
    pub stated: Option<Limits>,
    /// The tightest interval that all stated lengths together allow.
    pub implied: Option<Limits>,
    /// What every part within the lengths that make it keeps.
    pub worst_case: Option<Limits>,
    /// Root sum square of the same links, centred on their middle.
    pub rss: Option<Rss>,
    /// Links that make it, in order.
    pub path: Vec<usize>,
}

impl Distance {
    /// Whether the worst case lies within what is asked; true when nothing is asked.
    pub fn is_guaranteed(&self) -> bool {
        match (self.stated, self.worst_case) {
            (Some(stated), Some(worst)) => stated.covers(worst),
            (Some(_), None) => false,
            (None, _) => true,
        }
    }
}

/// A distance that is to be worked.
pub(super) struct Asked {
    /// Index of the `dims` entry; none for the overall.
    pub(super) index: Option<usize>,
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) nominal: Length,
    pub(super) stated: Option<Limits>,
}

/// Works distances out: the links are made ready once, and each face they begin at is looked from once.
pub(super) fn work_all(graph: &Graph, asked: &[Asked]) -> Vec<(Option<usize>, Distance)> {
    let (all, worked) = (Nets::of(graph, Use::All), Nets::of(graph, Use::Worked));
    let mut order: Vec<usize> = (0..asked.len()).collect();
    order.sort_by_key(|i| asked[*i].from);
    let mut done: Vec<Option<(Option<usize>, Distance)>> = (0..asked.len()).map(|_| None).collect();
    for same in order.chunk_by(|a, b| asked[*a].from == asked[*b].from) {
        let Some(first) = same.first() else { continue };
        let (all, worked) = (all.from(asked[*first].from), worked.from(asked[*first].from));
        for i in same {
            let a = &asked[*i];
            let implied = all.as_ref().and_then(|r| r.between(a.to)).map(|b| b.limits);
            let made = worked.as_ref().and_then(|r| r.between(a.to));
            let rss = made.as_ref().map(|w| root_sum_square(graph, &w.path, w.limits));
            let (worst_case, path) = made.map_or((None, Vec::new()), |w| (Some(w.limits), w.path));
            let (from, to, nominal, stated) = (a.from, a.to, a.nominal, a.stated);
            done[*i] = Some((a.index, Distance { from, to, nominal, stated, implied, worst_case, rss, path }));
        }
    }
    done.into_iter().flatten().collect()
}

/// Half bands of independent links add as the root of the sum of their squares (Scholz, Boeing report on tolerance stack
/// methods, 1995). Exact integers under the root; the root rounded up to a picometre.
fn root_sum_square(graph: &Graph, path: &[usize], worst: Limits) -> Limits {
    let squares: u128 = path
        .iter()
        .map(|i| u128::from(graph.links[*i].limits.band().pm().unsigned_abs()))
        .map(|band| band * band)
        .fold(0, u128::saturating_add);
    let root = squares.isqrt();
    let band = if root * root == squares { root } else { root + 1 };
    let half = Length::from_pm(i64::try_from(band).unwrap_or(i64::MAX)).half();
    let middle = worst.middle();
    Limits::new(middle - half, middle + half)
}
