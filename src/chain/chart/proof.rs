//! The factor proven in exact fractions, whatever the linear program rounded: what the tolerances printed reach, and what no
//! tolerances can pass.
//!
//! Weak duality does the second: prices, none below zero, under which no cut is paid for less than nothing, bound the factor of
//! every set of tolerances by what the bounds leave times their prices, over what one unit of factor costs at them. The prices may
//! come from anywhere; the sum is exact.

use std::collections::BTreeMap;

use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
use num_traits::{Signed, ToPrimitive, Zero};

use super::allot::Bound;
use crate::unit::Length;

/// Both sides of the factor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proof {
    /// What the whole picometres of the tolerances reach: the least of tolerance over what can be held.
    pub reached: BigRational,
    /// What no tolerances within the drawing pass.
    pub at_most: BigRational,
}

/// Denominators of prices, relative to the greatest: above this a price is no fraction of small numbers.
const FINEST: i64 = 1_000_000_000;

impl Proof {
    /// Whether both sides meet, but for the picometre that a whole tolerance leaves out.
    pub fn is_closed(&self, least_cap: Length) -> bool {
        let gap = &self.at_most - &self.reached;
        gap * whole(least_cap.pm()) <= whole(2)
    }

    /// The greatest factor as a number.
    pub fn factor(&self) -> f64 {
        // A ratio, never a length.
        Some(&self.at_most).and_then(ToPrimitive::to_f64).unwrap_or(f64::NAN)
    }
}

fn whole(n: i64) -> BigRational {
    BigRational::from_integer(BigInt::from(n))
}

/// Proves the factor; none when nothing bounds it, or where neither side can be proven.
pub(super) fn prove(
    bounds: &[Bound],
    caps: &BTreeMap<usize, Length>,
    tolerances: &BTreeMap<usize, Length>,
    prices: &[f64],
) -> Option<Proof> {
    let ratio = |cut: &usize| Some(BigRational::new(tolerances.get(cut)?.pm().into(), caps.get(cut)?.pm().into()));
    // A cut that no bound speaks of keeps what can be held, whatever the factor.
    let bounded = caps.keys().filter(|cut| bounds.iter().any(|b| b.times.contains_key(cut)));
    let reached = bounded.map(ratio).collect::<Option<Vec<_>>>()?.into_iter().min()?;
    let kept = bounds.iter().all(|b| sum(b, tolerances).is_some_and(|s| s <= b.most));
    let alone = bounds.iter().filter_map(|b| alone(b, caps));
    let at_most = alone.chain(together(bounds, caps, prices)).min()?;
    (kept && reached <= at_most).then_some(Proof { reached, at_most })
}

fn sum(bound: &Bound, tolerances: &BTreeMap<usize, Length>) -> Option<Length> {
    bound.times.iter().map(|(cut, n)| Some(tolerances.get(cut)?.times(*n))).sum()
}

/// What one bound alone leaves, where every tolerance in it counts against it.
fn alone(bound: &Bound, caps: &BTreeMap<usize, Length>) -> Option<BigRational> {
    bound.times.values().all(|n| *n > 0).then_some(())?;
    let costs: BigRational = bound.times.iter().filter_map(|(c, n)| Some(whole(caps.get(c)?.pm()) * whole(*n))).sum();
    (!costs.is_zero()).then(|| whole(bound.most.pm()) / costs)
}

/// What all bounds leave at these prices, taken as fractions of the greatest.
fn together(bounds: &[Bound], caps: &BTreeMap<usize, Length>, prices: &[f64]) -> Option<BigRational> {
    let greatest = prices.iter().copied().fold(0.0, f64::max);
    (greatest > 0.0 && prices.len() == bounds.len()).then_some(())?;
    let fraction = |p: &f64| {
        let near: Ratio<i64> = Ratio::approximate_float((p / greatest * 1e9).round() / 1e9)?;
        let near = if *near.denom() > FINEST { return None } else { near };
        Some(BigRational::new((*near.numer()).into(), (*near.denom()).into()))
    };
    let prices = prices.iter().map(fraction).collect::<Option<Vec<_>>>()?;
    let bought = |cut: &usize| -> BigRational {
        bounds.iter().zip(&prices).filter_map(|(b, p)| Some(p * whole(*b.times.get(cut)?))).sum()
    };
    let shares: Vec<(BigRational, Length)> = caps.iter().map(|(cut, cap)| (bought(cut), *cap)).collect();
    let feasible = shares.iter().all(|(s, _)| !s.is_negative()) && prices.iter().all(|p| !p.is_negative());
    let costs: BigRational = shares.iter().map(|(s, cap)| s * whole(cap.pm())).sum();
    let leaves: BigRational = bounds.iter().zip(&prices).map(|(b, p)| p * whole(b.most.pm())).sum();
    (feasible && costs.is_positive()).then(|| leaves / costs)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bound(times: &[(usize, i64)], most: i64) -> Bound {
        Bound { times: times.iter().copied().collect(), most: Length::micrometres(most), dim: None }
    }

    fn lengths(list: &[i64]) -> BTreeMap<usize, Length> {
        list.iter().enumerate().map(|(i, um)| (i, Length::micrometres(*um))).collect()
    }

    #[test]
    fn a_third_is_a_third() {
        // Three alike share 10 µm: 10/30 of what each can hold, however the picometres are rounded.
        let caps = lengths(&[10, 10, 10]);
        let share: BTreeMap<usize, Length> = (0..3).map(|i| (i, Length::from_pm(3_333_333))).collect();
        let proof = prove(&[bound(&[(0, 1), (1, 1), (2, 1)], 10)], &caps, &share, &[1.0]).expect("proven");
        assert_eq!(proof.at_most, BigRational::new(1.into(), 3.into()));
        assert!(proof.is_closed(Length::micrometres(10)));
    }

    #[test]
    fn prices_of_two_bounds_prove_what_neither_does_alone() {
        // 2a − b ≤ 4 and b ≤ 6, both held to 5: the first alone speaks of no factor, the second of 6/5.
        let caps = lengths(&[5, 5]);
        let bounds = [bound(&[(0, 2), (1, -1)], 4), bound(&[(1, 1)], 6)];
        let proof = prove(&bounds, &caps, &lengths(&[5, 6]), &[1.0, 1.0]).expect("proven");
        // a = 5, b = 6 keeps both and reaches 1; prices 1 and 1 pay 2a by 10, so 10/10.
        assert_eq!((proof.reached.clone(), proof.at_most), (whole(1), whole(1)));
        assert!(
            prove(&bounds, &caps, &lengths(&[6, 6]), &[1.0, 1.0]).is_none(),
            "tolerances that break a bound prove nothing"
        );
    }
}
