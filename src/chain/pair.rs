//! A pair of faces under three ways of dimensioning, and what would make a distance hold.

use super::{Chain, Distance};
use crate::model::{FaceSide, Part};
use crate::unit::{Length, Limits, Station, read_size};

/// A distance as baseline, chain and direct dimensions would keep it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schemes {
    /// Near face.
    pub from: usize,
    /// Far face.
    pub to: usize,
    /// Nominal distance.
    pub nominal: Length,
    /// As the part is dimensioned now, worst case ±; none where the lengths do not join the faces.
    pub as_dimensioned: Option<Length>,
    /// Both faces from the datum face, ±.
    pub baseline: Length,
    /// Lengths in a row between them: how many, and ± together.
    pub chain: (usize, Length),
    /// A dimension of its own, ±.
    pub direct: Length,
    /// What the drawing asks of it, if it does.
    pub stated: Option<Limits>,
}

/// Compares the schemes for a pair of faces. A length that is stated keeps its own tolerance; one that is not has `usual`.
pub fn schemes(chain: &Chain, from: usize, to: usize, usual: Length) -> Option<Schemes> {
    let (a, b) = (chain.at[from]?, chain.at[to]?);
    let (from, to) = if b < a { (to, from) } else { (from, to) };
    let (a, b) = (a.min(b), a.max(b));
    let half = |x: Station, y: Station| -> Length {
        if x == y {
            return Length::ZERO;
        }
        let ends = |l: &&super::Link| {
            let (p, q) = (chain.at[l.from], chain.at[l.to]);
            (p == Some(x) && q == Some(y)) || (p == Some(y) && q == Some(x))
        };
        let own = chain.graph.links.iter().filter(|l| l.says.is_worked()).find(ends);
        own.map_or(usual, |l| l.limits.band().half())
    };
    let mut between: Vec<Station> = chain.at.iter().flatten().copied().filter(|s| a <= *s && *s <= b).collect();
    between.sort_unstable();
    between.dedup();
    let row: Length = between.windows(2).map(|w| half(w[0], w[1])).sum();
    let stated = chain.distances.iter().find(|(_, d)| (d.from, d.to) == (from, to)).and_then(|(_, d)| d.stated);
    Some(Schemes {
        from,
        to,
        nominal: b - a,
        as_dimensioned: chain.guaranteed(from, to).map(|l| l.band().half()),
        baseline: half(Station::DATUM, a) + half(Station::DATUM, b),
        chain: (between.len().saturating_sub(1), row),
        direct: stated.map_or(usual, |l| l.band().half()),
        stated,
    })
}

impl Chain {
    /// The face a person names: a length from the datum end, `datum`, `far`, or `NAME start`, `NAME end`.
    pub fn face_called(&self, part: &Part, text: &str) -> Option<usize> {
        let text = text.trim();
        match text.to_lowercase().as_str() {
            "datum" | "datum end" | "datum face" => return Some(0),
            "end" | "far" | "far end" | "far face" => return Some(self.far),
            _ => {}
        }
        if let Ok(size) = read_size(text, part.units) {
            let asked = Station(size.nominal.value);
            return self.at.iter().position(|s| *s == Some(asked));
        }
        let (name, side) = text.rsplit_once(' ')?;
        let side = match side {
            "start" => FaceSide::Start,
            "end" => FaceSide::End,
            _ => return None,
        };
        let named = |f: &&crate::model::Feature| {
            f.letter == name || f.name.as_ref().is_some_and(|n| n.text.eq_ignore_ascii_case(name))
        };
        let feature = part.features.iter().find(named)?;
        let (start, end) = (*self.ends.get(feature.id)?)?;
        Some(if side == FaceSide::Start { start } else { end })
    }
}

/// What would make a distance hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remedies {
    /// Move the middle of its lengths by this much, and nothing else: where the bands would fit.
    pub shift: Option<Length>,
    /// Hold each of its lengths to this, ±.
    pub each: Length,
    /// The fewest lengths (indices of links) that, held closer, suffice, and to what each of them, ±.
    pub fewest: Option<(Vec<usize>, Length)>,
}

impl Distance {
    /// Remedies for a distance that is asked and not guaranteed; none for one that holds, or that nothing asks.
    pub fn remedies(&self, chain: &Chain) -> Option<Remedies> {
        let (stated, worst) = (self.stated?, self.worst_case?);
        if stated.covers(worst) || stated.reversed() || self.path.is_empty() {
            return None;
        }
        let middle = worst.middle();
        let off = stated.middle() - middle;
        let side = (stated.max - middle).min(middle - stated.min).max(Length::ZERO);
        let shift = (worst.band() <= stated.band()).then_some(off);
        let links = i64::try_from(self.path.len()).unwrap_or(1);
        let each = Length::from_pm(side.pm() / links);
        let mut halves: Vec<(usize, Length)> =
            self.path.iter().map(|i| (*i, chain.graph.links[*i].limits.band().half())).collect();
        halves.sort_by_key(|(_, half)| std::cmp::Reverse(*half));
        let fewest = (1..=halves.len()).find_map(|k| {
            let rest: Length = halves[k..].iter().map(|(_, half)| *half).sum();
            let left = Length::from_pm((side - rest).pm() / i64::try_from(k).unwrap_or(1));
            left.is_positive().then(|| {
                let mut links: Vec<usize> = halves[..k].iter().map(|(i, _)| *i).collect();
                links.sort_unstable();
                (links, left)
            })
        });
        Some(Remedies { shift, each, fewest })
    }
}
