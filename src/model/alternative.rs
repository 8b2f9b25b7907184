//! Another plan beside the one chosen: what it does without, and what it does instead.

use super::feature::End;
use super::plan::{Plan, Setup};

/// A plan that does without a holding.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// Name of the mounting it does without.
    pub without: String,
    /// Minutes.
    pub cost: f64,
    /// No plan without it costs less.
    pub lower_bound: f64,
    /// Its mountings in order.
    pub setups: Vec<String>,
    /// What it does in another mounting than the plan, by that mounting, in the order it comes to them.
    pub instead: Vec<Instead>,
    /// The end it turns first, where the plan turns the other first.
    pub first_end: Option<End>,
}

/// Operations that are done in another mounting.
#[derive(Debug, Clone, PartialEq)]
pub struct Instead {
    /// The mounting, without operations.
    pub setup: Setup,
    /// Ids of the operations.
    pub operations: Vec<String>,
}

/// Why no second plan is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSecond {
    /// The plan has more operations than this, beyond which none is looked for.
    TooMany(usize),
    /// The plan itself is not proven to be the cheapest.
    Unproven,
    /// The search took longer than so many seconds.
    OutOfTime(u64),
}

impl Alternative {
    /// Whether it takes no longer than the plan, as far as minutes are told: to a tenth.
    pub fn is_as_quick(&self, plan: &Plan) -> bool {
        self.more(plan) < 0.05
    }

    /// Minutes it takes more.
    pub fn more(&self, plan: &Plan) -> f64 {
        self.cost - plan.cost
    }

    /// Whether it is the same plan as another, which does without another of the holdings.
    pub fn is_same(&self, other: &Self) -> bool {
        (&self.setups, &self.instead) == (&other.setups, &other.instead)
    }
}

impl Instead {
    /// The operations by their numbers in the plan, those that follow one another there as first and last.
    pub fn numbers(&self, plan: &Plan) -> Vec<(u32, u32)> {
        let mut spans: Vec<(u32, u32)> = Vec::new();
        let mut follows = false;
        for (_, o) in plan.operations() {
            let moved = self.operations.contains(&o.id);
            match spans.last_mut().filter(|_| follows && moved) {
                Some(span) => span.1 = o.number,
                None if moved => spans.push((o.number, o.number)),
                None => {}
            }
            follows = moved;
        }
        spans
    }
}
