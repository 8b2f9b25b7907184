//! British Association threads, BS 93: 47.5°, in millimetres.

/// Number, pitch and major diameter in mm. BS 93: pitch 0.9 ⁿ, diameter 6 p^1.2, both to two figures; the figures here are from
/// memory and agree with those formulas (tests).
pub(super) const SIZES: [(u32, f64, f64); 17] = [
    (0, 1.0, 6.0),
    (1, 0.9, 5.3),
    (2, 0.81, 4.7),
    (3, 0.73, 4.1),
    (4, 0.66, 3.6),
    (5, 0.59, 3.2),
    (6, 0.53, 2.8),
    (7, 0.48, 2.5),
    (8, 0.43, 2.2),
    (9, 0.39, 1.9),
    (10, 0.35, 1.7),
    (11, 0.31, 1.5),
    (12, 0.28, 1.3),
    (13, 0.25, 1.2),
    (14, 0.23, 1.0),
    (15, 0.21, 0.9),
    (16, 0.19, 0.79),
];

#[cfg(test)]
mod tests {
    /// BS 93: p = 0.9^n, D = 6 p^1.2 of the pitch before rounding; both to two significant figures (from memory).
    #[test]
    fn sizes_follow_the_formulas() {
        let two = |x: f64| format!("{x:.1e}").parse::<f64>().unwrap();
        for (n, p, d) in super::SIZES {
            let exact = 0.9_f64.powf(f64::from(n));
            assert!((two(exact) - p).abs() < 1e-9, "{n} BA pitch");
            assert!((two(6.0 * exact.powf(1.2)) - d).abs() < 1e-9, "{n} BA diameter");
        }
    }
}
