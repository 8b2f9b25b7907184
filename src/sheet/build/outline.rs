//! The part and the work at some moment as shapes for the pictures.

use super::Sources;
use crate::figures::Job;
use crate::model::feature::{EdgeAt, Extent};
use crate::model::inside::{Inside, InsideCut, Reach};
use crate::model::part::StockShape;
use crate::model::plan::{Setup, Span, State, Verb};
use crate::model::{End, Feature, Kind};
use crate::sheet::draw::{OnIt, OnShape, Outline, Stretch, Surface};
use crate::unit::{Length, Station};

const fn mm_of(station: Station) -> Length {
    station.0
}

/// Millimetres along the part.
pub(super) fn mm(station: Station) -> f64 {
    mm_of(station).mm()
}

/// The finished part.
pub(super) fn finished(s: &Sources) -> Outline {
    let mut stretches: Vec<Stretch> = s.part.sections().filter_map(|f| section(s, f)).collect();
    for groove in &s.part.features {
        let bottom = match &groove.kind {
            Kind::Groove { diameter, .. } => Some(diameter.aim()),
            Kind::Undercut { .. } => {
                s.operations().find(|(_, o, _)| o.feature == Some(groove.id)).and_then(|(_, o, _)| o.to_diameter)
            }
            _ => None,
        };
        if let Some(bottom) = bottom
            && let Some((from, to)) = s.chain.span(groove.id)
        {
            let cut = Stretch::cylinder(mm(from), mm(to), bottom.mm(), &groove.letter).of(groove.id);
            stretches = stretches.into_iter().flat_map(|s| around(&s, &cut)).chain([cut.clone()]).collect();
            stretches.sort_by(|a, b| a.from.total_cmp(&b.from));
        }
    }
    let mut outline = Outline { stretches, on: on_it(s, &|_| true) };
    for chamfer in &s.part.features {
        bevel(s, chamfer, &mut outline);
    }
    outline
}

fn section(s: &Sources, f: &Feature) -> Option<Stretch> {
    let (from, to) = s.chain.span(f.id)?;
    if to <= from {
        return None;
    }
    let cylinder = |d: Length| Stretch::cylinder(mm(from), mm(to), d.mm(), &f.letter).of(f.id);
    Some(match &f.kind {
        Kind::Turn { kept: true, .. } if cornered(s) > 0 => {
            Stretch { corners: cornered(s), ..cylinder(s.part.stock.as_ref()?.across_corners()) }
        }
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => cylinder(diameter.aim()),
        Kind::Thread { thread, .. } if thread.taper.is_some() => {
            let (start, end) = s.part.pipe_ends(f.id, to - from)?;
            Stretch { diameter_to: end.middle().mm(), ..cylinder(start.middle()) }
                .surface(Surface::Thread(thread.depth.mm()))
        }
        Kind::Thread { thread, .. } => cylinder(thread.nominal).surface(Surface::Thread(thread.depth.mm())),
        Kind::Knurl { knurl, .. } => cylinder(knurl.expected).surface(Surface::Knurled(knurl.pattern)),
        Kind::Taper { start, end, .. } => Stretch { diameter_to: end.aim().mm(), ..cylinder(start.aim()) },
        Kind::Eccentric { diameter, .. } => Stretch { off: off_axis(s, f), ..cylinder(diameter.aim()) },
        // Not worked yet: drawn as the bar, so that its length is seen.
        Kind::NotYet { to: Some(Extent::To(_) | Extent::Long(_) | Extent::Both(..) | Extent::Open), .. } => {
            cylinder(s.part.stock.as_ref()?.size.nominal).surface(Surface::Bar)
        }
        _ => return None,
    })
}

/// How far an eccentric's axis lies over the part's on the picture: the first is drawn upward, the others as clocked from it.
pub(super) fn off_axis(s: &Sources, f: &Feature) -> f64 {
    let first = s.part.sections().find(|f| f.throw().is_some()).and_then(|f| f.angle_mdeg).unwrap_or(0);
    let from_first = (f.angle_mdeg.unwrap_or(0) - first) as f64 / 1000.0;
    f.throw().map_or(0.0, |t| t.mm() * from_first.to_radians().cos())
}

/// How many corners the bar has; 0 for a round one.
fn cornered(s: &Sources) -> u8 {
    match s.part.stock.as_ref().map(|s| s.shape) {
        Some(StockShape::Hexagon) => 6,
        Some(StockShape::Square) => 4,
        _ => 0,
    }
}

/// What is left of a stretch on both sides of a groove.
fn around(s: &Stretch, groove: &Stretch) -> Vec<Stretch> {
    if groove.to <= s.from || s.to <= groove.from {
        return vec![s.clone()];
    }
    let mut out = Vec::new();
    if groove.from > s.from + 1e-6 {
        out.push(Stretch { to: groove.from, ..s.clone() });
    }
    if groove.to < s.to - 1e-6 {
        // One letter a section: the part behind the groove has none of its own.
        let letter = if out.is_empty() { s.letter.clone() } else { String::new() };
        out.push(Stretch { from: groove.to, letter, ..s.clone() });
    }
    out
}

fn bevel(s: &Sources, f: &Feature, outline: &mut Outline) {
    if let Kind::Crown { crown } = &f.kind {
        let high = crown.height.mm();
        match (crown.end, outline.stretches.as_mut_slice()) {
            (End::Datum, [first, ..]) => first.dome_from = high,
            (End::Far, [.., last]) => last.dome_to = high,
            _ => {}
        }
        return;
    }
    let Kind::Chamfer { leg, angle_mdeg, at } = &f.kind else { return };
    let axial = leg.nominal.mm();
    let size = (axial, axial * (*angle_mdeg as f64 / 1000.0).to_radians().tan());
    let face = match at {
        EdgeAt::End(End::Datum) => outline.start(),
        EdgeAt::End(End::Far) => outline.end(),
        EdgeAt::Face(place) => match s.chain.station(place) {
            Some(at) => mm(at),
            None => return,
        },
    };
    let near = |a: f64, b: f64| (a - b).abs() < 1e-4;
    let before = outline.stretches.iter().position(|s| near(s.to, face));
    let behind = outline.stretches.iter().position(|s| near(s.from, face));
    let high = |i: usize| outline.stretches[i].largest();
    match (before, behind) {
        (Some(a), Some(b)) if high(a) >= high(b) => outline.stretches[a].bevel_to = size,
        (_, Some(b)) => outline.stretches[b].bevel_from = size,
        (Some(a), None) => outline.stretches[a].bevel_to = size,
        (None, None) => {}
    }
}

/// Keyseats and holes for which `is_there`.
fn on_it(s: &Sources, is_there: &dyn Fn(usize) -> bool) -> Vec<OnIt> {
    let there = || s.part.features.iter().filter(|f| is_there(f.id));
    there().filter_map(|f| lying(s, f)).chain(there().flat_map(|f| tapped_centers(s, f))).collect()
}

fn lying(s: &Sources, f: &Feature) -> Option<OnIt> {
    let shape = match &f.kind {
        Kind::Woodruff { .. } => {
            let center = mm(s.chain.center(f.id)?);
            let key = s.operations().find_map(|(_, o, figures)| match &figures.job {
                Job::Keyseat(key) if o.feature == Some(f.id) => Some(key),
                _ => None,
            });
            // Without figures the slot is drawn as a short one; its numbers are then not printed either.
            let (half, width) =
                key.map_or((6.0, 3.0), |k| ((k.slot.to.value - k.slot.from.value).half().mm(), k.width.value.mm()));
            OnShape::Slot { from: center - half, to: center + half, width, round: false }
        }
        Kind::ParallelKeyseat { width, open, .. } => {
            let (from, to) = s.chain.span(f.id)?;
            OnShape::Slot { from: mm(from), to: mm(to), width: width.nominal.mm(), round: open.is_none() }
        }
        Kind::Flats { size, .. } => {
            let (from, to) = s.chain.span(f.id)?;
            let cut = s.operations().find_map(|(_, o, figures)| match &figures.job {
                Job::Flats(cut) if o.feature == Some(f.id) => Some(cut.width.value.mm()),
                _ => None,
            });
            // Without figures it is drawn as wide as half its size; its numbers are then not printed either.
            OnShape::Flat { from: mm(from), to: mm(to), width: cut.unwrap_or(size.nominal.half().mm()) }
        }
        Kind::CrossHole { diameter, .. } => {
            OnShape::Hole { at: mm(s.chain.center(f.id)?), diameter: diameter.nominal.mm() }
        }
        Kind::Inside(inside) => cavity(s, f, inside)?,
        _ => return None,
    };
    Some(OnIt { shape, feature: Some(f.id), letter: f.letter.clone() })
}

/// A tapped center hole, at each end that has it.
fn tapped_centers(s: &Sources, f: &Feature) -> Vec<OnIt> {
    let Kind::CenterHole { size: Some(size), ends } = &f.kind else { return Vec::new() };
    let Some((thread, deep)) = size.tapped.as_deref() else { return Vec::new() };
    let (full, core, drill) = (deep.mm(), size.depth.mm(), size.drill.mm());
    let high = (thread.nominal.mm() - drill) / 2.0;
    let overall = s.overall().mm();
    let at = |end: End| {
        let (from, to, sign) = if end == End::Datum { (0.0, full, 1.0) } else { (overall - full, overall, -1.0) };
        let (tail, point) = (sign * (core - full).max(0.0), sign * 0.3 * drill);
        let shape = OnShape::Cavity { from, to, diameter: drill, diameter_to: drill, thread: high, tail, point };
        OnIt { shape, feature: Some(f.id), letter: String::new() }
    };
    [End::Datum, End::Far].into_iter().filter(|e| ends.at(*e)).map(at).collect()
}

/// A tube's own bore is there from the start.
fn is_kept(kind: &Kind) -> bool {
    matches!(kind, Kind::Inside(i) if matches!(i.cut, InsideCut::Bore { kept: true, .. }))
}

/// A bore, thread, groove or chamfer inside, with what its drill leaves beyond the bottom.
fn cavity(s: &Sources, f: &Feature, inside: &Inside) -> Option<OnShape> {
    let plain = |from: f64, to: f64, diameter: f64, diameter_to: f64| OnShape::Cavity {
        from,
        to,
        diameter,
        diameter_to,
        thread: 0.0,
        tail: 0.0,
        point: 0.0,
    };
    if let InsideCut::Chamfer { leg, angle_mdeg, .. } = &inside.cut {
        let opens = 2.0 * leg.nominal.mm() * (*angle_mdeg as f64 / 1000.0).to_radians().tan();
        let (mouth, face) = (mouth(s, inside.end)?, if inside.end == End::Datum { 0.0 } else { s.overall().mm() });
        let leg = leg.nominal.mm();
        return Some(match inside.end {
            End::Datum => plain(face, face + leg, mouth + opens, mouth),
            End::Far => plain(face - leg, face, mouth, mouth + opens),
        });
    }
    let (from, to) = s.chain.span(f.id)?;
    let (from, to) = (mm(from.min(to)), mm(from.max(to)));
    let (start, end, thread) = match &inside.cut {
        InsideCut::Bore { diameter, .. } | InsideCut::Relief { diameter, .. } | InsideCut::Groove { diameter, .. } => {
            (diameter.aim().mm(), diameter.aim().mm(), 0.0)
        }
        InsideCut::Thread { thread, .. } => {
            let minor = thread.minor.middle().mm();
            (minor, minor, (thread.nominal.mm() - minor) / 2.0)
        }
        InsideCut::Taper { start, end, .. } => (start.aim().mm(), end.aim().mm(), 0.0),
        InsideCut::Chamfer { .. } => return None,
    };
    let drilled = s.operations().find(|(_, o, _)| o.inside && o.verb == Verb::Drill && o.feature == Some(f.id));
    let bored = s.operations().any(|(_, o, _)| o.inside && o.verb == Verb::Bore && o.feature == Some(f.id));
    let through = matches!(inside.reach, Reach::Through);
    let beyond = drilled.filter(|_| !through).and_then(|(_, o, _)| {
        let bottom = mm(o.to?);
        let out = if inside.end == End::Datum { bottom - to } else { bottom - from };
        let deeper = if inside.end == End::Datum { out >= -1e-6 } else { out <= 1e-6 };
        let point = 0.3 * o.to_diameter?.mm();
        deeper.then_some((out, if inside.end == End::Datum { point } else { -point }))
    });
    let (tail, point) = beyond.filter(|(out, _)| !bored || out.abs() > 1e-6).unwrap_or_default();
    Some(OnShape::Cavity { from, to, diameter: start, diameter_to: end, thread, tail, point })
}

/// Diameter of the bore at the face of an end.
fn mouth(s: &Sources, end: End) -> Option<f64> {
    let face = if end == End::Datum { 0.0 } else { s.overall().mm() };
    let at_face = |f: &&Feature| {
        let own = matches!(&f.kind, Kind::Inside(i) if !matches!(i.cut, InsideCut::Chamfer { .. } | InsideCut::Groove { .. }));
        let spans = s
            .chain
            .span(f.id)
            .is_some_and(|(a, b)| (mm(a.min(b)) - face).abs() < 1e-6 || (mm(a.max(b)) - face).abs() < 1e-6);
        own && spans
    };
    let first = s.part.features.iter().find(at_face)?;
    let Kind::Inside(inside) = &first.kind else { return None };
    Some(match &inside.cut {
        InsideCut::Bore { diameter, .. } | InsideCut::Relief { diameter, .. } | InsideCut::Groove { diameter, .. } => {
            diameter.aim().mm()
        }
        InsideCut::Thread { thread, .. } => thread.minor.middle().mm(),
        InsideCut::Taper { start, end: stop, .. } => if end == End::Datum { start.aim() } else { stop.aim() }.mm(),
        InsideCut::Chamfer { .. } => return None,
    })
}

/// The work of a mounting, when it is mounted and when it is left.
pub(super) fn work(s: &Sources, setup: &Setup) -> (Outline, Outline) {
    let part = finished(s);
    let done = |upto: u32| -> Vec<usize> {
        let earlier = s.plan.setups.iter().filter(|e| e.number <= upto).flat_map(|e| &e.operations);
        earlier
            .filter(|o| o.inside || matches!(o.verb, Verb::Mill | Verb::Drill | Verb::Chamfer | Verb::File))
            .flat_map(|o| o.feature.into_iter().chain(o.with.iter().copied()))
            .chain(s.part.features.iter().filter(|f| is_kept(&f.kind)).map(|f| f.id))
            .collect()
    };
    let shape = |spans: &[Span], done: &[usize]| {
        let stretches = stretches(s, spans, &part);
        let mut outline = Outline { stretches, on: on_it(s, &|id| done.contains(&id)) };
        for f in s.part.features.iter().filter(|f| done.contains(&f.id)) {
            bevel(s, f, &mut outline);
        }
        outline
    };
    (shape(&setup.before, &done(setup.number.saturating_sub(1))), shape(&setup.after, &done(setup.number)))
}

/// Spans cut at the part's faces, each piece with the letter of the section it lies on.
fn stretches(sources: &Sources, spans: &[Span], part: &Outline) -> Vec<Stretch> {
    let corners = cornered(sources);
    let mut out = Vec::new();
    for span in spans {
        let (from, to) = (mm(span.from), mm(span.to));
        if to - from < 1e-6 {
            continue;
        }
        let inner = part
            .stretches
            .iter()
            .map(|s| s.to)
            .filter(|f| span.state != State::Bar && *f > from + 1e-4 && *f < to - 1e-4);
        let cuts: Vec<f64> = std::iter::once(from).chain(inner).chain([to]).collect();
        let slope = (span.diameter_to.mm() - span.diameter.mm()) / (to - from);
        for pair in cuts.windows(2) {
            let middle = f64::midpoint(pair[0], pair[1]);
            let own = part.stretches.iter().find(|s| s.from <= middle && middle <= s.to);
            let mut s = Stretch::cylinder(pair[0], pair[1], span.diameter.mm() + slope * (pair[0] - from), "");
            s.diameter_to = span.diameter.mm() + slope * (pair[1] - from);
            s.surface = match (span.state, own.map(|o| o.surface)) {
                (State::Bar, _) => Surface::Bar,
                (State::Finished, Some(Surface::Knurled(pattern))) if span.feature == own.and_then(|o| o.feature) => {
                    Surface::Knurled(pattern)
                }
                (State::Threaded, Some(Surface::Thread(depth))) => Surface::Thread(depth),
                _ => Surface::Turned,
            };
            let kept = span.feature.is_some() && own.is_some_and(|o| o.corners > 0 && o.feature == span.feature);
            if span.state == State::Bar || kept {
                s.corners = corners;
            }
            let throw = span.feature.and_then(|f| sources.feature(f)).and_then(Feature::throw);
            if let (Some(throw), Some(own)) = (throw, own.filter(|o| o.feature == span.feature)) {
                // What stands there by its sweep is drawn about its own axis.
                s.diameter = span.diameter.mm() - 2.0 * throw.mm();
                (s.diameter_to, s.off) = (s.diameter, own.off);
            }
            if span.state != State::Bar {
                s.feature = own.and_then(|o| o.feature);
                s.letter = own.map(|o| o.letter.clone()).unwrap_or_default();
            }
            out.push(s);
        }
    }
    kept_as_bar(&mut out);
    joined(out)
}

/// A surface that is kept looks like the bar as long as the bar goes on beside it at the same diameter.
fn kept_as_bar(stretches: &mut [Stretch]) {
    for _ in 0..2 {
        for i in 0..stretches.len() {
            let is_bar = |j: Option<usize>| {
                j.and_then(|j| stretches.get(j))
                    .is_some_and(|n| n.surface == Surface::Bar && (n.diameter - stretches[i].diameter).abs() < 1e-6)
            };
            if stretches[i].surface == Surface::Turned && (is_bar(i.checked_sub(1)) || is_bar(Some(i + 1))) {
                stretches[i].surface = Surface::Bar;
                stretches[i].feature = None;
                stretches[i].letter = String::new();
            }
        }
    }
}

/// Neighbouring pieces of bar as one.
fn joined(stretches: Vec<Stretch>) -> Vec<Stretch> {
    let mut out: Vec<Stretch> = Vec::new();
    for s in stretches {
        match out.last_mut() {
            Some(last)
                if last.surface == Surface::Bar
                    && s.surface == Surface::Bar
                    && (last.diameter_to - s.diameter).abs() < 1e-6 =>
            {
                last.to = s.to;
            }
            _ => out.push(s),
        }
    }
    out
}

/// The sawn bar cut to length: what stands under the height gauge before anything is turned.
pub(super) fn blank(s: &Sources) -> Outline {
    let diameter = s.part.stock.as_ref().map_or(Length::ZERO, |stock| stock.size.nominal);
    let bar = Stretch::cylinder(0.0, s.overall().mm(), diameter.mm(), "").surface(Surface::Bar);
    Outline { stretches: vec![bar], on: Vec::new() }
}

/// The same standing on its other end.
pub(super) fn turned_over(outline: &Outline, overall: f64) -> Outline {
    let turned = |s: &Stretch| Stretch {
        from: overall - s.to,
        to: overall - s.from,
        diameter: s.diameter_to,
        diameter_to: s.diameter,
        bevel_from: s.bevel_to,
        bevel_to: s.bevel_from,
        ..s.clone()
    };
    Outline { stretches: outline.stretches.iter().rev().map(turned).collect(), on: Vec::new() }
}
