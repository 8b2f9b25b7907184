#![doc = include_str!("not_inspected.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Feature, Kind, LimitsFrom, Size};

/// The check.
pub const CHECK: Check = Check {
    id: "not-inspected",
    severity: Severity::Warning,
    group: "process",
    source: "the rows of the inspection list",
    page: include_str!("not_inspected.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        for (what, size) in without_a_row(feature) {
            let Some(limits) = size.limits.filter(|l| size.from == LimitsFrom::Written && l.band().is_positive())
            else {
                continue;
            };
            let message = format!(
                "{what} of {} is held {} to {}, and no row of the inspection list measures it",
                feature.called(),
                facts.show(limits.min),
                facts.show(limits.max)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Warning, message)
                    .at(size.place)
                    .of(feature.letter.clone())
                    .length("min", limits.min)
                    .length("max", limits.max)
                    .help("Write a row for it on the sheet by hand, with the gauge that measures it, or leave its limits out"),
            );
        }
    }
}

/// Sizes that the inspection list has no rows for.
fn without_a_row(feature: &Feature) -> Vec<(&'static str, &Size)> {
    match &feature.kind {
        Kind::Chamfer { leg, .. } => vec![("the leg", leg)],
        Kind::Fillet { radius, .. } => vec![("the radius", radius)],
        Kind::Relief { corner: Some(corner), .. } => vec![("the corner", corner)],
        Kind::ParallelKeyseat { width, .. } => vec![("the width", width)],
        Kind::Thread { thread, .. } => {
            let named = [("the full length", &thread.full), ("the run-out", &thread.run_out)];
            named.into_iter().filter_map(|(what, size)| Some((what, size.as_ref()?))).collect()
        }
        _ => Vec::new(),
    }
}
