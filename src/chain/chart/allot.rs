//! Tolerances of the cuts that have none: the hardest cut is made as easy as possible for what can be held on it, then the next
//! hardest, and so on (max-min, lexicographic). The linear programs are solved in floating point, in hundredths of the largest
//! tolerance that is asked; their answer is rounded to whole picometres here and judged by exact sums elsewhere. Where every bound
//! only adds tolerances up, as distances do whose means are given, the greatest factor needs no program: see [`Program::level`].
//!
//! The dual program is solved beside the first: its answer is what a wider drawing would buy.

use std::collections::{BTreeMap, BTreeSet};

use good_lp::{Expression, Solution, SolverModel, Variable, constraint, microlp, variable, variables};

use super::proof::{Proof, prove};
use crate::unit::Length;

/// `sum(times · tolerance) <= most`.
#[derive(Debug, Clone)]
pub(super) struct Bound {
    pub(super) times: BTreeMap<usize, i64>,
    pub(super) most: Length,
    /// The distance asked that it comes from; none for a stock.
    pub(super) dim: Option<usize>,
}

/// The answer.
#[derive(Debug, Default)]
pub(super) struct Allotted {
    /// Tolerance of each free cut.
    pub(super) tolerances: BTreeMap<usize, Length>,
    /// The hardest cut's tolerance over what can be held; none when nothing bounds it.
    pub(super) factor: Option<f64>,
    /// Distances that keep the factor from growing.
    pub(super) binding: Vec<usize>,
    /// How much the factor grows for a picometre more on the tolerance ± of this distance alone, where it grows.
    pub(super) worth: BTreeMap<usize, f64>,
    /// The dual's price of each distance: with all of them wider, the factor grows by the sum. By strong duality the prices times
    /// what the distances leave to these cuts are the factor itself.
    pub(super) prices: BTreeMap<usize, f64>,
    /// The factor in exact fractions; none where nothing bounds it.
    pub(super) proof: Option<Proof>,
}

/// Numbers of the program: lengths over `scale`.
#[derive(Clone, Copy)]
struct Program<'a> {
    bounds: &'a [Bound],
    caps: &'a BTreeMap<usize, Length>,
    scale: f64,
}

/// One step's answer: the factor, and the price of each bound.
struct Step {
    factor: f64,
    prices: Vec<f64>,
    /// Cuts that cannot have more than the factor gives them.
    held: Vec<usize>,
}

/// A price or slack smaller than this is none.
const NONE: f64 = 1e-7;
/// A factor above this is bounded by nothing.
const UNBOUNDED: f64 = 1e6;
/// What a full bound may have left, by rounding: a thousandth of a picometre where the widest tolerance is a tenth of a millimetre.
const FULL: f64 = 1e-9;

/// Shares out. `caps` has each free cut with what can be held on it, above zero; `bounds` speak of free cuts alone.
pub(super) fn allot(bounds: &[Bound], caps: &BTreeMap<usize, Length>) -> Allotted {
    let mut out = Allotted::default();
    // A bound that is broken whatever the free cuts do is left out: it is told as missed, and must not spoil the others. So is a distance that leaves its
    // cuts nothing: no shop holds a cut to nothing.
    let nothing = |b: &Bound| b.dim.is_some() && b.most == Length::ZERO && b.times.values().all(|n| *n > 0);
    let bounds = bounds.iter().filter(|b| b.most >= Length::ZERO && !b.times.is_empty() && !nothing(b));
    let bounds: Vec<Bound> = bounds.cloned().collect();
    let widest = bounds.iter().map(|b| b.most.pm()).max().unwrap_or(0).max(1);
    let program = Program { bounds: &bounds, caps, scale: widest as f64 / 100.0 };
    let mut open: Vec<usize> = caps.keys().copied().collect();
    let mut held: BTreeMap<usize, f64> = BTreeMap::new();
    let mut first_prices: Vec<f64> = Vec::new();
    while !open.is_empty() {
        let first = out.factor.is_none();
        let Some(step) = program.step(&open, &held, first).filter(|s| s.factor < UNBOUNDED) else { break };
        if out.factor.is_none() {
            out.factor = Some(step.factor);
            out.binding = program.binding(step.factor);
            for (bound, price) in bounds.iter().zip(&step.prices) {
                if let Some(dim) = bound.dim.filter(|_| *price > NONE) {
                    *out.prices.entry(dim).or_default() += price / program.scale;
                }
            }
            out.worth = program.worth(&out.binding, step.factor);
            first_prices.clone_from(&step.prices);
        }
        if step.held.is_empty() {
            break;
        }
        for cut in step.held {
            held.insert(cut, step.factor);
            open.retain(|c| *c != cut);
        }
    }
    let rounded = |cut: &usize, factor: f64| (caps[cut].pm() as f64 * factor).round() as i64;
    out.tolerances = held.iter().map(|(cut, f)| (*cut, Length::from_pm(rounded(cut, *f)))).collect();
    // Nothing bounds these: what can be held.
    out.tolerances.extend(open.into_iter().map(|cut| (cut, caps[&cut])));
    inside(&bounds, &mut out.tolerances);
    out.proof = out.factor.and_then(|_| prove(&bounds, caps, &out.tolerances, &first_prices));
    let least = caps.values().copied().min().unwrap_or_default();
    if let Some(proof) = out.proof.as_ref().filter(|p| p.is_closed(least)) {
        out.factor = Some(proof.factor());
    }
    out
}

/// Takes picometres that rounding added back from the widest cut of a bound, until exact sums keep it.
fn inside(bounds: &[Bound], tolerances: &mut BTreeMap<usize, Length>) {
    for bound in bounds {
        let sum: Length =
            bound.times.iter().map(|(cut, n)| tolerances.get(cut).map_or(Length::ZERO, |t| t.times(*n))).sum();
        let over = sum - bound.most;
        let small = over.is_positive() && over <= Length::from_pm(1_000);
        let widest = bound.times.iter().filter(|(_, n)| **n > 0).max_by_key(|(cut, _)| tolerances.get(cut).copied());
        if let (true, Some((cut, _))) = (small, widest)
            && let Some(t) = tolerances.get_mut(cut)
        {
            *t = (*t - over).max(Length::ZERO);
        }
    }
}

impl Program<'_> {
    fn cap(&self, cut: usize) -> f64 {
        self.caps[&cut].pm() as f64 / self.scale
    }

    /// What a bound leaves when the held cuts have theirs.
    fn left(&self, bound: &Bound, held: &BTreeMap<usize, f64>) -> f64 {
        let taken = bound.times.iter().filter_map(|(c, n)| Some(held.get(c)? * self.cap(*c) * *n as f64));
        bound.most.pm() as f64 / self.scale - taken.sum::<f64>()
    }

    /// Whether no tolerance makes room for another.
    fn adds_up(&self) -> bool {
        self.bounds.iter().all(|b| b.times.values().all(|n| *n >= 0))
    }

    /// The greatest factor where bounds only add up, and who cannot have more. A cut that has more than the factor gives it leaves
    /// less to the others, so all of them have just that, and the bound that is full first decides: what it leaves over what one of
    /// the factor takes of it. Who stands in a full bound is held.
    fn level(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> (f64, Vec<usize>) {
        let is_open: BTreeSet<usize> = open.iter().copied().collect();
        let takes = |b: &Bound| -> f64 {
            b.times.iter().filter(|(c, _)| is_open.contains(c)).map(|(c, n)| self.cap(*c) * *n as f64).sum()
        };
        let rows = self.bounds.iter().map(|b| (b, takes(b))).filter(|(_, takes)| *takes > 0.0);
        let rows: Vec<(&Bound, f64, f64)> = rows.map(|(b, takes)| (b, takes, self.left(b, held).max(0.0))).collect();
        let factor = rows.iter().map(|(_, takes, left)| left / takes).fold(UNBOUNDED, f64::min);
        let full = rows.iter().filter(|(_, takes, left)| left - factor * takes <= FULL);
        let counts = full.flat_map(|(b, ..)| b.times.iter().filter(|(c, n)| **n > 0 && is_open.contains(c)));
        let held: BTreeSet<usize> = counts.map(|(c, _)| *c).collect();
        (factor, held.into_iter().collect())
    }

    /// The greatest factor for the open cuts, who cannot have more, and, where they are asked for, the prices of the bounds.
    fn step(&self, open: &[usize], held: &BTreeMap<usize, f64>, priced: bool) -> Option<Step> {
        if self.adds_up() {
            let (factor, full) = self.level(open, held);
            let prices = if priced && factor < UNBOUNDED { self.dual(open, held)?.0 } else { Vec::new() };
            return Some(Step { factor, prices, held: full });
        }
        let factor = self.greatest(open, held)?;
        if factor >= UNBOUNDED * 0.999 {
            return Some(Step { factor: UNBOUNDED, prices: Vec::new(), held: Vec::new() });
        }
        let (prices, held) = self.dual(open, held)?;
        Some(Step { factor, prices, held })
    }

    /// The primal.
    fn greatest(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> Option<f64> {
        if self.adds_up() {
            return Some(self.level(open, held).0);
        }
        self.by_program(open, held)
    }

    /// The primal as a linear program.
    fn by_program(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> Option<f64> {
        let mut vars = variables!();
        let factor = vars.add(variable().min(0.0).max(UNBOUNDED));
        let t: BTreeMap<usize, Variable> = open.iter().map(|c| (*c, vars.add(variable().min(0.0)))).collect();
        let mut problem = vars.maximise(factor).using(microlp);
        for (cut, var) in &t {
            problem = problem.with(constraint!(*var - self.cap(*cut) * factor >= 0.0));
        }
        for bound in self.bounds {
            let sum: Expression = bound.times.iter().filter_map(|(c, n)| Some(*n as f64 * *t.get(c)?)).sum();
            if bound.times.keys().any(|c| t.contains_key(c)) {
                problem = problem.with(constraint!(sum <= self.left(bound, held).max(0.0)));
            }
        }
        Some(problem.solve().ok()?.value(factor))
    }

    /// The dual: the least sum of what the bounds leave, at prices that pay for every cut's share of one more on the factor.
    fn dual(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> Option<(Vec<f64>, Vec<usize>)> {
        let mut vars = variables!();
        let price: Vec<Variable> = self.bounds.iter().map(|_| vars.add(variable().min(0.0))).collect();
        let share: BTreeMap<usize, Variable> = open.iter().map(|c| (*c, vars.add(variable().min(0.0)))).collect();
        let cost: Expression = self.bounds.iter().zip(&price).map(|(b, p)| self.left(b, held).max(0.0) * *p).sum();
        let mut problem = vars.minimise(cost).using(microlp);
        let paid: Expression = share.iter().map(|(cut, var)| self.cap(*cut) * *var).sum();
        problem = problem.with(constraint!(paid >= 1.0));
        for (cut, var) in &share {
            let bought = self.bounds.iter().zip(&price).filter_map(|(b, p)| Some(*b.times.get(cut)? as f64 * *p));
            let bought: Expression = bought.sum();
            problem = problem.with(constraint!(bought - *var >= 0.0));
        }
        let answer = problem.solve().ok()?;
        let prices = price.iter().map(|p| answer.value(*p)).collect();
        let held = share.iter().filter(|(_, var)| answer.value(**var) > NONE).map(|(cut, _)| *cut).collect();
        Some((prices, held))
    }

    /// What each of these distances is worth alone: where another binds as closely, nothing.
    fn worth(&self, binding: &[usize], factor: f64) -> BTreeMap<usize, f64> {
        let open: Vec<usize> = self.caps.keys().copied().collect();
        let more = Length::from_pm((self.scale / 10.0) as i64).max(Length::from_pm(1));
        let wider = binding.iter().filter_map(|dim| {
            let mut bounds = self.bounds.to_vec();
            bounds.iter_mut().filter(|b| b.dim == Some(*dim)).for_each(|b| b.most += more);
            let program = Program { bounds: &bounds, ..*self };
            let gain = (program.greatest(&open, &BTreeMap::new())? - factor) / more.pm() as f64;
            (gain * self.scale > NONE).then_some((*dim, gain))
        });
        wider.collect()
    }

    /// Distances with nothing left when every cut has just the factor.
    fn binding(&self, factor: f64) -> Vec<usize> {
        let all: BTreeMap<usize, f64> = self.caps.keys().map(|c| (*c, factor)).collect();
        let tight = self.bounds.iter().filter(|b| self.left(b, &all).abs() < NONE);
        let mut dims: Vec<usize> = tight.filter_map(|b| b.dim).collect();
        dims.sort_unstable();
        dims.dedup();
        dims
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two ways to the same thing: what the linear programs share out, whole, and what is shared out without them.
    #[test]
    fn level_and_programs_share_out_alike() {
        let mut seed = 7_u64;
        let mut roll = |below: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % below
        };
        let mut compared = 0;
        for case in 0..400 {
            let cuts = 2 + roll(7) as usize;
            let caps: BTreeMap<usize, Length> =
                (0..cuts).map(|c| (c, Length::micrometres(5 + roll(4).cast_signed() * 5))).collect();
            let bounds: Vec<Bound> = (0..=roll(8) as usize)
                .map(|dim| {
                    let mut times = BTreeMap::new();
                    for _ in 0..=roll(4) {
                        *times.entry(roll(cuts as u64) as usize).or_insert(0) += 1 + i64::from(roll(4) == 0);
                    }
                    Bound { times, most: Length::micrometres(10 + roll(20).cast_signed() * 10), dim: Some(dim) }
                })
                .collect();
            let fast = allot(&bounds, &caps);
            let (factor, tolerances) = by_programs_alone(&bounds, &caps);
            match (fast.factor, factor) {
                (Some(a), Some(b)) => assert!((a / b - 1.0).abs() < 1e-9, "case {case}: {a} {b}"),
                (a, b) => assert_eq!(a.is_some(), b.is_some(), "case {case}"),
            }
            for (cut, t) in &fast.tolerances {
                let apart = (*t - tolerances[cut]).abs();
                assert!(apart <= Length::from_pm(2), "case {case}, cut {cut}: {t:?} {:?}", tolerances[cut]);
            }
            compared += usize::from(fast.tolerances.values().collect::<BTreeSet<_>>().len() > 1);
        }
        assert!(compared > 100, "{compared}");
    }

    /// What is asked leaves nothing to its cut: no share of nothing is handed out, and the others have theirs.
    #[test]
    fn a_distance_that_leaves_nothing_is_missed() {
        let caps = BTreeMap::from([(0, Length::micrometres(50)), (1, Length::micrometres(50))]);
        let bound = |cut, most| Bound { times: BTreeMap::from([(cut, 1)]), most, dim: Some(cut) };
        let shared = allot(&[bound(0, Length::ZERO), bound(1, Length::micrometres(25))], &caps);
        assert_eq!(shared.tolerances[&0], Length::micrometres(50));
        assert_eq!((shared.tolerances[&1], shared.factor), (Length::micrometres(25), Some(0.5)));
    }

    /// The same by the primal and the dual at every step.
    fn by_programs_alone(bounds: &[Bound], caps: &BTreeMap<usize, Length>) -> (Option<f64>, BTreeMap<usize, Length>) {
        let widest = bounds.iter().map(|b| b.most.pm()).max().unwrap_or(1);
        let program = Program { bounds, caps, scale: widest as f64 / 100.0 };
        let mut open: Vec<usize> = caps.keys().copied().collect();
        let (mut held, mut first) = (BTreeMap::new(), None);
        while !open.is_empty() {
            let Some(factor) = program.by_program(&open, &held).filter(|f| *f < UNBOUNDED * 0.999) else { break };
            let Some((_, full)) = program.dual(&open, &held).filter(|(_, full)| !full.is_empty()) else { break };
            first = first.or(Some(factor));
            open.retain(|c| !full.contains(c));
            held.extend(full.into_iter().map(|c| (c, factor)));
        }
        let share =
            |c: &usize| held.get(c).map_or(caps[c], |f| Length::from_pm((caps[c].pm() as f64 * f).round() as i64));
        (first, caps.keys().map(|c| (*c, share(c))).collect())
    }
}
