//! Change gears: which wheels between spindle and leadscrew cut a lead.

use crate::tell;
use crate::unit::Length;

/// A train of two or four wheels; each driver drives the driven wheel behind it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Train {
    /// Drivers, from the spindle.
    pub(super) drivers: Vec<u32>,
    /// Driven wheels, the last on the leadscrew.
    pub(super) driven: Vec<u32>,
    /// Whether it cuts the lead exactly.
    pub(super) exact: bool,
    /// Lead it cuts over lead wanted, less one.
    pub(super) relative_error: f64,
}

impl Train {
    /// `40 drives 80`, `40 drives 60, 50 drives 80`.
    pub(super) fn text(&self) -> String {
        let pairs = self.drivers.iter().zip(&self.driven);
        pairs.map(|(a, b)| tell!("{a} drives {b}", "{a} treibt {b}")).collect::<Vec<_>>().join(", ")
    }
}

/// Most wheels that are searched: a set has some twenty.
const MOST: usize = 40;
/// A lead that is off by more than this is no thread of that pitch (common practice, no source).
const WORST: f64 = 0.002;

/// The train with the fewest wheels that cuts `lead` on a leadscrew of lead `screw`; else the nearest. Wheels are used as often as listed.
pub(super) fn train(lead: Length, screw: Length, wheels: &[u32]) -> Option<Train> {
    divided(lead, screw, wheels, 1)
}

/// The same among trains whose first wheel has a number of teeth that divides by `starts`.
pub(super) fn divided(lead: Length, screw: Length, wheels: &[u32], starts: u32) -> Option<Train> {
    let mut wheels: Vec<u32> = wheels.iter().copied().filter(|w| *w > 0).take(MOST).collect();
    wheels.sort_unstable();
    let mut best: Option<Train> = None;
    for drivers in [1, 2] {
        each(&wheels, drivers, &mut |train_drivers, train_driven| {
            let ratio = |list: &[u32]| list.iter().map(|w| i128::from(*w)).product::<i128>();
            let (cut, wanted) =
                (ratio(train_drivers) * i128::from(screw.pm()), ratio(train_driven) * i128::from(lead.pm()));
            // The lead of inch threads is rounded to a picometre: a train is exact when it meets that.
            let exact = (cut - wanted).abs() <= ratio(train_driven);
            let error = if exact { 0.0 } else { cut as f64 / wanted as f64 - 1.0 };
            let better = best.as_ref().is_none_or(|b| error.abs() < b.relative_error.abs());
            if better
                && error.abs() <= WORST
                && let Some((drivers, driven)) = mounted(train_drivers, train_driven, starts)
            {
                best = Some(Train { drivers, driven, exact, relative_error: error });
            }
        });
        if best.as_ref().is_some_and(|b| b.exact) {
            break;
        }
    }
    best
}

/// Teeth that the shaft of a wheel takes beside its neighbour (the workshop rule of trains, from memory: the first two wheels together
/// 15 more than the third, the last two 15 more than the second).
const SHAFT: u32 = 15;

/// The train in an order in which its wheels go on: the two on the stud must clear the spindle's shaft and the leadscrew. Two wheels
/// alone have a wheel between them and always do.
/// The first wheel's teeth divide by `starts`.
fn mounted(drivers: &[u32], driven: &[u32], starts: u32) -> Option<(Vec<u32>, Vec<u32>)> {
    let divides = |first: u32| first.is_multiple_of(starts.max(1));
    let (&[a, c], &[b, d]) = (drivers, driven) else {
        return drivers.first().is_some_and(|a| divides(*a)).then(|| (drivers.to_vec(), driven.to_vec()));
    };
    let goes_on = |a: u32, b: u32, c: u32, d: u32| divides(a) && a + b >= c + SHAFT && c + d >= b + SHAFT;
    if goes_on(a, b, c, d) {
        return Some((vec![a, c], vec![b, d]));
    }
    goes_on(c, d, a, b).then(|| (vec![c, a], vec![d, b]))
}

/// Calls `look` with every choice of so many drivers and as many driven wheels.
fn each(wheels: &[u32], pairs: usize, look: &mut impl FnMut(&[u32], &[u32])) {
    let n = wheels.len();
    for a in 0..n {
        for b in (0..n).filter(|b| *b != a) {
            if pairs == 1 {
                look(&[wheels[a]], &[wheels[b]]);
                continue;
            }
            for c in (a + 1..n).filter(|c| *c != b) {
                for d in (0..n).filter(|d| *d != a && *d != b && *d != c) {
                    look(&[wheels[a], wheels[c]], &[wheels[b], wheels[d]]);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SET: [u32; 12] = [20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 80, 127];

    /// An 8 tpi screw through 100/127 cuts 2.5 mm (a published note on metric threads on an inch lathe: 3.175 mm by 100/127).
    #[test]
    fn metric_on_an_inch_screw_by_the_127_wheel() {
        let set = [100, 127, 50, 60];
        let found = train(Length::micrometres(2_500), Length::PER_INCH.times_ratio(1, 8), &set).expect("a train");
        assert!(found.exact);
        assert_eq!(found.text(), "100 drives 127");
    }

    #[test]
    fn inch_threads_need_two_wheels_where_they_can() {
        let found =
            train(Length::PER_INCH.times_ratio(1, 16), Length::PER_INCH.times_ratio(1, 8), &SET).expect("a train");
        assert!(found.exact && found.drivers.len() == 1);
        assert_eq!(u64::from(found.drivers[0]) * 2, u64::from(found.driven[0]));
        let found =
            train(Length::PER_INCH.times_ratio(1, 13), Length::PER_INCH.times_ratio(1, 8), &SET).expect("a train");
        assert!(found.exact, "{}", found.text());
    }

    /// 5 threads to the inch on a screw of 2: ratio 2.5, a 40 wheel on the spindle drives 100 on the screw. And 2 mm on a 6 mm screw:
    /// one to three (The American Mechanic, proportion of wheels for screw cutting; a course exercise).
    #[test]
    fn published_trains() {
        let inch = |n| Length::PER_INCH.times_ratio(1, n);
        let found = train(inch(5), inch(2), &[40, 100]).expect("a train");
        assert_eq!((found.exact, found.text().as_str()), (true, "40 drives 100"));
        let found = train(Length::micrometres(2_000), Length::micrometres(6_000), &[20, 60]).expect("a train");
        assert_eq!((found.exact, found.text().as_str()), (true, "20 drives 60"));
    }

    /// F. D. Jones, Turning and Boring (1914), change gears for metric pitches: a lead of 3 mm on a screw constant of 6 takes 90 and 127. And a
    /// page on change gears (gizmology.net): 80, 60, 40, 50 on 16 threads to the inch cut 15.
    #[test]
    fn odd_pitches() {
        let inch = |n| Length::PER_INCH.times_ratio(1, n);
        let found = train(Length::micrometres(3_000), inch(6), &[60, 90, 127]).expect("a train");
        assert_eq!((found.exact, found.text().as_str()), (true, "90 drives 127"));
        let found = train(inch(15), inch(16), &[80, 60, 40, 50]).expect("a train");
        assert!(found.exact && found.drivers.len() == 2);
        let product = |list: &[u32]| list.iter().product::<u32>();
        assert_eq!(product(&found.drivers) * 15, product(&found.driven) * 16);
        // 11 1/2 and 27 to the inch on 8, worked by hand: 8 / 11.5 = 80 / 115, 8 / 27 = 40 / 135.
        let half = Length::PER_INCH.times_ratio(2, 23);
        assert_eq!(train(half, inch(8), &[40, 80, 115, 135]).map(|t| t.text()), Some("80 drives 115".to_owned()));
        assert_eq!(train(inch(27), inch(8), &[40, 80, 115, 135]).map(|t| t.text()), Some("40 drives 135".to_owned()));
    }

    /// Lead .400 on 8 to the inch, 3.2 to 1: 40 drives 20, 80 drives 50 would put the 80 of the stud through the spindle (its radius is
    /// 40 teeth, the centers stand 30 apart); 80 drives 20, 40 drives 50 goes on (plain geometry).
    #[test]
    fn wheels_that_would_meet_a_shaft_are_not_told() {
        assert_eq!(mounted(&[40, 80], &[20, 50], 1), None);
        assert_eq!(mounted(&[40, 80], &[50, 20], 1), Some((vec![80, 40], vec![20, 50])));
        let lead = Length::PER_INCH.times_ratio(2, 5);
        let found = train(lead, Length::PER_INCH.times_ratio(1, 8), &[20, 40, 50, 80]).expect("a train");
        assert_eq!((found.exact, found.text().as_str()), (true, "80 drives 20, 40 drives 50"));
    }

    #[test]
    fn the_nearest_is_told_with_its_error() {
        let set = [20, 25, 30, 35, 40, 45, 50, 55, 60, 63, 65, 80];
        let found = train(Length::micrometres(1_500), Length::PER_INCH.times_ratio(1, 8), &set).expect("a train");
        assert!(!found.exact && found.relative_error.abs() < 0.001, "{} {}", found.text(), found.relative_error);
    }
}
