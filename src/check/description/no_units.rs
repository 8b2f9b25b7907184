#![doc = include_str!("no_units.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "no-units",
    severity: Severity::Error,
    group: "description",
    source: "a size without a unit is 25.4 times wrong when guessed",
    page: include_str!("no_units.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips.iter().filter(|s| matches!(s.fault, Fault::Missing { key: "units", .. })) {
        let message = "no units are stated, and they are never assumed".to_owned();
        let help = "Write `units: in` or `units: mm` at the top";
        out.push(of_slip::finding(facts, &CHECK, slip, message).help(help));
    }
}
