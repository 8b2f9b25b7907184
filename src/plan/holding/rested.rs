//! Mountings in a chuck and a steady rest: for ends that no center may carry, and for bars that do not pass the spindle.

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths, bar_end};
use super::mountings::{Candidate, mounting, out_of_jaws, region};
use super::surfaces::best_surface;
use super::why::OUT_OF_JAWS;
use crate::handbook::material::Condition;
use crate::handbook::woodruff;
use crate::model::part::Holding;
use crate::model::plan::{Grip, Operation, Rest, Verb};
use crate::model::{End, Kind, Part};
use crate::plan::derive::{Layout, Section, Shape, bar_of};
use crate::plan::rules::because;
use crate::unit::{Length, Station};
use crate::{tell, told};

/// Chuck at the headstock and a steady rest behind the cut: on the bar, or on a section that is finished by then.
pub(super) fn rested(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    turns: bool,
    taken: &Broken,
) -> Vec<Candidate> {
    let end = holding.end;
    let bar = bar_end(layout, lengths, end, Holding::Chuck);
    let finished = best_surface(part, layout, lengths, end, Holding::Chuck);
    let on = |held| rested_on(part, layout, lengths, holding, turns, taken, &held);
    on(bar).into_iter().chain(finished.into_iter().flat_map(on)).collect()
}

/// The same with the jaws on one place.
pub(super) fn rested_on(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    turns: bool,
    taken: &Broken,
    held: &Held,
) -> Vec<Candidate> {
    let end = holding.end;
    let deep = if turns { holding.depth } else { layout.bar };
    let mut list = Vec::new();
    for track in tracks(layout, lengths, end, deep, taken) {
        let (out, beyond) = (out_of_jaws(layout, end, held), out_of_jaws(layout, end, &track));
        let apart = track.grip.to <= held.grip.from || held.grip.to <= track.grip.from;
        if !apart || out <= beyond || beyond > track.grip.diameter.times(OVERHANG_DIAMETERS) {
            continue;
        }
        let on = if track.section.is_some() {
            tell!(", rest on {}", ", Lünette auf {}", track.grip.letter)
        } else {
            String::new()
        };
        let mut candidate = mounting(layout, holding, Holding::ChuckAndRest, held.clone(), out, turns);
        candidate.setup.name += &on;
        let runs = runs_on(part, layout, &track);
        for why in &mut candidate.setup.why {
            if let Some((diameters, _)) = why.reason.split_once(OUT_OF_JAWS.say()) {
                why.reason = tell!(
                    "{diameters}{}: the steady rest carries it",
                    "{diameters}{}: die Lünette trägt es",
                    OUT_OF_JAWS.say()
                );
            }
        }
        candidate.setup.why.push(because("R15", runs));
        let Grip { from, to, diameter, ref letter, .. } = track.grip;
        candidate.setup.rest = Some(Rest { follows: false, from, to, diameter, letter: letter.clone() });
        candidate.track = Some(track);
        list.push(candidate);
    }
    list
}

/// What a steady rest runs on, and what that wants.
pub(super) fn runs_on(part: &Part, layout: &Layout, track: &Held) -> String {
    let scale = bar_of(part).is_some_and(Condition::has_scale);
    let kept = track.section.and_then(|f| layout.section(f)).is_some_and(|s| s.shape == Shape::Kept);
    if kept && scale {
        tell!(
            "the rest runs on {}, which stays rough as it was bought: on a sleeve with screws (a cat head) set to run true over it",
            "die Lünette läuft auf {}, das roh bleibt, wie gekauft: auf einer Hülse mit Stellschrauben, die darauf rundlaufend ausgerichtet ist",
            track.grip.letter
        )
    } else if kept {
        tell!(
            "the rest runs on {}, the bar's own surface: where that is not round and smooth, on a sleeve with screws set true over it",
            "die Lünette läuft auf {}, der Oberfläche der Stange: wo sie nicht rund und glatt ist, auf einer Hülse mit Stellschrauben darüber",
            track.grip.letter
        )
    } else if track.section.is_some() {
        tell!("the rest runs on {}, finished and true", "die Lünette läuft auf {}, fertig und rund", track.grip.letter)
    } else if scale {
        told!(
            "the rest runs on the bar, which is rough: turn a spot true for it first, by light cuts",
            "die Lünette läuft auf der rauen Stange: erst mit leichten Schnitten eine Stelle dafür rund drehen"
        )
        .to_owned()
    } else {
        told!(
            "the rest runs on the bar: where that is not round and smooth, turn a spot true for it first",
            "die Lünette läuft auf der Stange: wo diese nicht rund und glatt ist, erst eine Stelle dafür rund drehen"
        )
        .to_owned()
    }
}

/// Where a steady rest may run while an end is cut so deep: on the bar just behind, and on the nearest section of the other
/// side that is long enough between what lies on it.
fn tracks(layout: &Layout, lengths: &Lengths, end: End, deep: Length, taken: &Broken) -> Vec<Held> {
    let room = room(layout, lengths);
    // Its jaws do not run on flats.
    let flats = layout.bar > layout.jaws_on;
    let mut list =
        if flats { Vec::new() } else { vec![stretch(layout, lengths, (end, deep + room), (layout.bar, None, ""))] };
    let other_side = |s: &&Section| s.end != Some(end);
    list.extend(nearest_track(layout, lengths, (end, deep), taken, other_side));
    list
}

/// Where a steady rest runs on the nearest finished section, whatever end it was turned from.
pub(super) fn finished_track(layout: &Layout, lengths: &Lengths, end: End, taken: &Broken) -> Option<Held> {
    nearest_track(layout, lengths, (end, Length::ZERO), taken, |s| s.shape == Shape::Cylinder)
}

/// Room between a cut and the jaws of a rest.
fn room(layout: &Layout, lengths: &Lengths) -> Length {
    lengths.clearance.min(layout.bar.half())
}

/// A stretch for the jaws of a rest that begins so deep.
fn stretch(
    layout: &Layout,
    lengths: &Lengths,
    (end, depth): (End, Length),
    (diameter, section, letter): (Length, Option<usize>, &str),
) -> Held {
    let near = Layout::toward(end.other(), layout.face(end), depth);
    let away = Layout::toward(end.other(), near, lengths.track);
    let (from, to) = (near.min(away), near.max(away));
    Held {
        grip: Grip { from, to, diameter, letter: letter.to_owned(), protect: false, roughed: false },
        section,
        poor: false,
    }
}

/// On the nearest section that has room for the jaws, clear of the grooves, slots and holes on it.
fn nearest_track(
    layout: &Layout,
    lengths: &Lengths,
    (end, deep): (End, Length),
    taken: &Broken,
    wanted: impl Fn(&&Section) -> bool,
) -> Option<Held> {
    let flats = layout.bar > layout.jaws_on;
    let round =
        |s: &&Section| (s.shape == Shape::Cylinder || s.shape == Shape::Kept && !flats) && !s.whole && !s.thrown;
    let free = layout.sections.iter().filter(round).filter(wanted).filter_map(|s| {
        let behind = layout.depth(end, s.outer(end)).max(deep + room(layout, lengths));
        let start = free_from(layout, lengths, end, behind, taken);
        let fits = layout.depth(end, s.inner(end)) - start >= lengths.track;
        fits.then(|| stretch(layout, lengths, (end, start), (s.aim, Some(s.feature), &s.letter)))
    });
    free.min_by_key(|held| layout.depth(end, held.grip.from).min(layout.depth(end, held.grip.to)))
}

/// The first depth from which the jaws of a rest meet nothing that breaks the surface.
fn free_from(layout: &Layout, lengths: &Lengths, end: End, behind: Length, taken: &Broken) -> Length {
    let mut breaks: Vec<(Length, Length)> = taken
        .iter()
        .map(|(a, b)| (layout.depth(end, *a), layout.depth(end, *b)))
        .map(|(a, b)| (a.min(b), a.max(b)))
        .collect();
    breaks.sort();
    let mut start = behind;
    for (from, to) in breaks {
        if from < start + lengths.track && start < to {
            start = to;
        }
    }
    start
}

/// Stretches where something breaks the surface of a section.
pub(super) type Broken = [(Station, Station)];

/// Stretches where a groove, a slot or a hole breaks the surface of a section: no rest runs over them.
pub(super) fn broken(part: &Part, layout: &Layout, operations: &[Operation]) -> Vec<(Station, Station)> {
    let breaks = |o: &&Operation| {
        let on_it = o.feature.is_none_or(|f| layout.section(f).is_none());
        on_it && !o.inside && matches!(o.verb, Verb::Groove | Verb::Mill | Verb::Drill | Verb::Tap)
    };
    operations.iter().filter(breaks).filter_map(|o| wide(part, o)).collect()
}

/// How far a cut reaches along the part: of what is told by its middle, by its drill or cutter.
pub(super) fn wide(part: &Part, operation: &Operation) -> Option<(Station, Station)> {
    let (from, to) = region(operation)?;
    let cutter = match operation.feature.and_then(|f| part.features.get(f)).map(|f| &f.kind) {
        Some(Kind::CrossHole { diameter, .. }) => Some(diameter.max()),
        Some(Kind::Woodruff { number, .. }) => woodruff::find(number).map(|k| k.cutter_diameter),
        _ => None,
    };
    let half = cutter.map_or(Length::ZERO, Length::half);
    Some(if from == to { (from - half, to + half) } else { (from, to) })
}
