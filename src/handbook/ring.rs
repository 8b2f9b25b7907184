//! A ring under jaws: how far each of several equal jaws presses it in.
//!
//! Thin ring in bending, the jaws spread evenly: `δ = W R³ / (2 E I) · (θ / (2 sin² θ) + cos θ / (2 sin θ) - 1 / θ)`, θ half the angle between two
//! jaws. Beside it stands the series of the same ring, and the published case of two loads, in the tests.

use super::Source;

/// Where the formula stands.
pub const SOURCE: Source =
    Source::from_memory("S. Timoshenko, Strength of Materials: the thin ring under equal radial loads");

/// What one jaw of a three-jaw chuck presses with when the key is pulled lightly, newtons (common practice, no source).
pub const LIGHT_PULL: f64 = 2000.0;

/// How far each jaw moves a ring in, in millimetres: `jaws` of them, `force` newtons each, the ring's middle `radius`, its `wall` and its `width`
/// in millimetres, its modulus in megapascals. None for fewer than two jaws or a ring without metal.
pub fn pressed_in(jaws: u32, force: f64, radius: f64, (wall, width): (f64, f64), modulus: f64) -> Option<f64> {
    let metal = wall > 0.0 && width > 0.0 && radius > 0.0 && modulus > 0.0;
    (jaws >= 2 && metal).then(|| {
        let (sin, cos) = (std::f64::consts::PI / f64::from(jaws)).sin_cos();
        let half = std::f64::consts::PI / f64::from(jaws);
        let inertia = width * wall.powi(3) / 12.0;
        let shape = half / (2.0 * sin * sin) + cos / (2.0 * sin) - 1.0 / half;
        force * radius.powi(3) / (2.0 * modulus * inertia) * shape
    })
}

#[cfg(test)]
mod tests {
    use super::pressed_in;

    /// Of a ring with `W R³ / (E I)` = 1.
    fn unit_ring(jaws: u32) -> f64 {
        pressed_in(jaws, 1.0, 1.0, (1.0, 12.0), 1.0).expect("a ring")
    }

    #[test]
    fn two_loads_as_the_book_has_it() {
        // Timoshenko, Strength of Materials (from memory): the diameter under two opposite loads shortens by .149 P R³ / (E I).
        assert!((2.0 * unit_ring(2) - 0.149).abs() < 0.0005);
        // Exactly: π / 4 - 2 / π on the diameter.
        assert!((2.0 * unit_ring(2) - (std::f64::consts::FRAC_PI_4 - 2.0 / std::f64::consts::PI)).abs() < 1e-12);
    }

    #[test]
    fn any_number_as_the_sum_of_its_waves() {
        // The same ring by waves round it: n / π · Σ 1 / ((n m)² - 1)², another way to the same displacement.
        for jaws in [2, 3, 4, 6] {
            let n = f64::from(jaws);
            let waves = (1..2000).map(|m| ((n * f64::from(m)).powi(2) - 1.0).powi(-2)).sum::<f64>();
            let by_waves = n / std::f64::consts::PI * waves;
            assert!((unit_ring(jaws) - by_waves).abs() < 1e-9, "{jaws}: {} {by_waves}", unit_ring(jaws));
        }
    }

    #[test]
    fn no_ring_no_number() {
        assert_eq!(pressed_in(1, 1.0, 1.0, (1.0, 1.0), 1.0), None);
        assert_eq!(pressed_in(3, 1.0, 1.0, (0.0, 1.0), 1.0), None);
    }
}
