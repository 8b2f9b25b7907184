#![doc = include_str!("missing_key.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "missing-key",
    severity: Severity::Error,
    group: "description",
    source: "the words of this description",
    page: include_str!("missing_key.md"),
    look,
};

/// Keys whose absence has a check of its own.
const OWN: [&str; 3] = ["units", "datum", "overall"];

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::Missing { key, within, example } = &slip.fault else { continue };
        if OWN.contains(key) {
            continue;
        }
        let message = format!("{within} needs `{key}:`");
        out.push(of_slip::finding(facts, &CHECK, slip, message).help(format!("Add it: `{example}`")));
    }
}
