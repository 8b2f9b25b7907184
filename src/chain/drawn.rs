//! From which end face the drawing places a face.
//!
//! After the flip the carriage touches the far face. A zero corrected by the measured overall makes lengths from the datum face come right; one that is
//! drawn from the far face must count from that face as it is touched, or the overall's own error would be in it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::Chain;
use super::graph::{Graph, Link, Says};
use crate::model::plan::{Operation, Setup, Verb, Zero};
use crate::model::{End, Kind, Part};
use crate::unit::{Length, Station};

/// For each node, whether it is drawn from the far face: no length that makes the part ties it to the datum face but through the far face, or `dims` hold
/// it closer to the far face than anything holds it to the datum face. A groove, keyseat or flat is placed as a whole, by its better side.
pub(super) fn from_far(graph: &Graph, ends: &[Option<(usize, usize)>], far: usize) -> Vec<bool> {
    // What places the far face itself does not say where the rest is drawn from.
    let last = graph.faces.get(far).and_then(|f| f.ends);
    let places_far =
        |l: &Link| (l.from == far || l.to == far) && matches!(l.says, Says::Place(f) | Says::Own(f) if Some(f) == last);
    let mut tied = widths(graph, 0, far, &|l| l.says.is_worked());
    let mut datum = widths(graph, 0, far, &|_| true);
    let mut other = widths(graph, far, 0, &|l| !places_far(l));
    for (feature, pair) in ends.iter().enumerate() {
        let Some((a, b)) = pair.filter(|pair| is_stretch(graph, feature, *pair, far)) else { continue };
        for list in [&mut tied, &mut datum, &mut other] {
            let best = list[a].into_iter().chain(list[b]).min();
            (list[a], list[b]) = (best, best);
        }
    }
    let closer = |n: usize| match (other[n], datum[n]) {
        (Some(here), Some(there)) => tied[n].is_none() || here < there,
        (here, None) => here.is_some(),
        (None, _) => false,
    };
    (0..graph.faces.len()).map(|n| n > 0 && (n == far || closer(n))).collect()
}

/// Two walls of one feature, neither of them a section's: a groove, keyseat or flat.
fn is_stretch(graph: &Graph, feature: usize, (a, b): (usize, usize), far: usize) -> bool {
    let (start, end) = (&graph.faces[a], &graph.faces[b]);
    let own = start.begins == Some(feature) && end.ends == Some(feature);
    own && a != 0 && b != far && start.ends.is_none() && end.begins.is_none()
}

/// The least band between a face and each other over links that `takes`, without going on from `end`.
fn widths(graph: &Graph, from: usize, end: usize, takes: &dyn Fn(&Link) -> bool) -> Vec<Option<Length>> {
    let mut next_to: Vec<Vec<(usize, Length)>> = vec![Vec::new(); graph.faces.len()];
    for link in graph.links.iter().filter(|l| takes(l)) {
        next_to[link.from].push((link.to, link.limits.band()));
        next_to[link.to].push((link.from, link.limits.band()));
    }
    let mut best: Vec<Option<Length>> = vec![None; graph.faces.len()];
    let mut queue = BinaryHeap::from([Reverse((Length::ZERO, from))]);
    while let Some(Reverse((wide, node))) = queue.pop() {
        if best[node].is_some() {
            continue;
        }
        best[node] = Some(wide);
        if node != end || from == end {
            queue.extend(next_to[node].iter().map(|(other, band)| Reverse((wide + *band, *other))));
        }
    }
    best
}

impl Chain {
    /// Whether what an operation cuts at `at` is drawn from the far face. A place where no face is (short of a shoulder, in a run-out) goes with the face
    /// that the operation stops at, else with the one it begins at.
    pub fn is_drawn_from_far(&self, part: &Part, op: &Operation, at: Station) -> bool {
        let own = || self.bottom(part, op).map(|n| self.from_far[n]);
        let places = [op.face, op.to, op.from];
        let other = || places.into_iter().flatten().find_map(|p| self.drawn_there(op, p));
        self.drawn_there(op, at).or_else(own).or_else(other).unwrap_or(false)
    }

    /// Whether the face at a place, the operation's own before any other, is drawn from the far face; none where there is no face.
    fn drawn_there(&self, op: &Operation, at: Station) -> Option<bool> {
        if self.at[self.far] == Some(at) {
            return Some(true);
        }
        let is_there = |n: &usize| self.at[*n] == Some(at);
        let own = op.feature.into_iter().chain(op.with.iter().copied()).filter_map(|f| *self.ends.get(f)?);
        if let Some(node) = own.flat_map(|(a, b)| [a, b]).find(is_there) {
            return Some(self.from_far[node]);
        }
        let mut there = (0..self.at.len()).filter(is_there).peekable();
        there.peek()?;
        Some(there.all(|n| self.from_far[n]))
    }

    /// The bottom of the hole an operation works in.
    fn bottom(&self, part: &Part, op: &Operation) -> Option<usize> {
        let Kind::Inside(inside) = &part.features.get(op.feature.filter(|_| op.inside)?)?.kind else { return None };
        let (start, end) = (*self.ends.get(op.feature?)?)?;
        Some(if inside.end == End::Far { start } else { end })
    }

    /// Whether a mounting counts lengths from the far face and cuts some that are drawn from the datum face: its zero is then corrected by the measured
    /// overall.
    pub fn needs_correction(&self, part: &Part, setup: &Setup) -> bool {
        let after_the_flip = match setup.zero {
            Zero::FarFace => !setup.faces_far_end_first(),
            Zero::FacedToOverall => true,
            _ => false,
        };
        after_the_flip && setup.operations.iter().any(|op| self.stops_by_datum(part, op))
    }

    /// Whether an operation stops at a length that is drawn from the datum face.
    pub fn stops_by_datum(&self, part: &Part, op: &Operation) -> bool {
        use Verb as V;
        let along = matches!(
            op.verb,
            V::Rough | V::Finish | V::Turn | V::Groove | V::Thread | V::Taper | V::Knurl | V::Bore | V::Chamfer
        );
        // A hole that goes through, and an edge at the face itself, have no length that anything is set for.
        let through = op.inside && op.to == Some(Station::DATUM);
        let at = if op.verb == V::Chamfer { op.from } else { op.face.or(op.to) };
        let begins = op.from.filter(|_| !op.inside && op.verb != V::Chamfer);
        let begins = begins.and_then(|from| self.drawn_there(op, from));
        along && !through && (begins == Some(false) || at.is_some_and(|at| !self.is_drawn_from_far(part, op, at)))
    }
}
