#![doc = include_str!("limits_reversed.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::LimitsFrom;
use crate::unit::Unit;

use super::sizes;

/// The check.
pub const CHECK: Check = Check {
    id: "limits-reversed",
    severity: Severity::Error,
    group: "description",
    source: "the lower limit is the smaller one",
    page: include_str!("limits_reversed.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for one in sizes::all(facts.part) {
        let Some(limits) = one.size.limits.filter(|l| l.reversed() && one.size.from != LimitsFrom::OneEnd) else {
            continue;
        };
        let (lower, upper) = (facts.show(limits.min), facts.show(limits.max));
        let zero = |text: &str| if text.starts_with('.') { format!("0{text}") } else { text.to_owned() };
        let message = format!("the lower limit of the {} is {lower}, above the upper limit {upper}", one.called);
        let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
            .at(one.size.place)
            .length("lower", limits.min)
            .length("upper", limits.max)
            .help(format!(
                "Change them about: `{}..{}`, or upper deviation first, `{}`",
                zero(&upper),
                zero(&lower),
                if facts.part.units == Unit::Inch { "+0.002/-0.001" } else { "+0.05/-0.02" }
            ));
        if let Some(letter) = one.feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
}
