//! Conformity with limits when the reading is uncertain: JCGM 106:2012 (ISO/IEC Guide 98-4), ISO 14253-1.
//!
//! The reading is taken as normally distributed about the size with standard uncertainty u = U/2 (coverage factor 2), and nothing is
//! known of the size beforehand (JCGM 106, 7.2.2 to 7.4). Statistics: floating point. Lengths in any one unit.

use std::f64::consts::PI;

/// Guard band as a share of the expanded uncertainty U = 2 u for a probability of conformity of 95 %: 1.65 u (ISO 14253-1:2017; the
/// one-sided 95 % point of the normal distribution is 1.645).
pub const GUARD_95: (i64, i64) = (165, 200);

/// The normal distribution function. Series 26.2.11 of Abramowitz and Stegun; within 1e-14 for |z| < 7, 0 or 1 beyond.
#[must_use]
pub fn normal(z: f64) -> f64 {
    if z.abs() > 7.0 {
        return if z > 0.0 { 1.0 } else { 0.0 };
    }
    let (mut term, mut sum, mut odd) = (z, z, 1.0);
    while (sum + term - sum).abs() > 0.0 && odd < 1_000.0 {
        odd += 2.0;
        term *= z * z / odd;
        sum += term;
    }
    0.5 + sum * density(z)
}

fn density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / (2.0 * PI).sqrt()
}

/// Probability that the true size lies within the limits when `reading` was read: JCGM 106, 7.3 (one limit), 7.4 (two).
#[must_use]
pub fn probability(reading: f64, u: f64, (least, most): (Option<f64>, Option<f64>)) -> f64 {
    let below =
        |limit: f64| if u > 0.0 { normal((limit - reading) / u) } else { f64::from(u8::from(reading <= limit)) };
    let over = most.map_or(1.0, below);
    let under =
        least.map_or(0.0, |l| if u > 0.0 { normal((l - reading) / u) } else { f64::from(u8::from(reading < l)) });
    (over - under).clamp(0.0, 1.0)
}

/// Global risks over a production (JCGM 106, 9.5.2, formulas for two limits): sizes normal about `mean` with `spread`, read with standard
/// uncertainty `u`, accepted within `accept`. Gives the consumer's risk (accepted though out of `limits`) and the producer's
/// (rejected though within). Midpoint rule over 16 spreads, 20 000 steps; within 1e-5.
#[must_use]
pub fn risks(mean: f64, spread: f64, u: f64, limits: (f64, f64), accept: (f64, f64)) -> (f64, f64) {
    const STEPS: u32 = 20_000;
    let step = 16.0 / f64::from(STEPS);
    (0..STEPS).fold((0.0, 0.0), |(consumer, producer), i| {
        let z = -8.0 + (f64::from(i) + 0.5) * step;
        let size = mean + z * spread;
        let accepted = normal((accept.1 - size) / u) - normal((accept.0 - size) / u);
        let weight = density(z) * step;
        if limits.0 <= size && size <= limits.1 {
            (consumer, producer + weight * (1.0 - accepted))
        } else {
            (consumer + weight * accepted, producer)
        }
    })
}
