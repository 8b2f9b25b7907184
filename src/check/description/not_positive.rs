#![doc = include_str!("not_positive.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

use super::sizes::{self, Is};

/// The check.
pub const CHECK: Check = Check {
    id: "not-positive",
    severity: Severity::Error,
    group: "description",
    source: "a diameter, length or width is above zero",
    page: include_str!("not_positive.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for one in sizes::all(facts.part) {
        let judged = !matches!(one.is, Is::Place | Is::FaceNamed);
        if !judged || one.size.nominal.is_positive() {
            continue;
        }
        let message = format!("the {} is {}, and it must be above zero", one.called, facts.show(one.size.nominal));
        let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
            .at(one.size.place)
            .length("size", one.size.nominal)
            .help(format!("Write the {} as it is on the part, without a sign", one.called));
        if let Some(letter) = one.feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
}
