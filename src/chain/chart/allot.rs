//! Tolerances of the cuts that have none: the hardest cut is made as easy as possible for what can be held on it, then the next
//! hardest, and so on (max-min, lexicographic). The linear programs are solved in floating point, in hundredths of the largest
//! tolerance that is asked; their answer is rounded to whole picometres here and judged by exact sums elsewhere.
//!
//! The dual program is solved beside the first: its answer is what a wider drawing would buy.

use std::collections::BTreeMap;

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

/// Shares out. `caps` has each free cut with what can be held on it, above zero; `bounds` speak of free cuts alone.
pub(super) fn allot(bounds: &[Bound], caps: &BTreeMap<usize, Length>) -> Allotted {
    let mut out = Allotted::default();
    // A bound that is broken whatever the free cuts do is left out: it is told as missed, and must not spoil the others.
    let bounds: Vec<Bound> = bounds.iter().filter(|b| b.most >= Length::ZERO && !b.times.is_empty()).cloned().collect();
    let widest = bounds.iter().map(|b| b.most.pm()).max().unwrap_or(0).max(1);
    let program = Program { bounds: &bounds, caps, scale: widest as f64 / 100.0 };
    let mut open: Vec<usize> = caps.keys().copied().collect();
    let mut held: BTreeMap<usize, f64> = BTreeMap::new();
    let mut first_prices: Vec<f64> = Vec::new();
    while !open.is_empty() {
        let Some(step) = program.step(&open, &held).filter(|s| s.factor < UNBOUNDED) else { break };
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

    /// The greatest factor for the open cuts, the prices of the bounds, and who cannot have more.
    fn step(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> Option<Step> {
        let factor = self.greatest(open, held)?;
        if factor >= UNBOUNDED * 0.999 {
            return Some(Step { factor: UNBOUNDED, prices: Vec::new(), held: Vec::new() });
        }
        let (prices, held) = self.dual(open, held)?;
        Some(Step { factor, prices, held })
    }

    /// The primal.
    fn greatest(&self, open: &[usize], held: &BTreeMap<usize, f64>) -> Option<f64> {
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
