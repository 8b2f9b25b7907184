//! The ordering problem as plain data: what any second program needs to solve it again.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::Minutes;

/// Operations, candidate setups, rules and costs. Its fields are those of the `certificate` in the JSON reply of `plan`.
///
/// An answer lists every operation once, each with one of its setups. A setup name stands for one mounting as long as
/// it is not left; coming back to it is a setup change again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// The operations, in the order to prefer among equally good ones.
    pub ops: Vec<Op>,
    /// All candidate setups.
    pub setups: Vec<Setup>,
    /// `(a, b)`: a is done some time before b.
    #[serde(default)]
    pub precedences: Vec<(String, String)>,
    /// `(a, b)`: b is done right after a, in the same mounting.
    #[serde(default)]
    pub adjacent: Vec<(String, String)>,
    /// `(a, b)`: no setup change between a and b, whichever comes first.
    #[serde(default)]
    pub same_setup: Vec<(String, String)>,
    /// Setup name to operations: the setup is used only once all of these are done.
    #[serde(default)]
    pub setup_needs: BTreeMap<String, Vec<String>>,
    /// Setup name to operations: the setup is used no more once one of these is done.
    #[serde(default)]
    pub setup_ends: BTreeMap<String, Vec<String>>,
    /// Setup name to pairs of operations: in that setup the first is done only once the second is; elsewhere it need not wait for it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub setup_gates: BTreeMap<String, Vec<(String, String)>>,
    /// Cost of going from one setup to another; names are written `S>R`, and `*` is any other change.
    pub setup_change: Cost,
    /// Cost of the first setup.
    pub setup_first: Cost,
    /// Cost of putting in another tool than the one before.
    pub tool_change: Minutes,
    /// Cost of the first tool.
    pub tool_first: Minutes,
    /// Whether the tool stays in over a setup change. Where it does not, each setup change costs a `tool_change` too.
    #[serde(default = "yes")]
    pub tool_kept_over_setup: bool,
    /// Rule of the trade (`R9`) to what stands here because of it. The search does not read it; whoever finds an order that breaks
    /// one of these can say against which rule it goes.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub reasons: BTreeMap<String, Vec<Rule>>,
}

impl Problem {
    /// The rules of the trade that one of these stands here for.
    pub fn because_of(&self, rule: &Rule) -> Vec<&str> {
        self.reasons.iter().filter(|(_, stands)| stands.contains(rule)).map(|(id, _)| id.as_str()).collect()
    }
}

fn yes() -> bool {
    true
}

impl Default for Problem {
    fn default() -> Self {
        Self {
            ops: Vec::new(),
            setups: Vec::new(),
            precedences: Vec::new(),
            adjacent: Vec::new(),
            same_setup: Vec::new(),
            setup_needs: BTreeMap::new(),
            setup_ends: BTreeMap::new(),
            setup_gates: BTreeMap::new(),
            setup_change: Cost::default(),
            setup_first: Cost::default(),
            tool_change: Minutes::ZERO,
            tool_first: Minutes::ZERO,
            tool_kept_over_setup: true,
            reasons: BTreeMap::new(),
        }
    }
}

/// One operation.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Op {
    /// Unique name.
    pub id: String,
    /// Names of the setups it can be done in; the first is preferred among equally good ones.
    pub setups: Vec<String>,
    /// The tool it takes; equal text is the same tool.
    pub tool: String,
    /// Its cost, one for all setups or one for each.
    pub cost: Cost,
    /// What is done: `face`, `rough`, `thread`, …
    #[serde(default)]
    pub verb: String,
    /// What it is done to.
    #[serde(default)]
    pub feature: String,
    /// The end it belongs to: `datum`, `far` or none.
    #[serde(default)]
    pub end: Option<String>,
}

/// One candidate setup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Setup {
    /// Unique name.
    pub name: String,
    /// How the part is held.
    #[serde(default)]
    pub holding: String,
    /// Where the part's datum end is: `headstock`, `tailstock`, `up`, …
    #[serde(default)]
    pub datum_end: String,
}

/// A cost that is the same everywhere, or one for each name; the name `*` stands for all that are not listed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Cost {
    /// The same everywhere.
    Same(Minutes),
    /// One for each name.
    Each(BTreeMap<String, Minutes>),
}

impl Default for Cost {
    fn default() -> Self {
        Self::Same(Minutes::ZERO)
    }
}

impl From<Minutes> for Cost {
    fn from(time: Minutes) -> Self {
        Self::Same(time)
    }
}

/// One rule of a [`Problem`], by name.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// From `precedences`.
    Precedence(String, String),
    /// From `adjacent`.
    Adjacent(String, String),
    /// From `same_setup`.
    SameSetup(String, String),
    /// From `setup_needs`: setup, operation.
    SetupNeeds(String, String),
    /// From `setup_ends`: setup, operation.
    SetupEnds(String, String),
    /// From `setup_gates`: setup, operation that waits there, operation it waits for.
    SetupGate(String, String, String),
}

/// What makes a [`Problem`] unreadable, before any search.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Malformed {
    /// Two operations with this id.
    OpTwice(String),
    /// Two setups with this name.
    SetupTwice(String),
    /// A rule names an operation that is not listed.
    UnknownOp(String),
    /// A rule, a cost or an operation names a setup that is not listed.
    UnknownSetup(String),
    /// The operation has no setup.
    NoSetup(String),
    /// No cost given: the table's field, and the name missing in it.
    NoCost(&'static str, String),
    /// A cost beyond [`Minutes::MOST`], by field.
    CostTooLarge(&'static str),
    /// More operations or setups than the search takes: what, and how many it takes.
    TooMany(&'static str, usize),
}
