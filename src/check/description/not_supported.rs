#![doc = include_str!("not_supported.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "not-supported",
    severity: Severity::Error,
    group: "description",
    source: "this version of the program",
    page: include_str!("not_supported.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::NotSupported { word } = &slip.fault else { continue };
        let message = format!("not supported yet: {word}");
        out.push(
            of_slip::finding(facts, &CHECK, slip, message)
                .help("Plan this by hand; nothing of it is checked, planned or printed on the sheet"),
        );
    }
}
