//! One part, not a series: measuring replaces a tolerance by the error of measuring. The last cut of a chain is aimed by what was
//! measured of the faces before it, so that only its own tolerance and the reading's error are left.

use super::tree::Tree;
use super::work::Worked;
use crate::model::chart::Chart;
use crate::unit::{Length, Limits};

/// A cut aimed by a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Retarget {
    /// The cut that is aimed anew.
    pub cut: usize,
    /// For the sake of this distance.
    pub dim: usize,
    /// What is measured, face to face, before the cut.
    pub measure: (usize, usize),
    /// What that reading should be.
    pub reading: Length,
    /// What the cut is aimed at when the reading is just that.
    pub aim: Length,
    /// Whether the aim grows with the reading (1) or shrinks (−1).
    pub sign: i64,
    /// Worst case ± of the distance without it.
    pub before: Length,
    /// With it.
    pub after: Length,
}

/// What retargeting gains.
#[derive(Debug, Clone, Default)]
pub struct Retargeted {
    /// Cuts to aim by a reading, in the order they are made.
    pub cuts: Vec<Retarget>,
    /// Worst case ± of each distance of the chart with them, by index.
    pub plus_minus: Vec<Option<Length>>,
    /// Whether each distance is then kept.
    pub guaranteed: Vec<bool>,
}

/// A sum of independent errors: of each cut's own, and of each reading (by the cut it aims).
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Errors {
    cuts: std::collections::BTreeMap<usize, i64>,
    readings: std::collections::BTreeMap<usize, i64>,
}

impl Errors {
    fn add(&mut self, other: &Self, times: i64) {
        for (mine, theirs) in [(&mut self.cuts, &other.cuts), (&mut self.readings, &other.readings)] {
            for (key, n) in theirs {
                *mine.entry(*key).or_default() += n * times;
            }
            mine.retain(|_, n| *n != 0);
        }
    }

    fn worst(&self, worked: &Worked, error: Length) -> Option<Length> {
        let cuts =
            self.cuts.iter().map(|(c, n)| Some(worked.cuts[*c].tolerance?.times(n.abs()))).sum::<Option<Length>>()?;
        Some(cuts + self.readings.values().map(|n| error.times(n.abs())).sum())
    }
}

/// Chooses cuts to aim by readings, for distances whose worst case is too wide; `error` is that of a reading, ±. A choice is
/// kept only when no distance that was kept is lost by it.
pub fn retarget(chart: &Chart, worked: &Worked, error: Length) -> Retargeted {
    let tree = Tree::of(chart);
    let mut chosen: Vec<Option<Choice>> = vec![None; chart.cuts.len()];
    let mut state = judge(chart, worked, error, &chosen);
    let place: Vec<usize> = {
        let mut place = vec![0; chart.cuts.len()];
        worked.order.iter().enumerate().for_each(|(at, cut)| place[*cut] = at);
        place
    };
    for result in &worked.results {
        if result.guaranteed || result.path.len() < 2 || state.1[result.dim] {
            continue;
        }
        let Some(&(last, sign)) = result.path.iter().max_by_key(|(c, _)| place[*c]) else { continue };
        if chosen[last].is_some() {
            continue;
        }
        let Some(choice) = choice(chart, &tree, worked, result.dim, last, sign) else { continue };
        chosen[last] = Some(choice);
        let next = judge(chart, worked, error, &chosen);
        let lost = state.1.iter().zip(&next.1).any(|(was, is)| *was && !is);
        let narrower = next.0[result.dim] < state.0[result.dim];
        if lost || !narrower {
            chosen[last] = None;
        } else {
            state = next;
        }
    }
    let cuts = worked.order.iter().filter_map(|cut| {
        let c = chosen[*cut].as_ref()?;
        Some(Retarget {
            cut: *cut,
            dim: c.dim,
            measure: c.measure,
            reading: c.reading,
            aim: worked.cuts[*cut].mean?,
            sign: c.sign,
            before: worked.results[c.dim].plus_minus?,
            after: state.0[c.dim]?,
        })
    });
    Retargeted { cuts: cuts.collect(), plus_minus: state.0, guaranteed: state.1 }
}

#[derive(Debug, Clone)]
struct Choice {
    dim: usize,
    /// Rest of the path, as the distance counts: cuts with their signs.
    rest: Vec<(usize, i64)>,
    /// Sign of the cut in the distance.
    own: i64,
    measure: (usize, usize),
    reading: Length,
    sign: i64,
}

/// How a cut would be aimed for a distance; none where a mean is not known.
fn choice(chart: &Chart, tree: &Tree, worked: &Worked, dim: usize, cut: usize, own: i64) -> Option<Choice> {
    let result = &worked.results[dim];
    let rest: Vec<(usize, i64)> = result.path.iter().copied().filter(|(c, _)| *c != cut).collect();
    let made = tree.joints[cut]?;
    // The cut's new state is one end of the distance; what is measured lies between its measuring face and the other end.
    let d = &chart.dims[dim];
    let (near, far) = (tree.last[d.from]?, tree.last[d.to]?);
    let other = if near == made.to {
        d.to
    } else if far == made.to {
        d.from
    } else {
        return None;
    };
    let crate::model::chart::MeasuredBy::From(from) = chart.cuts[cut].by else { return None };
    let sum = |terms: &[(usize, i64)]| {
        terms.iter().map(|(c, s)| Some(worked.cuts[*c].mean?.times(*s))).sum::<Option<Length>>()
    };
    let signed = sum(&rest)?;
    // distance = own·w + rest, so w = own·(distance − rest); the reading is |rest|.
    let grows = -own * if signed < Length::ZERO { -1 } else { 1 };
    Some(Choice { dim, rest, own, measure: (from, other), reading: signed.abs(), sign: grows })
}

/// Worst case of every distance, and whether it is kept, when these cuts are aimed by readings.
fn judge(chart: &Chart, worked: &Worked, error: Length, chosen: &[Option<Choice>]) -> (Vec<Option<Length>>, Vec<bool>) {
    let mut errors: Vec<Errors> = vec![Errors::default(); chart.cuts.len()];
    for &cut in &worked.order {
        let mut own = Errors::default();
        own.cuts.insert(cut, 1);
        if let Some(choice) = &chosen[cut] {
            for (other, sign) in &choice.rest {
                own.add(&errors[*other].clone(), -choice.own * sign);
            }
            own.readings.insert(cut, 1);
        }
        errors[cut] = own;
    }
    let mut worst = Vec::new();
    let mut kept = Vec::new();
    for result in &worked.results {
        let mut sum = Errors::default();
        for (cut, sign) in &result.path {
            sum.add(&errors[*cut], *sign);
        }
        let half = result.plus_minus.and_then(|_| sum.worst(worked, error));
        kept.push(match (chart.dims[result.dim].limits, result.mean, half) {
            (None, ..) => true,
            (Some(limits), Some(mean), Some(half)) => limits.covers(Limits::new(mean - half, mean + half)),
            _ => false,
        });
        worst.push(half);
    }
    (worst, kept)
}
