//! Candidate mountings, which operations each can take, and what it needs on the work.

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths, bar_behind, bar_end, bar_stick_out};
use super::late_hole::{before_parting, inside_center, late_hole};
use super::mandrel::{bored, mandrel_rules, on_mandrel};
use super::milled::off_the_lathe;
use super::offset_centers::laid_out;
use super::rested::{Broken, broken, rested, wide};
use super::roughed;
use super::set_over::{over, set_over, suits};
use super::surfaces::{best_surface, best_to_face, parting_rules, surface_rules};
use super::thrown::{self, Throw};
use super::why::{centered_first, reasons, tell_stick_out};
use super::workholder::equip;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Operation, Setup, Unheeded, Verb, Why, Zero};
use crate::model::{End, Part, Shop, Workholder};
use crate::plan::derive::{Layout, is_open};
use crate::plan::precede::milled_early;
use crate::plan::rules::because;
use crate::unit::{Length, Station};

/// Mountings with what each can do and needs.
#[derive(Debug, Clone, Default)]
pub(in crate::plan) struct Candidates {
    /// The mountings, without operations.
    pub(in crate::plan) mountings: Vec<Setup>,
    /// For each operation the mountings it may be done in, preferred first.
    pub(in crate::plan) allowed: Vec<Vec<usize>>,
    /// Mounting, operation that must be done before it is used.
    pub(in crate::plan) needs: Vec<(usize, usize, Why)>,
    /// Mounting, operation after which it is used no more.
    pub(in crate::plan) ends: Vec<(usize, usize, Why)>,
    /// Wishes about what grips the work that cannot be followed.
    pub(in crate::plan) unheeded: Vec<Unheeded>,
    /// Whether every cut on the lathe has a mounting that leaves it free and does not overhang.
    pub(in crate::plan) reached: bool,
}

/// Where a mounting comes from, beside what the plan shows of it.
#[expect(clippy::struct_excessive_bools, reason = "each is a plain fact about one mounting")]
pub(super) struct Candidate {
    pub(super) setup: Setup,
    pub(super) end: End,
    pub(super) held: Held,
    /// Where a steady rest carries it.
    pub(super) track: Option<Held>,
    /// Takes turning, not only facing and centering.
    pub(super) turns: bool,
    /// Stands too far out of the jaws without a center.
    pub(super) overhangs: bool,
    /// Takes only what is cut inside.
    pub(super) drills: bool,
    /// Takes only the parting off, beside the jaws.
    pub(super) parts: bool,
    /// Takes only tapers: the tailstock is set over.
    pub(super) tapers: bool,
    /// Takes only what is cut about an eccentric's axis: the throw it was made for.
    pub(super) throws: Option<usize>,
}

/// Builds the candidates of both ends, the mill and the bench.
pub(in crate::plan) fn candidates(
    part: &Part,
    layout: &Layout,
    operations: &[Operation],
    holdings: &[EndHolding; 2],
    throws: &[Throw],
    shop: Option<&Shop>,
    on_roughed: bool,
) -> Candidates {
    let lengths = Lengths::of(layout, shop);
    let mut on_lathe: Vec<Candidate> = Vec::new();
    let taken = broken(part, layout, operations);
    for holding in holdings {
        on_lathe.extend(of_end(part, layout, &lengths, holding, &taken));
        if on_roughed {
            on_lathe.extend(roughed::mountings(part, layout, &lengths, holding, operations, &taken));
        }
    }
    on_lathe.extend(set_over(part, layout, shop, operations, &on_lathe));
    let bored = bored(part, layout, shop);
    let wished = |h: &EndHolding| h.turning == [Holding::Mandrel];
    if let Some(bored) = bored.as_ref().filter(|b| !b.outside.is_empty() || holdings.iter().any(wished)) {
        let turned = holdings.iter().filter(|h| h.depth.is_positive());
        on_lathe.extend(turned.map(|h| on_mandrel(part, layout, h, bored)));
    }
    let unheeded = equip(part, layout, shop, holdings, &mut on_lathe);
    on_lathe.extend(thrown::mountings(part, layout, throws));
    let mut result = Candidates { reached: true, unheeded, ..Candidates::default() };
    for operation in operations {
        if operation.throw.is_some() {
            let eccentric = thrown_feature(layout, operation).filter(|_| !operation.is_second_center());
            let own = |c: &Candidate| eccentric.is_some_and(|f| thrown::serves(throws, c, f));
            result.allowed.push((0..on_lathe.len()).filter(|m| own(&on_lathe[*m])).collect());
            continue;
        }
        let mut found = places(layout, operation, &on_lathe);
        found.retain(|m| suits(part, layout, shop, operation, &on_lathe[*m]));
        let by_tailstock: Vec<usize> = found.iter().copied().filter(|m| on_lathe[*m].tapers).collect();
        if !by_tailstock.is_empty() && over(part, layout, shop, operation).is_some_and(|(_, only)| only) {
            found = by_tailstock;
        }
        result.reached &= !is_lathe_work(operation) || found.iter().any(|m| !on_lathe[*m].overhangs);
        let lost = found.is_empty() && is_lathe_work(operation);
        result.allowed.push(if lost { fallback(operation, &on_lathe, holdings) } else { found });
    }
    let milled = operations.iter().enumerate().filter(|(_, o)| milled_early(part, layout, operations, o));
    let early: Vec<_> = milled.filter_map(|(i, o)| wide(part, o).map(|(from, to)| (i, from, to))).collect();
    for (m, candidate) in on_lathe.iter().enumerate() {
        if candidate.held.grip.roughed {
            roughed::rules(part, operations, m, candidate, &mut result);
        }
        let surface = Some(&candidate.held).filter(|h| !h.grip.roughed);
        for held in [surface, candidate.track.as_ref()].into_iter().flatten() {
            surface_rules(layout, operations, m, held, &early, &mut result);
        }
        if layout.parted.is_some() {
            parting_rules(layout, operations, m, candidate, &mut result);
        }
    }
    center_rules(layout, operations, &on_lathe, &mut result);
    if let Some(bored) = &bored {
        mandrel_rules(layout, operations, &on_lathe, bored, &mut result);
    }
    result.mountings = on_lathe.iter().map(|c| c.setup.clone()).collect();
    laid_out(operations, throws, &on_lathe, &mut result);
    if part.wishes.is_off("R25") {
        super::bare::bare_jaws(&mut result);
    }
    off_the_lathe(part, layout, shop, operations, &mut result);
    result
}

/// The eccentric that an operation cuts, or that what it cuts lies on.
fn thrown_feature(layout: &Layout, operation: &Operation) -> Option<usize> {
    let own = operation.feature.filter(|f| layout.section(*f).is_some_and(|s| s.thrown));
    own.or_else(|| region(operation).and_then(|(a, b)| layout.under(a, b)).map(|s| s.feature))
}

fn of_end(part: &Part, layout: &Layout, lengths: &Lengths, holding: &EndHolding, taken: &Broken) -> Vec<Candidate> {
    let end = holding.end;
    let lengths = &lengths.at_end(layout, Some(end));
    let parted = layout.parted == Some(end.other());
    let chuck_turns = holding.turning.contains(&Holding::Chuck) && holding.depth.is_positive();
    let mut list = Vec::new();
    let deep = chuck_turns.then_some(holding.reach);
    let stick_out = bar_stick_out(layout, lengths, end, deep);
    if !parted {
        let held = bar_behind(layout, lengths, end, stick_out);
        let overhangs = stick_out > layout.bar.times(OVERHANG_DIAMETERS);
        list.push(Candidate { overhangs, ..mounting(layout, holding, Holding::Chuck, held, stick_out, chuck_turns) });
        let rest_turns = holding.turning.contains(&Holding::ChuckAndRest) && holding.depth.is_positive();
        if holding.steady && (overhangs || rest_turns) {
            list.extend(rested(part, layout, lengths, holding, rest_turns, taken));
        }
    }
    if (chuck_turns || parted || !holding.centered)
        && let Some(held) = best_surface(part, layout, lengths, end, Holding::Chuck)
    {
        let on = |mut held: Held, turns: bool| {
            let out = out_of_jaws(layout, end, &held);
            let overhangs = out > held.grip.diameter.times(OVERHANG_DIAMETERS);
            held.poor |= overhangs;
            Candidate { overhangs, ..mounting(layout, holding, Holding::Chuck, held, out, turns) }
        };
        let roomy = on(held, chuck_turns);
        // What stands too far out so is faced and centered nearer to the jaws, where no shoulder is cut.
        let near =
            best_to_face(part, layout, lengths, end).filter(|n| roomy.overhangs && n.section != roomy.held.section);
        list.push(roomy);
        list.extend(near.map(|held| on(held, false)).filter(|near| !near.overhangs));
    }
    let through = layout.hollows.iter().any(|h| h.through);
    if (holding.centered && is_open(layout, end) || through) && layout.hollows.iter().any(|h| h.end == end) {
        list.extend(late_hole(part, layout, lengths, holding));
        list.extend(before_parting(part, layout, lengths, holding, taken));
    }
    for how in [Holding::ChuckAndCenter, Holding::BetweenCenters] {
        if !holding.turning.contains(&how) || !holding.depth.is_positive() {
            continue;
        }
        if !parted {
            let held = if layout.parted.is_some() {
                bar_behind(layout, lengths, end, lengths.parted_at(layout) + lengths.clearance)
            } else {
                bar_end(layout, lengths, end, how)
            };
            let out = out_of_jaws(layout, end, &held);
            list.push(mounting(layout, holding, how, held, out, true));
        }
        if let Some(held) = best_surface(part, layout, lengths, end, how) {
            let out = out_of_jaws(layout, end, &held);
            list.push(mounting(layout, holding, how, held, out, true));
        }
    }
    list
}

/// How far the work reaches out of what carries it nearest to the cut.
fn carried_at(layout: &Layout, candidate: &Candidate) -> Length {
    let carrier = candidate.track.as_ref().unwrap_or(&candidate.held);
    out_of_jaws(layout, candidate.end, carrier)
}

pub(super) fn out_of_jaws(layout: &Layout, end: End, held: &Held) -> Length {
    layout.depth(end, held.grip.from).min(layout.depth(end, held.grip.to))
}

pub(super) fn mounting(
    layout: &Layout,
    holding: &EndHolding,
    how: Holding,
    held: Held,
    out: Length,
    turns: bool,
) -> Candidate {
    let end = holding.end;
    let at_tailstock = end == End::Datum;
    let datum_end = if at_tailstock { DatumEnd::Tailstock } else { DatumEnd::Headstock };
    let place = match how {
        Holding::Chuck => format!("chuck, {} end out", end.word()),
        Holding::ChuckAndCenter => format!("chuck and center, {} end at tailstock", end.word()),
        Holding::ChuckAndRest => format!("chuck and steady rest, {} end out", end.word()),
        _ => format!("{}, datum end at {}", how.word(), datum_end.word()),
    };
    let name = match held.section {
        Some(_) if held.grip.roughed => format!("{place}, on roughed {}", held.grip.letter),
        Some(_) if how == Holding::BetweenCenters => format!("{place}, dog on {}", held.grip.letter),
        Some(_) => format!("{place}, on {}", held.grip.letter),
        None => place,
    };
    let zero = if at_tailstock { Zero::DatumFace } else { Zero::FarFace };
    let why = reasons(layout, holding, how, &held, turns);
    let mut setup = Setup {
        number: 0,
        name,
        holding: how,
        by: Workholder::Usual,
        runs_true: None,
        datum_end,
        works: Some(end),
        grip: Some(held.grip.clone()),
        also: None,
        rest: None,
        stick_out: (how != Holding::BetweenCenters).then_some(out),
        zero,
        operations: Vec::new(),
        why,
        before: Vec::new(),
        slow: None,
        after: Vec::new(),
    };
    tell_stick_out(&mut setup);
    Candidate {
        setup,
        end,
        held,
        track: None,
        turns,
        overhangs: false,
        drills: false,
        parts: false,
        tapers: false,
        throws: None,
    }
}

/// Where an operation cuts, as a stretch of the work.
pub(super) fn region(operation: &Operation) -> Option<(Station, Station)> {
    let (a, b) = (operation.from?, operation.to?);
    Some((a.min(b), a.max(b)))
}

pub(super) fn overlaps(operation: &Operation, held: &Held) -> bool {
    !operation.inside && region(operation).is_some_and(|(from, to)| from < held.grip.to && held.grip.from < to)
}

pub(super) fn is_end_work(operation: &Operation) -> bool {
    matches!(operation.verb, Verb::Face | Verb::Center)
}

pub(super) fn is_lathe_work(operation: &Operation) -> bool {
    operation.inside
        || !matches!(
            operation.verb,
            Verb::Mill | Verb::Drill | Verb::Tap | Verb::Deburr | Verb::FitTest | Verb::Inspect | Verb::HeatTreat
        )
}

/// Mountings on the lathe that an operation may be done in.
fn places(layout: &Layout, operation: &Operation, on_lathe: &[Candidate]) -> Vec<usize> {
    if !is_lathe_work(operation) {
        return Vec::new();
    }
    let fits = |c: &Candidate| {
        let free = !overlaps(operation, &c.held) && !c.track.as_ref().is_some_and(|t| overlaps(operation, t));
        if c.parts && operation.verb != Verb::PartOff {
            return false;
        }
        if operation.verb == Verb::PartOff {
            return Some(c.end) == layout.parted
                && c.setup.holding != Holding::BetweenCenters
                && c.held.section.is_none()
                && c.throws.is_none()
                && c.turns;
        }
        if operation.end.is_some_and(|end| end != c.end) || c.throws.is_some() {
            return false;
        }
        if operation.inside {
            // The tailstock is free for the drill, and nothing but the jaws is behind it.
            return matches!(c.setup.holding, Holding::Chuck | Holding::ChuckAndRest);
        }
        if c.drills {
            return false;
        }
        if c.setup.holding == Holding::Mandrel && is_end_work(operation) {
            // The tool faces down to the mandrel; there is no center to drill in a bored end.
            return operation.verb == Verb::Face;
        }
        if is_end_work(operation) {
            matches!(c.setup.holding, Holding::Chuck | Holding::ChuckAndRest)
        } else {
            c.turns && free && reaches(layout, operation, c)
        }
    };
    (0..on_lathe.len()).filter(|i| fits(&on_lathe[*i])).collect()
}

/// Whether an operation lies on the tailstock's side of the grip.
fn reaches(layout: &Layout, operation: &Operation, candidate: &Candidate) -> bool {
    let edge = carried_at(layout, candidate);
    region(operation)
        .is_none_or(|(from, to)| layout.depth(candidate.end, from) <= edge && layout.depth(candidate.end, to) <= edge)
}

/// Where nothing fits, the mounting that does the least harm; the checks then say what is wrong with it.
fn fallback(operation: &Operation, on_lathe: &[Candidate], holdings: &[EndHolding; 2]) -> Vec<usize> {
    let end = operation.end.unwrap_or(End::Datum);
    let end = if operation.verb == Verb::PartOff { end.other() } else { end };
    let preferred = holdings.iter().find(|h| h.end == end).and_then(|h| h.turning.first());
    let mut list: Vec<usize> =
        (0..on_lathe.len()).filter(|i| on_lathe[*i].end == end && on_lathe[*i].throws.is_none()).collect();
    list.sort_by_key(|i| (Some(&on_lathe[*i].setup.holding) != preferred, on_lathe[*i].held.section.is_none()));
    list.truncate(1);
    list
}

/// A center is used once its hole is there and both faces it stands between are cut.
fn center_rules(layout: &Layout, operations: &[Operation], on_lathe: &[Candidate], result: &mut Candidates) {
    for (m, candidate) in on_lathe.iter().enumerate() {
        let uses = |end: End| match candidate.setup.holding {
            Holding::ChuckAndCenter => end == candidate.end,
            Holding::BetweenCenters => true,
            _ => false,
        };
        for (i, operation) in operations.iter().enumerate() {
            if is_end_work(operation) && operation.throw.is_none() && operation.end.is_some_and(uses) {
                let end = operation.end.map_or("", End::said);
                let reason = centered_first(end);
                result.needs.push((m, i, because("R1", reason)));
            }
            if operation.inside {
                let through =
                    operation.feature.is_some_and(|f| layout.hollows.iter().any(|h| h.feature == f && h.through));
                for end in [End::Datum, End::Far] {
                    if uses(end) && (operation.end == Some(end) || through) {
                        inside_center(layout, end, m, i, result);
                    }
                }
            }
        }
    }
}
