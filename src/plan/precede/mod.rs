//! What must come before what, and what stays in one mounting: the order rules applied to the operations of a part.

mod early;
mod eccentrics;
mod hardening;
mod holding;
mod inside;
mod knurls;
mod main_cuts;
mod minor_cuts;
mod table;

pub(super) use early::milled_early;
pub(super) use table::{covers, is_cut, is_last_cut, is_slot_kind};

use crate::model::plan::{Operation, Why};
use crate::model::{Part, Text};

use super::derive::Layout;
use super::rules::rule;
use table::Table;

/// Rules in force: all but the soft ones that the description switches off.
#[derive(Debug, Clone, Default)]
pub(super) struct Switches {
    off: Vec<&'static str>,
    /// Names in `off:` that are no rule, or a hard one.
    pub(super) refused: Vec<Text>,
}

impl Switches {
    pub(super) fn of(part: &Part) -> Self {
        let mut switches = Self::default();
        for text in &part.wishes.off {
            match rule(&text.text) {
                Some(rule) if !rule.hard => switches.off.push(rule.id),
                _ => switches.refused.push(text.clone()),
            }
        }
        switches
    }

    /// Whether a rule holds.
    pub(super) fn on(&self, id: &str) -> bool {
        !self.off.contains(&id)
    }
}

/// Pairs of operations with their reason.
#[derive(Debug, Clone, Default)]
pub(super) struct Pairs {
    /// The first comes before the second.
    pub(super) before: Vec<(usize, usize, Why)>,
    /// Both in one mounting.
    pub(super) together: Vec<(usize, usize, Why)>,
}

/// Applies the rules.
pub(super) fn pairs(part: &Part, layout: &Layout, operations: &[Operation], switches: &Switches) -> Pairs {
    let mut table = Table::new(part, layout, operations, switches);
    table.end_faces();
    table.roughing();
    table.close_sizes();
    table.slender_last();
    table.minor_after_main();
    table.threads();
    table.knurls();
    table.slots();
    table.one_clocking();
    table.hardening();
    table.parting();
    table.bench();
    table.one_holding();
    table.inside_cuts();
    table.eccentrics();
    table.pairs
}
