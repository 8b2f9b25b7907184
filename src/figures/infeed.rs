//! Infeed of a thread: cuts of equal chip area.
//!
//! A V tool cuts an area that grows with the square of its depth, so cut i of n goes to d √(i/n) (insert makers' infeed tables).
//! A tool with a flat w cuts w d + d² tan(half angle): solved for each cut. A square tool goes equal steps.

use crate::unit::{Length, Unit};

/// The hole a threading tool leaves, seen along the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shape {
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

/// The most the first cut may take: for a V a quarter of the pitch and .020 in / 0.5 mm (insert makers never ask more); for tools
/// with a flat .010 in / 0.25 mm (common practice, no source).
pub(super) fn first_cut_most(shape: Shape, pitch: Length, unit: Unit) -> Length {
    let pick = |inch: i64, metric: i64| match unit {
        Unit::Inch => Length::micro_inches(inch),
        Unit::Millimetre => Length::micrometres(metric),
    };
    match shape {
        Shape::V => pitch.times_ratio(1, 4).min(pick(20_000, 500)),
        Shape::Trapezoid { .. } | Shape::Square => pick(10_000, 250),
    }
}

/// Cumulative depths, the last being `depth`: as many cuts as keep the first one within `first`. At most 200.
pub(super) fn cumulative(shape: Shape, depth: Length, first: Length) -> Vec<Length> {
    if !depth.is_positive() || !first.is_positive() {
        return Vec::new();
    }
    let (whole, most) = (depth.mm(), first.mm().min(depth.mm()));
    let share = (area(shape, whole) / area(shape, most) - 1e-9).ceil().clamp(1.0, 200.0);
    let count = share as u32;
    let cut = |i: u32| {
        let wanted = area(shape, whole) * f64::from(i) / f64::from(count);
        Length::from_f64(depth_of(shape, wanted, whole), Unit::Millimetre)
    };
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

    #[test]
    fn the_last_cut_is_the_whole_depth_and_the_first_is_bounded() {
        for pitch in [500, 800, 1_000, 1_500, 2_000, 3_000, 6_000] {
            let pitch = Length::micrometres(pitch);
            let depth = pitch.times_ratio(61_343, 100_000);
            let first = first_cut_most(Shape::V, pitch, Unit::Millimetre);
            let list = cumulative(Shape::V, depth, first);
            assert_eq!(list.last(), Some(&depth));
            assert!(list[0] <= first && list.windows(2).all(|p| p[0] < p[1]));
        }
    }
}
