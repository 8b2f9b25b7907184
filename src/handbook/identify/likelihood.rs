//! How likely a reading is when the thread is a certain one: the model, with its units.
//!
//! All in millimetres and degrees. A crest that was made anywhere between its limits (evenly) and then lost `w` to wear reads
//! `made − w + e`: `w` is exponential with mean [`usual_wear`] (wear only ever takes away; small amounts are likelier than large),
//! `e` is normal with the caliper's standard deviation. A bore of an internal thread gains what a crest loses. A pitch read over a
//! span of n pitches errs by the span's error divided by n; a leaf of a gauge is taken as good to 1 % of the pitch. An angle errs
//! normally. The readings are taken as independent, so their logarithms add. Deviations and means: common practice, no source.

use super::readings::{Pitched, ThreadReadings};
use super::{Candidate, FormGuess};
use crate::unit::{Length, Limits};

/// Part of the pitch by which a leaf of a gauge may miss and still seem to fit (one standard deviation).
pub const LEAF: f64 = 0.01;

/// Mean wear of a diameter, mm: 4 % of the pitch, at least 0.015 mm.
pub fn usual_wear(pitch: f64) -> f64 {
    (0.04 * pitch).max(0.015)
}

/// Error function (Abramowitz and Stegun 7.1.26, absolute error below 1.5e-7).
fn erf(x: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.327_591_1 * x.abs());
    let series =
        ((((1.061_405_429 * t - 1.453_152_027) * t + 1.421_413_741) * t - 0.284_496_736) * t + 0.254_829_592) * t;
    (1.0 - series * (-x * x).exp()).copysign(x)
}

/// Logarithm of the normal density.
pub fn normal(off: f64, sigma: f64) -> f64 {
    let sigma = sigma.max(1e-9);
    -0.5 * (off / sigma).powi(2) - sigma.ln() - 0.918_938_533
}

/// Logarithm of the normal distribution function at `z`; its tail by Mills' ratio, where the error function has no digits left.
fn below(z: f64) -> f64 {
    if z < -4.0 {
        -0.5 * z * z - 0.918_938_533 - (-z).ln()
    } else {
        (0.5 * (1.0 + erf(z / std::f64::consts::SQRT_2))).max(1e-300).ln()
    }
}

/// Logarithm of the density of `lost`, the sum of an exponential of mean `wear` and a normal error.
fn worn(lost: f64, wear: f64, sigma: f64) -> f64 {
    let (wear, sigma) = (wear.max(1e-6), sigma.max(1e-6));
    -wear.ln() + sigma * sigma / (2.0 * wear * wear) - lost / wear + below((lost - sigma * sigma / wear) / sigma)
}

/// A diameter that wear makes smaller; `made` are its limits when new, mm.
pub fn worn_small(read: f64, made: (f64, f64), wear: f64, sigma: f64) -> f64 {
    // Evenly between its limits: the middle of eight equal parts each.
    let step = (made.1 - made.0) / 8.0;
    let all = (0..8).map(|i| worn(made.0 + step * (f64::from(i) + 0.5) - read, wear, sigma));
    log_mean(&all.collect::<Vec<_>>())
}

/// Logarithm of the mean of what these are the logarithms of.
fn log_mean(logs: &[f64]) -> f64 {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if most.is_finite() {
        most + (logs.iter().map(|l| (l - most).exp()).sum::<f64>() / logs.len() as f64).ln()
    } else {
        most
    }
}

fn mm(limits: Limits) -> (f64, f64) {
    (limits.min.mm(), limits.max.mm())
}

/// Standard deviation of the pitch that a reading gives, mm.
pub fn pitch_sigma(reading: Pitched, span_error: Length) -> f64 {
    match reading {
        Pitched::Span(_, over) => span_error.mm() / f64::from(over.max(1)),
        Pitched::Leaf(pitch) => pitch.mm() * LEAF,
    }
}

/// Logarithm of the likelihood of all readings. `pitch` is what the span would then measure, mm: the pitch, or the lead taken for it.
pub fn of(read: &ThreadReadings, c: &Candidate, pitch: f64) -> f64 {
    let wear = read.wear.map_or_else(|| usual_wear(c.pitch_mm()), Length::mm);
    let sigma = read.diameter_error.mm();
    let mut log = 0.0;
    for reading in &read.pitch {
        log += normal(reading.mm() - pitch, pitch_sigma(*reading, read.span_error));
    }
    // So far off that no diameter brings it back: spares the sums below.
    if log < -400.0 {
        return log;
    }
    if let Some(major) = read.major {
        log += worn_small(major.mm(), mm(c.major), wear, sigma);
    }
    if let Some(minor) = read.minor {
        // Mirrored: a bore that reads large.
        log += c.minor.map_or(-30.0, |made| {
            let (min, max) = mm(made);
            worn_small(-minor.mm(), (-max, -min), wear, sigma)
        });
    }
    if let Some(angle) = read.angle {
        log += normal(angle - c.angle, read.angle_error);
    }
    if let Some(taper) = read.taper {
        log += if taper == c.taper { 0.0 } else { -8.0 };
    }
    if let Some(form) = read.form {
        log += if looks(c) == form { 0.0 } else { -8.0 };
    }
    log
}

/// What a thread looks like.
fn looks(c: &Candidate) -> FormGuess {
    match c.angle {
        a if a < 1.0 => FormGuess::Square,
        a if a < 40.0 => FormGuess::Acme,
        a if (a - 52.0).abs() < 0.1 => FormGuess::Buttress,
        _ => FormGuess::Vee,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The density must integrate to one, and its mean must be what the model says (calculus, not a source).
    #[test]
    fn a_worn_reading_is_a_distribution() {
        let (wear, sigma, step) = (0.06, 0.02, 0.000_5);
        let (mut sum, mut mean) = (0.0, 0.0);
        for i in -4_000..2_000 {
            let x = 10.0 + f64::from(i) * step;
            let p = worn_small(x, (9.8, 9.9), wear, sigma).exp() * step;
            sum += p;
            mean += p * x;
        }
        assert!((sum - 1.0).abs() < 1e-3, "{sum}");
        assert!((mean - (9.85 - wear)).abs() < 1e-3, "{mean}");
    }

    /// Distribution function of the normal at 1.96: 0.975 (tables of the normal distribution).
    #[test]
    fn normal_distribution() {
        assert!((below(1.96).exp() - 0.975).abs() < 1e-4);
        assert!((below(-1.96).exp() - 0.025).abs() < 1e-4);
        assert!((below(-4.5).exp() / 3.398e-6 - 1.0).abs() < 0.06);
    }
}
