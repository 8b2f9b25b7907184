//! How many cuts, how deep, and what to read between the last ones.

use super::given::Given;
use super::{DialReading, Figure, OnScale, dial, scale};
use crate::model::plan::Operation;
use crate::model::shop::Reads;
use crate::model::{Part, Shop};
use crate::plan::{cutting, depth_of};
use crate::unit::{Length, Unit, show};

/// Equal cuts from one diameter to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passes {
    /// How many.
    pub count: u32,
    /// Depth of each a side, exact.
    pub depth: Figure,
    /// The same on the cross dial, where the shop file says what it reads.
    pub on_dial: Option<DialReading>,
    /// For a close size: each cut with what the micrometer should read after it; empty otherwise.
    pub cuts: Vec<Cut>,
    /// Passes without infeed behind the last.
    pub spring: u32,
    /// What they leave of what the work gives way by, on the diameter; none where that is nothing to read.
    pub barrel: Option<Figure>,
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
    /// The same on a micrometer in the other unit.
    pub on_scale: Option<OnScale>,
}

/// Cuts from `from` to `to`, all equally deep, as many as the plan counts minutes for ([`cutting::cuts`]).
/// Where the work gives way, none is deeper than the operation allows.
pub(super) fn passes(from: Figure, to: Figure, op: &Operation, part: &Part, shop: Option<&Shop>) -> Option<Passes> {
    let passes = no_deeper(depth_of(op, part, shop).0, from, to, op.close, part.units, shop)?;
    let barrel = op.barrel.map(|(_, left)| Figure::new(left, show::usual_decimals(part.units) + 2));
    let barrel = barrel.filter(|b| b.rounded(part.units).value.is_positive());
    Some(Passes { spring: op.spring, barrel, ..passes })
}

/// The same, no cut deeper than `most` a side.
pub(super) fn no_deeper(
    most: Length,
    from: Figure,
    to: Figure,
    close: bool,
    unit: Unit,
    shop: Option<&Shop>,
) -> Option<Passes> {
    let a_side = (from.value - to.value).half();
    let count = cutting::cuts(a_side, most, close, unit, shop)?;
    let depth = Figure::usual(a_side.times_ratio(1, i64::from(count)), unit);
    // A cut of tenths is shown as such, and not rounded to half of it or twice.
    let coarse = depth.value < show::step(unit, depth.decimals).times(2);
    let depth = if coarse { Figure::new(depth.value, depth.decimals + 1) } else { depth };
    let cuts = if close { equal_cuts(from, depth, count, shop, unit) } else { Vec::new() };
    Some(Passes { count, depth, on_dial: dial::cross(depth.value, shop, unit), cuts, spring: 0, barrel: None })
}

/// The cuts with what a micrometer in the other unit should read after each.
pub(super) fn on_scales(given: &Given, mut passes: Passes) -> Passes {
    for cut in &mut passes.cuts {
        cut.on_scale = cut.should_read.and_then(|r| scale::on_scale(given, "micrometer", Some(r), None));
    }
    passes
}

fn equal_cuts(from: Figure, depth: Figure, count: u32, shop: Option<&Shop>, unit: Unit) -> Vec<Cut> {
    // A cut is set on the dial, so it is rounded there, and the reading after it follows from what was set.
    let dial = dial::cross(depth.value, shop, unit);
    let set = match (dial, shop.and_then(|s| s.cross_reads)) {
        (Some(reading), Some(Reads::Diameter)) => reading.shown.value.half(),
        (Some(reading), _) => reading.shown.value,
        (None, _) => depth.rounded(unit).value,
    };
    let decimals = show::decimals_needed(set, unit, depth.decimals, depth.decimals + 1);
    // What is round on a dial in the other unit is not round on the micrometer: the reading keeps its tenths.
    let foreign = dial.is_some_and(|d| d.unit != unit);
    let reading = |l: Length| if foreign { Figure::fine(l, unit) } else { Figure::usual(l, unit) };
    let cut = |i: u32| Cut {
        depth: Some(Figure::new(set, decimals)),
        dial,
        should_read: Some(reading(from.value - set.times(2 * i64::from(i)))),
        on_scale: None,
    };
    let last = Cut { depth: None, dial: None, should_read: None, on_scale: None };
    (1..count).map(cut).chain([last]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cuts(a_side_tenths: i64, division: Option<(i64, Reads)>) -> Passes {
        let read =
            crate::read::part("pin", b"part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 x 3\noverall: 2.9\n");
        let part = read.part.expect("a part");
        let read = crate::read::shop("shop", include_bytes!("../../samples/shop.yaml"));
        let mut shop = read.shop.expect("a shop file");
        let dial = |n| crate::model::shop::Dial { division: Length::inch_tenths(n), turn: Length::inch_tenths(1000) };
        (shop.cross_dial, shop.cross_reads) = (division.map(|d| dial(d.0)), division.map(|d| d.1));
        let to = Length::inch_tenths(8_743);
        let from = to + Length::inch_tenths(a_side_tenths).times(2);
        let figure = |l| Figure::new(l, 4);
        no_deeper(
            crate::plan::rough_depth(&part, Some(&shop)).0,
            figure(from),
            figure(to),
            true,
            part.units,
            Some(&shop),
        )
        .expect("metal to cut")
    }

    /// By hand: 4, 8, 15, 25 and 35 tenths a side hold 0, 0, 1, 2 and 3 divisions of .001 a side, and twice as many where the dial
    /// reads diameters (.001 on it is .0005 a side).
    #[test]
    fn a_close_size_gets_as_many_cuts_as_its_metal_has_settable_ones() {
        let radius = [(4, 1), (8, 1), (15, 1), (25, 2), (35, 3), (150, 3)];
        let diameter = [(4, 1), (8, 1), (15, 3), (25, 3)];
        let unknown = [(4, 1), (9, 1), (10, 2), (15, 3)];
        let all =
            [(Some((10, Reads::Radius)), &radius[..]), (Some((10, Reads::Diameter)), &diameter), (None, &unknown)];
        for (dial, rows) in all {
            for (tenths, count) in rows {
                let passes = cuts(*tenths, dial);
                assert_eq!((passes.count, passes.cuts.len()), (*count, *count as usize), "{tenths} tenths, {dial:?}");
                assert!(passes.depth.rounded(Unit::Inch).value.is_positive(), "{tenths} tenths are not shown as none");
                let set: Vec<Length> = passes.cuts.iter().filter_map(|c| c.depth).map(|d| d.value).collect();
                assert!(set.iter().all(|d| d.is_positive()), "no cut of nothing: {set:?}");
                let sum = set.iter().fold(Length::ZERO, |sum, d| sum + *d);
                assert!(sum < Length::inch_tenths(*tenths), "the last cut has something to take: {set:?}");
            }
        }
    }
}
