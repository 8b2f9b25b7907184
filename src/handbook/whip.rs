//! When a bar out of the spindle's rear begins to whip: its first bending speed, built in at the spindle and free at the end.

use super::Source;
use crate::unit::Length;

/// Density of steel, kg/m³.
pub const STEEL_DENSITY: f64 = 7850.0;

/// First bending speed in revolutions a minute of a round bar, `overhang` long from its last support.
///
/// n = 60/(2 π) (3.516/L²) sqrt(E I / (ρ A)); for a solid round sqrt(I/A) is a quarter of the diameter.
/// `modulus` in `MPa`, `density` in kg/m³. `None` for sizes or constants that are not above zero.
pub fn first_bending_rpm(diameter: Length, overhang: Length, modulus: f64, density: f64) -> Option<f64> {
    if !diameter.is_positive() || !overhang.is_positive() || modulus <= 0.0 || density <= 0.0 {
        return None;
    }
    let (d, l) = (diameter.mm() / 1000.0, overhang.mm() / 1000.0);
    let sound = (modulus * 1e6 / density).sqrt();
    Some(60.0 / (2.0 * std::f64::consts::PI) * 3.516 / (l * l) * sound * d / 4.0)
}

/// Where the formula was printed.
pub const fn source() -> Source {
    Source::printed(
        "vibration of a cantilever, first mode 3.516 sqrt(EI/(rho A L^4)), in any vibration text; steel 207 GPa, 7850 kg/m3",
    )
}
