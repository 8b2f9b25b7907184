//! Minutes of cuts along the work, against arithmetic by hand and against the cuts that the sheet tells: L n / (f s), the time of a cut in every
//! handbook of the trade (a college tutorial on turning prints it as l / (s n)), a handling for each cut, and what is measured. Handling and
//! measuring: common practice, no source.

use crate::figures::hand::shop;
use crate::figures::planned::{everything, worked};
use crate::planning::generated::believable;
use crate::planning::generated_wide::wide;
use std::collections::BTreeMap;
use turnwright::figures::{Job, OperationFigures};
use turnwright::model::plan::{Operation, Setup, Verb};
use turnwright::model::shop::{Minutes, Reads};
use turnwright::model::{End, Shop};
use turnwright::unit::Length;

/// Minutes a cut is handled.
const HANDLING: f64 = 0.3;

fn is_along(operation: &Operation) -> bool {
    !operation.inside && matches!(operation.verb, Verb::Rough | Verb::Finish | Verb::Turn)
}

/// A shaft of 140 mm out of a bar of 50, 46 in the middle, 30 at each end, by hand on a lathe with the one gear 200 and feeds of 0.2 and 0.08 mm. No cut
/// is deeper than 1.5 mm, roughing leaves 0.8 mm on the diameter and 0.5 mm on a shoulder; a measurement takes half a minute.
///
/// - The middle is roughed from one end, over the 40 mm of bar that stand before it: 100 mm. (50 - 46.8) / 2 = 1.6 mm: 2 cuts.
///   2 (100 / 40 + 0.3) + 0.5 = 6.10.
/// - The end section there, 39.5 mm: (46.8 - 30.8) / 2 = 8 mm: 6 cuts. 6 (39.5 / 40 + 0.3) + 0.5 = 8.225.
/// - The one at the other end, out of the bar: (50 - 30.8) / 2 = 9.6 mm: 7 cuts. 7 (39.5 / 40 + 0.3) + 0.5 = 9.5125.
/// - Each is finished by one cut of 0.4 mm: 40 / 16 + 0.3 + 0.5 = 3.30; the middle 60 / 16 + 0.8 = 4.55.
#[test]
fn a_shaft_by_hand() {
    let text = b"part: shaft\nunits: mm\nmaterial: 1018 cold drawn\nstock: 50 x 143\ndatum: left\noverall: 140\nfeatures:\n  - turn: 30\n    to: 40\n  - turn: 46\n    to: 100\n  - turn: 30\n    to: 140\nplan: {holding: between centers}\n";
    let mm = Length::micrometres;
    let own = Shop {
        speeds: vec![200],
        feeds: vec![mm(80), mm(200)],
        depth_rough: Some(mm(1_500)),
        minutes: Some(Minutes { setup: 8.0, tool: 1.0, measure: 0.5 }),
        ..shop(Reads::Radius)
    };
    let w = worked(text, Some(&own));
    let whole = |l: Option<Length>, step: i64| l.map_or(0, |l| l.pm() / step);
    let along = w.plan.operations().filter(|(_, o)| is_along(o));
    let mut told: Vec<(bool, i64, i64, f64)> = along
        .map(|(_, o)| {
            let (from, tenths) = (whole(o.from_diameter, 1_000_000_000), whole(o.travel, 100_000_000));
            (o.verb == Verb::Rough, from, tenths, o.minutes)
        })
        .collect();
    told.sort_by_key(|t| (t.0, t.1, t.2));
    let by_hand = [
        (false, 30, 400, 3.30),
        (false, 30, 400, 3.30),
        (false, 46, 600, 4.55),
        (true, 46, 395, 8.225),
        (true, 50, 395, 9.5125),
        (true, 50, 1000, 6.10),
    ];
    assert_eq!(told.len(), by_hand.len(), "{told:?}");
    for (is, wanted) in told.iter().zip(by_hand) {
        assert_eq!((is.0, is.1, is.2), (wanted.0, wanted.1, wanted.2), "{told:?}");
        assert!((is.3 - wanted.3).abs() < 0.006, "{is:?}, by hand {wanted:?}");
    }
}

/// How far an operation reaches by itself, and from the end of the work as it came into the mounting to where it stops.
fn reaches(setup: &Setup, operation: &Operation) -> Option<(Length, Length)> {
    let (from, to) = (operation.from?, operation.to?);
    let face = match setup.works? {
        End::Datum => setup.before.first()?.from,
        End::Far => setup.before.last()?.to,
    };
    let inner = if (from - face).abs() > (to - face).abs() { from } else { to };
    Some(((from - to).abs(), (inner - face).abs()))
}

/// What the sheet tells of one operation, and the minutes that follow from it; none where it tells no cuts.
fn told(o: &Operation, f: &OperationFigures, measure: f64, inch: bool) -> Option<(&'static str, f64)> {
    let (speed, feed) = (f.speed.as_ref()?.rpm(), f.feed.map(|f| f.value.mm()));
    let between = o.from.zip(o.to).map(|(a, b)| (a - b).abs());
    let long = o.travel.or(between)?.mm();
    let cut = |feed: f64| long / (feed * speed) + HANDLING;
    let deep = || Some((o.from_diameter? - o.to_diameter?).abs().mm() / 2.0);
    Some(match (o.verb, &f.job) {
        (Verb::Rough | Verb::Finish | Verb::Turn | Verb::Bore, _) => {
            let passes = f.passes.as_ref()?;
            let n = f64::from(passes.count);
            let what = if o.inside { "bored" } else { "along" };
            (what, (n + f64::from(passes.spring)) * cut(feed?) + if o.close { n } else { 1.0 } * measure)
        }
        (Verb::Taper, Job::Taper(taper)) if !o.inside => {
            let last = if o.close { 3.0 } else { 1.0 };
            let n = last + taper.cuts.as_ref().map_or(0.0, |c| f64::from(c.count));
            ("tapers", n * cut(feed?) + if o.close { n } else { 1.0 } * measure)
        }
        (Verb::Thread, Job::Thread(thread)) => {
            let starts = thread.indexing.as_ref().map_or(1.0, |i| f64::from(i.starts));
            let n = (thread.passes.len() as f64 + f64::from(thread.spring_passes)) * starts;
            // Half-nuts that stay closed: back under power, as long as there.
            let closed = thread.dial.as_ref().is_some_and(|d| d.never_open);
            let back = if closed { long / (thread.lead.mm() * speed) } else { 0.0 };
            ("threads", n * (cut(thread.lead.mm()) + back) + 2.0 * measure)
        }
        // "beim letzten noch zweimal": twice more at the last.
        (Verb::Thread, Job::Hole(hole)) => {
            let (n, thread) = (hole.infeed.len() as f64 + 2.0, hole.thread.as_ref()?);
            let lead = thread.lead.value.mm();
            let closed = hole.half_nuts.as_ref().is_some_and(|d| d.never_open);
            let back = if closed { long / (lead * speed) } else { 0.0 };
            ("inside threads", n * (cut(lead) + back) + 2.0 * measure)
        }
        // Plunged by hand, 0.05 mm a turn: where the bit stands wider than its edge nothing is told but the walls.
        (Verb::Groove, Job::Plain) if !o.inside => {
            let n = f.positions.len() as f64;
            ("grooves", n * (deep()? / (0.05 * speed) + HANDLING) + HANDLING + measure)
        }
        // A drill is fed 0.1 mm a turn by hand and drawn out: half as long again; spotted and set; across, touched twice.
        (Verb::Drill, Job::Hole(hole)) => {
            let long = match hole.touch {
                None => long,
                Some(touch) => hole.depth.map_or(touch.half_round.value.mm() * 2.0, |d| d.value.mm()),
            };
            let touched = if hole.touch.is_some() { 2.0 * measure } else { 0.0 };
            let what = if hole.touch.is_some() { "drilled across" } else { "drilled" };
            let each = long / (0.1 * speed) * 1.5 + HANDLING;
            (what, hole.steps.len() as f64 * each + 2.0 * HANDLING + touched)
        }
        (Verb::Ream, _) => ("reamed", long / (0.2 * speed) * 1.5 + HANDLING + measure),
        // From the bar to its middle.
        (Verb::PartOff, _) => ("parted", o.from_diameter?.mm() / 2.0 / (0.05 * speed) + 2.0 * HANDLING),
        // A Woodruff cutter goes straight in; an end mill half of itself at a time along the slot: touched twice, measured once.
        (Verb::Mill, Job::Keyseat(key)) => {
            let (deep, cutter) = (key.depth_from_top.value.mm(), key.cutter.value.mm());
            let long = key.cutter_center.map(|c| (c.to.value - c.from.value).mm());
            let cuts = long.map_or(1.0, |_| (deep / (cutter / 2.0) - 1e-9).ceil());
            let fed = cuts * long.unwrap_or(0.0) / (0.1 * speed) + deep / (0.05 * speed);
            ("keyseats", fed + cuts * HANDLING + 3.0 * measure)
        }
        // 1.5 mm, .060 in at a time, from a cutter off one edge to a cutter off the other; as many strips as the flat has cutters.
        (Verb::Mill, Job::Flats(flats)) => {
            let cutter = f.speed.as_ref()?.diameter.value.mm();
            let most = if inch { 1.524 } else { 1.5 };
            let up = |n: f64| (n - 1e-9).ceil();
            let cuts = up(flats.width.value.mm() / cutter) * up(flats.depth.value.mm() / most) * f64::from(flats.count);
            let fed = cuts * ((flats.along.to.value - flats.along.from.value).mm() + cutter) / (0.1 * speed);
            ("flats", fed + (cuts + f64::from(flats.count) - 1.0) * HANDLING + 3.0 * measure)
        }
        _ => return None,
    })
}

#[test]
fn of_every_part_the_minutes_are_those_of_the_cuts_told() {
    let own = shop(Reads::Radius);
    let short = Shop { minutes: Some(Minutes { setup: 8.0, tool: 1.0, measure: 0.75 }), ..own.clone() };
    let believable = (0..25).map(|seed| (believable(seed).text, own.clone()));
    let wide = (0..25).map(|seed| (wide(seed, 12).text, short.clone()));
    // The bar of published_more.rs that whips behind the spindle.
    let bar = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.375 x 120\ndatum: left end\noverall: 3.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.700\n    to: 1.500\n  - turn: 1.250\n    to: end\n";
    let bored =
        turnwright::read::shop("shop.yaml", b"units: in\nspeeds: [60, 100, 200, 500, 1200]\nspindle bore: 1.5\n");
    let whips = [(bar.to_owned(), bored.shop.expect("a shop"))];
    let random = believable.chain(wide).chain(whips).map(|(t, shop)| (worked(t.as_bytes(), Some(&shop)), Some(shop)));
    let (mut seen, mut through, mut held_back) = (BTreeMap::new(), 0, BTreeMap::new());
    for (w, shop) in everything().into_iter().map(|(_, w, shop)| (w, shop)).chain(random) {
        let name = &w.part.name.text;
        let measure = shop.as_ref().and_then(|s| s.minutes).map_or(0.5, |m| m.measure);
        let figures = w.figures.setups.iter().flat_map(|s| &s.operations);
        for ((setup, o), f) in w.plan.operations().zip(figures) {
            let Some((what, by_cuts)) = told(o, f, measure, w.part.units == turnwright::unit::Unit::Inch) else {
                continue;
            };
            let (is, by) = (o.minutes, f.speed.as_ref().expect("a speed").by);
            assert!((is - by_cuts).abs() < 0.006, "{name}, {} {what}: {is} minutes, its cuts take {by_cuts}", o.number);
            *seen.entry(what).or_insert(0) += 1;
            *held_back.entry(by.word()).or_insert(0) += 1;
            if let Some((own, whole)) = o.travel.and_then(|_| reaches(setup, o)) {
                let long = o.travel.expect("travel").mm();
                assert!(long < whole.mm() + 1e-6, "{name}, {}: fed {long}, {} from the end", o.number, whole.mm());
                through += usize::from(long > own.mm() + 1.0);
            }
        }
        let all: f64 = w.plan.operations().map(|(_, o)| o.minutes).sum();
        assert!(all < w.plan.cost, "{name}: setups and tools take time too");
    }
    eprintln!("{seen:?}, {through} over metal in front of them, {held_back:?}");
    let least = [("along", 300), ("bored", 10), ("tapers", 5), ("threads", 20), ("grooves", 20), ("drilled", 10)];
    assert!(least.iter().all(|(what, n)| seen.get(what).is_some_and(|seen| seen >= n)), "{seen:?}");
    let slowed = ["overhang", "run-out", "steady rest", "bar behind the spindle", "out of balance"];
    assert!(slowed.iter().all(|by| held_back.contains_key(by)) && through > 5, "{held_back:?}, {through}");
}
