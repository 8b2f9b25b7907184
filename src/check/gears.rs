//! What a train of change gears can cut. Ratios of whole numbers against a lead: floating point, with a stated error.

use crate::model::Shop;
use crate::unit::{Length, Unit};

/// Pitch of the leadscrew.
pub(super) fn leadscrew(shop: &Shop) -> Option<Length> {
    shop.leadscrew_tpi.map(|(n, d)| Unit::Inch.one().times_ratio(d, n)).or(shop.leadscrew_pitch)
}

/// More gears than any lathe comes with; a longer list is read no further.
const MOST_GEARS: usize = 64;

/// Whether two or four of the change gears give the lead within a share of it.
pub(super) fn can_gear(shop: &Shop, lead: Length, screw: Length, error: f64) -> bool {
    let gears: Vec<f64> =
        shop.change_gears.iter().filter(|g| **g > 0).take(MOST_GEARS).map(|g| f64::from(*g)).collect();
    let wanted = lead.mm() / screw.mm();
    if !wanted.is_finite() || wanted <= 0.0 {
        return false;
    }
    let near = |ratio: f64| (ratio / wanted - 1.0).abs() <= error;
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (i, a) in gears.iter().enumerate() {
        for (j, b) in gears.iter().enumerate().filter(|(j, _)| *j != i) {
            pairs.push((a / b, i, j));
        }
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    pairs.iter().any(|(first, i, j)| {
        let second = wanted / first;
        let from = pairs.partition_point(|p| p.0 < second * (1.0 - 2.0 * error));
        let fits = pairs[from..].iter().take_while(|p| p.0 <= second * (1.0 + 2.0 * error));
        near(*first)
            || fits.into_iter().any(|(r, k, l)| near(first * r) && ![*k, *l].contains(i) && ![*k, *l].contains(j))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 127 teeth turn an 8-to-the-inch screw into whole millimetres, since 127/5 mm is an inch (arithmetic).
    #[test]
    fn a_127_gear_cuts_metric_on_an_inch_screw() {
        let shop = Shop { leadscrew_tpi: Some((8, 1)), change_gears: vec![20, 40, 50, 127], ..Shop::default() };
        let screw = leadscrew(&shop).unwrap();
        assert!(
            can_gear(&shop, Length::micrometres(500), screw, 1e-9),
            "20/127 of an eighth inch is half a millimetre"
        );
        assert!(!can_gear(&shop, Length::micrometres(700), screw, 1e-9));
    }

    /// 63 teeth come near: 1 mm with an error of 1 in 8001 (arithmetic: 63 · 0.3175 / 20 = 1.000125).
    #[test]
    fn a_63_gear_is_near_enough_only_within_its_error() {
        let shop = Shop { leadscrew_tpi: Some((8, 1)), change_gears: vec![63, 80, 50, 20], ..Shop::default() };
        let screw = leadscrew(&shop).unwrap();
        let one = Length::PER_MM;
        assert!(can_gear(&shop, one, screw, 2e-4));
        assert!(!can_gear(&shop, one, screw, 1e-5));
    }
}
