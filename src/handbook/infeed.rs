//! Infeed of a thread: cuts of equal chip area.
//!
//! A V tool cuts an area that grows with the square of its depth, so cut i of n goes to d √(i/n) (insert makers' infeed tables).
//! A tool with a flat w cuts w d + d² tan(half angle): solved for each cut. A square tool goes equal steps.
//!
//! How many cuts a V takes is set by insert makers' tables of passes by pitch (three agree that it grows about with the root of the pitch),
//! with a quarter more than the most they ask, for high-speed steel in a hand lathe (common practice); but no cut thinner than two of the
//! makers allow, 0.05 mm: less rubs instead of cutting.

use super::thread::{Form, ThreadData};
use crate::unit::{Length, Unit};

/// The hole a threading tool leaves, seen along the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Shape {
    /// A V, its root flat too small to count.
    V,
    /// A flat as wide as this between flanks at this half angle in degrees.
    Trapezoid {
        /// Flat of the tool.
        flat: Length,
        /// Half of the thread angle.
        half_angle_deg: f64,
    },
    /// Flanks square to the axis.
    Square,
}

impl Shape {
    /// The hole the tool of a thread leaves.
    pub(crate) fn of(data: &ThreadData) -> Self {
        match (data.form, data.form.half_angle()) {
            (Form::Sixty | Form::Whitworth | Form::TaperSixty | Form::TaperWhitworth | Form::Buttress, _) => Self::V,
            (Form::Square, _) | (_, None) => Self::Square,
            (_, Some(half_angle_deg)) => Self::Trapezoid { flat: data.tool_flat, half_angle_deg },
        }
    }
}

/// A thread to be cut.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Groove {
    /// What the tool leaves.
    pub(crate) shape: Shape,
    /// From one thread to the next.
    pub(crate) pitch: Length,
    /// How deep, straight in.
    pub(crate) depth: Length,
    /// How far the slide that feeds it goes: the depth, or more along a compound set over.
    pub(crate) travel: Length,
    /// In a hole, by a bar that springs.
    pub(crate) inside: bool,
}

/// Cuts of a V for a depth in millimetres: so many times its root. 30 at 4 threads to the inch, where makers ask up to 24.
const BY_ROOT_OF_DEPTH: f64 = 15.2;
/// Thinnest cut, millimetres.
const THINNEST: f64 = 0.05;
const FEWEST: u32 = 4;
const MOST: u32 = 200;

/// The most the first cut may take. For a V .020 in / 0.5 mm (a maker never asks more), beyond 4 threads to the inch 8 % of the pitch (makers' passes there
/// ask more); for tools with a flat .010 in / 0.25 mm (common practice, no source), and no more than a sixteenth of the pitch: no fewer
/// cuts than an insert maker lists for Acme threads.
fn first_cut_most(groove: &Groove, unit: Unit) -> Length {
    let pick = |inch: i64, metric: i64| match unit {
        Unit::Inch => Length::micro_inches(inch),
        Unit::Millimetre => Length::micrometres(metric),
    };
    match groove.shape {
        Shape::V => groove.pitch.times_ratio(8, 100).max(pick(20_000, 500)),
        Shape::Trapezoid { .. } | Shape::Square => groove.pitch.times_ratio(1, 16).min(pick(10_000, 250)),
    }
}

/// Cumulative travels of the slide, the last being the whole.
pub(crate) fn cuts(groove: &Groove, unit: Unit) -> Vec<Length> {
    cuts_no_deeper(groove, None, unit)
}

/// The same where the lathe's power drives a wide tool no deeper than this in its first cut.
pub(crate) fn cuts_no_deeper(groove: &Groove, driven: Option<Length>, unit: Unit) -> Vec<Length> {
    let first = first_cut_most(groove, unit);
    if groove.shape == Shape::V {
        return v_cuts(groove, first);
    }
    // A bar springs: three quarters of what the first cut outside may take.
    let first = if groove.inside { first.times_ratio(3, 4) } else { first };
    let first = driven.map_or(first, |d| d.min(first));
    let ratio = groove.travel.mm() / groove.depth.mm();
    let mut list: Vec<Length> = fine_to_depth(groove.shape, groove.depth, first, unit)
        .into_iter()
        .map(|d| Length::from_f64(d.mm() * ratio, Unit::Millimetre))
        .collect();
    if let Some(last) = list.last_mut() {
        *last = groove.travel;
    }
    list
}

/// Areas follow the depth; along a compound set over, depth and travel are in one proportion.
fn v_cuts(groove: &Groove, first: Length) -> Vec<Length> {
    let mut count = v_count(groove);
    let whole = area(Shape::V, groove.travel.mm());
    // No cut goes deeper than the one before it: the second is to take no more than twice the first depth, which is four times its area.
    while count < MOST && whole > area(Shape::V, first.mm()) * f64::from(3 * count - 2) {
        count += 1;
    }
    equal_areas(Shape::V, groove.travel, count, first)
}

/// A bar springs: a quarter more cuts in a hole (insert makers list none to a fifth more; the rest is common practice).
fn v_count(groove: &Groove) -> u32 {
    let asked = BY_ROOT_OF_DEPTH * groove.depth.mm().max(0.0).sqrt() * if groove.inside { 1.25 } else { 1.0 };
    // Of n equal areas the last is a little more than 1/2n of the whole travel deep.
    let thick_enough = (groove.travel.mm() / (2.0 * THINNEST)).floor();
    ((asked - 1e-9).ceil().min(thick_enough).clamp(0.0, f64::from(MOST)) as u32).max(FEWEST)
}

/// Cumulative depths, the last being `depth`: as many cuts as keep the first one within `first`. At most 200.
pub(crate) fn cumulative(shape: Shape, depth: Length, first: Length) -> Vec<Length> {
    if !depth.is_positive() || !first.is_positive() {
        return Vec::new();
    }
    let (whole, most) = (depth.mm(), first.mm().min(depth.mm()));
    let share = (area(shape, whole) / area(shape, most) - 1e-9).ceil().clamp(1.0, f64::from(MOST));
    equal_areas(shape, depth, share as u32, depth)
}

/// Cumulative depths of so many cuts of equal areas; where the first would go deeper than `first`, it takes that and the others share the rest.
fn equal_areas(shape: Shape, depth: Length, count: u32, first: Length) -> Vec<Length> {
    if !depth.is_positive() || !first.is_positive() || count == 0 {
        return Vec::new();
    }
    let (whole, all) = (depth.mm(), area(shape, depth.mm()));
    let begin = (all / f64::from(count)).min(area(shape, first.mm()));
    let each = (all - begin) / f64::from((count - 1).max(1));
    let cut = |i: u32| Length::from_f64(depth_of(shape, begin + each * f64::from(i - 1), whole), Unit::Millimetre);
    (1..count).map(cut).chain([depth]).collect()
}

/// Area cut at a depth, in the unit squared; for the V in proportion.
fn area(shape: Shape, depth: f64) -> f64 {
    match shape {
        Shape::V => depth * depth,
        Shape::Trapezoid { flat, half_angle_deg } => {
            flat.mm() * depth + depth * depth * half_angle_deg.to_radians().tan()
        }
        Shape::Square => depth,
    }
}

/// Depth at which an area is cut.
fn depth_of(shape: Shape, wanted: f64, whole: f64) -> f64 {
    match shape {
        Shape::V => wanted.sqrt(),
        Shape::Trapezoid { flat, half_angle_deg } => {
            let (a, b) = (half_angle_deg.to_radians().tan(), flat.mm());
            if a <= 0.0 { whole.min(wanted / b) } else { ((b * b + 4.0 * a * wanted).sqrt() - b) / (2.0 * a) }
        }
        Shape::Square => wanted,
    }
}

/// The last two cuts, a side, in order.
pub(crate) fn last_cuts(unit: Unit) -> [Length; 2] {
    match unit {
        Unit::Inch => [Length::micro_inches(4_000), Length::micro_inches(2_000)],
        Unit::Millimetre => [Length::micrometres(100), Length::micrometres(50)],
    }
}

/// Cumulative depths, the last being `depth`: equal areas, where the last of those is fine enough; else as far as the last two cuts, which are fine.
fn fine_to_depth(shape: Shape, depth: Length, first: Length, unit: Unit) -> Vec<Length> {
    let [before, last] = last_cuts(unit);
    let ending = |list: &[Length]| list.iter().rev().take(2).copied().reduce(|whole, short| whole - short);
    let mut equal = cumulative(shape, depth, first);
    // A cut thinner than the last rubs: fewer then, each a tenth deeper than the first asked.
    let mut deeper = first;
    while equal.len() > 4 && ending(&equal).is_some_and(|step| step < last) {
        deeper = deeper.times_ratio(11, 10);
        equal = cumulative(shape, depth, deeper);
    }
    let ends = ending(&equal);
    if shape == Shape::V || ends.is_none_or(|step| step <= before) || depth <= before + last {
        return equal;
    }
    let mut list = cumulative(shape, depth - before - last, first);
    list.extend([depth - last, depth]);
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(list: &[Length]) -> Vec<f64> {
        let mut last = 0.0;
        list.iter()
            .map(|l| {
                let step = l.mm() - last;
                last = l.mm();
                (step * 1000.0).round() / 1000.0
            })
            .collect()
    }

    /// M10 × 1.5, .92 mm in six cuts: .376 on, then as the square root of the cut's number. The successive depths .156 .131 .110
    /// .097 … are worked by hand from d √(i/n).
    #[test]
    fn v_cuts_have_equal_areas() {
        let depth = Length::micrometres(920);
        let list = cumulative(Shape::V, depth, Length::micrometres(376));
        assert_eq!(steps(&list), [0.376, 0.156, 0.119, 0.101, 0.089, 0.08]);
        let areas: Vec<f64> = list.iter().map(|l| l.mm() * l.mm()).collect();
        for pair in areas.windows(2) {
            assert!((pair[1] - pair[0] - areas[0]).abs() < 1e-6);
        }
    }

    /// An insert maker's infeed rule, d √(φ/(n-1)) with φ = .3, 1, 2, 3 …, for .92 mm in six passes: .225 .186 .170 .131 .110 .097.
    /// It splits the first of five equal areas in two, so its second to sixth depth are our first to fifth.
    #[test]
    fn published_infeed() {
        let published = [225.0, 186.0, 170.0, 131.0, 110.0, 97.0];
        let list = cumulative(Shape::V, Length::micrometres(920), Length::micrometres(412));
        assert_eq!(list.len(), 5);
        let mut sum = published[0];
        for (ours, step) in list.iter().zip(&published[1..]) {
            sum += step;
            assert!((ours.mm() * 1000.0 - sum).abs() < 2.0, "{ours:?} {sum}");
        }
    }

    /// A tool maker's table of passes for milled 60° threads, depths a pass: it splits the first of equal areas in two, as the rule above does. Pitch
    /// 1.5, .866 deep: .237 .196 .179 .138 .116; pitch 2, 1.155 deep: .283 .234 .214 .161 .138 .122.
    #[test]
    fn published_passes() {
        let tables: [(i64, &[i64]); 2] = [(866, &[237, 196, 179, 138, 116]), (1_155, &[283, 234, 214, 161, 138, 122])];
        for (depth, published) in tables {
            let first = Length::micrometres(published[0] + published[1] + 1);
            let list = cumulative(Shape::V, Length::micrometres(depth), first);
            assert_eq!(list.len(), published.len() - 1, "{depth}");
            let mut sum = published[0];
            for (ours, step) in list.iter().zip(&published[1..]) {
                sum += step;
                assert!((ours.mm() * 1000.0 - sum as f64).abs() < 4.0, "{ours:?} {sum}");
            }
        }
    }

    /// Tool flat .0345, depth .060, ten cuts: the first is .0082 (worked by hand from w d + d² tan 14.5°).
    #[test]
    fn trapezoid_cuts_have_equal_areas() {
        let shape = Shape::Trapezoid { flat: Length::micro_inches(34_500), half_angle_deg: 14.5 };
        let list = cumulative(shape, Length::micro_inches(60_000), Length::micro_inches(8_200));
        assert_eq!(list.len(), 10);
        assert_eq!(list[0].round_to(Length::micro_inches(100)), Length::micro_inches(8_200));
        let areas: Vec<f64> = list.iter().map(|l| area(shape, l.mm())).collect();
        for pair in areas.windows(2) {
            assert!((pair[1] - pair[0] - areas[0]).abs() < 1e-6);
        }
    }

    /// 60° threads by the compound at 29½°, as they are fed.
    fn sixty(pitch_mm: f64, unit: Unit) -> Vec<Length> {
        let mm = |l: f64| Length::from_f64(l, Unit::Millimetre);
        let depth = 0.613_43 * pitch_mm;
        let travel = if pitch_mm < 25.4 / 32.0 { depth } else { depth / 29.5_f64.to_radians().cos() };
        let groove =
            Groove { shape: Shape::V, pitch: mm(pitch_mm), depth: mm(depth), travel: mm(travel), inside: false };
        cuts(&groove, unit)
    }

    /// An insert maker's table of passes for external unified and metric threads by one-point inserts (catalogue 2019-2020, "guide to depth of cut and
    /// number of passes"): a hand lathe with high-speed steel never takes fewer. Its deepest cut .4 mm, its thinnest .05.
    #[test]
    fn no_fewer_passes_than_an_insert_makers_table() {
        let inch = [
            (32, 4),
            (28, 4),
            (24, 5),
            (20, 7),
            (18, 8),
            (16, 10),
            (14, 11),
            (13, 12),
            (12, 12),
            (11, 14),
            (10, 14),
            (9, 16),
            (8, 16),
        ];
        let metric = [(750, 4), (1_000, 5), (1_250, 7), (1_500, 8), (1_750, 10), (2_000, 12), (2_500, 14), (3_000, 16)];
        let pitches = inch.iter().map(|(tpi, n)| (25.4 / f64::from(*tpi), *n));
        for (pitch, asked) in pitches.chain(metric.iter().map(|(um, n)| (f64::from(*um) / 1000.0, *n))) {
            for unit in [Unit::Inch, Unit::Millimetre] {
                let ours = sixty(pitch, unit).len();
                assert!(ours >= asked && 2 * ours <= 3 * asked, "{pitch}: {ours} cuts, {asked} in the table");
            }
        }
    }

    /// Three other makers' ranges of passes by pitch (catalogues of 2011, 2017 and 2020-2021; common V forms): each from its least to its most. Ours is at least the
    /// middle of every one, and no more than a half above the most that any maker lists for the pitch, which leaves 20 to 35 at 4 threads to the inch.
    #[test]
    fn passes_stand_beside_three_makers_ranges() {
        let ranges: [(f64, [(usize, usize); 3]); 9] = [
            (48.0, [(4, 5), (4, 6), (4, 6)]),
            (32.0, [(4, 5), (4, 7), (4, 6)]),
            (24.0, [(5, 6), (4, 8), (5, 9)]),
            (16.0, [(6, 8), (6, 10), (5, 12)]),
            (12.0, [(8, 10), (7, 12), (6, 14)]),
            (10.0, [(9, 12), (8, 14), (7, 15)]),
            (8.0, [(12, 15), (10, 16), (8, 17)]),
            (6.0, [(12, 15), (11, 18), (10, 20)]),
            (4.0, [(14, 16), (12, 24), (11, 22)]),
        ];
        for (tpi, makers) in ranges {
            let ours = sixty(25.4 / tpi, Unit::Inch).len();
            let most = makers.iter().map(|m| m.1).max().expect("three");
            assert!(makers.iter().all(|(least, _)| ours >= *least), "{tpi}: {ours} {makers:?}");
            assert!(2 * ours <= 3 * most, "{tpi}: {ours} {makers:?}");
            let first = (ours >= makers[0].1, tpi < 40.0);
            assert!(first.0 || !first.1, "{tpi}: {ours} {makers:?}");
        }
        assert!((20..=35).contains(&sixty(25.4 / 4.0, Unit::Inch).len()));
        // 3 to 2 threads to the inch: 15 to 25.
        assert!((25..=50).contains(&sixty(25.4 / 2.0, Unit::Inch).len()));
    }

    /// Acme threads of that maker of 2017: 16 threads to the inch 5 to 6 passes, 12 7 to 8, 10 10 to 11, 8 12 to 13, 5 and 4 13 to 15, 2 18 to 20. Flat and depth by the
    /// standard's formulas (ASME B1.5): .3707 P - .259 x the clearance, P/2 + half of it: .020 from 10 threads on, .010 finer.
    #[test]
    fn no_fewer_passes_than_a_table_for_acme() {
        for (tpi, asked) in [(16.0, 6), (12.0, 8), (10.0, 11), (8.0, 13), (5.0, 15), (4.0, 15), (2.0, 20)] {
            let inch = |l: f64| Length::from_f64(l * 25.4, Unit::Millimetre);
            let clearance = if tpi <= 10.0 { 0.020 } else { 0.010 };
            let flat = inch(0.3707 / tpi - 0.259 * clearance);
            let depth = inch(0.5 / tpi + clearance / 2.0);
            let shape = Shape::Trapezoid { flat, half_angle_deg: 14.5 };
            let groove = Groove { shape, pitch: inch(1.0 / tpi), depth, travel: depth, inside: false };
            let ours = cuts(&groove, Unit::Inch);
            assert!(ours.len() >= asked && ours.len() <= 40, "{tpi}: {} cuts, {asked} in the table", ours.len());
            assert_eq!(ours.last(), Some(&depth));
        }
    }

    /// Two makers: no infeed under 0.05 mm, no first one over 0.5 mm (to 5 threads to the inch, where their table ends).
    #[test]
    fn no_cut_is_hairlike_and_none_deeper_than_the_one_before() {
        for tpi in [48, 32, 24, 20, 16, 13, 12, 10, 8, 7, 6, 5, 4, 3, 2] {
            let pitch = 25.4 / f64::from(tpi);
            for unit in [Unit::Inch, Unit::Millimetre] {
                let each = steps(&sixty(pitch, unit));
                assert!(each.len() == 4 || each.iter().all(|s| *s >= 0.05), "{tpi}: {each:?}");
                assert!(tpi < 5 || each[0] <= 0.509, "{tpi}: {each:?}");
                assert!(each.windows(2).all(|p| p[1] <= p[0] + 0.001), "{tpi}: {each:?}");
            }
        }
    }

    #[test]
    fn the_last_cut_is_the_whole_depth() {
        for pitch in [200, 500, 800, 1_000, 1_500, 2_000, 3_000, 6_000] {
            let list = sixty(f64::from(pitch) / 1000.0, Unit::Millimetre);
            assert!(list.len() >= 4 && list.windows(2).all(|p| p[0] < p[1]), "{pitch}");
            let inside = Groove {
                shape: Shape::V,
                pitch: Length::micrometres(pitch.into()),
                depth: *list.last().expect("cuts"),
                travel: *list.last().expect("cuts"),
                inside: true,
            };
            let deep = cuts(&inside, Unit::Millimetre);
            assert!(deep.len() >= list.len() && deep.last() == list.last(), "{pitch}");
        }
    }
}
