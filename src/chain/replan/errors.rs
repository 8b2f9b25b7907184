//! What the errors of readings take from the rest.

use super::{Net, Replan, Stated};
use crate::chain::arcs::negative_loop;
use crate::unit::Length;

/// How errors of readings count.
pub(super) enum Errors<'a> {
    /// Not at all: faces stand where they were read.
    AsRead,
    /// A face may stand anywhere within the error of its reading.
    AnyWithin,
    /// Each stated length is narrower by so much at both ends.
    Less(&'a [Length]),
}

impl Net<'_> {
    /// The error of the reading that a face still stands by.
    fn error(&self, face: usize, again: &[usize]) -> Length {
        let now = &self.faces[face];
        if now.open || again.contains(&face) || now.at.is_none() { Length::ZERO } else { now.error }
    }

    /// By how much each stated length is narrower for what is cut to it: the error of the face it is counted from. Lengths between faces
    /// that stand are facts; a length that would leave nothing counts as read.
    pub(super) fn margins(&self, again: &[usize]) -> Vec<Length> {
        let cut = |f: usize| self.faces[f].open || again.contains(&f);
        let of = |s: &Stated| {
            let kept = s.fixed || !(cut(s.from) || cut(s.to));
            if kept { Length::ZERO } else { self.error(s.from, again) + self.error(s.to, again) }
        };
        let mut margins: Vec<Length> = self.stated.iter().map(of).collect();
        while let Some(found) = negative_loop(&self.arcs_by(again, &Errors::Less(&margins)), self.faces.len() + 1) {
            let narrowed = |s: &usize| margins[*s].is_positive();
            let limits: Vec<usize> =
                found.arcs.iter().filter_map(|a| a.limit).map(|(s, _)| s).filter(narrowed).collect();
            if limits.is_empty() {
                break;
            }
            for s in limits {
                margins[s] = Length::ZERO;
            }
        }
        margins
    }

    /// Stated lengths that hold where everything stands by the readings, and may not when those are off.
    pub(super) fn unsure(&self, out: &Replan) -> Vec<(usize, Length)> {
        let free = self.stated.iter().enumerate().filter(|(i, s)| !s.fixed && out.gives.iter().all(|(g, _)| g != i));
        free.filter_map(|(i, s)| {
            let is = out.at[s.to]? - out.at[s.from]?;
            let off = self.error(s.from, &out.again) + self.error(s.to, &out.again);
            let by = (is + off - s.limits.max).max(s.limits.min - (is - off));
            (off.is_positive() && by.is_positive()).then_some((i, by))
        })
        .collect()
    }
}
