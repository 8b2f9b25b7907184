//! How many cuts, how deep, and what to read between the last ones.

use super::{DialReading, Figure, dial};
use crate::model::{Part, Shop};
use crate::plan::rough_depth;
use crate::unit::Unit;

/// Equal cuts from one diameter to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passes {
    /// How many.
    pub count: u32,
    /// Depth of each a side, exact.
    pub depth: Figure,
    /// For a close size: each cut with what the micrometer should read after it; empty otherwise.
    pub cuts: Vec<Cut>,
}

/// One of the equal last cuts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// Depth a side as it is set, rounded to the cross dial's division where there is one. None for the last: it is what is still to come off.
    pub depth: Option<Figure>,
    /// On the cross dial.
    pub dial: Option<DialReading>,
    /// What the work should measure after it. None for the last: the limits say.
    pub should_read: Option<Figure>,
}

/// Cuts from `from` to `to`: as many as the deepest cut asks for, all equally deep; a close size gets three (common practice:
/// equal last cuts, measured between, so that the last one springs like those before it).
pub(super) fn passes(from: Figure, to: Figure, close: bool, part: &Part, shop: Option<&Shop>) -> Option<Passes> {
    let unit = part.units;
    let a_side = (from.value - to.value).half();
    if !a_side.is_positive() {
        return None;
    }
    let least = a_side.divided_up(rough_depth(part, shop).0);
    let count = if close { least.max(3) } else { least.max(1) };
    let depth = Figure::usual(a_side.times_ratio(1, i64::from(count)), unit);
    let cuts = if close { equal_cuts(from, depth, count, shop, unit) } else { Vec::new() };
    Some(Passes { count, depth, cuts })
}

fn equal_cuts(from: Figure, depth: Figure, count: u32, shop: Option<&Shop>, unit: Unit) -> Vec<Cut> {
    // A cut is set on the dial, so it is rounded there, and the reading after it follows from what was set.
    let dial = dial::cross(depth.value, shop, unit);
    let set = match (dial, shop.and_then(|s| s.cross_reads)) {
        (Some(reading), Some(crate::model::shop::Reads::Diameter)) => reading.shown.value.half(),
        (Some(reading), _) => reading.shown.value,
        (None, _) => depth.rounded(unit).value,
    };
    let decimals = crate::unit::show::decimals_needed(set, unit, depth.decimals, depth.decimals + 1);
    let cut = |i: u32| Cut {
        depth: Some(Figure::new(set, decimals)),
        dial,
        should_read: Some(Figure::usual(from.value - set.times(2 * i64::from(i)), unit)),
    };
    let last = Cut { depth: None, dial: None, should_read: None };
    (1..count).map(cut).chain([last]).collect()
}
