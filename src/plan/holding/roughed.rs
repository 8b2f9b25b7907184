//! Mountings that hold the other end as it was roughed: one end roughed, the work reversed, the other end roughed and finished, and only then
//! the first end finished (US Army OD1645, p. 60).

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths};
use super::mountings::{Candidate, Candidates, is_end_work, is_lathe_work, mounting, out_of_jaws, overlaps};
use super::rested::{Broken, rested_on, wide};
use super::surfaces::best_of;
use super::why::not_over_a_slot;
use crate::model::part::Holding;
use crate::model::plan::{Derived, Grip, Operation, State, Verb};
use crate::model::{End, Part};
use crate::plan::derive::{Layout, Section, Shape};
use crate::plan::precede::is_cut;
use crate::plan::rules::because;
use crate::plan::shape::Work;
use crate::tell;
use crate::unit::{Limits, Station};

/// Whether rules and wishes put cuts at each end behind cuts at the other: then an end is left between two of its cuts, and held as it stands.
pub(in crate::plan) fn between_its_cuts(derived: &Derived) -> bool {
    let end = |i: usize| {
        let operation = &derived.operations[i].0;
        operation.end.filter(|_| is_cut(operation) && !operation.inside && operation.throw.is_none())
    };
    let pairs = || derived.before.iter().map(|(a, b, _)| (*a, *b));
    let slots: Vec<usize> =
        (0..derived.operations.len()).filter(|i| leaves_the_lathe(&derived.operations[*i].0)).collect();
    // On the mill or away for hardening between two cuts it comes between the ends as well.
    let through = |slot: usize, first: End| {
        pairs().any(|(a, b)| b == slot && end(a) == Some(first))
            && pairs().any(|(a, b)| a == slot && end(b) == Some(first.other()))
    };
    let crosses = |first: End| {
        pairs().any(|(a, b)| end(a) == Some(first) && end(b) == Some(first.other()))
            || slots.iter().any(|slot| through(*slot, first))
    };
    crosses(End::Datum) && crosses(End::Far)
}

/// Mountings for an end that hold the best place of the other as it is roughed.
pub(super) fn mountings(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    operations: &[Operation],
    taken: &Broken,
) -> Vec<Candidate> {
    let end = holding.end;
    if layout.parted.is_some() || !holding.depth.is_positive() {
        return Vec::new();
    }
    let rough = as_roughed(layout, end.other(), operations);
    let wanted = [Holding::Chuck, Holding::ChuckAndCenter, Holding::BetweenCenters];
    let best = |how: Holding| {
        let held = best_of(part, &rough, lengths, end, how, |s| s.shape == Shape::Cylinder)?;
        Some(Held { grip: Grip { protect: false, roughed: true, ..held.grip }, ..held })
    };
    let candidates = wanted.into_iter().filter_map(|how| {
        // An end that a center carries is faced and centered in the chuck alone.
        let turns = holding.turning.contains(&how);
        if !turns && how != Holding::Chuck {
            return None;
        }
        let held = best(how)?;
        let out = out_of_jaws(layout, end, &held);
        let overhangs = how == Holding::Chuck && out > held.grip.diameter.times(OVERHANG_DIAMETERS);
        let held = Held { poor: held.poor || overhangs, ..held };
        Some(Candidate { overhangs, ..mounting(layout, holding, how, held, out, turns) })
    });
    let mut list: Vec<Candidate> = candidates.collect();
    if holding.steady && holding.turning.contains(&Holding::ChuckAndRest) {
        let rested = |held| rested_on(part, layout, lengths, holding, true, taken, &held);
        list.extend(best(Holding::Chuck).into_iter().flat_map(rested));
    }
    list
}

/// The work as it stands once an end is roughed: what is roughed as cylinders, all else as what jaws do not hold.
fn as_roughed(layout: &Layout, end: End, operations: &[Operation]) -> Layout {
    let mut work = Work::bar(layout);
    let roughs = operations.iter().filter(|o| is_rough(o) && o.end.is_none_or(|e| e == end));
    roughs.for_each(|o| work.apply(o, Some(end)));
    let sections = work.spans().into_iter().filter_map(|span| {
        let (from, to) = (span.from.max(Station::DATUM), span.to.min(Station(layout.overall)));
        let own = layout.under(from, to).filter(|_| from < to)?;
        let shape = match (span.state, own.shape) {
            (State::Rough, _) => Shape::Cylinder,
            (_, Shape::Kept) => Shape::Kept,
            _ => Shape::Neck,
        };
        let aim = span.diameter.max(span.diameter_to);
        let limits = Limits::exactly(aim);
        let plain = Section { close: false, seat: false, whole: false, ..own.clone() };
        Some(Section { from, to, shape, aim, ends: (aim, aim), limits, ..plain })
    });
    let sections: Vec<Section> = sections.collect();
    layout.clone().with_sections(sections)
}

fn is_rough(operation: &Operation) -> bool {
    operation.verb == Verb::Rough && !operation.inside && operation.throw.is_none() && !operation.for_rest
}

/// A roughed place is held once its end is roughed, and until something else is cut there.
pub(super) fn rules(part: &Part, operations: &[Operation], m: usize, candidate: &Candidate, result: &mut Candidates) {
    let held = &candidate.held;
    let letter = &held.grip.letter;
    for (i, operation) in operations.iter().enumerate() {
        let here = result.allowed[i].contains(&m);
        if is_rough(operation) && !here && (operation.end == Some(candidate.end.other()) || overlaps(operation, held)) {
            let reason = tell!(
                "{letter} is held as it is roughed, once that end is roughed all over",
                "an {letter} wird geschruppt gespannt, sobald dieses Ende ganz geschruppt ist"
            );
            result.needs.push((m, i, because("feature-in-jaws", reason)));
        } else if is_slot(operation)
            && wide(part, operation).is_some_and(|(a, b)| a < held.grip.to && held.grip.from < b)
        {
            result.ends.push((m, i, because("R25", not_over_a_slot(letter))));
        } else if overlaps(operation, held) && is_lathe_work(operation) && !is_end_work(operation) && !here {
            let reason = tell!(
                "{letter} is held as it is roughed only until it is cut again",
                "an {letter} wird geschruppt nur gespannt, bis dort wieder gedreht wird"
            );
            result.ends.push((m, i, because("feature-in-jaws", reason)));
        }
    }
}

fn is_slot(operation: &Operation) -> bool {
    matches!(operation.verb, Verb::Mill | Verb::Drill | Verb::Tap) && !operation.inside
}

fn leaves_the_lathe(operation: &Operation) -> bool {
    is_slot(operation) || operation.verb == Verb::HeatTreat
}
