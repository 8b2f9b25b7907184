//! Laws of the chart that no number of its own can show.

use std::collections::BTreeMap;

use proptest::prelude::*;
use turnwright::chain::chart::{Worked, retarget, work};
use turnwright::finding::{FileId, Place};
use turnwright::model::chart::{Chart, Cut, Face, MeasuredBy, Wanted};
use turnwright::model::{End, Text};
use turnwright::unit::{Length, Limits, Unit};

fn um(n: i64) -> Length {
    Length::micrometres(n)
}

/// A chart of up to six faces at 10 mm, 20 mm …, each cut once or twice from some other face, with distances asked between them.
fn charts() -> impl Strategy<Value = Chart> {
    let cut = (0..6_usize, 0..6_usize, 1..60_i64, any::<bool>());
    let dim = (0..6_usize, 0..6_usize, 10..400_i64, -3..4_i64);
    (3..7_usize, prop::collection::vec(cut, 2..10), prop::collection::vec(dim, 1..6)).prop_map(|(n, cuts, dims)| {
        let place = Place::new(FileId::Part, 0, 0);
        let faces = (0..n)
            .map(|i| Face {
                name: format!("F{i}"),
                looks: if i < n / 2 { End::Datum } else { End::Far },
                stock_least: None,
                place: None,
            })
            .collect();
        let mut chart = Chart {
            name: Text { text: "random".into(), place },
            units: Unit::Millimetre,
            faces,
            cuts: Vec::new(),
            dims: Vec::new(),
            hash: String::new(),
        };
        // Every face once, from a face before it, so that all hang together; then some again.
        for i in 1..n {
            let (from, _, can, _) = cuts[i % cuts.len()];
            chart.cuts.push(cut_of(i as u32, i, from % i, can));
        }
        for (i, (face, from, can, again)) in cuts.into_iter().enumerate() {
            let (face, from) = (face % n, from % n);
            if again && face != from {
                chart.cuts.push(cut_of((n + i) as u32, face, from, can));
            }
        }
        for (from, to, half, shift) in dims {
            let (from, to) = (from % n, to % n);
            if from != to {
                let middle = um(10_000).times(i64::try_from(from.abs_diff(to)).expect("few faces")) + um(shift);
                let limits = Some(Limits::new(middle - um(half), middle + um(half)));
                chart.dims.push(Wanted { from, to, nominal: middle, limits, place: None });
            }
        }
        chart
    })
}

fn cut_of(op: u32, face: usize, from: usize, can: i64) -> Cut {
    Cut {
        op,
        face,
        by: MeasuredBy::From(from),
        mean: None,
        tolerance: None,
        can_hold: Some(um(can)),
        least: None,
        place: None,
    }
}

fn verdicts(w: &Worked) -> Vec<(Option<Length>, bool)> {
    w.results.iter().map(|r| (r.plus_minus, r.guaranteed)).collect()
}

/// Tolerances differ by picometres where sums are shared out in thirds.
fn near(a: &[(Option<Length>, bool)], b: &[(Option<Length>, bool)], scale: (i64, i64)) -> bool {
    a.len() == b.len()
        && a.iter().zip(b).all(|(a, b)| {
            let (Some(x), Some(y)) = (a.0, b.0) else { return a.0 == b.0 && a.1 == b.1 };
            (x.times_ratio(scale.0, scale.1) - y).abs() < Length::from_pm(20_000) && a.1 == b.1
        })
}

/// Max-min shares by filling: all open cuts grow together until a bound is full; its cuts stop. Another way than the program's
/// linear programs, for bounds in which every tolerance counts once.
fn filled(chart: &Chart, w: &Worked) -> BTreeMap<usize, f64> {
    let bounds: Vec<(Vec<usize>, f64)> = w
        .results
        .iter()
        .filter_map(|r| {
            let (limits, mean) = (chart.dims[r.dim].limits?, r.mean?);
            let room = (limits.max - mean).min(mean - limits.min);
            (room >= Length::ZERO).then(|| (r.path.iter().map(|(c, _)| *c).collect(), room.pm() as f64))
        })
        .collect();
    let cap = |c: usize| chart.cuts[c].can_hold.map_or(0.0, |l| l.pm() as f64);
    let mut done: BTreeMap<usize, f64> = BTreeMap::new();
    loop {
        let open = |c: &usize| !done.contains_key(c);
        let level = bounds
            .iter()
            .filter(|(path, _)| path.iter().any(open))
            .map(|(path, room)| {
                let taken: f64 = path.iter().filter_map(|c| done.get(c).map(|f| f * cap(*c))).sum();
                let rate: f64 = path.iter().filter(|c| open(c)).map(|c| cap(*c)).sum();
                (room - taken).max(0.0) / rate
            })
            .fold(f64::INFINITY, f64::min);
        if !level.is_finite() {
            return done;
        }
        let full: Vec<usize> = bounds
            .iter()
            .filter(|(path, room)| {
                let sum: f64 = path.iter().map(|c| done.get(c).copied().unwrap_or(level) * cap(*c)).sum();
                path.iter().any(open) && sum >= room - room.abs() * 1e-9 - 1.0
            })
            .flat_map(|(path, _)| path.iter().copied().filter(open).collect::<Vec<_>>())
            .collect();
        if full.is_empty() {
            return done;
        }
        for cut in full {
            done.entry(cut).or_insert(level);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn shares_are_those_of_filling(chart in charts()) {
        let w = work(&chart);
        for (cut, level) in filled(&chart, &w) {
            let cap = chart.cuts[cut].can_hold.expect("each has one");
            let got = w.cuts[cut].tolerance.expect("each gets one").pm() as f64 / cap.pm() as f64;
            prop_assert!((got - level).abs() < 1e-6, "cut {cut}: {got}, by filling {level}");
        }
    }

    /// The dual's prices pay for the factor: strong duality, so the program's answer is proven by its own second answer.
    #[test]
    fn the_dual_proves_the_factor(chart in charts()) {
        let w = work(&chart);
        if let Some(factor) = w.factor {
            let paid: f64 = w.prices.iter().filter_map(|(dim, price)| {
                let r = &w.results[*dim];
                let (limits, mean) = (chart.dims[*dim].limits?, r.mean?);
                Some(price * (limits.max - mean).min(mean - limits.min).mm())
            }).sum();
            prop_assert!((paid - factor).abs() < 1e-6 * factor.max(1.0), "{paid} {factor}");
        }
    }

    /// Both sides of the factor meet in exact fractions, and the tolerances printed keep every limit they were shared out under.
    #[test]
    fn the_factor_is_proven_exactly(chart in charts()) {
        let w = work(&chart);
        if let Some(factor) = w.factor.filter(|f| *f > 0.0) {
            let proof = w.proof.as_ref().expect("both sides");
            let least = chart.cuts.iter().filter_map(|c| c.can_hold).min().expect("each has one");
            prop_assert!(proof.is_closed(least), "{proof:?}");
            prop_assert!((proof.factor() - factor).abs() < 1e-12);
            prop_assert!(proof.at_most >= proof.reached);
        }
    }

    /// Faces counted from the other end: distances and verdicts stay.
    #[test]
    fn turning_the_axis_round_changes_nothing(chart in charts()) {
        let last = chart.faces.len() - 1;
        let mut turned = chart.clone();
        turned.faces.reverse();
        turned.faces.iter_mut().for_each(|f| f.looks = f.looks.other());
        for cut in &mut turned.cuts {
            cut.face = last - cut.face;
            if let MeasuredBy::From(from) = cut.by {
                cut.by = MeasuredBy::From(last - from);
            }
        }
        turned.dims.iter_mut().for_each(|d| (d.from, d.to) = (last - d.from, last - d.to));
        prop_assert!(near(&verdicts(&work(&chart)), &verdicts(&work(&turned)), (1, 1)));
    }

    /// Millimetres read as inches: everything 25.4 times as large.
    #[test]
    fn scaling_changes_no_verdict(chart in charts()) {
        let big = |l: Length| l.times_ratio(254, 10);
        let mut scaled = chart.clone();
        scaled.units = Unit::Inch;
        scaled.cuts.iter_mut().for_each(|c| c.can_hold = c.can_hold.map(big));
        for d in &mut scaled.dims {
            d.nominal = big(d.nominal);
            d.limits = d.limits.map(|l| Limits::new(big(l.min), big(l.max)));
        }
        prop_assert!(near(&verdicts(&work(&chart)), &verdicts(&work(&scaled)), (254, 10)));
    }

    /// The same distances in another order.
    #[test]
    fn the_order_of_the_distances_is_nothing(chart in charts()) {
        let mut other = chart.clone();
        other.dims.reverse();
        // Equally close ones may give another middle; so only charts without two distances between the same pair.
        let pairs: std::collections::BTreeSet<_> = chart.dims.iter().map(|d| (d.from.min(d.to), d.from.max(d.to))).collect();
        let bands: std::collections::BTreeSet<_> = chart.dims.iter().map(|d| d.limits.map(turnwright::unit::Limits::band)).collect();
        prop_assume!(pairs.len() == chart.dims.len() && bands.len() == chart.dims.len());
        let (one, mut two) = (verdicts(&work(&chart)), verdicts(&work(&other)));
        two.reverse();
        prop_assert!(near(&one, &two, (1, 1)));
    }

    /// A wider drawing makes the hardest cut no harder.
    #[test]
    fn a_wider_drawing_never_tightens_the_hardest_cut(chart in charts(), which in 0..6_usize) {
        let mut wider = chart.clone();
        let n = wider.dims.len();
        prop_assume!(n > 0);
        let d = &mut wider.dims[which % n];
        d.limits = d.limits.map(|l| Limits::new(l.min - um(30), l.max + um(30)));
        // The closest distances are centred first, so the order must stay as it is for the means to be the same.
        let rank = |c: &Chart| { let mut i: Vec<usize> = (0..n).collect(); i.sort_by_key(|i| c.dims[*i].limits.map(|l| l.band().pm())); i };
        prop_assume!(rank(&chart) == rank(&wider));
        let (before, after) = (work(&chart), work(&wider));
        if let (Some(a), Some(b)) = (before.factor, after.factor) {
            prop_assert!(b >= a - 1e-9, "{a} to {b}");
        }
    }

    /// Every corner of the tolerances: the worst case is reached and never passed.
    #[test]
    fn corners_agree_with_the_worst_case(chart in charts()) {
        let w = work(&chart);
        for r in &w.results {
            let (Some(mean), Some(half)) = (r.mean, r.plus_minus) else { continue };
            // A mean that no cut of the path has alone is a matter of the whole path.
            if r.path.iter().any(|(cut, _)| w.cuts[*cut].mean.is_none()) {
                continue;
            }
            let (mut least, mut most) = (Length::from_pm(i64::MAX), Length::from_pm(i64::MIN));
            for corner in 0..1_u32 << r.path.len().min(12) {
                let at = r.path.iter().enumerate().map(|(i, (cut, sign))| {
                    let t = w.cuts[*cut].tolerance.expect("joined");
                    let m = w.cuts[*cut].mean.expect("joined");
                    (if corner >> i & 1 == 1 { m + t } else { m - t }).times(*sign)
                }).sum::<Length>();
                (least, most) = (least.min(at), most.max(at));
            }
            prop_assert_eq!(Limits::new(least, most), Limits::new(mean - half, mean + half));
        }
    }

    /// Aiming by readings never widens a distance that it was chosen for, and loses none that was kept.
    #[test]
    fn retargeting_gains(chart in charts()) {
        let mut held = chart.clone();
        held.cuts.iter_mut().for_each(|c| c.tolerance = c.can_hold);
        let w = work(&held);
        let better = retarget(&held, &w, um(1));
        for (r, kept) in w.results.iter().zip(&better.guaranteed) {
            prop_assert!(!r.guaranteed || *kept);
        }
        for aim in &better.cuts {
            prop_assert!(aim.after < aim.before, "{aim:?}");
        }
    }
}

/// Knuth's constants.
struct Dice(u64);

impl Dice {
    fn within(&mut self, half: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 1).cast_signed() % (2 * half + 1) - half
    }
}

/// 200 000 parts, every cut somewhere within its limits: every distance that is claimed guaranteed is kept, by every part. Half of
/// the draws are at the very ends, where it is decided.
#[test]
fn two_hundred_thousand_parts_keep_what_is_guaranteed() {
    let (chart, w) = super::worked(
        "part: shaft\nunits: in\nfaces: {A: datum, B: datum, C: datum, D: far, E: far, F: far}\ncuts:\n\
         - {op: 10, cut: F, from: A, can hold: 0.005}\n\
         - {op: 20, cut: B, from: A, can hold: 0.002}\n\
         - {op: 20, cut: C, from: B, can hold: 0.002}\n\
         - {op: 30, cut: E, from: F, can hold: 0.003}\n\
         - {op: 30, cut: D, from: E, can hold: 0.002}\n\
         dims:\n- {from: A, to: F, is: 7.000 ±0.010}\n- {from: A, to: B, is: 1.000 ±0.005}\n- {from: B, to: C, is: 2.250 +0.008/-0}\n\
         - {from: C, to: D, is: 1.500 ±0.030}\n- {from: D, to: E, is: 0.750 ±0.003}\n- {from: A, to: E, is: 5.500 ±0.015}\n",
    );
    assert!(w.results.iter().all(|r| r.guaranteed), "{:?}", w.results);
    let mut dice = Dice(20_261_125);
    let (mut at_the_end, mut missed) = (0, 0);
    for i in 0..200_000 {
        let made: Vec<Length> = w
            .cuts
            .iter()
            .map(|c| {
                let (mean, half) = (c.mean.expect("a mean"), c.tolerance.expect("a tolerance").pm());
                let off = if i % 2 == 0 { half * dice.within(1).signum() } else { dice.within(half) };
                mean + Length::from_pm(off)
            })
            .collect();
        for r in &w.results {
            let is: Length = r.path.iter().map(|(cut, sign)| made[*cut].times(*sign)).sum();
            let limits = chart.dims[r.dim].limits.expect("limits");
            missed += u32::from(!limits.holds(is));
            at_the_end += u32::from(is == limits.min || is == limits.max);
        }
    }
    assert_eq!(missed, 0);
    assert!(at_the_end > 100, "the draws reach the limits: {at_the_end}");
}

/// The same over two hundred random charts, a thousand parts of each, with means as found and tolerances as shared out: a part of
/// every second draw is at a corner of its tolerances.
#[test]
fn parts_of_random_charts_keep_what_is_guaranteed() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{Config, RngSeed, TestRunner};
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(20_261_126), ..Config::default() });
    let mut dice = Dice(26);
    let (mut promised, mut closest) = (0_u32, Length::from_pm(i64::MAX));
    for _ in 0..200 {
        let chart = charts().new_tree(&mut runner).expect("a chart").current();
        let w = work(&chart);
        let whole = |r: &&turnwright::chain::chart::Resultant| {
            r.guaranteed && r.path.iter().all(|(cut, _)| w.cuts[*cut].mean.is_some())
        };
        for i in 0..1_000 {
            let made: Vec<Option<Length>> = w
                .cuts
                .iter()
                .map(|c| {
                    let half = c.tolerance?.pm();
                    let off = if i % 2 == 0 { half * dice.within(1).signum() } else { dice.within(half) };
                    Some(c.mean? + Length::from_pm(off))
                })
                .collect();
            for r in w.results.iter().filter(whole) {
                let Some(limits) = chart.dims[r.dim].limits else { continue };
                let is: Length = r.path.iter().map(|(cut, s)| made[*cut].expect("a mean").times(*s)).sum();
                assert!(limits.holds(is), "{is:?} outside {limits:?} of {chart:?}");
                promised += 1;
                closest = closest.min(limits.max - is).min(is - limits.min);
            }
        }
    }
    assert!(promised > 200_000, "{promised} distances promised");
    assert_eq!(closest, Length::ZERO, "the draws reach the limits");
}
