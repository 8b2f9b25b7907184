//! The stated lengths of a drawing as the re-plan takes them.

use std::collections::BTreeMap;

use super::Stated;
use crate::chain::Chain;
use crate::unit::{Length, Limits, Station};

/// Everything the drawing states, and which link each is; faces at one place of the drawing are one face.
pub fn stated(drawn: &Chain) -> (Vec<Stated>, Vec<Option<usize>>) {
    let mut stated = Vec::new();
    let mut links = Vec::new();
    for (i, l) in drawn.graph.links.iter().enumerate().filter(|(_, l)| l.from != l.to) {
        if !l.limits.reversed() && (l.limits.band().is_positive() || l.nominal == Length::ZERO) {
            stated.push(Stated { from: l.from, to: l.to, limits: l.limits, fixed: !l.limits.band().is_positive() });
            links.push(Some(i));
        }
    }
    let mut first: BTreeMap<Station, usize> = BTreeMap::new();
    for (f, at) in drawn.at.iter().enumerate() {
        let Some(at) = at else { continue };
        match first.get(at) {
            Some(one) => {
                let limits = Limits::exactly(Length::ZERO);
                stated.push(Stated { from: *one, to: f, limits, fixed: true });
                links.push(None);
            }
            None => {
                first.insert(*at, f);
            }
        }
    }
    (stated, links)
}
