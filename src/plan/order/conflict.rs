//! Which rules cannot all be kept: a set of which each one is needed for the contradiction.

use super::core::Core;
use super::feasible::{Feasible, feasible};
use super::index::{Indexed, Link};
use super::meter::{Limits, Meter};
use super::problem::Problem;
use super::solve::MOST_OPS;

/// Rules that leave no order; `minimal` when dropping any one of them would leave one.
pub(super) struct Conflict {
    pub(super) links: Vec<Link>,
    pub(super) minimal: bool,
}

/// Shrinks the rules of a problem without an order by dropping what is not needed for that, first in large pieces.
pub(super) fn conflict<const W: usize>(indexed: &Indexed, meter: &Meter) -> Conflict {
    let mut links = indexed.links.clone();
    let mut piece = links.len().div_ceil(2).max(1);
    let mut minimal = true;
    loop {
        let mut at = 0;
        while at < links.len() {
            let end = (at + piece).min(links.len());
            let fewer: Vec<Link> = links[..at].iter().chain(&links[end..]).copied().collect();
            match impossible::<W>(indexed, &fewer, meter) {
                Some(true) => links = fewer,
                Some(false) => at = end,
                None => {
                    minimal = false;
                    at = end;
                }
            }
        }
        if piece == 1 {
            return Conflict { links, minimal };
        }
        piece = piece.div_ceil(2);
    }
}

/// Whether any order keeps the rules of a problem; `None` when the limits came first, or when it cannot be read.
pub fn any_order(problem: &Problem, limits: Limits) -> Option<bool> {
    let indexed = Indexed::read(problem).ok()?;
    let (links, meter) = (&indexed.links, Meter::start(limits));
    let none = match indexed.ops.len() {
        0..=64 => impossible::<1>(&indexed, links, &meter),
        65..=256 => impossible::<4>(&indexed, links, &meter),
        257..=1024 => impossible::<16>(&indexed, links, &meter),
        1025..=MOST_OPS => impossible::<64>(&indexed, links, &meter),
        _ => None,
    };
    none.map(|none| !none)
}

/// Whether no order keeps these rules; `None` when the limits came first.
fn impossible<const W: usize>(indexed: &Indexed, links: &[Link], meter: &Meter) -> Option<bool> {
    match Core::<W>::prepare(indexed, links) {
        Err(_) => Some(true),
        Ok(core) => match feasible(&core, meter) {
            Feasible::Yes(_) => Some(false),
            Feasible::No => Some(true),
            Feasible::Unknown => None,
        },
    }
}
