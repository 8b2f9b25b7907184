//! Problem and answer in one piece, as JSON hands it to a second program.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::Minutes;
use super::problem::Problem;
use super::replay::{Violation, replay};
use super::solve::Answer;

/// Whole numbers above this are not exact in every JSON reader and are written as text.
const EXACT: u128 = 1 << 53;

/// The ordering problem with its answer: enough to solve it again, or to check the order alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificate {
    /// What was to be ordered.
    #[serde(flatten)]
    pub problem: Problem,
    /// (operation, setup), in the order done.
    pub order: Vec<(String, String)>,
    /// What the order costs, in minutes.
    pub cost: Minutes,
    /// No order costs less.
    pub lower_bound: Minutes,
    /// Whether the cost is proved to be the least.
    #[serde(default)]
    pub proven_optimal: bool,
    /// Number of sequences of (operation, setup) at that cost: a number, text past 2^53, or null when not known.
    #[serde(default, serialize_with = "write_count", deserialize_with = "read_count")]
    pub optimal_orders: Option<u128>,
    /// Whether of those orders this one is known to grip with the least harm: bar, then loose sections, then seats.
    #[serde(default)]
    pub gentlest: bool,
    /// States the search looked at.
    #[serde(default)]
    pub states: usize,
    /// Most states on best orders after the same number of operations.
    #[serde(default)]
    pub widest_layer: usize,
}

/// What is wrong with a certificate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// The order breaks a rule.
    Order(Violation),
    /// The order costs this, not what is stated.
    Cost(Minutes),
    /// The stated bound is above the cost, or does not reach it although the order is said to be the best.
    Bound,
}

impl Certificate {
    /// Puts an answer beside its problem.
    pub fn new(problem: Problem, answer: Answer) -> Self {
        Self {
            problem,
            order: answer.order,
            cost: answer.cost,
            lower_bound: answer.lower_bound,
            proven_optimal: answer.proven_optimal,
            optimal_orders: answer.optimal_orders,
            gentlest: answer.gentlest,
            states: answer.states,
            widest_layer: answer.widest_layer,
        }
    }

    /// Replays the order and compares cost and bound. That there is no better order is for a second solver to show.
    ///
    /// # Errors
    /// The first [`Fault`] found.
    pub fn verify(&self) -> Result<(), Fault> {
        let cost = replay(&self.problem, &self.order).map_err(Fault::Order)?;
        if cost != self.cost {
            Err(Fault::Cost(cost))
        } else if self.lower_bound > cost || self.proven_optimal && self.lower_bound != cost {
            Err(Fault::Bound)
        } else {
            Ok(())
        }
    }
}

#[expect(clippy::ref_option, reason = "the form serde asks for")]
fn write_count<S: Serializer>(count: &Option<u128>, serializer: S) -> Result<S::Ok, S::Error> {
    match *count {
        None => serializer.serialize_none(),
        Some(n) if n <= EXACT => serializer.serialize_u64(n as u64),
        Some(n) => serializer.serialize_str(&n.to_string()),
    }
}

fn read_count<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<u128>, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Count {
        Number(u64),
        Text(String),
    }
    match Option::<Count>::deserialize(deserializer)? {
        None => Ok(None),
        Some(Count::Number(n)) => Ok(Some(u128::from(n))),
        Some(Count::Text(text)) => text.parse().map(Some).map_err(D::Error::custom),
    }
}
