//! What follows from the features before any order is chosen.

use super::part::Holding;
use super::plan::{Assumed, Operation, Setup, Verb, Why};
use crate::unit::Length;

/// What follows from the features before any order is chosen: the operations, the mountings they may be done in, and what must
/// come before what.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Derived {
    /// Operations, each with the names of the mountings it may be done in (index into `mountings`).
    pub operations: Vec<(Operation, Vec<usize>)>,
    /// Candidate mountings; their `operations` are empty, grip and stick-out filled as far as they do not depend on the order.
    pub mountings: Vec<Setup>,
    /// Operation before operation (indices), with the rule.
    pub before: Vec<(usize, usize, Why)>,
    /// Operations that must be in one mounting (indices), with the rule.
    pub together: Vec<(usize, usize, Why)>,
    /// Wishes of the description that break a hard rule: place of the wish, the rule, the two operations' words.
    pub refused: Vec<Refused>,
    /// Wishes that cannot be followed for another reason: an unknown name, a holding that does not reach, a hard rule off.
    pub unheeded: Vec<Unheeded>,
    /// Mounting, operation: the mounting grips a surface that this operation makes.
    pub needs: Vec<(usize, usize, Why)>,
    /// Mounting, operation: the mounting grips a surface that this operation cuts away.
    pub ends: Vec<(usize, usize, Why)>,
    /// Mounting, operation, operation: in that mounting the first of them is done only once the other is.
    pub gates: Vec<(usize, usize, usize, Why)>,
    /// Soft rules that a wish of the description outweighs.
    pub outweighed: Vec<Why>,
    /// What was assumed: key, value, source.
    pub assumed: Vec<Assumed>,
    /// Mountings taken from an operation because the work would give way there by more than the band of its size.
    pub too_soft: Vec<TooSoft>,
    /// How the cuts of an operation are eased in a mounting, as the orders looked at so far wanted it: never less than once.
    pub eased: Vec<Eased>,
}

/// How the cuts of an operation are eased in a mounting in which the work gives way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Eased {
    /// Id of the operation.
    pub operation: String,
    /// Name of the mounting.
    pub mounting: String,
    /// As [`Operation::lighter`].
    pub lighter: Option<Length>,
    /// As [`Operation::spring`].
    pub spring: u32,
}

/// A mounting in which an operation is not done, since the work, as an order found had it then, would give way too far under the last cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooSoft {
    /// Id of the operation.
    pub operation: String,
    /// Name of the mounting.
    pub mounting: String,
    /// How that holds the work.
    pub holding: Holding,
    /// How far it would give way, on the diameter.
    pub gives: Length,
    /// Band of the size.
    pub band: Length,
}

impl Derived {
    /// Gives an operation in a mounting the cuts it has had there.
    pub fn ease(&self, operation: &mut Operation, mounting: &str) {
        let known = self.eased.iter().find(|e| e.operation == operation.id && e.mounting == mounting);
        (operation.lighter, operation.spring) = known.map_or((None, 0), |e| (e.lighter, e.spring));
    }

    /// Remembers how an operation was eased in a mounting; whether that is more than it was.
    pub fn remember(&mut self, operation: &Operation, mounting: &str) -> bool {
        if operation.lighter.is_none() && operation.spring == 0 {
            return false;
        }
        let (lighter, spring) = (operation.lighter, operation.spring);
        match self.eased.iter_mut().find(|e| e.operation == operation.id && e.mounting == mounting) {
            Some(known) if (known.lighter, known.spring) == (lighter, spring) => return false,
            Some(known) => (known.lighter, known.spring) = (lighter, spring),
            None => self.eased.push(Eased {
                operation: operation.id.clone(),
                mounting: mounting.to_owned(),
                lighter,
                spring,
            }),
        }
        true
    }

    /// Wishes that are not followed, each with why.
    pub fn wishes_not_followed(&self) -> impl Iterator<Item = (&str, &Why)> {
        let refused = self.refused.iter().map(|r| (r.wish.as_str(), &r.why));
        refused.chain(self.unheeded.iter().map(|u| (u.wish.as_str(), &u.why)))
    }
}

/// A wish that is not followed, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unheeded {
    /// The wish; none when the description gives it no place.
    pub place: Option<crate::finding::Place>,
    /// What it asked, in words.
    pub wish: String,
    /// Why not.
    pub why: Why,
}

/// A wish that a hard rule forbids.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The wish.
    pub place: crate::finding::Place,
    /// What it asked, in words.
    pub wish: String,
    /// Verb and feature the wish puts first.
    pub first: (Verb, Option<usize>),
    /// Verb and feature it puts behind.
    pub then: (Verb, Option<usize>),
    /// The rule against it.
    pub why: Why,
}
