//! Decision rules. JCGM 106:2012 examples from memory (the printed results are given to two places); risks against a seeded
//! simulation of the same production, which draws sizes and readings and counts.

use turnwright::figures::{Decision, Inspected, Rule};
use turnwright::handbook::conformity::{normal, probability, risks};
use turnwright::unit::{Length, Limits};

fn near(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} against {b}");
}

/// Abramowitz and Stegun, table 26.1.
#[test]
fn the_normal_distribution() {
    for (z, p) in [
        (0.0, 0.5),
        (1.0, 0.841_344_746_068_5),
        (1.4, 0.919_243_340_8),
        (2.0, 0.977_249_868_051_8),
        (3.0, 0.998_650_101_968_4),
    ] {
        near(normal(z), p, 1e-10);
        near(normal(-z), 1.0 - p, 1e-10);
    }
    near(normal(1.645), 0.95, 2e-5);
    assert!(normal(9.0) >= 1.0 && normal(-9.0) <= 0.0);
}

/// JCGM 106, 7.3 example: breakdown voltage -5.47 V, u 0.05 V, limit -5.40 V: 0.92.
#[test]
fn one_limit() {
    near(probability(-5.47, 0.05, (None, Some(-5.40))), 0.92, 0.005);
}

/// On a limit half; a band of 4 u about the reading 95.45 % (normal table).
#[test]
fn two_limits() {
    near(probability(10.0, 0.001, (Some(10.0), Some(10.5))), 0.5, 1e-9);
    near(probability(10.0, 0.5, (Some(9.0), Some(11.0))), 0.954_499_7, 1e-6);
    near(probability(10.0, 0.0, (Some(9.0), Some(10.0))), 1.0, 0.0);
}

/// JCGM 106, 9.5.4, resistors: 1500 ohm ±0.2, spread 0.12, u 0.04, accepted within ±0.18: consumer's risk 0.01, producer's 0.07.
#[test]
fn resistors() {
    let (consumer, producer) = risks(1500.0, 0.12, 0.04, (1499.8, 1500.2), (1499.82, 1500.18));
    near(consumer, 0.01, 0.005);
    near(producer, 0.07, 0.005);
}

/// Uniform numbers of a linear congruential generator (Knuth's MMIX constants), made normal (Box and Muller).
struct Draw(u64);

impl Draw {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 32).expect("32 bits")) / 4_294_967_296.0
    }

    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// Seats of 25 mm ±10 µm cut with a spread of 6 µm, read with u 2 µm, judged by the program's own rule.
#[test]
fn risks_as_simulated() {
    const DRAWS: u32 = 200_000;
    let micro = |um: f64| Length::from_f64(um / 1_000.0, turnwright::unit::Unit::Millimetre);
    let limits = Limits::new(micro(24_990.0), micro(25_010.0));
    for rule in [Rule::Simple, Rule::GuardBands, Rule::FullGuardBands] {
        let guard = rule.guard(micro(4.0)).mm() * 1_000.0;
        let (consumer, producer) =
            risks(25_000.0, 6.0, 2.0, (24_990.0, 25_010.0), (24_990.0 + guard, 25_010.0 - guard));
        let mut draw = Draw(14_253);
        let (mut passed, mut turned_down) = (0_u32, 0_u32);
        for _ in 0..DRAWS {
            let size = 25_000.0 + 6.0 * draw.normal();
            let reading = size + 2.0 * draw.normal();
            let good = (24_990.0..=25_010.0).contains(&size);
            let accepted = rule.decide(Inspected::Diameter, micro(reading), micro(4.0), limits) == Decision::Accept;
            passed += u32::from(accepted && !good);
            turned_down += u32::from(!accepted && good);
        }
        // Four standard deviations of a count.
        let share = |count: u32| f64::from(count) / f64::from(DRAWS);
        let spread = |p: f64| 4.0 * (p * (1.0 - p) / f64::from(DRAWS)).sqrt();
        near(share(passed), consumer, spread(consumer));
        near(share(turned_down), producer, spread(producer));
    }
}

/// Between the guard bands nothing is proven, on either side of the limit; a runout has no lower limit.
#[test]
fn guard_bands() {
    let um = Length::micrometres;
    let limits = Limits::new(um(9_950), um(10_050));
    let of = |rule: Rule, reading| rule.decide(Inspected::Diameter, um(reading), um(40), limits);
    assert_eq!(of(Rule::Simple, 10_050), Decision::Accept);
    assert_eq!(of(Rule::Simple, 10_051), Decision::Reject);
    // 0.825 of 40 is 33.
    assert_eq!(of(Rule::GuardBands, 10_017), Decision::Accept);
    assert_eq!(of(Rule::GuardBands, 10_018), Decision::TooClose);
    assert_eq!(of(Rule::GuardBands, 10_083), Decision::TooClose);
    assert_eq!(of(Rule::GuardBands, 10_084), Decision::Reject);
    assert_eq!(of(Rule::FullGuardBands, 10_010), Decision::Accept);
    assert_eq!(of(Rule::FullGuardBands, 10_011), Decision::TooClose);
    assert_eq!(of(Rule::FullGuardBands, 9_909), Decision::Reject);
    let out = Limits::new(um(0), um(50));
    assert_eq!(Rule::FullGuardBands.decide(Inspected::Runout, um(2), um(40), out), Decision::Accept);
}
