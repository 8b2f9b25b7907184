#![doc = include_str!("kept_runout.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-kept-runout",
    severity: Severity::Warning,
    group: "stock",
    source: "common practice, no source",
    page: include_str!("kept_runout.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some((section, diameter)) = facts.kept().next() else { return };
    let turned = facts.part.sections().filter(|f| !matches!(f.kind, Kind::Turn { kept: true, .. })).count();
    if turned == 0 {
        return;
    }
    let message = tell!(
        "{} keeps the bar's surface, {}: the turned diameters will not be assured true to it",
        "{} behält die Oberfläche der Stange, {}: dass die gedrehten Durchmesser dazu laufen, ist nicht sicher",
        section.called(),
        facts.show(diameter.nominal)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(section.value)
            .of(section.letter.clone())
            .length("kept", diameter.nominal)
            .number("turned_sections", turned as f64)
            .help(told!(
                "Put copper or brass under the jaws, and indicate the bar if it must run true with the seats",
                "Kupfer oder Messing unter die Backen, und die Stange ausrichten, wenn sie zu den Sitzen laufen muss"
            )),
    );
}
