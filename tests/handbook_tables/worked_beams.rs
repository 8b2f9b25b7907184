//! Beams and whipping bars as textbooks work them, with their numbers. The examples of textbooks are those of the Python Textbook Companions
//! (FOSSEE, IIT Bombay: inputs and results of the books' worked examples), each worked again apart from this program by unit-load integrals.
//! What differs from ours by more than the source rounds is named at its row. A rectangular section enters as the round one of its second moment.

use std::f64::consts::PI;

use turnwright::handbook::beam::{Beam, Hold};
use turnwright::handbook::whip::first_bending_rpm;
use turnwright::unit::{Length, Unit};

/// Lengths in the example's unit; `ei` in its force times its length squared, of each piece.
fn beam(pieces: &[(f64, f64)], hold: Hold) -> Beam {
    let round = |ei: f64| (64.0 * ei / PI).powf(0.25);
    let pieces = pieces.iter().map(|(ei, long)| (round(*ei), *long)).collect();
    Beam { pieces, hold, modulus: 1.0, near_stiffness: None, tail_stiffness: None, rest_at: None }
}

fn holds(what: &str, printed: f64, ours: f64, within: f64) {
    assert!((printed - ours).abs() <= within, "{what}: printed {printed}, worked {ours}");
}

/// Loads of (force, place).
fn gives(bar: &Beam, loads: &[(f64, f64)], x: f64) -> f64 {
    loads.iter().map(|(force, at)| bar.gives_at(*force, *at, x).expect("on the bar")).sum()
}

fn reaction(bar: &Beam, loads: &[(f64, f64)]) -> f64 {
    loads.iter().map(|(force, at)| bar.under(*force, *at).expect("on the bar").tail_reaction).sum()
}

/// So much to the unit of length, spread from one place to another, as many loads.
fn spread(by_length: f64, from: f64, to: f64) -> Vec<(f64, f64)> {
    let (parts, long) = (400, to - from);
    (0..parts)
        .map(|i| (by_length * long / f64::from(parts), from + long * (f64::from(i) + 0.5) / f64::from(parts)))
        .collect()
}

/// Built in at one end. I. J. Levinson, Statics and Strength of Materials, example 13.1: 100 lb at 6 and at 12 ft, E 1.5e6 psi, I 64 in4: 1.36 in at the
/// end. B. K. Sarkar, Strength of Materials, problem 6.14: 20 kN at 5 and at 10 m, E 200e9 Pa, I 20000 cm4: .22 m.
#[test]
fn built_in_at_one_end() {
    let levinson = beam(&[(1.5e6 * 64.0, 144.0)], Hold::Chuck);
    holds("Levinson 13.1", 1.36, gives(&levinson, &[(100.0, 72.0), (100.0, 144.0)], 144.0), 0.005);
    let sarkar = beam(&[(200e9 * 20_000e-8, 10.0)], Hold::Chuck);
    holds("Sarkar 6.14", 0.22, gives(&sarkar, &[(20e3, 5.0), (20e3, 10.0)], 10.0), 0.005);
}

/// Built in and stepped. J. M. Gere, Mechanics of Materials, 7th edition, solution of problem 9.7-2: half of a cantilever of L is of I2, its outer half of I1, under
/// an even load q: (1 + 15 I1/I2) q L4/(128 E I1) at the end, and beside a prismatic bar 1.00, .53, .38, .30, .25 for I2/I1 of 1 to 5. With a prop at the end
/// it carries what brings that back to nothing; the end of the same bar gives (1 + 7 I1/I2) P L3/(24 E I1) under P there (plain superposition).
#[test]
fn built_in_and_stepped() {
    let load = spread(1.0, 0.0, 1.0);
    for (times, ratio) in [(1.0, 1.00), (2.0, 0.53), (3.0, 0.38), (4.0, 0.30), (5.0, 0.25)] {
        let bar = beam(&[(times, 0.5), (1.0, 0.5)], Hold::Chuck);
        let end = gives(&bar, &load, 1.0);
        holds("Gere's ratio", ratio, 8.0 * end, 0.005_001);
        let printed = (1.0 + 15.0 / times) / 128.0;
        holds("Gere's end", printed, end, 1e-5 * printed);
        let propped = Beam { hold: Hold::ChuckAndCenter, ..bar };
        let by_both = printed / ((1.0 + 7.0 / times) / 24.0);
        holds("propped", by_both, reaction(&propped, &load), 1e-5);
    }
}

/// Built in and propped. B. K. Sarkar, Strength of Materials: problem 12.1, 6 m, 10 kN/m over the first 4: the prop has 7.407 kN; 12.3, 6 m, 30 kN/m and 160 kN in
/// the middle: 117.5. A. Pytel and J. Kiusalaas, Mechanics of Materials, example 7.3: 4 m, E I 200 kN m2, 5 kN in the middle, the prop .03 m too low:
/// 1281.25 N; a spring that gives .03 m under that is the same prop.
#[test]
fn built_in_and_propped() {
    let six = beam(&[(1.0, 6.0)], Hold::ChuckAndCenter);
    holds("Sarkar 12.1", 7.407, reaction(&six, &spread(10.0, 0.0, 4.0)), 0.000_51);
    let mut both = spread(30.0, 0.0, 6.0);
    both.push((160.0, 3.0));
    holds("Sarkar 12.3", 117.5, reaction(&six, &both), 0.01);
    let sunk = Beam { tail_stiffness: Some(1281.25 / 0.03), ..beam(&[(200e3, 4.0)], Hold::ChuckAndCenter) };
    holds("Pytel 7.3", 1281.25, reaction(&sunk, &[(5000.0, 2.0)]), 0.005);
    holds("where it stands", 0.03, gives(&sunk, &[(5000.0, 2.0)], 4.0), 1e-6);
}

/// Over a rest. B. K. Sarkar, Strength of Materials, problems 6.12 and 12.4: built in, propped 3 m out and 1 m longer, 20 kN/m as far as the prop and 30
/// beyond: 60 kN on it. Swinging at its end instead of built in (a neck of next to nothing): R. C. Hibbeler, Mechanics of Materials, example 12.12: 12 ft and as much
/// beyond, 5 kip at the end, E 29e3 ksi, I 125 in4: 2.75 in; Pytel and Kiusalaas, example 6.10: 10 ft and 4 beyond, 150 lb at 4 ft and 30 at the end:
/// 1120 lb ft3/(E I) upward.
#[test]
fn over_a_rest() {
    let rested = |pieces: &[(f64, f64)], rest| Beam { rest_at: Some(rest), ..beam(pieces, Hold::ChuckAndRest) };
    let mut loads = spread(20.0, 0.0, 3.0);
    loads.extend(spread(30.0, 3.0, 4.0));
    holds("Sarkar 12.4", 60.0, reaction(&rested(&[(1.0, 4.0)], 3.0), &loads), 0.001);
    let swinging =
        |ei: f64, long: f64, rest: f64| rested(&[(1e-10 * ei, 1e-6 * long), (ei, long * (1.0 - 1e-6))], rest);
    let hibbeler = swinging(29e3 * 125.0, 288.0, 144.0);
    holds("Hibbeler 12.12", 2.75, gives(&hibbeler, &[(5.0, 288.0)], 288.0), 0.005);
    let pytel = swinging(1.0, 14.0, 10.0);
    holds("Pytel 6.10", -1120.0, gives(&pytel, &[(150.0, 4.0), (30.0, 14.0)], 14.0), 0.5);
    holds("Pytel's rest", 102.0, reaction(&pytel, &[(150.0, 4.0), (30.0, 14.0)]), 0.05);
}

/// On two supports. Pytel and Kiusalaas, example 6.3: 300 N at 2 of 3 m, E 12e9 Pa, 40 x 80 mm: most at sqrt(6.510/2.441) m, 7.09 mm. B. K. Sarkar, problem 6.6: 10 kN at
/// 6 of 10 m, E 210e9 Pa, I 1e-4 m4: 9.14 mm under it; its greatest, printed 9.38, is worked with the longer distance in place of the shorter and is
/// 9.41. S. B. Junnarkar, Mechanics of Structures, p. 235: 5 tons 4 ft from an end of 20 ft, E 13000 tons/in2, I 220 in4: .2917 in, 11.31 ft from the
/// other end.
#[test]
fn on_two_supports() {
    let of = |ei: f64, long: f64, force: f64, at: f64| {
        beam(&[(ei, 0.3 * long), (ei, 0.7 * long)], Hold::Centers).under(force, at).expect("on the bar")
    };
    let pytel = of(12e9 * 0.04 * 0.08_f64.powi(3) / 12.0, 3.0, 300.0, 2.0);
    holds("Pytel 6.3", 7.09e-3, pytel.greatest, 5e-6);
    holds("its place", (6.510_f64 / 2.441).sqrt(), pytel.greatest_at, 5e-4);
    let sarkar = of(210e9 * 1e-4, 10.0, 10e3, 6.0);
    holds("Sarkar 6.6", 9.14e-3, sarkar.at_force, 5e-6);
    let by_the_longer = 10e3 * 6.0 * 64.0_f64.powf(1.5) / (15.588_457 * 210e9 * 1e-4 * 10.0);
    holds("Sarkar's misprint", 9.38e-3, by_the_longer, 6e-6);
    holds("what it is", 9.41e-3, sarkar.greatest, 5e-6);
    let junnarkar = of(13_000.0 * 220.0, 240.0, 5.0, 192.0);
    holds("Junnarkar p. 235", 0.2917, junnarkar.greatest, 5e-5);
    holds("its place in feet", 11.31, junnarkar.greatest_at / 12.0, 0.006);
}

/// On two springs. R. C. Hibbeler, example 12.16: a bar of 9 ft, E 29e3 ksi, I 12 in4, on springs of 15 kip/ft; 3 kip 3 ft from an end: .126 ft under it.
#[test]
fn on_two_springs() {
    let ei = 29e3 * 144.0 * 12.0 / 12.0_f64.powi(4);
    let bar = Beam { near_stiffness: Some(15.0), tail_stiffness: Some(15.0), ..beam(&[(ei, 9.0)], Hold::Centers) };
    holds("Hibbeler 12.16", 0.126, bar.under(3.0, 3.0).expect("on the bar").at_force, 0.000_5);
}

/// Stepped, on bearings. A machine design text's example 9.6 (copied at holooly.com): the middle half of a shaft has twice the second moment of its ends; W in the middle:
/// 3 W L3/(256 E I).
#[test]
fn stepped_on_bearings() {
    let shaft = beam(&[(1.0, 0.25), (2.0, 0.5), (1.0, 0.25)], Hold::Centers);
    holds("example 9.6", 3.0 / 256.0, shaft.under(1.0, 0.5).expect("on the shaft").at_force, 1e-9);
}

/// Revolutions a minute of a bar in metres, `modulus` in pascals.
fn rpm(diameter: f64, long: f64, modulus: f64, density: f64) -> f64 {
    let mm = |metres: f64| Length::from_f64(1000.0 * metres, Unit::Millimetre);
    first_bending_rpm(mm(diameter), mm(long), modulus / 1e6, density).expect("a bar")
}

/// The constant of the first mode of a bar built in and free, omega = C sqrt(E I/(rho A L4)), in three printed tables: W. T. Thomson, Theory of Vibration with Applications,
/// table 9.5-1: 3.52; T. Irvine, Bending Frequencies of Beams, Rods and Pipes, table 1: 3.5156 (the root is 1.875104, so 3.5160); a virtual laboratory of IIT
/// Delhi: wave number 1.8751.
#[test]
fn the_first_mode_in_three_tables() {
    for (d, l) in [(0.012, 0.8), (0.025, 1.2), (0.05, 3.0)] {
        let ours = rpm(d, l, 207e9, 7850.0) * 2.0 * PI / 60.0 * l * l / ((207e9_f64 / 7850.0).sqrt() * d / 4.0);
        holds("Thomson", 3.52, ours, 0.005);
        holds("Irvine", 3.5156, ours, 0.000_5);
        holds("wave number", 1.8751, ours.sqrt(), 0.000_06);
    }
}

/// A bar built in and free with its number: Numerical tours of continuum mechanics (J. Bleyer), cantilever: 20 long, .5 x 1, E 1e5, density 1e-3, by beam theory 2.01925 in a
/// second about its weak axis (inputs as printed; the result from memory, and so worked again). A rectangle of height h bends as a round of 4 h/sqrt 12.
#[test]
fn a_cantilever_by_its_number() {
    holds("weak axis", 2.019_25, rpm(4.0 * 0.5 / 12.0_f64.sqrt(), 20.0, 1e5, 1e-3) / 60.0, 2e-5);
}

/// Shafts between bearings whirl pi squared in place of 3.516 times as fast; a mass in the middle is joined by the squares of the times (Dunkerley). R. S. Khurmi, Theory of
/// Machines (as copied at bissoy.com): 20 mm, .6 m, 1 kg in the middle, 40 Mg/m3, E 200e9 Pa: .028 mm under the mass, 43.3 Hz, 2598 rpm. B. K.
/// Sarkar, Theory of Machines, p. 296: 30 mm, .8 m, 10 N, the same metal: 39.426 Hz, worked with pi as 3.147 and .4985 for sqrt g/(2 pi).
#[test]
fn shafts_between_bearings_with_a_mass() {
    let steel = |d: f64, long: f64, newtons: f64| {
        let bar = Beam { modulus: 200e9, ..beam(&[(PI * d.powi(4) / 64.0, long)], Hold::Centers) };
        let gives = bar.under(newtons, long / 2.0).expect("on the shaft").at_force;
        let alone = rpm(d, long, 200e9, 40e3) / 60.0 * PI * PI / 3.516;
        let mass = (9.81 / gives).sqrt() / (2.0 * PI);
        (gives, 1.0 / (alone.powi(-2) + mass.powi(-2)).sqrt())
    };
    let (gives, khurmi) = steel(0.020, 0.6, 9.81);
    holds("under the mass", 28e-6, gives, 0.5e-6);
    holds("Khurmi", 43.3, khurmi, 0.05);
    holds("Khurmi", 2598.0, 60.0 * khurmi, 1.0);
    holds("Sarkar", 39.426, steel(0.030, 0.8, 10.0).1, 0.04);
}
