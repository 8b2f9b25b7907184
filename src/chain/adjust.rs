//! More readings than needed: faces adjusted by least squares, with their standard deviations, and the reading that does not fit.
//!
//! The same as a levelling network: a face is a benchmark, a reading a level run. Observation equations `v = A x - l`, weights
//! `1/s^2`, `N = A'WA`, `x = inverse(N) A'Wl`; standardised residual `|v| / (s sqrt(1 - a inverse(N) a' / s^2))` (Ghilani and Wolf,
//! Adjustment Computations, ch. 12 and 21). Statistics, not a dimension chain: floating point. Readings are taken against rough
//! places, so that only differences of micrometres are worked in it.

use crate::unit::Length;

/// A distance as it was read between two faces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// From this face.
    pub from: usize,
    /// To this face.
    pub to: usize,
    /// What was read; below zero when `to` lies nearer the datum end.
    pub length: Length,
    /// Standard deviation of a reading, above zero.
    pub deviation: Length,
}

/// Faces adjusted to all readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjusted {
    /// Place of each face from the held one; none where no reading reaches.
    pub at: Vec<Option<Length>>,
    /// Standard deviation of each place, by the readings' own deviations.
    pub deviations: Vec<Option<Length>>,
    /// What each reading would have to be changed by.
    pub residuals: Vec<Length>,
    /// Each residual over its own standard deviation; none where no other reading checks it.
    pub standardised: Vec<Option<f64>>,
    /// How many readings more than needed.
    pub redundancy: usize,
    /// Standard deviation of unit weight: 1 when the readings scatter as they claim; none without redundancy.
    pub unit_weight: Option<f64>,
    /// The reading that does not fit: the largest standardised residual, above [`SUSPECT`].
    pub suspect: Option<usize>,
}

/// Above this a standardised residual is no chance (three sigma).
pub const SUSPECT: f64 = 3.0;

/// Adjusts the faces; `held` stays where it is. None when a deviation is not above zero or a face does not exist.
pub fn adjust(faces: usize, held: usize, readings: &[Reading]) -> Option<Adjusted> {
    let fits = |r: &Reading| r.from < faces && r.to < faces && r.deviation.is_positive();
    if held >= faces || !readings.iter().all(fits) {
        return None;
    }
    let rough = rough(faces, held, readings);
    let column: Vec<Option<usize>> = {
        let mut next = 0;
        (0..faces)
            .map(|f| {
                (f != held && rough[f].is_some()).then(|| {
                    next += 1;
                    next - 1
                })
            })
            .collect()
    };
    let n = column.iter().flatten().count();
    let used: Vec<bool> = readings.iter().map(|r| rough[r.from].is_some() && rough[r.to].is_some()).collect();
    // What each reading is off the rough places, in micrometres.
    let off = |r: &Reading| -> f64 {
        let (from, to) = (rough[r.from].unwrap_or_default(), rough[r.to].unwrap_or_default());
        (r.length - (to - from)).pm() as f64 / 1e6
    };
    let weight = |r: &Reading| 1.0 / (r.deviation.pm() as f64 / 1e6).powi(2);
    let mut normal = vec![vec![0.0; n]; n];
    let mut right = vec![0.0; n];
    for (r, _) in readings.iter().zip(&used).filter(|(_, u)| **u) {
        let ends = [(column[r.from], -1.0), (column[r.to], 1.0)];
        for (i, a) in ends {
            let Some(i) = i else { continue };
            right[i] += a * weight(r) * off(r);
            for (j, b) in ends {
                if let Some(j) = j {
                    normal[i][j] += a * b * weight(r);
                }
            }
        }
    }
    let inverse = invert(normal)?;
    let x: Vec<f64> = inverse.iter().map(|row| row.iter().zip(&right).map(|(a, b)| a * b).sum()).collect();
    let moved = |face: usize| column[face].map_or(0.0, |i| x[i]);
    let spread = |from: usize, to: usize| -> f64 {
        let q = |a: usize, b: usize| column[a].zip(column[b]).map_or(0.0, |(i, j)| inverse[i][j]);
        q(from, from) + q(to, to) - 2.0 * q(from, to)
    };
    let length = |um: f64| Length::from_pm((um * 1e6).round() as i64);
    let residual = |r: &Reading| moved(r.to) - moved(r.from) - off(r);
    let redundancy = used.iter().filter(|u| **u).count().saturating_sub(n);
    let sum: f64 = readings.iter().zip(&used).filter(|(_, u)| **u).map(|(r, _)| residual(r).powi(2) * weight(r)).sum();
    let standardised: Vec<Option<f64>> = readings
        .iter()
        .zip(&used)
        .map(|(r, u)| {
            let free = 1.0 - spread(r.from, r.to) * weight(r);
            (*u && free > 1e-9).then(|| residual(r).abs() * (weight(r) / free).sqrt())
        })
        .collect();
    let largest =
        standardised.iter().enumerate().filter_map(|(i, w)| Some((i, (*w)?))).max_by(|a, b| a.1.total_cmp(&b.1));
    Some(Adjusted {
        at: (0..faces).map(|f| rough[f].map(|at| at + length(moved(f)))).collect(),
        deviations: (0..faces).map(|f| rough[f].map(|_| length(spread(held, f).max(0.0).sqrt()))).collect(),
        residuals: readings
            .iter()
            .zip(&used)
            .map(|(r, u)| if *u { length(residual(r)) } else { Length::ZERO })
            .collect(),
        standardised,
        redundancy,
        unit_weight: (redundancy > 0).then(|| (sum / redundancy as f64).sqrt()),
        suspect: largest.filter(|(_, w)| *w > SUSPECT).map(|(i, _)| i),
    })
}

/// Places by the first readings that reach each face.
fn rough(faces: usize, held: usize, readings: &[Reading]) -> Vec<Option<Length>> {
    let mut at: Vec<Option<Length>> = vec![None; faces];
    at[held] = Some(Length::ZERO);
    let mut queue = std::collections::VecDeque::from([held]);
    while let Some(face) = queue.pop_front() {
        let Some(here) = at[face] else { continue };
        for r in readings {
            let (other, there) = if r.from == face { (r.to, here + r.length) } else { (r.from, here - r.length) };
            if (r.from == face || r.to == face) && at[other].is_none() {
                at[other] = Some(there);
                queue.push_back(other);
            }
        }
    }
    at
}

/// The inverse of a symmetric positive matrix (Gauss and Jordan, largest pivot first); none when there is none.
fn invert(mut m: Vec<Vec<f64>>) -> Option<Vec<Vec<f64>>> {
    let n = m.len();
    let mut inverse: Vec<Vec<f64>> = (0..n).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect()).collect();
    for column in 0..n {
        let pivot = (column..n).max_by(|a, b| m[*a][column].abs().total_cmp(&m[*b][column].abs()))?;
        if m[pivot][column].abs() < 1e-300 {
            return None;
        }
        m.swap(column, pivot);
        inverse.swap(column, pivot);
        let by = m[column][column];
        m[column].iter_mut().chain(inverse[column].iter_mut()).for_each(|v| *v /= by);
        let (row, own) = (m[column].clone(), inverse[column].clone());
        for other in (0..n).filter(|i| *i != column) {
            let times = m[other][column];
            m[other].iter_mut().zip(&row).for_each(|(v, r)| *v -= times * r);
            inverse[other].iter_mut().zip(&own).for_each(|(v, r)| *v -= times * r);
        }
    }
    Some(inverse)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(from: usize, to: usize, um: i64, deviation_nm: i64) -> Reading {
        Reading { from, to, length: Length::micrometres(um), deviation: Length::from_pm(deviation_nm * 1_000) }
    }

    /// The sample network of GNU Gama for levelling (vrmapper.com/gama/1doutput.html, as printed by gama-local 1.5.09): point 1a
    /// at 1000.000 m, four legs levelled forward and back, 5 mm each. Printed: heights 998.77513, 997.93325, 999.27487; standard
    /// deviations 3.1, 3.5, 3.1 mm; [pvv] 146.625; m0' 5.42; largest normalised residual 1.68, observation 6. Metres stand here as
    /// millimetres.
    #[test]
    fn a_levelling_network_as_printed() {
        let d = 5_000; // 5 um for 5 mm
        let readings = [
            reading(0, 3, -1_225, d),
            reading(3, 2, -848, d),
            reading(2, 1, 1_342, d),
            reading(1, 0, 720, d),
            reading(0, 1, -724, d),
            reading(1, 2, -1_335, d),
            reading(2, 3, 842, d),
            reading(3, 0, 1_231, d),
        ];
        let a = adjust(4, 0, &readings).expect("a network");
        let nm = |l: Option<Length>| l.expect("reached").pm() / 1_000;
        // 998.77513 − 1000, 997.93325 − 1000, 999.27487 − 1000, to the printed 0.00001 m.
        for (face, printed) in [(3, -122_487), (2, -206_675), (1, -72_513)] {
            assert!((nm(a.at[face]) - printed * 10).abs() <= 5, "{face}: {}", nm(a.at[face]));
        }
        for (face, printed) in [(3, 31), (2, 35), (1, 31)] {
            assert_eq!((nm(a.deviations[face]) + 50) / 100, printed, "face {face}, in tenths of a millimetre");
        }
        assert_eq!(a.redundancy, 5);
        let m0 = a.unit_weight.expect("redundant") * 5.0;
        assert!((m0 - 5.42).abs() < 0.005, "{m0}");
        assert!((m0 * m0 * 5.0 - 146.625).abs() < 0.001, "{}", m0 * m0 * 5.0);
        let w: Vec<f64> = a.standardised.iter().map(|w| w.expect("checked")).collect();
        let largest = (0..8).max_by(|i, j| w[*i].total_cmp(&w[*j])).expect("eight");
        assert_eq!(largest, 5, "observation 6");
        assert!((w[5] - 1.68).abs() < 0.005, "{}", w[5]);
        assert_eq!(a.suspect, None);
    }

    /// G. Strang and K. Borre, Linear Algebra, Geodesy and GPS, as adjusted on rplstoday.com "How would you adjust this leveling
    /// data?": A, B, C known at 10.021, 10.321, 11.002 m; runs with their lengths' standard errors. Printed: sum of squares of
    /// standardised residuals 4.636, error factor 1.243, three more than needed. The known points are one face here: a run from
    /// each is a reading from it, moved by its height.
    #[test]
    fn a_network_between_known_points_as_printed() {
        // mm as um; heights over 10.021: B 300, C 981.
        let readings = [
            reading(0, 1, 732, 5_909),
            reading(0, 2, 1_978, 6_006),
            reading(0, 1, 300 + 420, 6_206),
            reading(0, 2, 981 + 988, 6_321),
            reading(1, 2, 1_258, 5_660),
        ];
        let a = adjust(3, 0, &readings).expect("a network");
        assert_eq!(a.redundancy, 3);
        let factor = a.unit_weight.expect("redundant");
        assert!((factor - 1.243).abs() < 0.001, "{factor}");
        assert!((factor * factor * 3.0 - 4.636).abs() < 0.005, "{}", factor * factor * 3.0);
    }

    /// A slip of a pencil: one reading of a hand-measured shaft is 0.1 off, and it is the one that is named.
    #[test]
    fn the_reading_that_does_not_fit_is_named() {
        let truth = [0, 20_000, 45_000, 60_000, 98_000];
        let mut readings = Vec::new();
        for from in 0..truth.len() {
            for to in from + 1..truth.len() {
                readings.push(reading(from, to, truth[to] - truth[from], 5_000));
            }
        }
        readings[4].length += Length::micrometres(100);
        let a = adjust(5, 0, &readings).expect("a network");
        assert_eq!(a.suspect, Some(4));
        // Without it, everything fits just so.
        readings.remove(4);
        let a = adjust(5, 0, &readings).expect("a network");
        assert_eq!(a.suspect, None);
        assert!(a.unit_weight.expect("redundant") < 1e-6);
        assert!(a.at.iter().zip(truth).all(|(at, t)| *at == Some(Length::micrometres(t))));
    }

    #[test]
    fn readings_that_nothing_checks_are_not_judged() {
        let a = adjust(4, 0, &[reading(0, 1, 10, 1_000), reading(2, 3, 10, 1_000)]).expect("readings");
        assert_eq!(a.redundancy, 0);
        assert_eq!((a.unit_weight, a.suspect), (None, None));
        assert_eq!(a.at[2], None, "no reading joins it");
        assert_eq!(a.standardised, [None, None]);
        assert!(adjust(2, 0, &[reading(0, 1, 10, 0)]).is_none());
    }
}
