//! What overhangs is struck from the mountings of each operation that something else can hold.

use super::problem::problem;
use super::{Given, overhangs};
use crate::model::plan::{Derived, Why};
use crate::plan::cost::Rates;
use crate::plan::order::{Limits, any_order};

/// Operations up to which it is asked one by one: each takes a search for any order at all.
const MOST_OPS: usize = 80;

impl Given<'_> {
    /// The same without the mountings that overhang, wherever something else can do their work; where that leaves no order, also
    /// with as many of them struck as leave one, operation by operation. None when that changes nothing.
    pub(super) fn well_held(&self, derived: &Derived, limits: &dyn Fn() -> Limits) -> Vec<Derived> {
        let bad: Vec<bool> = derived.mountings.iter().map(overhangs).collect();
        let mut all = derived.clone();
        let mut struck = Vec::new();
        for i in 0..all.operations.len() {
            if strike(&mut all, &bad, i) {
                struck.push(i);
            }
        }
        if struck.is_empty() {
            return Vec::new();
        }
        let full = share(&all).then_some(all);
        let many = derived.operations.len() > MOST_OPS;
        if many || full.as_ref().is_some_and(|d| self.leaves_an_order(d, limits())) {
            return full.into_iter().collect();
        }
        let mut some = derived.clone();
        for i in struck {
            let mut next = some.clone();
            if strike(&mut next, &bad, i) && share(&next) && self.leaves_an_order(&next, limits()) {
                some = next;
            }
        }
        full.into_iter().chain((some != *derived).then_some(some)).collect()
    }

    /// Whether any order keeps every rule of a derivation, soft ones too.
    fn leaves_an_order(&self, derived: &Derived, limits: Limits) -> bool {
        let rates = Rates::of(self.facts, self.layout);
        any_order(&problem(self.part, derived, &rates, None), limits) == Some(true)
    }
}

/// Leaves one operation only what does not overhang, where there is such; whether that changed anything.
fn strike(derived: &mut Derived, bad: &[bool], i: usize) -> bool {
    let allowed = &mut derived.operations[i].1;
    let mixed = allowed.iter().any(|m| bad[*m]) && allowed.iter().any(|m| !bad[*m]);
    if mixed {
        allowed.retain(|m| !bad[*m]);
    }
    mixed
}

/// Whether what must be done in one holding still has one in common.
fn share(derived: &Derived) -> bool {
    let shares = |(a, b, _): &(usize, usize, Why)| {
        let (a, b) = (&derived.operations[*a].1, &derived.operations[*b].1);
        a.iter().any(|m| b.contains(m))
    };
    derived.together.iter().all(shares)
}
