#![doc = include_str!("kept.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::LimitsFrom;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-kept",
    severity: Severity::Error,
    group: "stock",
    source: "ASTM A108 (inch bars), EN 10278 (metric bars)",
    page: include_str!("kept.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some((bar, source)) = facts.bar_limits() else { return };
    for (section, asked) in facts.kept().filter(|(_, d)| matches!(d.from, LimitsFrom::Written | LimitsFrom::Fit)) {
        let wanted = asked.limits_or_nominal();
        if wanted.covers(bar) {
            continue;
        }
        let message = tell!(
            "{} keeps the bar's surface but is asked {} to {}; the bar may be {} to {}",
            "{} behält die Oberfläche der Stange, verlangt ist aber {} bis {}; die Stange kann {} bis {} haben",
            section.called(),
            facts.show(wanted.min),
            facts.show(wanted.max),
            facts.show(bar.min),
            facts.show(bar.max)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(section.value)
                .of(section.letter.clone())
                .length("asked_min", wanted.min)
                .length("asked_max", wanted.max)
                .length("bar_min", bar.min)
                .length("bar_max", bar.max)
                .help(told!(
                    "Order ground bar, take a larger bar and turn it, or open the limits",
                    "Geschliffene Stange bestellen, eine größere nehmen und drehen, oder die Grenzen öffnen"
                ))
                .source(source.clone()),
        );
    }
}
