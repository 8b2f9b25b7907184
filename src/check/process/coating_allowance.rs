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
        format!(" (a 60° pitch diameter by {})", facts.show(coating.nominal.times(4)))
    } else {
        String::new()
    };
    let (thick, both) = (facts.show(coating.nominal), facts.show(grows));
    let (severity, message) = match facts.part.sizes_after_coating {
        Some(true) => (
            Severity::Note,
            format!(
                "the sizes here count after a coating of {thick} a side: the sheet's outside diameters are {both} smaller{on_threads}"
            ),
        ),
        Some(false) => return,
        None => (
            Severity::Warning,
            format!(
                "a coating of {thick} a side makes every diameter grow by {both}{on_threads}, and nobody says whether the sizes here count before it or after"
            ),
        ),
    };
    let mut finding = Finding::new(CHECK.id, severity, message)
        .at(coating.place)
        .length("coating", coating.nominal)
        .length("growth", grows);
    finding = match severity {
        Severity::Note => finding.help("Lengths are left as drawn; mask what must not be coated"),
        _ => finding
            .help(format!("Write `coating: {thick} a side, sizes after` where the drawing's sizes count after it: the sheet then takes it off"))
            .help("Or `sizes before`, where they are the sizes to cut already"),
    };
    out.push(finding);
}
