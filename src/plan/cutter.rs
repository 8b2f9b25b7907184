//! What is cut by a cutter on the mill, and by drills: how deep, how far, in how many cuts. Feeds and depths are common
//! practice, no source; the box of assumptions has them.

use crate::check::Facts;
pub use crate::handbook::drill::steps as drill_steps;
use crate::handbook::flats;
use crate::handbook::speed;
use crate::model::Kind;
use crate::model::outside::FlatMeasure;
use crate::model::plan::Operation;
use crate::unit::{Length, Unit};

use super::cutting::turning_speed;
use super::keyseat::{seat, standard};
use super::rough_depth::default_rough_depth;
use super::spindle::largest_end_mill;

/// Fed along by hand, millimetres a turn of the cutter.
pub(super) const ALONG: f64 = 0.1;
/// Fed straight in by hand, millimetres a turn of the cutter or the work.
pub(super) const IN: f64 = 0.05;

/// Cuts of a milling cutter.
pub(super) struct Milled {
    /// Cuts along.
    pub(super) cuts: u32,
    /// Millimetres fed along in each.
    pub(super) long: f64,
    /// Millimetres fed in, all together.
    pub(super) deep: f64,
    /// Turns of the head to another flat.
    pub(super) turned: u32,
    /// Turns a minute where the sheet can tell none: it does not know the cutter.
    pub(super) rpm: Option<f64>,
}

/// How a keyseat or flats are milled; none where the handbook does not know the key.
pub(super) fn milled(facts: &Facts<'_>, operation: &Operation) -> Option<Milled> {
    let feature = facts.part.features.get(operation.feature?)?;
    let (a, b) = facts.chain.span(feature.id)?;
    let (from, to) = (a.min(b), a.max(b));
    match &feature.kind {
        Kind::Flats { size, measure, count, .. } => {
            let round = facts.round_under(from, to)?.diameter;
            let on = flats::on_round(round, depth_of(round, size.nominal, *measure), *count)?;
            let cutter = largest_end_mill(facts).unwrap_or(usual_end_mill(facts.part.units));
            let strips =
                on.width.divided_up(cutter).max(1) * on.depth.divided_up(default_rough_depth(facts.part.units)).max(1);
            // From off one edge to the other, the cutter clear of both.
            let long = (to - from + cutter).mm();
            let count = u32::from(*count).max(1);
            Some(Milled {
                cuts: strips * count,
                long,
                deep: 0.0,
                turned: count - 1,
                rpm: speed::rpm(turning_speed(facts.part, facts.shop, false), cutter),
            })
        }
        kind => {
            let diameter = seat(facts, from + (to - from).half())?.worked_for;
            let key = standard(kind, diameter)?;
            let deep = (key.depths)(diameter, key.width, key.depth.min).from_top;
            let woodruff = matches!(kind, Kind::Woodruff { .. });
            // A slot no deeper than half of the cutter at a time.
            let cuts = if woodruff { 0 } else { deep.divided_up(key.cutter.half()).max(1) };
            // Its centre goes from half a cutter inside a closed end, beyond an open one.
            let open = matches!(kind, Kind::ParallelKeyseat { open: Some(_), .. });
            let ends = if open { Length::ZERO } else { key.cutter };
            let long = if woodruff { Length::ZERO } else { (to - from - ends).max(Length::ZERO) };
            let long = long.mm();
            Some(Milled { cuts, long, deep: deep.mm(), turned: 0, rpm: None })
        }
    }
}

/// 1/2 in, 12 mm where the shop file lists no end mill.
const fn usual_end_mill(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::micro_inches(500_000),
        Unit::Millimetre => Length::micrometres(12_000),
    }
}

/// How deep a hole across is drilled: as stated, else through the round.
pub(super) fn across(facts: &Facts<'_>, operation: &Operation) -> Option<f64> {
    let feature = facts.part.features.get(operation.feature?)?;
    let Kind::CrossHole { deep, .. } = &feature.kind else { return None };
    let center = facts.chain.center(feature.id);
    let through = || facts.round_under(center?, center?).map(|r| r.diameter);
    deep.as_ref().map(|d| d.nominal).or_else(through).map(Length::mm)
}

/// Depth of a flat below the round, by what its size is.
pub fn depth_of(round: Length, size: Length, measure: FlatMeasure) -> Length {
    match measure {
        FlatMeasure::Across => (round - size).half(),
        FlatMeasure::ToFarSide => round - size,
        FlatMeasure::Deep => size,
    }
}
