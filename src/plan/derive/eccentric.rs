//! Eccentrics: turned about their own axis, the work thrown over, once everything about the part's axis is done.

use super::draft::on;
use super::layout::{Layout, Section, Shape};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Kind, Part, Workholder};
use crate::plan::holding::{Throw, drilled};
use crate::unit::{Length, Station};

/// The cuts of every eccentric that can be held for them, each from the end its holding leaves free.
pub(super) fn thrown(part: &Part, layout: &Layout, throws: &[Throw]) -> Vec<Operation> {
    let mut operations = Vec::new();
    for (i, throw) in throws.iter().enumerate() {
        let first = !throws[..i].iter().any(|t| t.like(throw));
        if first && matches!(throw.by, Workholder::SecondCenters(_)) {
            operations.extend(drilled(part, layout, throw));
        }
        operations.extend(of_one(part, layout, throw));
    }
    operations
}

fn of_one(part: &Part, layout: &Layout, throw: &Throw) -> Vec<Operation> {
    let Some((section, feature)) = layout.section(throw.feature).zip(part.features.get(throw.feature)) else {
        return Vec::new();
    };
    let Kind::Eccentric { diameter, .. } = &feature.kind else { return Vec::new() };
    let (end, allow) = (throw.end, &layout.allow);
    let limits = diameter.limits.filter(|l| !l.reversed()).unwrap_or(diameter.limits_or_nominal());
    let aim = allow.aim(limits);
    let (before, behind) = (walled(layout, section, throw, end, aim), walled(layout, section, throw, end.other(), aim));
    let (outer, inner) = (section.outer(end), section.inner(end));
    let cut = |verb, tool| {
        let mut operation = on(part, verb, throw.feature, Some(end), tool);
        operation.id = format!("{}-thrown", operation.id);
        operation.throw = Some(throw.off);
        operation
    };
    let wide = section.long() >= allow.between || !before;
    let rough_to = allow.rough(aim);
    let proud = |wall: bool| if wall { allow.face } else { Length::ZERO };
    let mut operations = Vec::new();
    let room = section.long() - proud(before) - proud(behind);
    let worth = section.aim + throw.off.times(2) - rough_to >= allow.worth_roughing();
    if wide && worth && room.is_positive() {
        let mut rough = cut(Verb::Rough, ToolKind::Roughing);
        rough.from = Some(Layout::toward(end.other(), outer, proud(before)));
        rough.to = Some(Layout::toward(end, inner, proud(behind)));
        rough.face = behind.then_some(inner);
        rough.to_diameter = Some(rough_to);
        operations.push(rough);
    }
    let (verb, tool) = match (wide, operations.is_empty()) {
        (false, _) => (Verb::Groove, ToolKind::Grooving),
        (true, true) => (Verb::Turn, ToolKind::Finishing),
        (true, false) => (Verb::Finish, ToolKind::Finishing),
    };
    let mut last = cut(verb, tool);
    last.to_diameter = Some(aim);
    last.limits = Some(limits).filter(|l| l.band().is_positive());
    (last.from, last.to) = (Some(outer), Some(inner));
    last.close = allow.is_close(diameter);
    operations.push(last);
    operations
}

/// Whether what lies beside an eccentric toward an end stands out of it somewhere: a wall that the tool comes to.
fn walled(layout: &Layout, section: &Section, throw: &Throw, toward: End, aim: Length) -> bool {
    let face = section.outer(toward);
    let beside = layout.sections.iter().find(|s| s.feature != section.feature && s.inner(toward) == face);
    let reach = |s: &Section| {
        let neck = if s.shape == Shape::Neck { Length::ZERO } else { s.aim };
        neck + throw.off.times(2)
    };
    beside.is_some_and(|s| reach(s) > aim)
}

/// What lies on an eccentric (a groove, a broken edge) is cut about its axis, in its holding; none where that is not planned.
pub(super) fn on_eccentrics(layout: &Layout, throws: &[Throw], operations: Vec<Operation>) -> Vec<Operation> {
    let settled = |mut operation: Operation| {
        let under = stretch(&operation).and_then(|(a, b)| layout.under(a, b)).filter(|s| s.thrown);
        let minor = !operation.inside && matches!(operation.verb, Verb::Chamfer | Verb::Groove);
        let Some(section) = under.filter(|_| minor) else { return Some(operation) };
        let throw = throws.iter().find(|t| t.feature == section.feature)?;
        if operation.end == Some(throw.end.other()) {
            (operation.from, operation.to) = match operation.verb {
                Verb::Groove => (operation.to, operation.from),
                _ => (operation.from, operation.to),
            };
        }
        (operation.throw, operation.end) = (Some(throw.off), Some(throw.end));
        Some(operation)
    };
    operations.into_iter().filter_map(settled).collect()
}

fn stretch(operation: &Operation) -> Option<(Station, Station)> {
    let (a, b) = (operation.from?, operation.to?);
    (a != b).then_some((a.min(b), a.max(b)))
}
