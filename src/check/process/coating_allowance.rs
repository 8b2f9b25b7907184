#![doc = include_str!("coating_allowance.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;

/// The check.
pub const CHECK: Check = Check {
    id: "coating-allowance",
    severity: Severity::Warning,
    group: "process",
    source: "geometry: a diameter grows by two thicknesses, a 60° pitch diameter by four (ASME B1.1, coated threads)",
    page: include_str!("coating_allowance.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(coating) = facts.part.coating.as_ref().filter(|c| c.nominal.is_positive()) else { return };
    let grows = coating.nominal.times(2);
    let threads = facts.part.sections().any(|s| matches!(s.kind, Kind::Thread { .. }));
    let on_threads = if threads {
        format!(", a 60° pitch diameter by {}", facts.show(coating.nominal.times(4)))
    } else {
        String::new()
    };
    let message = format!(
        "a coating of {} a side makes every diameter grow by {}{on_threads}: the sizes here are those to be cut, before it",
        facts.show(coating.nominal),
        facts.show(grows)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(coating.place)
            .length("coating", coating.nominal)
            .length("growth", grows)
            .help("If the drawing's sizes count after coating, take that much off each diameter and write the sizes to cut")
            .help("If they are the sizes to cut already, accept this and say so"),
    );
}
