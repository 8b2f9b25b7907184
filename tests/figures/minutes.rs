//! Minutes of cuts along the work, against arithmetic by hand and against the cuts that the sheet tells: L n / (f s), the time of a cut in every
//! handbook of the trade (a college tutorial on turning prints it as l / (s n)), a handling for each cut, and what is measured. Handling and
//! measuring: common practice, no source.

use crate::figures::hand::shop;
use crate::figures::planned::{everything, worked};
use crate::planning::generated::believable;
use turnwright::figures::SpeedLimit;
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

#[test]
fn of_every_part_the_minutes_are_those_of_the_cuts_told() {
    let own = shop(Reads::Radius);
    let random =
        (0..25).map(|seed| believable(seed).text).map(|t| (worked(t.as_bytes(), Some(&own)), Some(own.clone())));
    let (mut cuts, mut through, mut slower) = (0, 0, 0);
    for (w, shop) in everything().into_iter().map(|(_, w, shop)| (w, shop)).chain(random) {
        let name = &w.part.name.text;
        let measure = shop.as_ref().and_then(|s| s.minutes).map_or(0.5, |m| m.measure);
        let figures = w.figures.setups.iter().flat_map(|s| &s.operations);
        for ((setup, o), f) in w.plan.operations().zip(figures).filter(|((_, o), _)| is_along(o)) {
            let (Some(passes), Some(speed), Some(feed)) = (&f.passes, &f.speed, f.feed) else { continue };
            // What stands far out of the jaws, and bar that whips behind them, is turned slower than the minutes reckon with.
            if matches!(speed.by, SpeedLimit::Overhang | SpeedLimit::BarWhip) {
                slower += 1;
                continue;
            }
            let between = o.from.zip(o.to).map(|(a, b)| (a - b).abs());
            let long = o.travel.or(between).expect("a place").mm();
            let n = f64::from(passes.count);
            let measured = if o.close { n } else { 1.0 };
            let by_cuts = n * (long / (feed.value.mm() * speed.rpm()) + HANDLING) + measured * measure;
            let is = o.minutes;
            assert!((is - by_cuts).abs() < 0.006, "{name}, {}: {is} minutes, its cuts take {by_cuts}", o.number);
            if let Some((own, whole)) = o.travel.and_then(|_| reaches(setup, o)) {
                assert!(long < whole.mm() + 1e-6, "{name}, {}: fed {long}, {} from the end", o.number, whole.mm());
                through += usize::from(long > own.mm() + 1.0);
            }
            cuts += 1;
        }
        let all: f64 = w.plan.operations().map(|(_, o)| o.minutes).sum();
        assert!(all < w.plan.cost, "{name}: setups and tools take time too");
    }
    eprintln!("{cuts} cuts, {through} over metal in front of them, {slower} slower");
    assert!(cuts > 200 && through > 5 && slower * 5 < cuts, "{cuts}, {through}, {slower}");
}
