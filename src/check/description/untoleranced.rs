#![doc = include_str!("untoleranced.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::feature::Extent;
use crate::model::{Fault, LimitsFrom, PlaceRef, Slip};
use crate::unit::{Unit, example_in};

use super::sizes::{self, Is, Sized};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "untoleranced",
    severity: Severity::Warning,
    group: "description",
    source: "ASME Y14.5, ISO 8015: every size has limits, its own or general ones",
    page: include_str!("untoleranced.md"),
    look,
};

/// More sizes of one sort than this are told in one finding.
const MOST_SINGLE: usize = 3;

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // General tolerances that could not be read are no missing ones.
    let meant = |f: &Fault| matches!(f, Fault::UnknownWord { nearest: Some(n), .. } if n == "tolerances");
    let inside = |s: &Slip| facts.part.general.place.is_some_and(|p| p.covers(s.place));
    if facts.slips.iter().any(|s| meant(&s.fault) || inside(s)) {
        return;
    }
    let all: Vec<Sized<'_>> = sizes::all(facts.part).into_iter().filter(|s| lacks_limits(facts, s)).collect();
    let diameters: Vec<&Sized<'_>> = all.iter().filter(|s| s.is == Is::Diameter).collect();
    let lengths: Vec<&Sized<'_>> = all.iter().filter(|s| s.is != Is::Diameter).collect();
    told(&diameters, "diameters", facts.part.units, out);
    told(&lengths, "lengths", facts.part.units, out);
}

/// A size that is cut, with neither limits of its own nor general ones.
fn lacks_limits(facts: &Facts<'_>, one: &Sized<'_>) -> bool {
    let cut = matches!(one.is, Is::Diameter | Is::Length | Is::Place);
    cut && one.size.limits.is_none()
        && one.size.from == LimitsFrom::Nothing
        && !one.size.reference
        && !repeats_overall(facts, one)
        && !facts.slips.iter().any(|s| one.size.place.covers(s.place))
}

/// The last `to` is the overall, not a dimension of its own.
fn repeats_overall(facts: &Facts<'_>, one: &Sized<'_>) -> bool {
    let last = facts.part.sections().next_back();
    let Some(Extent::To(PlaceRef::FromDatum(size))) = last.and_then(|f| f.kind.extent()) else { return false };
    let overall = facts.part.overall.as_ref().map(|o| o.nominal);
    size.place == one.size.place && overall == Some(size.nominal)
}

fn told(found: &[&Sized<'_>], what: &str, units: Unit, out: &mut Vec<Finding>) {
    let by = example_in("±0.005", units);
    let help = tell!(
        "Write limits beside it ({by}), or `tolerances: {{{what}: {by}}}` at the top for all of them",
        "Grenzen dazuschreiben ({by}), oder oben `tolerances: {{{what}: {by}}}` für alle"
    );
    if found.len() <= MOST_SINGLE {
        for one in found {
            let message = tell!(
                "the {} {} has no limits, and no general tolerance speaks of {what}",
                "{} {} hat keine Grenzen, und keine Allgemeintoleranz sagt etwas über {what}",
                one.called,
                one.size.text
            );
            out.push(of_feature(Finding::new(CHECK.id, CHECK.severity, message).at(one.size.place), one).help(&help));
        }
        return;
    }
    let message = tell!(
        "{} {what} have no limits, and no general tolerance speaks of {what}",
        "{} {what} haben keine Grenzen, und keine Allgemeintoleranz sagt etwas über {what}",
        found.len()
    );
    let mut finding = Finding::new(CHECK.id, CHECK.severity, message).at(found[0].size.place).help(help);
    for one in found {
        finding = of_feature(finding, one);
    }
    for one in found.iter().skip(1).take(5) {
        finding = finding.also(one.size.place, "this one too");
    }
    out.push(finding);
}

fn of_feature(finding: Finding, one: &Sized<'_>) -> Finding {
    match one.feature.map(|f| &f.letter) {
        Some(letter) if !letter.is_empty() && !finding.features.contains(letter) => finding.of(letter.clone()),
        _ => finding,
    }
}
