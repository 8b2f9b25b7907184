//! Minutes: what the search adds up. Setups, tools and measuring from the shop file, cutting from speed, feed and passes.
//! An estimate for choosing between orders, not a quotation; every cost is above zero.

use crate::handbook::eccentric;
use crate::handbook::speed::{Cut, factor};
use crate::model::plan::{Assumed, Operation, Verb};
use crate::model::shop::Minutes;
use crate::model::{Part, Shop};
use crate::unit::{Length, Unit};

use super::derive::Layout;
use super::rough_depth::rough_depth;

/// Times and rates of the shop, or the usual.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rates {
    /// A setup change, a tool change, a measurement.
    pub(super) minutes: Minutes,
    stated: bool,
    /// Surface speed, metres a minute.
    speed: f64,
    /// Slowest and fastest gear; none when the file has none.
    gears: Option<(f64, f64)>,
    rough_feed: f64,
    finish_feed: f64,
    rough_depth: f64,
    finish_depth: f64,
    /// Share of the turning speed at which grooves are cut.
    groove: f64,
}

/// 90 ft/min, the usual for high-speed steel in mild steel.
const SPEED_M_MIN: f64 = 27.4;
/// Putting the tool in position, engaging the feed, coming back: a pass is never shorter (common practice, no source).
const HANDLING: f64 = 0.3;

impl Rates {
    pub(super) fn of(part: &Part, shop: Option<&Shop>) -> Self {
        let stated = shop.and_then(|s| s.minutes);
        let usual = Minutes { setup: 8.0, tool: 1.0, measure: 0.5 };
        let millimetres = |l: Option<Length>, inch: f64, mm: f64| {
            l.filter(|l| l.is_positive()).map_or(if part.units == Unit::Inch { inch } else { mm }, Length::mm)
        };
        let positive = |m: Minutes| Minutes {
            setup: m.setup.clamp(0.1, 10_000.0),
            tool: m.tool.clamp(0.0, 10_000.0),
            measure: m.measure.clamp(0.0, 1_000.0),
        };
        let gears = shop.and_then(|s| Some((f64::from(*s.speeds.first()?), f64::from(*s.speeds.last()?))));
        Self {
            minutes: positive(stated.unwrap_or(usual)),
            stated: stated.is_some(),
            speed: shop.and_then(|s| s.surface_speed_hss).filter(|v| *v > 0.0).unwrap_or(SPEED_M_MIN),
            gears,
            rough_feed: 0.2,
            finish_feed: 0.08,
            rough_depth: rough_depth(part, shop).0.mm(),
            groove: if part.wishes.is_off("R26") { 1.0 } else { factor(Cut::Groove).0 },
            finish_depth: millimetres(shop.and_then(|s| s.depth_finish), 0.127, 0.12),
        }
    }

    /// For the box of assumptions.
    pub(super) fn assumed(&self) -> Vec<Assumed> {
        if self.stated {
            return Vec::new();
        }
        let m = self.minutes;
        vec![Assumed {
            what: "Minutes".to_owned(),
            value: format!("setup {}, tool {}, measurement {}", m.setup, m.tool, m.measure),
            source: "common practice".to_owned(),
        }]
    }

    fn rpm(&self, diameter_mm: f64) -> f64 {
        let wanted = 1000.0 * self.speed / (std::f64::consts::PI * diameter_mm.max(1.0));
        match self.gears {
            Some((slowest, fastest)) => wanted.clamp(slowest, fastest.max(slowest)),
            None => wanted.min(2000.0),
        }
    }

    /// Minutes of one operation, cutting and measuring.
    pub(super) fn minutes(&self, layout: &Layout, operation: &Operation) -> f64 {
        let mm = |l: Option<Length>| l.map(Length::mm);
        let long = match (operation.from, operation.to) {
            (Some(a), Some(b)) => (a - b).abs().mm(),
            _ => 0.0,
        };
        let before = mm(operation.from_diameter).unwrap_or(layout.bar.mm());
        let after = mm(operation.to_diameter).unwrap_or(before);
        let a_side = ((before - after) / 2.0).max(0.0);
        let slow = operation.throw.and_then(eccentric::most_rpm).unwrap_or(f64::INFINITY);
        let rpm = self.rpm(before).min(slow);
        let travel = |long: f64, feed: f64| long / (feed * rpm);
        let measure = self.minutes.measure;
        // Whole cuts stay whole: .381 / .127 is a little more than 3 in binary.
        let whole = |deep: f64, depth: f64| (deep / depth.max(0.01) - 1e-6).ceil().max(1.0);
        let passes = |depth: f64| whole(a_side, depth);
        let opens = ((after - before) / 2.0).max(0.0);
        let minutes = match operation.verb {
            // A drill feeds about 0.1 mm a turn by hand, and is drawn out twice to clear it.
            Verb::Drill if operation.inside => long / (0.1 * self.rpm(after)) * 1.5 + HANDLING * 3.0,
            Verb::Ream | Verb::Tap if operation.inside => 2.0 + measure,
            Verb::Bore | Verb::Taper if operation.inside => {
                let cuts = whole(opens, self.rough_depth / 2.0) + if operation.close { 3.0 } else { 1.0 };
                cuts * (travel(long, self.finish_feed) + HANDLING + measure)
            }
            Verb::Face => travel(layout.bar.mm() / 2.0, self.finish_feed) * 2.0 + HANDLING * 2.0 + measure,
            // Laid out with the height gauge, punched, drilled on the press: common practice, no source.
            Verb::Center if operation.throw.is_some() => 6.0,
            Verb::Center => 1.0,
            Verb::Rough => passes(self.rough_depth) * (travel(long, self.rough_feed) + HANDLING) + measure,
            Verb::Finish | Verb::Turn | Verb::Taper if operation.close => {
                let cuts = passes(self.finish_depth).max(3.0);
                cuts * (travel(long, self.finish_feed) + HANDLING + measure)
            }
            Verb::Finish | Verb::Turn | Verb::Taper => {
                passes(self.finish_depth * 3.0) * (travel(long, self.finish_feed) + HANDLING) + measure
            }
            Verb::Groove => a_side / (0.05 * rpm * self.groove) + HANDLING * 2.0 + measure,
            Verb::Chamfer | Verb::Deburr => 0.5,
            Verb::Thread => 12.0 * (long / (1.5 * (rpm / 4.0).max(30.0)) + HANDLING) + measure * 2.0,
            Verb::Polish => 1.0 + measure,
            Verb::File => 6.0 + measure,
            Verb::Mill | Verb::Drill => 3.0 + measure,
            Verb::Inspect => 5.0,
            _ => 2.0,
        };
        // A whole number of hundredths: the estimate holds no more, and the search adds exact numbers.
        (minutes.clamp(0.1, 10_000.0) * 100.0).round() / 100.0
    }
}
