//! Roughing and finishing of cylinders: longitudinal cuts from the tailstock end, largest first.
//!
//! From one end the tool cuts nothing deeper than what lies outboard allows, so what is roughed is the running maximum of
//! the finished diameters. Each clearly distinct step of it is one roughing operation; steps nearer to each other than the
//! finish allowance are roughed together. What lies lower than its outboard neighbour is turned between shoulders afterward.

use super::draft::on;
use super::layout::{Layout, Section, Shape};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Part};
use crate::unit::{Length, Limits, Station};

/// Neighbouring sections that are finished in one cut, because one size serves them all.
struct Run<'a> {
    members: Vec<&'a Section>,
    aim: Length,
    limits: Limits,
    close: bool,
    /// Lower than something outboard of it.
    valley: bool,
}

impl Run<'_> {
    /// The member held closest names the operation.
    fn lead(&self) -> &Section {
        let tightest = self.members.iter().min_by_key(|s| (s.shape == Shape::Blank, s.limits.band()));
        tightest.copied().unwrap_or(self.members[0])
    }

    /// What it is roughed to; the body of an eccentric is nothing but rough.
    fn rough_to(&self, layout: &Layout) -> Length {
        if self.lead().thrown { self.aim } else { layout.allow.rough(self.aim) }
    }

    fn others(&self) -> Vec<usize> {
        let lead = self.lead().feature;
        self.members.iter().map(|s| s.feature).filter(|f| *f != lead).collect()
    }
}

/// Roughing and finishing operations of one side, in the order a hand would take them.
pub(super) fn side(part: &Part, layout: &Layout, end: End) -> Vec<Operation> {
    let mut sections: Vec<&Section> = layout.sections.iter().filter(|s| s.end == Some(end)).collect();
    if end == End::Far {
        sections.reverse();
    }
    let runs = runs(layout, &sections);
    let mut operations = roughs(part, layout, end, &sections, &runs);
    let mut finishes: Vec<Operation> = Vec::new();
    for run in runs.iter().rev().filter(|r| !r.valley) {
        finishes.push(finish(part, layout, end, &sections, run));
    }
    for run in runs.iter().filter(|r| r.valley) {
        let (rough, finish) = between_shoulders(part, layout, Some(end), run);
        operations.extend(rough);
        finishes.push(finish);
    }
    finishes.sort_by_key(|o| o.close);
    // The body an eccentric is turned out of stays rough.
    finishes.retain(|o| o.feature.and_then(|f| layout.section(f)).is_none_or(|s| !s.thrown));
    operations.extend(finishes);
    operations
}

/// Operations of what can be reached from either end: a turned summit, the valleys between two summits.
pub(super) fn either(part: &Part, layout: &Layout) -> Vec<Operation> {
    let mut operations = Vec::new();
    let top = layout.top();
    for section in layout.sections.iter().filter(|s| s.end.is_none()) {
        if section.whole {
            operations.extend(two_bites(part, layout, section));
            continue;
        }
        if !section.is_turned() {
            continue;
        }
        let run = run_of(section, section.aim < top);
        if run.valley {
            let (rough, finish) = between_shoulders(part, layout, None, &run);
            operations.extend(rough);
            operations.extend((!section.thrown).then_some(finish));
        } else {
            operations.extend(summit(part, layout, section, section.from, section.to, None));
        }
    }
    operations
}

/// A turned summit: one rough cut where there is enough for it, one finish.
fn summit(
    part: &Part,
    layout: &Layout,
    section: &Section,
    from: Station,
    to: Station,
    end: Option<End>,
) -> Vec<Operation> {
    let rough_to = run_of(section, false).rough_to(layout);
    let roughed = layout.bar - rough_to >= layout.allow.worth_roughing();
    let mut operations = Vec::new();
    if roughed {
        let mut rough = on(part, Verb::Rough, section.feature, end, ToolKind::Roughing);
        (rough.from, rough.to, rough.to_diameter) = (Some(from), Some(to), Some(rough_to));
        operations.push(rough);
    }
    if section.thrown {
        return operations;
    }
    let verb = if roughed { Verb::Finish } else { Verb::Turn };
    let mut last = sized(part, layout, verb, &run_of(section, false), end);
    (last.from, last.to) = (Some(from), Some(to));
    operations.push(last);
    operations
}

/// A section from end to end of the part: half from each end, since one end is always in the jaws or the dog.
fn two_bites(part: &Part, layout: &Layout, section: &Section) -> Vec<Operation> {
    if !section.is_turned() {
        return Vec::new();
    }
    if let Some(end) = layout.parted {
        return summit(part, layout, section, section.outer(end), section.inner(end), Some(end));
    }
    let middle = section.from + section.long().half();
    let mut operations = Vec::new();
    for (end, outer) in [(End::Datum, section.from), (End::Far, section.to)] {
        for mut operation in summit(part, layout, section, outer, middle, Some(end)) {
            operation.id = format!("{}-{}", operation.id, end.word());
            operations.push(operation);
        }
    }
    operations
}

fn run_of(section: &Section, valley: bool) -> Run<'_> {
    Run { members: vec![section], aim: section.aim, limits: section.limits, close: section.close, valley }
}

/// Collects what is finished in one cut, from the tailstock inward. Necks are left to the grooving tool.
fn runs<'a>(layout: &Layout, sections: &[&'a Section]) -> Vec<Run<'a>> {
    let mut runs: Vec<Run<'a>> = Vec::new();
    let mut cover = Length::ZERO;
    let mut open = 0;
    for section in sections {
        if section.shape == Shape::Kept {
            cover = cover.max(section.aim);
            open = runs.len();
            continue;
        }
        if section.shape == Shape::Neck {
            continue;
        }
        // A valley that the grooving tool makes is passed over, as a neck is.
        let plunged = |r: &&mut Run| r.valley && r.members.iter().all(|s| s.long() < layout.allow.between);
        let last = runs[open..].iter_mut().rev().find(|r| !plunged(r));
        match last.and_then(|run| joint(layout, run, section).map(|size| (run, size))) {
            Some((run, (aim, limits))) => {
                run.close |= section.close;
                (run.aim, run.limits) = (aim, limits);
                run.members.push(section);
            }
            None => runs.push(run_of(section, section.aim < cover)),
        }
        cover = cover.max(section.aim);
    }
    runs
}

/// The size that serves a run and its next neighbour, if one does without making either harder to hold.
fn joint(layout: &Layout, run: &Run, next: &Section) -> Option<(Length, Limits)> {
    let plain = |s: &Section| matches!(s.shape, Shape::Cylinder | Shape::Blank) && !s.thrown;
    if !plain(next) || !run.members.iter().all(|s| plain(s)) || (run.aim - next.aim).abs() > layout.allow.same {
        return None;
    }
    let both = run.limits.both(next.limits)?;
    let narrower = run.limits.band().min(next.limits.band());
    (both.band().times(4) >= narrower.times(3)).then(|| (layout.allow.aim(both), both))
}

/// One roughing operation a distinct step, largest first.
fn roughs(part: &Part, layout: &Layout, end: End, sections: &[&Section], runs: &[Run]) -> Vec<Operation> {
    let steps: Vec<&Run> = runs.iter().filter(|r| !r.valley).collect();
    let mut operations = Vec::new();
    let mut was = layout.bar;
    let mut head = steps.len();
    while head > 0 {
        let lead = steps[head - 1];
        let to = lead.rough_to(layout);
        if was - to < layout.allow.worth_roughing() {
            head -= 1;
            continue;
        }
        let mut tail = head - 1;
        while tail > 0 && lead.aim - steps[tail - 1].aim < layout.allow.finish {
            tail -= 1;
        }
        let outermost = steps[tail].members.first().map_or(layout.face(end), |s| s.outer(end));
        let span = Step { to, head, outermost };
        operations.push(step(part, layout, end, sections, &steps, &span));
        was = to;
        head = tail;
    }
    operations
}

/// A step of the rough shape: its diameter, the run that makes it (counted from 1), where its outermost section begins.
struct Step {
    to: Length,
    head: usize,
    outermost: Station,
}

fn step(part: &Part, layout: &Layout, end: End, sections: &[&Section], steps: &[&Run], span: &Step) -> Operation {
    let lead = steps[span.head - 1].lead();
    let own = steps[span.head - 1].members.last().map_or(layout.face(end), |s| s.inner(end));
    let next = steps.get(span.head).and_then(|r| r.members.first()).copied();
    let kept =
        sections.iter().find(|s| s.shape == Shape::Kept && layout.depth(end, s.outer(end)) >= layout.depth(end, own));
    let stops =
        [next, kept.copied()].into_iter().flatten().map(|s| s.outer(end)).min_by_key(|at| layout.depth(end, *at));
    let face = stops.unwrap_or_else(|| side_ends(layout, end, sections));
    let stands = stops.is_some() || shoulder_beyond(layout, end, face, steps[span.head - 1].aim);
    let mut rough = on(part, Verb::Rough, lead.feature, Some(end), ToolKind::Roughing);
    let proud = if stands { Layout::toward(end, face, layout.allow.face) } else { face };
    let reaches = layout.depth(end, proud) > layout.depth(end, span.outermost);
    rough.from = Some(layout.face(end));
    rough.to = Some(if reaches { proud } else { face });
    rough.face = (stands && reaches).then_some(face);
    rough.to_diameter = Some(span.to);
    let deep = |s: &Section| layout.depth(end, s.outer(end));
    let within = |s: &&&Section| deep(s) >= layout.depth(end, span.outermost) && deep(s) < layout.depth(end, face);
    let others = sections.iter().filter(within).filter(|s| s.feature != lead.feature && s.shape != Shape::Kept);
    rough.with = others.map(|s| s.feature).collect();
    rough
}

/// The face at which one side of the part stops.
fn side_ends(layout: &Layout, end: End, sections: &[&Section]) -> Station {
    sections.last().map_or(layout.face(end), |s| s.inner(end))
}

/// Whether something larger stands behind a face, so that roughing leaves it proud.
fn shoulder_beyond(layout: &Layout, end: End, face: Station, aim: Length) -> bool {
    layout.sections.iter().any(|s| s.outer(end) == face && s.aim > aim)
}

/// The finish of a run: to its shoulder, over the reliefs behind it unless its size is close.
fn finish(part: &Part, layout: &Layout, end: End, sections: &[&Section], run: &Run) -> Operation {
    let outer = run.members.first().map_or(layout.face(end), |s| s.outer(end));
    let inner = run.members.last().map_or(outer, |s| s.inner(end));
    let verb = if layout.bar - layout.allow.rough(run.aim) >= layout.allow.worth_roughing() {
        Verb::Finish
    } else {
        Verb::Turn
    };
    let mut operation = sized(part, layout, verb, run, Some(end));
    operation.from = Some(outer);
    operation.to = Some(if run.close { inner } else { over_necks(layout, end, sections, inner) });
    operation
}

/// `from` moved inward over the necks that follow.
fn over_necks(layout: &Layout, end: End, sections: &[&Section], from: Station) -> Station {
    let mut at = from;
    for section in sections {
        let follows = section.outer(end) == at && layout.depth(end, section.outer(end)) >= layout.depth(end, from);
        if follows && section.shape == Shape::Neck {
            at = section.inner(end);
        }
    }
    at
}

/// The finishing operation of a run, without its place.
fn sized(part: &Part, layout: &Layout, verb: Verb, run: &Run, end: Option<End>) -> Operation {
    let lead = run.lead();
    let taper = lead.shape == Shape::Taper;
    let verb = if taper { Verb::Taper } else { verb };
    let mut operation = on(part, verb, lead.feature, end, ToolKind::Finishing);
    let polished = super::lying::is_polished(part, lead.feature);
    let more = if polished { layout.allow.polish } else { Length::ZERO };
    operation.with = run.others();
    operation.to_diameter = Some(run.aim + more);
    // Before it is polished a section is so much larger, its limits with it.
    let limits = Limits::new(run.limits.min + more, run.limits.max + more);
    operation.limits = Some(limits).filter(|l| l.band().is_positive());
    operation.close = run.close;
    operation
}

/// Roughing where it pays, and the last cut, between two shoulders.
fn between_shoulders(part: &Part, layout: &Layout, end: Option<End>, run: &Run) -> (Option<Operation>, Operation) {
    let direction = end.unwrap_or(End::Datum);
    let outer = run.members.first().map_or(Station::DATUM, |s| s.outer(direction));
    let inner = run.members.last().map_or(outer, |s| s.inner(direction));
    let long = (inner - outer).abs();
    let wide = long >= layout.allow.between;
    let cover = surface_outboard(layout, direction, outer);
    let rough_to = run.rough_to(layout);
    let proud = layout.allow.face;
    let worth = wide && long >= layout.allow.between + proud.times(2) && cover - rough_to >= layout.allow.finish;
    let rough = worth.then(|| {
        let mut rough = on(part, Verb::Rough, run.lead().feature, end, ToolKind::Roughing);
        rough.with = run.others();
        rough.from = Some(Layout::toward(direction.other(), outer, proud));
        rough.to = Some(Layout::toward(direction, inner, proud));
        rough.face = Some(inner);
        rough.to_diameter = Some(rough_to);
        rough
    });
    let verb = match (wide, worth) {
        (false, _) => Verb::Groove,
        (true, true) => Verb::Finish,
        (true, false) => Verb::Turn,
    };
    let mut last = sized(part, layout, verb, run, end);
    if verb == Verb::Groove && last.verb == Verb::Groove {
        last.tool = ToolKind::Grooving;
    }
    (last.from, last.to) = (Some(outer), Some(inner));
    (rough, last)
}

/// The finished diameter of the nearest section outboard of a place that is no neck.
fn surface_outboard(layout: &Layout, end: End, at: Station) -> Length {
    let solid = |s: &&Section| s.shape != Shape::Neck;
    let nearest = match end {
        End::Datum => layout.sections[..layout.sections.partition_point(|s| s.to <= at)].iter().rev().find(solid),
        End::Far => layout.sections[layout.sections.partition_point(|s| s.from < at)..].iter().find(solid),
    };
    nearest.map_or(layout.bar, |s| s.aim)
}
