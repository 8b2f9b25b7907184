//! A bar held off its axis: packing under one jaw of a three-jaw chuck, what an indicator reads, what swings.
//!
//! Plain geometry. The jaws close together, so all three tips stand equally far from the spindle's axis; the bar's axis lies `throw`
//! away from it, opposite the packed jaw. A flat tip wider than the contact wanders over touches where the bar is tangent to it; a
//! narrow or rounded one touches on the line through the jaw's middle.

use super::Source;
use crate::unit::{Length, Unit};

/// Packing under one jaw of three with flat tips: one and a half times the throw, whatever the bar.
pub fn packing_flat(throw: Length) -> Length {
    throw.times_ratio(3, 2)
}

/// Packing under one jaw of three with narrow tips: `1.5 e - R + √(R² - ¾ e²)`. None where the spindle's axis would lie outside
/// the bar.
pub fn packing_narrow(throw: Length, diameter: Length) -> Option<Length> {
    let (e, r) = (throw.mm(), diameter.mm() / 2.0);
    let under = r * r - 0.75 * e * e;
    (throw < diameter.half()).then(|| Length::from_f64(1.5 * e - r + under.sqrt(), Unit::Millimetre))
}

/// Total reading of an indicator on the bar over a turn: twice the throw.
pub fn reading(throw: Length) -> Length {
    throw + throw
}

/// Diameter of the circle that the bar sweeps.
pub fn swings(throw: Length, diameter: Length) -> Length {
    diameter + reading(throw)
}

/// Share of its own weight that the work may pull at its holding while it runs out of balance (common practice, no source).
pub const PULL: f64 = 0.25;

/// Turns a minute at which the pull of work that lies `throw` off the spindle's axis comes to [`PULL`] of its weight: `e ω² = PULL g`.
/// Its own mass leaves out. None for no throw.
pub fn most_rpm(throw: Length) -> Option<f64> {
    let metres = throw.mm() / 1000.0;
    let rpm = (PULL * 9.806_65 / metres).sqrt() * 30.0 / std::f64::consts::PI;
    throw.is_positive().then_some(rpm)
}

/// Diameter, about the spindle's axis, below which the tool cuts all the way round: what the work of `diameter` leaves on the side
/// that comes nearest.
pub fn interrupted_to(throw: Length, diameter: Length) -> Length {
    diameter - reading(throw)
}

/// Metal left between a second center hole and the first, and to the edge of the face: a quarter of its mouth (common practice, no source).
fn metal(mouth: Length) -> Length {
    mouth.times_ratio(1, 4)
}

/// Least distance of a second center hole from the first: half of each mouth, and metal between.
pub fn least_apart(first_mouth: Length, mouth: Length) -> Length {
    (first_mouth + mouth).half() + metal(mouth)
}

/// Least diameter of the face that takes a second center hole `throw` off its middle: twice the throw, the mouth, and metal outside it.
pub fn least_face(throw: Length, mouth: Length) -> Length {
    reading(throw) + mouth + metal(mouth).times(2)
}

/// How far below the top of a round that lies in V-blocks its second center is scribed: the throw above its axis, which lies half of its
/// diameter below the top.
pub fn below_top(throw: Length, diameter: Length) -> Length {
    diameter.half() - throw
}

/// Where the packing is printed.
pub fn source() -> Source {
    Source::printed(
        "R. Thibault, Turning an eccentric hole in a 3-jaw chuck (2000), worked example; flat tips and readings: plain geometry",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(millionths: i64) -> Length {
        Length::micro_inches(millionths)
    }

    /// The worked example of the article: a bar of radius 1.6875 in, throw .313 in, block .448 in.
    #[test]
    fn the_published_example() {
        let narrow = packing_narrow(inch(313_000), inch(3_375_000)).expect("a packing");
        assert_eq!(narrow.round_to(inch(1000)), inch(448_000));
        assert_eq!(packing_flat(inch(313_000)), inch(469_500));
        assert_eq!(reading(inch(313_000)), inch(626_000));
        assert_eq!(swings(inch(313_000), inch(3_375_000)), inch(4_001_000));
    }

    /// e ω² at the speed is a quarter of g (ISO 80000-3: standard acceleration of free fall 9.806 65 m/s²).
    #[test]
    fn the_pull_at_the_fastest() {
        for micro in [25_000, 125_000, 500_000] {
            let rpm = most_rpm(inch(micro)).expect("a throw");
            let omega = rpm * std::f64::consts::TAU / 60.0;
            let pull = inch(micro).mm() / 1000.0 * omega * omega / 9.806_65;
            assert!((pull - PULL).abs() < 1e-12, "{micro}: {pull}");
        }
        assert_eq!(most_rpm(Length::ZERO), None);
        assert_eq!(interrupted_to(inch(125_000), inch(1_000_000)), inch(750_000));
    }

    /// Found again by trying: the jaws are closed until the bare tips meet the bar, and the gap at the packed one is read off.
    #[test]
    fn the_gap_at_the_packed_jaw() {
        let mm = |x: f64| Length::from_f64(x, Unit::Millimetre);
        for (e, d) in [(2.0, 40.0), (5.0, 40.0), (12.0, 60.0), (0.5, 20.0)] {
            let (r, half, root) = (d / 2.0, 0.5, 0.75_f64.sqrt());
            // The bar's axis is at (-e, 0), the packed jaw on the x axis, a bare one at 120 degrees to it.
            let narrow = |tip: f64| (e - half * tip).hypot(root * tip) - r;
            let flat = |tip: f64| (half * tip - e) * half + root * root * tip - r;
            for (gap, wanted) in
                [(closed(narrow, d), packing_narrow(mm(e), mm(d))), (closed(flat, d), Some(packing_flat(mm(e))))]
            {
                let wanted = wanted.expect("a packing").mm();
                assert!((gap - (r - e) - wanted).abs() < 1e-6, "{e} {d}: {gap} {wanted}");
            }
        }
    }

    /// The place of the tips where they meet the bar, by halving.
    fn closed(clear: impl Fn(f64) -> f64, diameter: f64) -> f64 {
        let (mut touching, mut open) = (diameter / 4.0, 2.0 * diameter);
        for _ in 0..100 {
            let middle = f64::midpoint(touching, open);
            if clear(middle) > 0.0 { open = middle } else { touching = middle }
        }
        open
    }

    /// Layout of a cylinder head (modelmeander, Offset turning, 2022): bar of .748 in a V-block, height of its top less half its diameter is
    /// the axis, the second line 3/32 off it.
    #[test]
    fn the_second_line_is_the_throw_off_the_axis() {
        assert_eq!(below_top(Length::ZERO, inch(748_000)), inch(374_000));
        assert_eq!(below_top(Length::PER_INCH.times_ratio(3, 32), inch(748_000)), inch(280_250));
    }

    /// Two mouths drawn side by side, and one in the face: circles that must not meet, found from their rims.
    #[test]
    fn mouths_stay_clear_of_each_other_and_of_the_edge() {
        let (first, second) = (inch(250_000), inch(187_500));
        let apart = least_apart(first, second);
        assert_eq!(apart - (first + second).half(), inch(46_875));
        let face = least_face(apart, second);
        assert_eq!(face.half() - (apart + second.half()), inch(46_875));
    }

    #[test]
    fn a_throw_larger_than_the_radius_cannot_be_packed() {
        assert_eq!(packing_narrow(inch(500_000), inch(1_000_000)), None);
        assert!(packing_narrow(inch(499_000), inch(1_000_000)).is_some());
    }
}
