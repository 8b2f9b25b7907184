#![doc = include_str!("duplicate_key.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "duplicate-key",
    severity: Severity::Error,
    group: "description",
    source: "YAML 1.2: the keys of a mapping are unique",
    page: include_str!("duplicate_key.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::Duplicate { word, name, first } = &slip.fault else { continue };
        let (message, help) = if *name {
            (format!("two features are called `{word}`"), "Give one of them another name")
        } else {
            (format!("the key `{word}` is written twice, and only one can count"), "Take one of them out")
        };
        out.push(of_slip::finding(facts, &CHECK, slip, message).also(*first, "first written here").help(help));
    }
}
