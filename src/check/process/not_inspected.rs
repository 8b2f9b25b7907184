#![doc = include_str!("not_inspected.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::measured::{MeasuredWhat, Reads};
use crate::model::{Feature, InsideCut, Kind, LimitsFrom, Size};
use crate::{tell, told};

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
    readings(facts, out);
    for feature in &facts.part.features {
        for (what, size) in without_a_row(feature) {
            let Some(limits) = size.limits.filter(|l| size.from == LimitsFrom::Written && l.band().is_positive())
            else {
                continue;
            };
            let message = tell!(
                "{what} of {} is held {} to {}, and no row of the inspection list measures it",
                "{what} von {} ist auf {} bis {} verlangt, und keine Zeile der Prüfliste misst es",
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
                    .help(told!("Write a row for it on the sheet by hand, with the gauge that measures it, or leave its limits out", "Von Hand eine Zeile dafür auf das Blatt schreiben, mit der passenden Lehre, oder die Grenzen weglassen")),
            );
        }
    }
}

/// Readings that no row of the inspection list takes: nothing was asked of that size, so nothing is judged by it.
fn readings(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for measured in &facts.part.measured {
        let MeasuredWhat::Other { feature, of, size } = &measured.what else { continue };
        let Some(on) = facts.feature(*feature).filter(|f| !is_asked(facts, f, *of)) else { continue };
        let (key, called) = (of.key(), on.called());
        let how = match of {
            Reads::Runout => "Say what it must run true to, and how true: `true to: NAME within …`",
            _ => "Say what is asked of it on the drawing, with limits; or take the reading out",
        };
        let message = format!(
            "{called} was read as {} ({key}), and the description sets no limit to that: it is not judged",
            facts.show(size.nominal)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(size.place)
                .of(on.letter.clone())
                .length("measured", size.nominal)
                .help(how),
        );
    }
}

/// Whether the inspection list has a row of this kind for a feature.
fn is_asked(facts: &Facts<'_>, feature: &Feature, of: Reads) -> bool {
    let held = |size: &Size| !size.reference && size.limits.is_some_and(|l| l.band().is_positive());
    match (of, &feature.kind) {
        (Reads::Runout, _) => feature.true_to.is_some(),
        (Reads::OverWires, Kind::Thread { thread, .. }) => thread.taper.is_none(),
        (Reads::AcrossBottom, Kind::ParallelKeyseat { .. } | Kind::Woodruff { .. })
        | (Reads::AcrossFlats, Kind::Flats { .. }) => true,
        (Reads::AcrossFlats, Kind::Turn { kept: true, .. }) => {
            facts.part.stock.as_ref().is_some_and(|s| s.shape.has_corners())
        }
        (Reads::Width, Kind::Groove { wide, .. }) => held(wide),
        (Reads::Width, Kind::Inside(inside)) => matches!(&inside.cut, InsideCut::Groove { wide, .. } if held(wide)),
        _ => false,
    }
}

/// Sizes that the inspection list has no rows for.
fn without_a_row(feature: &Feature) -> Vec<(&'static str, &Size)> {
    match &feature.kind {
        Kind::Chamfer { leg, .. } => vec![(told!("the leg", "die Schenkellänge"), leg)],
        Kind::Fillet { radius, .. } => vec![(told!("the radius", "der Radius"), radius)],
        Kind::Relief { corner: Some(corner), .. } => vec![(told!("the corner", "die Ecke"), corner)],
        Kind::ParallelKeyseat { width, .. } => vec![(told!("the width", "die Breite"), width)],
        Kind::Thread { thread, .. } => {
            let named = [
                (told!("the full length", "die volle Länge"), &thread.full),
                (told!("the run-out", "der Auslauf"), &thread.run_out),
            ];
            named.into_iter().filter_map(|(what, size)| Some((what, size.as_ref()?))).collect()
        }
        _ => Vec::new(),
    }
}
