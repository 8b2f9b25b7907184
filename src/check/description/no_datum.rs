#![doc = include_str!("no_datum.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "no-datum",
    severity: Severity::Error,
    group: "description",
    source: "ISO 129-1: dimensions are given from a datum",
    page: include_str!("no_datum.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips.iter().filter(|s| matches!(s.fault, Fault::Missing { key: "datum", .. })) {
        let message = "no datum is stated: nobody knows which end the lengths are measured from".to_owned();
        let help = "Write `datum:` with the name of the end that the lengths are measured from";
        out.push(of_slip::finding(facts, &CHECK, slip, message).help(help));
    }
}
