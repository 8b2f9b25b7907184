//! A chart found or audited.

use std::collections::BTreeMap;

use super::allot::{Allotted, Bound, allot};
use super::means::{Paths, Places, direction, ends};
use super::proof::Proof;
use super::tree::{Affine, Misplaced, Tree};
use crate::model::chart::Chart;
use crate::unit::{Length, Limits};

/// A chart after working.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Worked {
    /// Each cut, in the order of the chart.
    pub cuts: Vec<Made>,
    /// Cuts in the order they are made.
    pub order: Vec<usize>,
    /// Each distance asked, in the order of the chart.
    pub results: Vec<Resultant>,
    /// What comes off, in the order of the cuts.
    pub stock: Vec<StockRow>,
    /// Cuts that stand in no place: over-determined, or measured from themselves.
    pub misplaced: Vec<Misplaced>,
    /// The hardest cut's tolerance over what can be held on it; none where none was set by what can be held.
    pub factor: Option<f64>,
    /// The factor in exact fractions: what the tolerances reach, and what none can pass.
    pub proof: Option<Proof>,
    /// Distances (by index) that keep the factor from growing.
    pub binding: Vec<usize>,
    /// How much the factor grows for one unit (of the chart) more of tolerance ± on this distance alone, by its index.
    pub worth: BTreeMap<usize, f64>,
    /// The dual's price of each distance in the same measure: with all of them wider, the factor grows by the sum.
    pub prices: BTreeMap<usize, f64>,
}

/// A cut with its working dimension.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// Mean working dimension, or stock; none when nothing gives it.
    pub mean: Option<Length>,
    /// Tolerance ±; none where the cut stands in no place.
    pub tolerance: Option<Length>,
    /// Whether the tolerance was set here.
    pub set_here: bool,
}

/// A distance asked, as the cuts make it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Resultant {
    /// Index of the distance.
    pub dim: usize,
    /// Mean, counted from its first face to its second as a distance; none when nothing gives it.
    pub mean: Option<Length>,
    /// Worst case ±; none when the faces are not joined.
    pub plus_minus: Option<Length>,
    /// Root sum square ±, beside the worst case and never instead.
    pub rss: Option<Length>,
    /// Cuts that make it, with their signs; empty when the faces are not joined.
    pub path: Vec<(usize, i64)>,
    /// Whether every part whose cuts are within their tolerances keeps what is asked; true when nothing is.
    pub guaranteed: bool,
}

/// What a cut takes off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockRow {
    /// The cut.
    pub cut: usize,
    /// Mean; none when nothing gives it.
    pub mean: Option<Length>,
    /// Worst case ±; none when the states are not joined.
    pub plus_minus: Option<Length>,
    /// The least asked.
    pub least: Option<Length>,
    /// Cuts that make it, with their signs, as the stock counts.
    pub path: Vec<(usize, i64)>,
    /// Whether at least the least comes off every part; true where none is asked.
    pub enough: bool,
}

impl StockRow {
    /// Least and most that can come off.
    pub fn limits(&self) -> Option<Limits> {
        let (mean, half) = (self.mean?, self.plus_minus?);
        Some(Limits::new(mean - half, mean + half))
    }
}

impl Resultant {
    /// Worst case.
    pub fn limits(&self) -> Option<Limits> {
        let (mean, half) = (self.mean?, self.plus_minus?);
        Some(Limits::new(mean - half, mean + half))
    }
}

/// Works a chart: finds what it leaves open and audits what it gives.
pub fn work(chart: &Chart) -> Worked {
    let tree = Tree::of(chart);
    let paths = Paths::of(chart, &tree);
    let places = Places::of(chart, &tree, &paths);
    let (tolerances, allotted) = tolerances(chart, &tree, &paths, &places);
    let mut worked = Worked {
        cuts: made(chart, &tree, &places, &tolerances),
        order: tree.order.clone(),
        results: Vec::new(),
        stock: Vec::new(),
        misplaced: tree.misplaced.clone(),
        factor: allotted.factor,
        proof: allotted.proof,
        binding: allotted.binding,
        worth: per_unit(chart, allotted.worth),
        prices: per_unit(chart, allotted.prices),
    };
    worked.results = (0..chart.dims.len()).map(|i| resultant(chart, &tree, &paths, &places, &tolerances, i)).collect();
    worked.stock = tree
        .removals
        .iter()
        .enumerate()
        .map(|(r, removal)| {
            let mean = places.between(removal.old, removal.new).and_then(|m| m.value(&tolerances));
            let path: Vec<(usize, i64)> =
                paths.removals[r].iter().flatten().map(|(c, s)| (*c, s * removal.sign)).collect();
            let plus_minus = paths.removals[r].as_ref().and_then(|p| sum(p, &tolerances));
            let mean = mean.map(|m| m.times(removal.sign));
            let least = chart.least(&chart.cuts[removal.cut]);
            let enough = match (least, mean, plus_minus) {
                (None, ..) => true,
                (Some(least), Some(mean), Some(half)) => mean - half >= least,
                _ => false,
            };
            StockRow { cut: removal.cut, mean, plus_minus, least, path, enough }
        })
        .collect();
    worked
}

fn per_unit(chart: &Chart, per_picometre: BTreeMap<usize, f64>) -> BTreeMap<usize, f64> {
    per_picometre.into_iter().map(|(d, w)| (d, w * chart.units.one().pm() as f64)).collect()
}

fn made(chart: &Chart, tree: &Tree, places: &Places, tolerances: &[Option<Length>]) -> Vec<Made> {
    let each = chart.cuts.iter().enumerate().map(|(i, cut)| {
        let found = tree.joints[i].and_then(|j| Some(places.between(j.from, j.to)?.value(tolerances)?.times(j.sign)));
        Made {
            mean: cut.mean.or(found),
            tolerance: tolerances[i],
            set_here: cut.tolerance.is_none() && tolerances[i].is_some(),
        }
    });
    each.collect()
}

fn sum(path: &[(usize, i64)], tolerances: &[Option<Length>]) -> Option<Length> {
    path.iter().map(|(cut, _)| tolerances[*cut]).sum()
}

fn resultant(
    chart: &Chart,
    tree: &Tree,
    paths: &Paths,
    places: &Places,
    tolerances: &[Option<Length>],
    dim: usize,
) -> Resultant {
    let way = direction(chart, dim);
    let path: Vec<(usize, i64)> = paths.dims[dim].iter().flatten().map(|(c, s)| (*c, s * way)).collect();
    let joined = ends(chart, tree, dim).filter(|_| paths.dims[dim].is_some());
    let mean = joined.and_then(|(from, to)| places.between(from, to)?.value(tolerances)).map(|m| m.times(way));
    let plus_minus = paths.dims[dim].as_ref().and_then(|p| sum(p, tolerances));
    let rss = plus_minus.map(|_| root_sum_square(&path, tolerances));
    let guaranteed = match (chart.dims[dim].limits, mean, plus_minus) {
        (None, ..) => true,
        (Some(limits), Some(mean), Some(half)) => limits.covers(Limits::new(mean - half, mean + half)),
        _ => false,
    };
    Resultant { dim, mean, plus_minus, rss, path, guaranteed }
}

/// Independent, centred cuts add as the root of the sum of their squares; rounded up to a picometre.
fn root_sum_square(path: &[(usize, i64)], tolerances: &[Option<Length>]) -> Length {
    let squares = path
        .iter()
        .filter_map(|(cut, _)| tolerances[*cut])
        .map(|t| u128::from(t.pm().unsigned_abs()))
        .map(|t| t * t)
        .fold(0_u128, u128::saturating_add);
    let root = squares.isqrt();
    let up = if root * root == squares { root } else { root + 1 };
    Length::from_pm(i64::try_from(up).unwrap_or(i64::MAX))
}

/// Tolerances of all cuts that stand in the tree: given, or shared out by what can be held.
fn tolerances(chart: &Chart, tree: &Tree, paths: &Paths, places: &Places) -> (Vec<Option<Length>>, Allotted) {
    let mut tolerances: Vec<Option<Length>> = chart.cuts.iter().map(|c| c.tolerance).collect();
    let stands = |i: &usize| tree.joints[*i].is_some();
    for (i, t) in tolerances.iter_mut().enumerate() {
        if !stands(&i) {
            *t = None;
        }
    }
    let free: Vec<usize> = (0..chart.cuts.len()).filter(|i| stands(i) && tolerances[*i].is_none()).collect();
    let known = |i: &usize| chart.cuts[*i].can_hold.filter(|c| c.is_positive());
    // Nothing said: as hard as the coarsest that is said, or all alike.
    let usual = free.iter().filter_map(known).max();
    let caps: BTreeMap<usize, Length> =
        free.iter().map(|i| (*i, known(i).or(usual).unwrap_or(chart.units.one()))).collect();
    let mut allotted = allot(&bounds(chart, tree, paths, places, &tolerances), &caps);
    for (cut, t) in &allotted.tolerances {
        tolerances[*cut] = Some(*t);
    }
    if usual.is_none() {
        // A share of nothing known is no factor.
        allotted.factor = None;
        allotted.proof = None;
        allotted.worth.clear();
        allotted.prices.clear();
    }
    (tolerances, allotted)
}

/// What the free tolerances must keep: every limit asked on both sides, every least stock.
fn bounds(chart: &Chart, tree: &Tree, paths: &Paths, places: &Places, given: &[Option<Length>]) -> Vec<Bound> {
    let mut out: Vec<Bound> = Vec::new();
    let mut add = |mut least: Affine, dim: Option<usize>| {
        // `least` must not be below zero.
        let fixed: Vec<(usize, i64)> = least.tolerances.iter().map(|(c, n)| (*c, *n)).collect();
        for (cut, n) in fixed {
            if let Some(t) = given[cut] {
                least.constant += t.times(n);
                least.tolerances.remove(&cut);
            }
        }
        let times: BTreeMap<usize, i64> = least.tolerances.iter().map(|(c, n)| (*c, -n)).collect();
        if let Some(same) = out.iter_mut().find(|b| b.dim == dim && dim.is_some() && b.times == times) {
            same.most = same.most.min(least.constant);
        } else if !times.is_empty() {
            out.push(Bound { times, most: least.constant, dim });
        }
    };
    for (i, dim) in chart.dims.iter().enumerate() {
        let (Some(path), Some(limits), Some((from, to))) = (&paths.dims[i], dim.limits, ends(chart, tree, i)) else {
            continue;
        };
        let mut mean = Affine::default();
        match places.between(from, to) {
            Some(between) => mean.add(&between, direction(chart, i)),
            None => mean.constant = dim.aim(),
        }
        let mut above = mean.clone();
        above.constant = above.constant - limits.min;
        above.add_tolerances(path, -1);
        add(above, Some(i));
        let mut below = Affine::of(limits.max);
        below.add(&mean, -1);
        below.add_tolerances(path, -1);
        add(below, Some(i));
    }
    for (r, removal) in tree.removals.iter().enumerate() {
        let least = chart.least(&chart.cuts[removal.cut]);
        let (Some(path), Some(least), Some(mean)) =
            (&paths.removals[r], least, places.between(removal.old, removal.new))
        else {
            continue;
        };
        let mut over = Affine::of(-least);
        over.add(&mean, removal.sign);
        over.add_tolerances(path, -1);
        add(over, None);
    }
    out
}
