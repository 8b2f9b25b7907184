#![doc = include_str!("ambiguous_word.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "ambiguous-word",
    severity: Severity::Error,
    group: "description",
    source: "shop use in both countries; common practice, no source",
    page: include_str!("ambiguous_word.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::TradeWord { word, readings: [one, other] } = &slip.fault else { continue };
        let message = format!("`{word}` has two readings, and they are not cut alike");
        let finding = of_slip::finding(facts, &CHECK, slip, message);
        out.push(finding.help(format!("It may be {one}")).help(format!("Or {other}")));
    }
}
