#![doc = include_str!("deflection.md")]

use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::beam::{Beam, Hold};
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Span, Verb};
use crate::unit::{Length, Station, Unit};

/// The check.
pub const CHECK: Check = Check {
    id: "deflection",
    severity: Severity::Warning,
    group: "holding",
    source: "stepped beam by exact integration; cutting force by Kienzle with figures from practice",
    page: include_str!("deflection.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    let force = force(facts);
    for (setup, operation) in plan.operations() {
        let last_cut = matches!(operation.verb, Verb::Finish | Verb::Turn);
        let Some(limits) = operation.limits.filter(|l| last_cut && l.band().is_positive()) else { continue };
        let Some(error) = error(facts, setup, operation, force) else { continue };
        let share = error.mm() / limits.band().mm();
        let severity = if share > 1.0 {
            Severity::Error
        } else if share > facts.limit_number(CHECK.id, "share") {
            Severity::Warning
        } else {
            continue;
        };
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let message = format!(
            "the work gives way under the last cut of {}: about {} on the diameter, {} of its band of {}",
            feature.map_or_else(|| "this operation".to_owned(), crate::model::Feature::called),
            facts.show(error),
            number(share),
            facts.show(limits.band())
        );
        let mut finding = Finding::new(CHECK.id, severity, message)
            .length("deflection_on_diameter", error)
            .length("band", limits.band())
            .number("force_newtons", force)
            .help("Lighter last cuts and spring passes, a rest, or finish it before its neighbours are turned down");
        finding.place = feature.map(|f| f.head).or(Some(facts.setup_place(setup)));
        finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
        out.push(finding);
    }
}

/// Radial force of a light finishing cut, newtons: kc1.1 · depth · feed^0.75, and the radial share of it.
fn force(facts: &Facts<'_>) -> f64 {
    let depth = facts.shop.and_then(|s| s.depth_finish).unwrap_or_else(|| facts.limit(CHECK.id, "depth")).mm();
    let feed = facts.limit(CHECK.id, "feed").mm();
    facts.limit_number(CHECK.id, "kc") * depth * feed.powf(0.75) * facts.limit_number(CHECK.id, "radial")
}

/// Error of the diameter where the cut is worst.
fn error(facts: &Facts<'_>, setup: &Setup, operation: &Operation, force: f64) -> Option<Length> {
    let hold = match setup.holding {
        Holding::Chuck => Hold::Chuck,
        Holding::ChuckAndCenter => Hold::ChuckAndCenter,
        Holding::BetweenCenters => Hold::Centers,
        _ => return None,
    };
    let row = from_headstock(setup)?;
    let pieces: Vec<(Length, Length)> = row.iter().map(|(span, long)| (smaller(span), *long)).collect();
    let mut beam = Beam::steel(&pieces, hold);
    if let Some(grade) = facts.grade() {
        beam.modulus = grade.material.modulus * 1000.0;
    }
    if let Some((near, tail)) = facts.shop.and_then(|s| s.stiffness) {
        (beam.near_stiffness, beam.tail_stiffness) = (Some(near), Some(tail));
    }
    let (from, to) = (operation.from?, operation.to?);
    let places = [from, to, from + (to - from).half()];
    let start = near_support(setup)?;
    let errors = places.iter().filter_map(|at| {
        let x = (*at - start).abs().mm().clamp(0.0, beam.length());
        beam.under(force, x).ok().map(|d| d.diameter_error)
    });
    let worst = errors.fold(0.0_f64, f64::max);
    Some(Length::from_f64(worst, Unit::Millimetre))
}

/// Where the work leaves the jaws, or its headstock end between centers.
fn near_support(setup: &Setup) -> Option<Station> {
    let works = setup.works?;
    if setup.holding == Holding::BetweenCenters {
        let ends = setup.before.first().map(|s| s.from).zip(setup.before.last().map(|s| s.to))?;
        return Some(if works == End::Datum { ends.1 } else { ends.0 });
    }
    let grip = setup.grip.as_ref()?;
    Some(if works == End::Datum { grip.from } else { grip.to })
}

/// The spans out of the jaws, from the headstock outward, with their lengths.
fn from_headstock(setup: &Setup) -> Option<Vec<(Span, Length)>> {
    let (start, works) = (near_support(setup)?, setup.works?);
    let clipped = setup.before.iter().filter_map(|span| {
        let (from, to) =
            if works == End::Datum { (span.from, span.to.min(start)) } else { (span.from.max(start), span.to) };
        (from < to).then(|| (*span, to - from))
    });
    let mut row: Vec<(Span, Length)> = clipped.collect();
    if works == End::Datum {
        row.reverse();
    }
    (!row.is_empty()).then_some(row)
}

fn smaller(span: &Span) -> Length {
    span.diameter.min(span.diameter_to)
}
