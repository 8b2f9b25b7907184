//! Where the work lies on the mill: what of it is plain, free of the cutter and long enough for a vise or a V-block, or for the chuck of the dividing head.

use super::grip::Lengths;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Grip, Operation, Setup, Span, State, Verb};
use crate::model::{End, Kind, Part, Shop, Workholder};
use crate::plan::derive::{Layout, Section, Shape};
use crate::plan::rules::because;
use crate::told;
use crate::unit::{Length, Station};

/// Finds what a mounting on the mill holds the work by. Common practice, no source, as its lengths are.
pub(in crate::plan) fn lay(part: &Part, layout: &Layout, shop: Option<&Shop>, setup: &mut Setup) {
    if setup.holding != Holding::Mill || !matches!(setup.by, Workholder::Usual | Workholder::DividingHead) {
        return;
    }
    let lengths = Lengths::of(layout, shop);
    let mut free: Vec<Place> = layout
        .sections
        .iter()
        .filter(|s| plain(part, s))
        .flat_map(|s| pieces(&lengths, s, &setup.operations))
        .filter_map(|(section, from, to)| place(section, from, to, &setup.before))
        .collect();
    if setup.by == Workholder::DividingHead {
        let end = if setup.datum_end == DatumEnd::Tailstock { End::Far } else { End::Datum };
        free.sort_by_key(|p| (layout.depth(end, p.outer(end)), p.grip.from));
        setup.grip = free.into_iter().next().map(|p| within(&lengths, end, p));
    } else {
        free.sort_by_key(|p| (p.seat, -p.long().pm(), p.grip.from));
        let own = || under_the_slot(part, layout, setup);
        let first = free.first().map(|p| p.grip.clone()).or_else(own).filter(|g| g.to - g.from >= lengths.v_block());
        setup.also = first.as_ref().and_then(|one| second(&lengths, &free, one, &setup.operations));
        setup.grip = first;
    }
    if part.wishes.is_off("R25") {
        // The person answers for the marks.
        setup.grip.iter_mut().chain(&mut setup.also).for_each(|g| g.protect = false);
    } else if setup.grip.is_none() {
        setup.why.push(because(
            "R25",
            told!(
                "nothing plain is left that is long enough to hold by beside the cut",
                "neben dem Schnitt bleibt nichts Glattes, das zum Spannen lang genug ist"
            ),
        ));
    }
}

/// A stretch that can be held.
struct Place {
    grip: Grip,
    /// A mark on it would count.
    seat: bool,
}

impl Place {
    fn long(&self) -> Length {
        self.grip.to - self.grip.from
    }

    fn outer(&self, end: End) -> Station {
        if end == End::Datum { self.grip.from } else { self.grip.to }
    }
}

/// Round and plain: no thread, neck, taper, knurl or eccentric.
fn plain(part: &Part, section: &Section) -> bool {
    let knurled = part.features.get(section.feature).is_some_and(|f| matches!(f.kind, Kind::Knurl { .. }));
    matches!(section.shape, Shape::Cylinder | Shape::Kept) && !section.thrown && !knurled
}

/// What the cutter leaves free of a section, in stretches that are long enough.
fn pieces<'a>(
    lengths: &Lengths,
    section: &'a Section,
    operations: &[Operation],
) -> Vec<(&'a Section, Station, Station)> {
    let mut free = vec![(section.from, section.to)];
    for (from, to) in operations.iter().filter(|o| !o.inside).filter_map(stretch) {
        let (from, to) = (from - lengths.clearance, to + lengths.clearance);
        free = free.into_iter().flat_map(|(a, b)| [(a, b.min(from)), (a.max(to), b)]).filter(|(a, b)| a < b).collect();
        free.dedup();
    }
    free.into_iter().filter(|(a, b)| *b - *a >= lengths.v_block()).map(|(a, b)| (section, a, b)).collect()
}

fn stretch(operation: &Operation) -> Option<(Station, Station)> {
    let (a, b) = (operation.from?, operation.to?);
    Some((a.min(b), a.max(b)))
}

/// The stretch as it is by then.
fn place(section: &Section, from: Station, to: Station, work: &[Span]) -> Option<Place> {
    let under = work.iter().filter(|s| s.from < to && from < s.to);
    let diameter = under.clone().map(|s| s.diameter.max(s.diameter_to)).max()?;
    let done = under.clone().any(|s| matches!(s.state, State::Finished | State::Threaded));
    let grip = Grip { from, to, diameter, letter: section.letter.clone(), protect: done, roughed: false };
    Some(Place { grip, seat: section.close || section.seat })
}

/// The other of two V-blocks: beyond what is cut, or beside a first that is too short to lie in alone.
fn second(lengths: &Lengths, free: &[Place], one: &Grip, operations: &[Operation]) -> Option<Grip> {
    let cuts = || operations.iter().filter_map(stretch);
    let beyond = |p: &&Place| {
        let across =
            |(from, to): (Station, Station)| one.to <= from && to <= p.grip.from || p.grip.to <= from && to <= one.from;
        cuts().any(across)
    };
    let apart = |p: &&Place| p.grip.to <= one.from || one.to <= p.grip.from;
    let short = one.to - one.from < lengths.vise();
    let other = free.iter().filter(apart);
    // Two of one diameter lie level as they are.
    let even = |p: &&Place| (p.grip.diameter - one.diameter).abs() <= Length::micrometres(50);
    other
        .clone()
        .filter(beyond)
        .find(even)
        .or_else(|| other.clone().find(beyond))
        .or_else(|| other.clone().next().filter(|_| short))
        .map(|p| p.grip.clone())
}

/// The section of a slot or hole itself, which lies with it up; flats leave none of it.
fn under_the_slot(part: &Part, layout: &Layout, setup: &Setup) -> Option<Grip> {
    let flats = |o: &Operation| {
        o.feature.and_then(|f| part.features.get(f)).is_some_and(|f| matches!(f.kind, Kind::Flats { .. }))
    };
    let slots = || setup.operations.iter().filter(|o| !o.inside && matches!(o.verb, Verb::Mill | Verb::Drill));
    if slots().any(flats) {
        return None;
    }
    let (from, to) = slots().find_map(stretch)?;
    let section = layout.under(from, to).filter(|s| plain(part, s))?;
    place(section, section.from, section.to, &setup.before).map(|p| p.grip)
}

/// As much of a stretch as the jaws of the dividing head take, from the end they are at.
fn within(lengths: &Lengths, end: End, place: Place) -> Grip {
    let mut grip = place.grip;
    if end == End::Datum {
        grip.to = grip.to.min(grip.from + lengths.in_jaws());
    } else {
        grip.from = grip.from.max(grip.to - lengths.in_jaws());
    }
    grip
}
