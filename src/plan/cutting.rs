//! How a cut is made: how many cuts, at which feed and speed. The minutes of the plan are counted from it and the sheet tells it, so that
//! both speak of the same cut.

use crate::handbook::material::{self, Condition, Named, Tool};
use crate::handbook::speed::{self, SurfaceSpeed};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::{Reads, ToolKind};
use crate::model::{Part, Shop};
use crate::unit::{Length, Limits, Unit, show};

/// Where the surface speed of a part comes from.
pub enum SpeedFrom {
    /// The shop file.
    Hand(Tool),
    /// The handbook, for a material it knows.
    Handbook(Named),
    /// The handbook's slow one, since the material is not known.
    Slow,
}

/// Material of the part, as the handbook knows it.
pub fn named_material(part: &Part) -> Option<Named> {
    material::find(&part.material.as_ref()?.text)
}

/// Condition of the bar, as its material line or the heat treatment says.
fn condition(part: &Part, named: &Named) -> Option<Condition> {
    named.condition.or_else(|| part.heat_treatment.as_ref().and_then(|t| Condition::find(&t.text)))
}

/// Where a part's surface speed comes from.
pub fn speed_from(part: &Part, shop: Option<&Shop>) -> SpeedFrom {
    match shop {
        Some(s) if s.surface_speed_hss.is_some() => SpeedFrom::Hand(Tool::Hss),
        Some(s) if s.surface_speed_carbide.is_some() => SpeedFrom::Hand(Tool::Carbide),
        _ => named_material(part).map_or(SpeedFrom::Slow, SpeedFrom::Handbook),
    }
}

/// Share of the shop's own speed that the material takes.
pub fn share_of_own(part: &Part) -> f64 {
    let named = named_material(part);
    let condition = named.as_ref().and_then(|n| condition(part, n));
    material::share_of_own(part.material.is_some(), named.as_ref(), condition)
}

/// Turning speed for roughing or finishing. The hand's own counts for both.
pub fn turning_speed(part: &Part, shop: Option<&Shop>, finishing: bool) -> SurfaceSpeed {
    let speeds = match speed_from(part, shop) {
        SpeedFrom::Hand(tool) => {
            let own = match tool {
                Tool::Hss => shop.and_then(|s| s.surface_speed_hss),
                Tool::Carbide => shop.and_then(|s| s.surface_speed_carbide),
            };
            return SurfaceSpeed::metres(own.unwrap_or(0.0)).times(share_of_own(part));
        }
        SpeedFrom::Handbook(named) => named.material.speeds(Tool::Hss, condition(part, &named)),
        SpeedFrom::Slow => material::assumed_speeds(Tool::Hss),
    };
    if finishing { speeds.finish } else { speeds.rough }
}

/// The gear nearest to `wanted` that is not above it; the slowest when all are; none where no gears are listed.
pub fn gear(wanted: f64, speeds: &[u32]) -> Option<u32> {
    let list: Vec<f64> = speeds.iter().map(|s| f64::from(*s)).collect();
    let chosen = speed::gear(wanted, &list)?;
    speeds.iter().copied().find(|s| (f64::from(*s) - chosen).abs() < 0.5)
}

/// Usual feeds a turn on a small lathe: .008 in / 0.2 mm roughing, .003 in / 0.08 mm finishing, .005 in / 0.12 mm facing (common
/// practice, no source). None where the hand feeds.
pub fn usual_feed(unit: Unit, verb: Verb) -> Option<Length> {
    let pick = |micro_inches: i64, micrometres: i64| match unit {
        Unit::Inch => Length::micro_inches(micro_inches),
        Unit::Millimetre => Length::micrometres(micrometres),
    };
    Some(match verb {
        Verb::Rough => pick(8_000, 200),
        Verb::Finish | Verb::Turn | Verb::Taper | Verb::Bore => pick(3_000, 80),
        Verb::Face => pick(5_000, 120),
        _ => return None,
    })
}

/// The feed of an operation: from the shop's list the nearest not above the usual, its finest when all are above.
pub fn feed(unit: Unit, shop: Option<&Shop>, verb: Verb) -> Option<Length> {
    let wanted = usual_feed(unit, verb)?;
    let list = shop.map(|s| s.feeds.as_slice()).unwrap_or_default();
    let own = list.iter().copied().filter(|f| *f <= wanted).max().or_else(|| list.iter().copied().min());
    Some(own.unwrap_or(wanted))
}

/// Equal cuts that take so much off a side, none deeper than `most`. A close size gets three (common practice: equal last cuts, measured
/// between, so that the last one springs like those before it), or as many as its metal has settable cuts in it. None where nothing comes off.
pub fn cuts(a_side: Length, most: Length, close: bool, unit: Unit, shop: Option<&Shop>) -> Option<u32> {
    if !a_side.is_positive() {
        return None;
    }
    let least = a_side.divided_up(most);
    let settable = u32::try_from(a_side.pm() / least_cut(shop, unit).pm().max(1)).unwrap_or(u32::MAX);
    Some(if close { least.max(settable.clamp(1, 3)) } else { least.max(1) })
}

/// The smallest cut, a side, that is set and not guessed: a division of the cross dial, or where it is not known .0005 in, 0.01 mm
/// (common practice, no source).
pub fn least_cut(shop: Option<&Shop>, unit: Unit) -> Length {
    let dial = shop.and_then(|s| Some((s.cross_dial?.division, s.cross_reads?)));
    let usual = match unit {
        Unit::Inch => Length::micro_inches(500),
        Unit::Millimetre => Length::micrometres(10),
    };
    match dial {
        Some((division, Reads::Diameter)) if division.is_positive() => division.half(),
        Some((division, Reads::Radius)) if division.is_positive() => division,
        _ => usual,
    }
}

/// Equal roughing cuts from a cylinder to the small end of its taper: how many, how much a side they take together, and what is left for the last
/// cut: the shop's own, else .0075 in / 0.2 mm (common practice, no source). None where there is no more than that to take.
pub fn taper_cuts(
    from: Length,
    small: Length,
    most: Length,
    unit: Unit,
    shop: Option<&Shop>,
) -> Option<(u32, Length, Length)> {
    let usual = match unit {
        Unit::Inch => Length::micro_inches(7_500),
        Unit::Millimetre => Length::micrometres(200),
    };
    let left = shop.and_then(|s| s.depth_finish).filter(|l| l.is_positive()).unwrap_or(usual);
    let rough = (from - small).half() - left;
    // Less than another last cut is no roughing.
    (rough > left).then(|| (rough.divided_up(most).max(1), rough, left))
}

/// Plunges of a groove: as few as cover its width with the tool there is, the two walls where none fits.
pub fn plunges(width: Length, tool: Option<Length>) -> u32 {
    match tool.filter(|w| w.is_positive() && *w <= width) {
        Some(tool) => width.divided_up(tool).max(1),
        None => 2,
    }
}

/// Width of the grooving tool to use: the widest in the drawer that fits between the walls and reaches the bottom.
pub fn groove_tool(shop: Option<&Shop>, kind: ToolKind, operation: &Operation) -> Option<Length> {
    let width = (operation.to? - operation.from?).abs();
    let deep = operation.from_diameter.zip(operation.to_diameter).map_or(Length::ZERO, |(from, to)| (from - to).half());
    let tools = shop?.tools_of(kind);
    tools.filter(|t| t.reach.is_none_or(|r| r >= deep)).filter_map(|t| t.width).filter(|w| *w <= width).max()
}

/// A size as the sheet shows it: in full display digits (four for inches, three for millimetres), or as it is where rounding would leave the limits or
/// bring it to one of their ends.
pub fn shown_size(wanted: Length, limits: Option<Limits>, unit: Unit) -> Length {
    let shown = wanted.round_to(show::step(unit, show::usual_decimals(unit) + 1));
    if limits.is_some_and(|l| l.holds(wanted) && !l.tells(wanted, shown)) { wanted } else { shown }
}
