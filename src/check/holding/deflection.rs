#![doc = include_str!("deflection.md")]

use std::collections::BTreeSet;

use super::cutting_force::{CuttingForce, roughing, threading, turning};
use super::thread_force::LastCut;
use crate::chain::Hollow;
use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::beam::{Beam, Hold, left_by_a_pass};
use crate::model::feature::Thread;
use crate::model::inside::InsideCut;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Span, Verb};
use crate::model::{End, Feature, Kind};

use crate::unit::{Length, Station, Unit};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "deflection",
    severity: Severity::Warning,
    group: "holding",
    source: "stepped beam by exact integration; cutting force by a tool maker's table of metals, its radial share from practice",
    page: include_str!("deflection.md"),
    look,
};

/// Parts into which a cut is divided to find where the work gives way most.
const PLACES: i64 = 16;

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    for (setup, operation) in plan.operations() {
        let Some(give) = give(facts, &plan.setups, setup, operation) else { continue };
        let (error, share, force) = (give.error, give.share(), give.force);
        // A thread is cut without infeed until the wires read right: what it gives way by costs passes, not the part.
        let threaded = operation.verb == Verb::Thread;
        let severity = if share > 1.0 && !threaded {
            Severity::Error
        } else if share > facts.limit_number(CHECK.id, "share") {
            Severity::Warning
        } else {
            continue;
        };
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let message = tell!(
            "the work gives way under the last cut of {}: about {} on the {}, {} of its band of {}{}",
            "das Werkstück weicht beim letzten Schnitt an {} aus: etwa {} im {}, {} seiner Toleranz von {}{}",
            feature.map_or_else(
                || told!("this operation", "dieser Arbeitsgang").to_owned(),
                crate::model::Feature::called
            ),
            facts.show(error),
            if threaded { told!("pitch diameter", "Flankendurchmesser") } else { "diameter" },
            number(share),
            facts.show(give.band),
            give.metal.map_or_else(String::new, |m| format!(" ({m}, {:.0} N/mm²)", give.specific))
        );
        let mut finding = Finding::new(CHECK.id, severity, message)
            .length("deflection_on_diameter", error)
            .length("band", give.band)
            .number("force_newtons", force)
            .number("specific_force", give.specific)
            .by_limit("radial")
            .by_limit("feed")
            .help(told!("Lighter last cuts and spring passes, a rest, or finish it before its neighbours are turned down", "Leichtere letzte Schnitte und Züge ohne Zustellung, eine Lünette, oder fertig drehen, bevor die Nachbarn schwächer werden"));
        if give.metal.is_none() {
            finding = finding.by_limit("kc");
        }
        if severity == Severity::Warning {
            finding = finding.by_limit("share");
        }
        if facts.shop.is_none_or(|s| s.depth_finish.is_none()) {
            finding = finding.by_limit("depth");
        }
        finding.place = feature.map(|f| f.head).or(Some(facts.setup_place(setup)));
        finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
        out.push(finding);
    }
}

/// How far the work gives way under a last cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Give {
    /// Error of the diameter where the cut is worst.
    pub error: Length,
    /// Band of the diameter.
    pub band: Length,
    /// Radial force, newtons.
    pub force: f64,
    /// Specific cutting force it was reckoned with, N/mm².
    pub specific: f64,
    /// The metal whose table gave that; none where the limit `kc` did.
    pub metal: Option<&'static str>,
    /// Depth of the cut a side, mm.
    depth: f64,
}

impl Give {
    /// The error as a share of the band.
    pub fn share(&self) -> f64 {
        self.error.mm() / self.band.mm()
    }

    /// The depth a side at which the error is such a share of the band: the force grows with the depth.
    pub fn depth_for(&self, share: f64) -> Length {
        Length::from_f64(self.depth * share / self.share(), Unit::Millimetre)
    }

    /// What so many passes without infeed leave of the error.
    pub fn left_by(&self, passes: u32) -> Length {
        let share = left_by_a_pass(self.force / self.depth, self.error.mm() / 2.0 / self.force);
        Length::from_f64(self.error.mm() * share.powf(f64::from(passes)), Unit::Millimetre)
    }

    /// Passes without infeed until a tenth of the band is left, four at most, and what is left then: each pass leaves
    /// K C/(1 + K C) of what was left, K the force a mm of depth and C the give a newton.
    pub fn spring_passes(&self) -> (u32, Length) {
        let (stiffness, compliance) = (self.force / self.depth, self.error.mm() / 2.0 / self.force);
        let share = left_by_a_pass(stiffness, compliance);
        let mut left = self.error.mm();
        let mut passes = 0;
        while passes == 0 || (passes < 4 && left > self.band.mm() / 10.0) {
            left *= share;
            passes += 1;
        }
        (passes, Length::from_f64(left, Unit::Millimetre))
    }
}

/// How far the work gives way under the last cut of an operation; none where it has no limits, or a rest carries it there.
/// `setups` are those of the whole plan: what an earlier one bored out is hollow now. Of a thread it is the error of its pitch diameter.
pub fn give(facts: &Facts<'_>, setups: &[Setup], setup: &Setup, operation: &Operation) -> Option<Give> {
    let thread = thread_of(facts, operation);
    let last_cut = thread.is_some() || matches!(operation.verb, Verb::Finish | Verb::Turn);
    let limits = thread.map(|t| t.pitch_diameter).or(operation.limits);
    let limits = limits.filter(|l| last_cut && !operation.followed && l.band().is_positive())?;
    let usual = facts.shop.and_then(|s| s.depth_finish).unwrap_or_else(|| facts.limit(CHECK.id, "depth"));
    let finish = operation.lighter.map_or(usual, |lighter| lighter.min(usual)).mm();
    let (cut, depth) = match thread.map(|t| LastCut::of(t, finish)) {
        Some(cut) => (threading(facts, cut), cut.infeed),
        None => (turning(facts, finish), finish),
    };
    let CuttingForce { newtons: force, specific, metal } = cut;
    let bored = bored_before(facts, setups, operation);
    let error = error(facts, setup, operation, &bored, force)?;
    Some(Give { error, band: limits.band(), force, specific, metal, depth })
}

/// How far the work springs away from the tool where a roughing cut is worst, mm on the radius: nearly roughed, under a cut so deep a side and
/// so much feed a turn.
pub fn roughing_give(
    facts: &Facts<'_>,
    setups: &[Setup],
    setup: &Setup,
    operation: &Operation,
    cut: (Length, Length),
) -> Option<f64> {
    let outside = operation.verb == Verb::Rough && !operation.inside && !operation.followed;
    let (depth, feed) = (cut.0.mm(), cut.1.mm());
    let force = outside.then(|| roughing(facts, depth, feed).newtons)?;
    let bored = bored_before(facts, setups, operation);
    Some(error(facts, setup, operation, &bored, force)?.mm() / 2.0)
}

/// The thread that an operation cuts on the outside.
fn thread_of<'a>(facts: &'a Facts<'_>, operation: &Operation) -> Option<&'a Thread> {
    let feature = operation.feature.filter(|_| operation.verb == Verb::Thread && !operation.inside)?;
    match &facts.feature(feature)?.kind {
        Kind::Thread { thread, .. } => Some(thread),
        _ => None,
    }
}

/// Error of the diameter where the cut is worst.
fn error(facts: &Facts<'_>, setup: &Setup, operation: &Operation, bored: &[Hollow], force: f64) -> Option<Length> {
    let hold = match setup.holding {
        Holding::Chuck => Hold::Chuck,
        Holding::ChuckAndRest => Hold::ChuckAndRest,
        Holding::ChuckAndCenter => Hold::ChuckAndCenter,
        Holding::BetweenCenters => Hold::Centers,
        _ => return None,
    };
    let mut stands = shape_then(setup, operation);
    if let (Some(thread), Some(a), Some(b)) = (thread_of(facts, operation), operation.from, operation.to) {
        // Nearly cut, a thread is as stiff as its core.
        stands = stands.iter().flat_map(|span| turned_down(span, a.min(b), a.max(b), thread.root)).collect();
    }
    if let (Verb::Rough, Some(a), Some(b), Some(to)) =
        (operation.verb, operation.from, operation.to, operation.to_diameter)
    {
        stands = stands.iter().flat_map(|span| turned_down(span, a.min(b), a.max(b), to)).collect();
    }
    let shape = bored.iter().fold(stands, parted_at);
    let row = from_headstock(setup, &shape)?;
    let pieces: Vec<(Length, Length)> = row.iter().map(|(span, long)| (as_solid(span, bored), *long)).collect();
    let mut beam = Beam::steel(&pieces, hold);
    if let Some(grade) = facts.grade() {
        beam.modulus = grade.material.modulus * 1000.0;
    }
    let (chuck, center) = facts.shop.map_or((None, None), |s| (s.chuck_stiffness, s.center_stiffness));
    beam.near_stiffness = if hold == Hold::Centers { center } else { chuck };
    beam.tail_stiffness = center.filter(|_| matches!(hold, Hold::Centers | Hold::ChuckAndCenter));
    let (from, to) = (operation.from?, operation.to?);
    // The worst place of a stepped beam is none that a formula names: seventeen along the cut miss it by under a hundredth.
    let places = (0..=PLACES).map(|n| from + (to - from).times_ratio(n, PLACES));
    let start = near_support(setup)?;
    beam.rest_at = steady(setup).map(|at| (at - start).abs().mm().min(beam.length()));
    let errors = places.filter_map(|at| {
        let x = (at - start).abs().mm().clamp(0.0, beam.length());
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

/// Where a steady rest carries the work: the middle of its jaws.
fn steady(setup: &Setup) -> Option<Station> {
    let rest = setup.rest.as_ref().filter(|r| !r.follows)?;
    Some(rest.from + (rest.to - rest.from).half())
}

/// The spans out of the jaws, from the headstock outward, with their lengths.
fn from_headstock(setup: &Setup, shape: &[Span]) -> Option<Vec<(Span, Length)>> {
    let (start, works) = (near_support(setup)?, setup.works?);
    let clipped = shape.iter().filter_map(|span| {
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

/// What is already hollow when an operation begins.
fn bored_before(facts: &Facts<'_>, setups: &[Setup], operation: &Operation) -> Vec<Hollow> {
    let earlier = setups.iter().flat_map(|s| &s.operations).take_while(|o| o.id != operation.id);
    let done: BTreeSet<usize> = earlier.filter(|o| o.inside).filter_map(|o| o.feature).collect();
    let kept = |h: &Hollow| facts.feature(h.feature).is_some_and(is_tubes_own);
    facts.profile.hollows.iter().filter(|h| done.contains(&h.feature) || kept(h)).copied().collect()
}

/// A tube's own bore is there from the start.
fn is_tubes_own(feature: &Feature) -> bool {
    matches!(&feature.kind, Kind::Inside(inside) if matches!(inside.cut, InsideCut::Bore { kept: true, .. }))
}

/// The spans parted where a hole begins and ends.
fn parted_at(shape: Vec<Span>, hollow: &Hollow) -> Vec<Span> {
    let at = |shape: Vec<Span>, place: Station| {
        let parted = shape.into_iter().flat_map(|span| {
            if span.from < place && place < span.to {
                vec![Span { to: place, ..span }, Span { from: place, ..span }]
            } else {
                vec![span]
            }
        });
        parted.collect::<Vec<_>>()
    };
    at(at(shape, hollow.from), hollow.to)
}

/// The diameter of the solid round that bends as much as a span with what is bored in it: D⁴ − d⁴ to the fourth root.
fn as_solid(span: &Span, bored: &[Hollow]) -> Length {
    let outside = smaller(span);
    let over = bored.iter().filter(|h| h.from < span.to && span.from < h.to);
    let inside = over.map(|h| h.outermost).max().unwrap_or_default().min(outside);
    if !inside.is_positive() {
        return outside;
    }
    let fourth = outside.mm().powi(4) - inside.mm().powi(4);
    Length::from_f64(fourth.max(0.0).powf(0.25), Unit::Millimetre)
}

/// The work as it is when an operation begins: as it was mounted, less what the operations before it in this mounting turned off.
fn shape_then(setup: &Setup, operation: &Operation) -> Vec<Span> {
    let outside = |o: &&Operation| !o.inside && !matches!(o.verb, Verb::Drill | Verb::Tap | Verb::Mill | Verb::Center);
    let earlier = setup.operations.iter().take_while(|o| o.id != operation.id).filter(outside);
    let mut shape = setup.before.clone();
    for cut in earlier {
        let (Some(a), Some(b), Some(to)) = (cut.from, cut.to, cut.to_diameter) else { continue };
        let (from, until) = (a.min(b), a.max(b));
        shape = shape.iter().flat_map(|span| turned_down(span, from, until, to)).collect();
    }
    shape
}

/// A span of which the stretch between two places is turned down to a diameter.
fn turned_down(span: &Span, from: Station, until: Station, to: Length) -> Vec<Span> {
    let (a, b) = (from.max(span.from), until.min(span.to));
    if a >= b || smaller(span) <= to {
        return vec![*span];
    }
    let cut = Span { from: a, to: b, diameter: to, diameter_to: to, ..*span };
    let rest = [Span { to: a, ..*span }, cut, Span { from: b, ..*span }];
    rest.into_iter().filter(|s| s.from < s.to).collect()
}

fn smaller(span: &Span) -> Length {
    span.diameter.min(span.diameter_to)
}
