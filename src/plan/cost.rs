//! Minutes: what the search adds up. Setups, tools and measuring from the shop file, cutting from speed, feed and passes.
//! An estimate for choosing between orders, not a quotation; every cost is above zero.

use crate::check::Facts;
use crate::handbook::speed::surface_speed;
use crate::model::plan::{Assumed, Operation, Setup, Slow, Verb};
use crate::model::shop::Minutes;
use crate::model::{Kind, Plan, Shop};
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

use super::cutter;
use super::cutting::{cuts, feed, groove_tool, plunges, shown_size, taper_cuts};
use super::derive::Layout;
use super::holding::{Lengths, least_slow};
use super::rough_depth::{default_rough_depth, rough_depth};
use super::run_out;
use super::spindle::{Spindle, spindle};
use super::thread_feed::{self, SPRING_PASSES, SPRING_PASSES_INSIDE};

/// Times and rates of the shop, or the usual.
#[derive(Clone, Copy)]
pub(super) struct Rates<'a> {
    /// A setup change, a tool change, a measurement.
    pub(super) minutes: Minutes,
    stated: bool,
    facts: Facts<'a>,
    layout: &'a Layout,
    lengths: Lengths,
    shop: Option<&'a Shop>,
    unit: Unit,
    rough_depth: Length,
}

/// Putting the tool in position, engaging the feed, coming back: for each cut (common practice, no source).
const HANDLING: f64 = 0.3;
/// Turns a minute of a tap that is turned by hand (common practice, no source).
const TAP_RPM: f64 = 20.0;

impl<'a> Rates<'a> {
    pub(super) fn of(facts: Facts<'a>, layout: &'a Layout) -> Self {
        let (part, shop) = (facts.part, facts.shop);
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
            facts,
            layout,
            lengths: Lengths::of(layout, shop),
            shop,
            unit: part.units,
            rough_depth: rough_depth(part, shop).0,
        }
    }

    /// For the box of assumptions.
    pub(super) fn assumed(&self, plan: &Plan) -> Vec<Assumed> {
        let entry = |what: &str, value: String| Assumed {
            what: what.to_owned(),
            value,
            source: told!("common practice", "Werkstattbrauch").to_owned(),
        };
        let m = self.minutes;
        let usual = (!self.stated).then(|| {
            entry(
                told!("Minutes", "Minuten"),
                tell!(
                    "setup {}, tool {}, measurement {}",
                    "Spannlage {}, Werkzeug {}, Messung {}",
                    m.setup,
                    m.tool,
                    m.measure
                ),
            )
        });
        let mut handling = vec![tell!(
            "{HANDLING} minutes a cut to set it and come back",
            "{HANDLING} Minuten je Schnitt für Zustellen und Rücklauf"
        )];
        let cuts = |verbs: &[Verb]| plan.operations().any(|(_, o)| verbs.contains(&o.verb));
        let shown = |mm: f64| {
            let length = Length::from_f64(mm, Unit::Millimetre);
            show::length(length, self.unit, if self.unit == Unit::Inch { 3 } else { 2 })
        };
        let (inward, along) = (shown(cutter::IN), shown(cutter::ALONG));
        if cuts(&[Verb::Groove, Verb::PartOff, Verb::Mill]) {
            handling.push(tell!("by hand {inward} a turn in", "von Hand {inward} je Umdrehung quer"));
        }
        if cuts(&[Verb::Drill, Verb::Mill]) {
            handling.push(tell!("{along} drilling and milling along", "{along} beim Bohren und Fräsen längs"));
        }
        if cuts(&[Verb::Ream]) {
            handling.push(tell!("{} reaming", "{} beim Reiben", shown(2.0 * cutter::ALONG)));
        }
        if cuts(&[Verb::Tap]) {
            handling.push(tell!("a tap {TAP_RPM} turns a minute", "Gewindebohrer {TAP_RPM} U/min"));
        }
        if cuts(&[Verb::Mill]) {
            let depth = show::length(default_rough_depth(self.unit), self.unit, show::usual_decimals(self.unit));
            handling.push(tell!(
                "slots by half a cutter, flats by {depth}",
                "Nuten um einen halben Fräser, Flächen um {depth} tiefer"
            ));
        }
        let handling = entry(told!("Handling", "Handgriffe"), handling.join("; "));
        usual.into_iter().chain([handling]).collect()
    }

    /// Minutes of one operation in a mounting, cutting and measuring: at the speed that the sheet then tells, or where the mounting is no part of a
    /// plan yet, at the fastest that any plan could have there.
    pub(super) fn minutes_in(&self, operation: &Operation, setup: &Setup) -> f64 {
        let slow = setup.slow.unwrap_or_else(|| least_slow(&self.facts, self.layout, &self.lengths, setup, operation));
        self.at(operation, spindle(&self.facts, Some(setup), &slow, operation))
    }

    /// Minutes of one operation where nothing but the cut limits the speed.
    pub(super) fn minutes(&self, operation: &Operation) -> f64 {
        self.at(operation, spindle(&self.facts, None, &Slow::default(), operation))
    }

    fn at(&self, operation: &Operation, spindle: Option<Spindle>) -> f64 {
        let layout = self.layout;
        let turned = Turned::of(self, operation, spindle);
        let long = turned.long;
        let measure = self.minutes.measure;
        let minutes = match operation.verb {
            Verb::Drill if operation.inside => self.drilled(operation, long, turned.rpm),
            // Spotted, then drilled; touched on its side and its top.
            Verb::Drill => {
                let long = cutter::across(&self.facts, operation).unwrap_or(long);
                self.drilled(operation, long, turned.rpm) + measure * 2.0
            }
            // Once through at twice a drill's feed, and drawn out.
            Verb::Ream => long / (cutter::ALONG * 2.0 * turned.rpm) * 1.5 + HANDLING + measure,
            Verb::Tap => self.tapped(operation, long) + HANDLING * 2.0 + measure,
            // Plunged by hand from the bar to its middle, or into what is bored.
            Verb::PartOff => {
                let whole = || (turned.before - layout.open_where_parted()).half().max(Length::ZERO);
                operation.travel.unwrap_or_else(whole).mm() / (cutter::IN * turned.rpm) + HANDLING * 2.0
            }
            Verb::Mill => self.milled(operation, spindle.as_ref()),
            Verb::Face => {
                // Two cuts clean an end up; a long piece of bar is faced away cut by cut.
                let more = layout.faced_beyond_cleaning(operation).divided_up(self.rough_depth);
                turned.cuts(2 + more, layout.bar.half().mm()) + measure
            }
            // Laid out with the height gauge, punched, drilled on the press: common practice, no source.
            Verb::Center if operation.throw.is_some() || operation.for_rest => 6.0,
            Verb::Center => 1.0,
            Verb::Rough | Verb::Finish | Verb::Turn | Verb::Bore | Verb::Taper => {
                let count = self.count(operation, &turned);
                let measured = if operation.close { f64::from(count) } else { 1.0 };
                turned.cuts(count + operation.spring, long) + measured * measure
            }
            // Plunged by hand.
            Verb::Groove => {
                let plunges = f64::from(self.plunges(operation));
                plunges * (turned.a_side().mm() / (cutter::IN * turned.rpm) + HANDLING) + HANDLING + measure
            }
            Verb::Chamfer | Verb::Deburr => 0.5,
            Verb::Thread => {
                // All starts, the passes without infeed too, and read twice.
                let (count, lead) = self.thread(operation, spindle.as_ref());
                // Where the half-nuts stay closed the way back is as long as the way there.
                let ways = if run_out::comes_back_under_power(&self.facts, operation) { 2.0 } else { 1.0 };
                f64::from(count) * (ways * long / (lead * turned.rpm) + HANDLING) + measure * 2.0
            }
            Verb::Polish => 1.0 + measure,
            Verb::File => 6.0 + measure,
            Verb::Inspect => 5.0,
            // The time it is away is nobody's at the lathe.
            Verb::HeatTreat => 0.0,
            _ => 2.0,
        };
        // A whole number of hundredths: the estimate holds no more, and the search adds exact numbers.
        (minutes.clamp(0.1, 10_000.0) * 100.0).round() / 100.0
    }

    /// Minutes of the drills of a hole: each fed by hand and drawn out, half as long again, and the spotting.
    fn drilled(&self, operation: &Operation, long: f64, rpm: f64) -> f64 {
        let steps = match operation.to_diameter.filter(|_| operation.from_diameter.is_none()) {
            Some(size) => cutter::drill_steps(self.unit, size).len(),
            None => 1,
        };
        steps as f64 * (long / (cutter::ALONG * rpm) * 1.5 + HANDLING) + HANDLING * 2.0
    }

    /// Minutes of a tap turned by hand: as many turns in as the thread has, half as many back to break the chips, and all out again.
    fn tapped(&self, operation: &Operation, long: f64) -> f64 {
        let thread = operation.feature.and_then(|f| self.facts.part.features.get(f)).and_then(|f| f.tapped());
        let long = if operation.inside { long } else { cutter::across(&self.facts, operation).unwrap_or(long) };
        thread.map_or(1.0, |t| 2.5 * long / t.lead.mm().max(0.1) / TAP_RPM)
    }

    /// Minutes of a milling cutter: touched on the side and on the top, measured at the end.
    fn milled(&self, operation: &Operation, spindle: Option<&Spindle>) -> f64 {
        let Some(cut) = cutter::milled(&self.facts, operation) else { return 3.0 + self.minutes.measure };
        let rpm = spindle.map(Spindle::rpm).or(cut.rpm).unwrap_or(1.0).clamp(1.0, 100_000.0);
        let cuts = f64::from(cut.cuts.max(1));
        let cutting = cuts * cut.long / (cutter::ALONG * rpm) + cut.deep / (cutter::IN * rpm);
        cutting + (cuts + f64::from(cut.turned)) * HANDLING + self.minutes.measure * 3.0
    }

    /// Cuts along the work, as many as the sheet tells.
    fn count(&self, operation: &Operation, turned: &Turned) -> u32 {
        let (unit, shop) = (self.unit, self.shop);
        let from = shown_size(turned.before, None, unit);
        let to = shown_size(turned.after, operation.limits, unit);
        let most = if operation.inside { self.rough_depth.half() } else { self.rough_depth };
        if operation.verb == Verb::Taper {
            // Stepped down to the small end, inside out to the large one, then the last cut along the slope, or three of them.
            let small = operation.feature.and_then(|f| self.layout.taper_ends(f)).map_or(to, |(a, b)| a.min(b));
            let (from, to) = if operation.inside { (turned.after, turned.before) } else { (turned.before, small) };
            let last = if operation.close { 3 } else { 1 };
            return last + taper_cuts(from, to, most, unit, shop).map_or(0, |(count, ..)| count);
        }
        let most = operation.lighter.map_or(most, |lighter| lighter.min(most));
        cuts((from - to).abs().half(), most, operation.close, unit, shop).unwrap_or(1)
    }

    /// Passes of a thread, as many as the sheet tells, of all starts; and its lead in millimetres.
    fn thread(&self, operation: &Operation, spindle: Option<&Spindle>) -> (u32, f64) {
        let Some(feature) = operation.feature.and_then(|f| self.facts.part.features.get(f)) else { return FEW_CUTS };
        if let Kind::Thread { thread, .. } = &feature.kind {
            let speed = spindle.map(|s| surface_speed(s.rpm(), s.diameter));
            let passes = thread_feed::data(&thread.designation).and_then(|data| {
                let (feed, _) = thread_feed::chosen(&data, self.shop)?;
                Some(thread_feed::passes(self.facts.part, self.shop, &data, &feed, speed).len())
            });
            let each =
                passes.and_then(|n| u32::try_from(n).ok()).unwrap_or(FEW_CUTS.0) + operation.spring.max(SPRING_PASSES);
            return (each * u32::from(thread.starts).max(1), thread.lead.mm().max(0.1));
        }
        let Some((thread, hole)) = feature.tapped().zip(operation.from_diameter) else { return FEW_CUTS };
        let passes = thread_feed::passes_inside(thread, hole, self.unit).len();
        let each = u32::try_from(passes).unwrap_or(FEW_CUTS.0) + SPRING_PASSES_INSIDE;
        (each * u32::from(thread.starts).max(1), thread.lead.mm().max(0.1))
    }

    /// Plunges of a groove; an undercut is one.
    fn plunges(&self, operation: &Operation) -> u32 {
        let undercut = operation
            .feature
            .and_then(|f| self.facts.part.features.get(f))
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
    /// Turns a minute.
    rpm: f64,
    /// Millimetres fed a minute.
    fed: f64,
}

/// Cuts and lead of a thread that the handbook does not know (common practice, no source).
const FEW_CUTS: (u32, f64) = (13, 1.5);

impl Turned {
    fn of(rates: &Rates<'_>, operation: &Operation, spindle: Option<Spindle>) -> Self {
        let before = operation.from_diameter.unwrap_or(rates.layout.bar);
        let after = operation.to_diameter.unwrap_or(before);
        let between = || operation.from.zip(operation.to).map(|(a, b)| (a - b).abs());
        let long = operation.travel.or_else(between).map_or(0.0, Length::mm);
        let rpm = spindle.map_or(1.0, |s| s.rpm().clamp(1.0, 100_000.0));
        let turn = feed(rates.unit, rates.shop, operation.verb).map_or(0.1, Length::mm).max(0.001);
        Self { before, after, long, rpm, fed: turn * rpm }
    }

    fn a_side(&self) -> Length {
        (self.before - self.after).abs().half()
    }

    /// So many cuts, each fed so far and handled.
    fn cuts(&self, count: u32, long: f64) -> f64 {
        f64::from(count) * (long / self.fed + HANDLING)
    }
}
