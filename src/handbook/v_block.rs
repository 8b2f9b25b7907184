//! Round work in V-blocks of 90°.
//!
//! Plain geometry: the axis of a round of diameter D lies D / √2 over the bottom of the V.

use crate::unit::{Length, Unit};

/// What goes under the block of the smaller of two rounds, so that their axes lie level in V-blocks of one size: (D − d) / √2; to a
/// picometre, half of the last digit.
pub fn packing(large: Length, small: Length) -> Length {
    Length::from_f64((large - small).abs().mm() / std::f64::consts::SQRT_2, Unit::Millimetre)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A right-angled V: rounds of 30 and 10 mm have their axes 21.213 and 7.071 over its bottom (15 √2, 5 √2).
    #[test]
    fn axes_come_level() {
        let mm = |n: i64| Length::micrometres(n * 1000);
        let apart = packing(mm(30), mm(10)) - Length::micrometres(14_142);
        assert!(apart.abs() < Length::micrometres(1), "{apart:?}");
        assert_eq!(packing(mm(10), mm(30)), packing(mm(30), mm(10)));
        assert_eq!(packing(mm(20), mm(20)), Length::ZERO);
    }
}
