//! How a hole across is found: over the middle of the round, along it, down from its top.

use super::given::Given;
use super::inside::line;
use super::{Figure, surface};
use crate::handbook::keyseat;
use crate::model::Kind;
use crate::model::plan::Operation;
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
fn touch(given: &Given, op: &Operation) -> Option<(CrossTouch, Vec<super::HoleLine>)> {
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
