//! How a hole across is found: over the middle of the round, along it, down from its top.

use super::comes_out::LEAD;
use super::given::Given;
use super::inside::line;
use super::inside::{HoleLine, depth_label};
use super::{Figure, surface};
use crate::handbook::keyseat;
use crate::model::Kind;
use crate::model::inside::Tapped;
use crate::model::plan::Operation;
use crate::unit::Length;
use crate::{tell, told};

/// Touch-off of a hole across.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrossTouch {
    /// Half of the round it lies on: over the middle from the touched side, and half of whatever touched it.
    pub half_round: Figure,
    /// The same with half of the drill, where a pin as thick touched.
    pub with_drill: Figure,
    /// Its centre, from the datum face.
    pub along: Figure,
    /// From the far face.
    pub from_far: Figure,
}

/// The touch-off of a cross hole and its lines; none for any other cut. The rule is that of a keyseat's cutter: half of the round, half of what touches
/// it, and the paper (Fox Valley Technical College; US Navy, NAVEDTRA 14345).
fn touch(given: &Given, op: &Operation) -> Option<(CrossTouch, Vec<HoleLine>)> {
    let feature = given.feature(op.feature?)?;
    if !matches!(feature.kind, Kind::CrossHole { .. }) {
        return None;
    }
    let center = given.chain.center(feature.id)?;
    let on = given.facts().round_under(center, center)?;
    let round = on.diameter;
    let drill = op.to_diameter?;
    let unit = given.unit;
    let found = CrossTouch {
        half_round: Figure::fine(round.half(), unit),
        with_drill: Figure::fine(keyseat::side_touch(round, drill), unit),
        along: Figure::usual(center.0, unit),
        from_far: Figure::usual(center.from_far_end(given.overall), unit),
    };
    let text = |f: Figure| f.text(unit);
    let middle = line(
        told!("Middle", "Mitte"),
        text(found.with_drill),
        tell!(
            "and the paper, in from the side touched with paper by a pin as thick as the drill (half of {}, half of {}; of an edge finder half of its tip)",
            "und das Papier, ab der Seite, die ein Stift so dick wie der Bohrer mit Papier berührt (halb {}, halb {}; beim Kantentaster seine halbe Spitze)",
            text(Figure::fine(round, unit)),
            text(Figure::fine(drill, unit))
        ),
    );
    let along = line(
        told!("Along", "Längs"),
        text(found.along),
        tell!(
            "from the datum face ({} from the far face); touched likewise, half the pin and the paper more",
            "ab Bezugsfläche ({} ab Gegenfläche); ebenso ankratzen, dazu der halbe Stift und das Papier",
            text(found.from_far)
        ),
    );
    let first = surface::first(given, &on, feature);
    let first = first
        .into_iter()
        .map(|step| line(told!("Round", "Rund"), format!("\u{d8} {}", text(Figure::fine(round, unit))), step));
    Some((found, first.chain([middle, along]).collect()))
}

/// Adds the touch-off of a hole across to its block.
pub(super) fn touch_off(given: &Given, op: &Operation, cut: &mut super::HoleCut) {
    if let Some((touch, lines)) = touch(given, op) {
        cut.touch = Some(touch);
        cut.lines.extend(lines);
    }
}

/// What a hole across comes out of, where the part is hollow under it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Wall {
    /// From the round to the hollow, over the middle.
    thick: Length,
    /// Across the hollow to the other wall.
    open: Length,
    /// It goes on through the other wall.
    both: bool,
}

/// The wall a hole across goes through; none where it ends in it, or where the part is solid there.
pub(super) fn wall(given: &Given, op: &Operation) -> Option<Wall> {
    let feature = given.feature(op.feature?)?;
    let Kind::CrossHole { deep, .. } = &feature.kind else { return None };
    let center = given.chain.center(feature.id)?;
    let round = given.facts().round_under(center, center)?.diameter;
    let over = given.profile.hollows.iter().filter(|h| h.from <= center && center <= h.to);
    let open = over.map(|h| h.start.min.min(h.stop.min)).max()?;
    let thick = (round - open).half();
    let both = deep.is_none();
    let reaches = deep.as_ref().is_none_or(|d| d.nominal >= thick);
    (thick.is_positive() && reaches).then_some(Wall { thick, open, both })
}

/// The depth of a drill through a wall.
pub(super) fn drilled_through(given: &Given, wall: Wall) -> HoleLine {
    let thick = Figure::fine(wall.thick, given.unit).text(given.unit);
    let note = if wall.both {
        tell!(
            "both walls, each {thick}: ease the feed as the point comes out of either",
            "beide Wände, je {thick}: Vorschub zurücknehmen, wenn die Spitze durchkommt"
        )
    } else {
        tell!(
            "the wall drilled from only, {thick}: ease the feed as the point comes out, stop short of the other",
            "nur die angebohrte Wand, {thick}: Vorschub zurücknehmen, wenn die Spitze durchkommt, vor der anderen anhalten"
        )
    };
    line(depth_label(), told!("through", "durch").to_owned(), note)
}

/// The depth of a tap through a wall: until its lead is out beyond. Where the hollow has no room for that a bottoming tap ends it.
pub(super) fn tapped_through(given: &Given, wall: Wall, thread: &Tapped) -> HoleLine {
    let text = |l: Length| Figure::fine(l, given.unit).text(given.unit);
    let lead = thread.pitch.times(LEAD);
    let deep = wall.thick + lead;
    let turns = deep.mm() / thread.lead.mm();
    let back = told!("back off every half turn", "alle halbe Umdrehung zurückdrehen");
    let (thick, beyond) = (text(wall.thick), text(lead));
    let note = if wall.both {
        tell!(
            "both walls, each {thick}, one after the other with the same tap: on until its lead ({beyond}) is out of the far one; {back}",
            "beide Wände, je {thick}, nacheinander mit demselben Gewindebohrer: bis sein Anschnitt ({beyond}) aus der hinteren heraus ist; {back}"
        )
    } else if wall.open < lead {
        tell!(
            "the wall tapped from only, {thick}: no room for a plug tap's lead ({beyond}) beyond; finish with a bottoming tap; {back}",
            "nur die angebohrte Wand, {thick}: dahinter kein Platz für den Anschnitt ({beyond}); mit dem Grundbohrer fertig schneiden; {back}"
        )
    } else {
        tell!(
            "the wall tapped from only, {thick}, and a plug tap's lead ({beyond}) out beyond: about {turns:.1} turns; {back}",
            "nur die angebohrte Wand, {thick}, und der Anschnitt ({beyond}) dahinter heraus: etwa {turns:.1} Umdrehungen; {back}"
        )
    };
    line(depth_label(), told!("through", "durch").to_owned(), note)
}

/// What ends a thread in a hole across that is blind: it is drilled no deeper than the thread goes.
pub(super) fn bottoming(op: &Operation) -> &'static str {
    if op.inside {
        ""
    } else {
        told!(
            "; a taper or plug tap leaves its lead short of full thread: finish with a bottoming tap",
            "; Vor- und Mittelschneider lassen ihren Anschnitt unfertig: mit dem Grundbohrer fertig schneiden"
        )
    }
}
