//! Minutes: what the search adds up. Setups, tools and measuring from the shop file, cutting from speed, feed and passes.
//! An estimate for choosing between orders, not a quotation; every cost is above zero.

use crate::handbook::speed::{self, Cut, SurfaceSpeed, factor};
use crate::handbook::thread::{self as standard, Asked};
use crate::handbook::{eccentric, infeed};
use crate::model::inside::InsideCut;
use crate::model::plan::{Assumed, Operation, Setup, Verb};
use crate::model::shop::Minutes;
use crate::model::{Kind, Part, Shop};
use crate::unit::{Length, Unit};

use super::cutting::{cuts, feed, gear, groove_tool, plunges, shown_size, taper_cuts, turning_speed};
use super::derive::Layout;
use super::rough_depth::rough_depth;

/// Times and rates of the shop, or the usual.
#[derive(Clone, Copy)]
pub(super) struct Rates<'a> {
    /// A setup change, a tool change, a measurement.
    pub(super) minutes: Minutes,
    stated: bool,
    part: &'a Part,
    shop: Option<&'a Shop>,
    unit: Unit,
    /// Surface speed of roughing and of finishing.
    speeds: (SurfaceSpeed, SurfaceSpeed),
    rough_depth: Length,
    /// Share of the turning speed at which grooves are cut.
    groove: f64,
}

/// Putting the tool in position, engaging the feed, coming back: for each cut (common practice, no source).
const HANDLING: f64 = 0.3;

impl<'a> Rates<'a> {
    pub(super) fn of(part: &'a Part, shop: Option<&'a Shop>) -> Self {
        let stated = shop.and_then(|s| s.minutes);
        let usual = Minutes { setup: 8.0, tool: 1.0, measure: 0.5 };
        let positive = |m: Minutes| Minutes {
            setup: m.setup.clamp(0.1, 10_000.0),
            tool: m.tool.clamp(0.0, 10_000.0),
            measure: m.measure.clamp(0.0, 1_000.0),
        };
        Self {
            minutes: positive(stated.unwrap_or(usual)),
            stated: stated.is_some(),
            part,
            shop,
            unit: part.units,
            speeds: (turning_speed(part, shop, false), turning_speed(part, shop, true)),
            rough_depth: rough_depth(part, shop).0,
            groove: if part.wishes.is_off("R26") { 1.0 } else { factor(Cut::Groove).0 },
        }
    }

    /// For the box of assumptions.
    pub(super) fn assumed(&self) -> Vec<Assumed> {
        let entry =
            |what: &str, value: String| Assumed { what: what.to_owned(), value, source: "common practice".to_owned() };
        let m = self.minutes;
        let usual = (!self.stated)
            .then(|| entry("Minutes", format!("setup {}, tool {}, measurement {}", m.setup, m.tool, m.measure)));
        let handling = entry("Handling", format!("{HANDLING} minutes a cut: to set it, engage the feed and come back"));
        usual.into_iter().chain([handling]).collect()
    }

    /// Turns a minute at a diameter: by the surface speed of the cut, no faster than `slow`, in the lathe's own gear.
    fn rpm(&self, finishing: bool, share: f64, diameter: Length, slow: f64) -> f64 {
        let base = if finishing { self.speeds.1 } else { self.speeds.0 };
        let wanted = speed::rpm(base.times(share), diameter).unwrap_or(f64::INFINITY).min(slow).clamp(1.0, 100_000.0);
        let gears = self.shop.map(|s| s.speeds.as_slice()).unwrap_or_default();
        gear(wanted, gears).map_or(wanted, f64::from).max(1.0)
    }

    /// Minutes of one operation in a mounting, cutting and measuring.
    pub(super) fn minutes_in(&self, layout: &Layout, operation: &Operation, setup: &Setup) -> f64 {
        // The jaws of a steady rest rub on the work: no faster than that is turned.
        let steady = setup.rest.as_ref().filter(|r| !r.follows);
        let slow = steady.and_then(|r| speed::rpm(self.speeds.0, r.diameter)).unwrap_or(f64::INFINITY);
        self.no_faster(layout, operation, slow)
    }

    /// Minutes of one operation where nothing but the cut limits the speed.
    pub(super) fn minutes(&self, layout: &Layout, operation: &Operation) -> f64 {
        self.no_faster(layout, operation, f64::INFINITY)
    }

    fn no_faster(&self, layout: &Layout, operation: &Operation, slow: f64) -> f64 {
        let turned = Turned::of(self, layout, operation, slow);
        let long = turned.long;
        let measure = self.minutes.measure;
        let minutes = match operation.verb {
            // A drill feeds about 0.1 mm a turn by hand, and is drawn out twice to clear it.
            Verb::Drill if operation.inside => {
                let rpm = self.rpm(false, factor(Cut::Drill).0, turned.after, slow);
                long / (0.1 * rpm) * 1.5 + HANDLING * 3.0
            }
            Verb::Ream | Verb::Tap if operation.inside => 2.0 + measure,
            Verb::Face => {
                // Two cuts clean an end up; a long piece of bar is faced away cut by cut.
                let more = layout.faced_beyond_cleaning(operation).divided_up(self.rough_depth);
                turned.cuts(2 + more, layout.bar.half().mm()) + measure
            }
            // Laid out with the height gauge, punched, drilled on the press: common practice, no source.
            Verb::Center if operation.throw.is_some() => 6.0,
            Verb::Center => 1.0,
            Verb::Rough | Verb::Finish | Verb::Turn | Verb::Bore | Verb::Taper => {
                let count = self.count(layout, operation, &turned);
                let measured = if operation.close { f64::from(count) } else { 1.0 };
                turned.cuts(count, long) + measured * measure
            }
            // Plunged by hand, .05 mm a turn.
            Verb::Groove => {
                let rpm = self.rpm(false, self.groove, turned.before.max(turned.after), slow);
                let plunges = f64::from(self.plunges(operation));
                plunges * (turned.a_side().mm() / (0.05 * rpm) + HANDLING) + HANDLING + measure
            }
            Verb::Chamfer | Verb::Deburr => 0.5,
            Verb::Thread => {
                let rpm = self.rpm(false, factor(Cut::Thread).0, turned.before, slow);
                let (count, lead) = self.thread(operation);
                // Once more without infeed, and read twice.
                f64::from(count + 1) * (long / (lead * rpm) + HANDLING) + measure * 2.0
            }
            Verb::Polish => 1.0 + measure,
            Verb::File => 6.0 + measure,
            Verb::Mill | Verb::Drill => 3.0 + measure,
            Verb::Inspect => 5.0,
            _ => 2.0,
        };
        // A whole number of hundredths: the estimate holds no more, and the search adds exact numbers.
        (minutes.clamp(0.1, 10_000.0) * 100.0).round() / 100.0
    }

    /// Cuts along the work, as many as the sheet tells.
    fn count(&self, layout: &Layout, operation: &Operation, turned: &Turned) -> u32 {
        let (unit, shop) = (self.unit, self.shop);
        let from = shown_size(turned.before, None, unit);
        let to = shown_size(turned.after, operation.limits, unit);
        let most = if operation.inside { self.rough_depth.half() } else { self.rough_depth };
        if operation.verb == Verb::Taper && !operation.inside {
            // Stepped down to the small end, then the last cut along the slope, or three of them.
            let small = operation.feature.and_then(|f| layout.taper_ends(f)).map_or(to, |(a, b)| a.min(b));
            let last = if operation.close { 3 } else { 1 };
            return last + taper_cuts(turned.before, small, most, unit, shop).map_or(0, |(count, ..)| count);
        }
        cuts((from - to).abs().half(), most, operation.close, unit, shop).unwrap_or(1)
    }

    /// Cuts of a thread, as many as the sheet tells for a tool fed straight in, all starts; and its lead in millimetres.
    fn thread(&self, operation: &Operation) -> (u32, f64) {
        let (designation, lead) = match operation.feature.and_then(|f| self.part.features.get(f)).map(|f| &f.kind) {
            Some(Kind::Thread { thread, .. }) => (&thread.designation, thread.lead),
            Some(Kind::Inside(inside)) => match &inside.cut {
                InsideCut::Thread { thread, .. } => (&thread.designation, thread.lead),
                _ => return FEW_CUTS,
            },
            _ => return FEW_CUTS,
        };
        let deep = || Some((operation.to_diameter? - operation.from_diameter?).half());
        let in_hole = operation.inside.then(deep).flatten();
        let data = standard::read(designation).ok().and_then(|d| standard::limits(&d, &Asked::special()).ok());
        let count = data.and_then(|d| Some(infeed::count(&d, in_hole, self.unit)? * u32::from(d.starts).max(1)));
        (count.unwrap_or(FEW_CUTS.0), lead.mm().max(0.1))
    }

    /// Plunges of a groove; an undercut is one.
    fn plunges(&self, operation: &Operation) -> u32 {
        let undercut = operation
            .feature
            .and_then(|f| self.part.features.get(f))
            .is_some_and(|f| matches!(f.kind, Kind::Undercut { .. }));
        let Some(width) = operation.from.zip(operation.to).map(|(a, b)| (a - b).abs()) else { return 1 };
        if undercut || operation.inside {
            return 1;
        }
        plunges(width, groove_tool(self.shop, operation.tool, operation))
    }
}

/// What a cut along the work finds and leaves, how far it is fed, and how fast.
struct Turned {
    before: Length,
    after: Length,
    /// Millimetres fed.
    long: f64,
    /// Millimetres fed a minute.
    fed: f64,
}

/// Cuts and lead of a thread that the handbook does not know (common practice, no source).
const FEW_CUTS: (u32, f64) = (12, 1.5);

impl Turned {
    fn of(rates: &Rates<'_>, layout: &Layout, operation: &Operation, slow: f64) -> Self {
        let before = operation.from_diameter.unwrap_or(layout.bar);
        let after = operation.to_diameter.unwrap_or(before);
        let between = || operation.from.zip(operation.to).map(|(a, b)| (a - b).abs());
        let long = operation.travel.or_else(between).map_or(0.0, Length::mm);
        let slow = slow.min(operation.throw.and_then(eccentric::most_rpm).unwrap_or(f64::INFINITY));
        let finishing = matches!(operation.verb, Verb::Finish | Verb::Face | Verb::Turn | Verb::Taper);
        let at = if operation.inside { after } else { before };
        let turn = feed(rates.unit, rates.shop, operation.verb).map_or(0.1, Length::mm).max(0.001);
        Self { before, after, long, fed: turn * rates.rpm(finishing, 1.0, at, slow) }
    }

    fn a_side(&self) -> Length {
        (self.before - self.after).abs().half()
    }

    /// So many cuts, each fed so far and handled.
    fn cuts(&self, count: u32, long: f64) -> f64 {
        f64::from(count) * (long / self.fed + HANDLING)
    }
}
