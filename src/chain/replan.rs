//! Work that has begun, and came out otherwise than drawn: what can still be met, which faces to cut again for it, the least that
//! the drawing would have to give, and why.
//!
//! A face that is made stands where it was measured, or is cut again and then only goes the way metal comes off. What is still to
//! be cut goes anywhere its metal lets it. Both, and every stated length, are difference constraints: they can be kept together
//! exactly when no loop of them adds up to less than nothing, and that loop is the proof where they cannot. The least the drawing
//! must give, summed over its limits, is the dual of a circulation of least cost in which each limit carries one unit
//! (R. K. Ahuja, T. L. Magnanti, J. B. Orlin, Network Flows, 1993, ch. 9: cycle cancelling and complementary slackness); all of it
//! in whole picometres.
//!
//! A reading has an error of its own. What is done is judged by the reading as it stands; what is still cut is aimed where every stated
//! length is kept however the readings of the faces it is counted from were off, so its window is narrower by their errors: a length from
//! a face that stands to one that is cut holds for all of them exactly when its limits, less that error, do. Where that leaves nothing
//! the limit counts as read, and is told as unsure. A clash that goes away when each face may stand anywhere within its error is told
//! as doubtful.

mod errors;
mod stated;

use errors::Errors;
pub use stated::stated;

use super::arcs::{Arc, negative_loop, potentials};
use crate::model::End;
use crate::unit::{Length, Limits};

/// Sets of faces to cut again that are tried in full, smallest first, as long as their arcs together are no more than this; beyond, a
/// set of which each is needed is taken.
const MOST_ARCS: usize = 20_000_000;
/// Loops cancelled at most; a part has as many as it has limits that clash.
const MOST_LOOPS: usize = 10_000;

/// A face as it is now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Now {
    /// Where it stands, from where the datum face stood when it was measured; none where nothing is known of it.
    pub at: Option<Length>,
    /// The end it looks to: a face that looks to the datum end moves away from it when it is cut.
    pub looks: End,
    /// Whether an operation still to be done cuts it.
    pub open: bool,
    /// Whether it can be cut again though it is done.
    pub again: bool,
    /// Where the drawing has it.
    pub drawn: Option<Length>,
    /// By how much the reading of it may be off, a half-width; nothing where there is none.
    pub error: Length,
}

/// A stated length: `to − from` lies within the limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stated {
    /// Near face.
    pub from: usize,
    /// Far face.
    pub to: usize,
    /// Limits.
    pub limits: Limits,
    /// One face under two names, or a size nobody may change: it never gives.
    pub fixed: bool,
}

/// What becomes of the rest.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Replan {
    /// Where each face is to be, in the frame of the readings: measured, or to be cut to.
    pub at: Vec<Option<Length>>,
    /// Within what each face that is still cut may come out, the others being where `at` has them.
    pub windows: Vec<Option<Limits>>,
    /// Faces that are done and are cut again, the fewest that suffice.
    pub again: Vec<usize>,
    /// Whether no smaller set of faces cut again would do.
    pub fewest: bool,
    /// What the drawing must give: stated length (index) and by how much, above zero over its largest, below zero under its smallest.
    pub gives: Vec<(usize, Length)>,
    /// Stated lengths that no recut keeps together (indices), where the drawing must give.
    pub clash: Vec<usize>,
    /// By how much they miss each other.
    pub misses: Length,
    /// Whether readings that are off by no more than their errors could leave no clash at all.
    pub doubtful: bool,
    /// Stated lengths (indices) that are kept by the readings and might not be, and by how much they then miss at most.
    pub unsure: Vec<(usize, Length)>,
}

/// Works the rest out; none when the question makes no sense (a face that does not exist, numbers past all measure).
///
/// New aims are whole multiples of `step` where that keeps them inside.
pub fn replan(faces: &[Now], stated: &[Stated], step: Length) -> Option<Replan> {
    let fits =
        |s: &Stated| s.from < faces.len() && s.to < faces.len() && s.from != s.to && s.limits.min <= s.limits.max;
    if !stated.iter().all(fits) {
        return None;
    }
    let mut net = Net { faces, stated: stated.to_vec(), step };
    let mut out = Replan { fewest: true, ..Replan::default() };
    let all: Vec<usize> = (0..faces.len()).filter(|f| faces[*f].again && !faces[*f].open).collect();
    if let Some((clash, misses)) = net.clash(&all) {
        (out.clash, out.misses) = (clash, misses);
        out.doubtful = negative_loop(&net.arcs_by(&all, &Errors::AnyWithin), faces.len() + 1).is_none();
        out.gives = net.least_giving(&all)?;
        for (i, by) in &out.gives {
            let limits = &mut net.stated[*i].limits;
            *limits = if by.is_positive() {
                Limits::new(limits.min, limits.max + *by)
            } else {
                Limits::new(limits.min + *by, limits.max)
            };
        }
    }
    (out.again, out.fewest) = net.fewest(&all)?;
    net.places(&mut out)?;
    Some(out)
}

struct Net<'a> {
    faces: &'a [Now],
    stated: Vec<Stated>,
    step: Length,
}

impl Net<'_> {
    /// Every constraint as arcs `x(to) ≤ x(from) + most`; the last node is the frame of the readings.
    fn arcs(&self, again: &[usize]) -> Vec<Arc> {
        self.arcs_by(again, &Errors::AsRead)
    }

    fn arcs_by(&self, again: &[usize], errors: &Errors<'_>) -> Vec<Arc> {
        let frame = self.faces.len();
        let mut arcs = Vec::new();
        for (i, s) in self.stated.iter().enumerate() {
            let limit = |over| (!s.fixed).then_some((i, over));
            let less = if let Errors::Less(by) = errors { by[i] } else { Length::ZERO };
            arcs.push(Arc { from: s.from, to: s.to, most: (s.limits.max - less).pm(), limit: limit(true) });
            arcs.push(Arc { from: s.to, to: s.from, most: -(s.limits.min + less).pm(), limit: limit(false) });
        }
        for (f, face) in self.faces.iter().enumerate() {
            let free = face.open || again.contains(&f);
            // What is done and was not measured is taken to be as drawn.
            let Some(at) = face.at.or(face.drawn.filter(|_| !face.open)) else { continue };
            let off = if matches!(errors, Errors::AnyWithin) { face.error } else { Length::ZERO };
            if !free || face.looks == End::Far {
                arcs.push(Arc { from: frame, to: f, most: (at + off).pm(), limit: None });
            }
            if !free || face.looks == End::Datum {
                arcs.push(Arc { from: f, to: frame, most: -(at - off).pm(), limit: None });
            }
        }
        arcs
    }

    /// Stated lengths that cannot be kept together, each of which is needed for it, and by how much they miss each other.
    fn clash(&self, again: &[usize]) -> Option<(Vec<usize>, Length)> {
        let among = |kept: &dyn Fn(usize) -> bool| {
            let arcs: Vec<Arc> =
                self.arcs(again).into_iter().filter(|a| a.limit.is_none_or(|(s, _)| kept(s))).collect();
            let found = negative_loop(&arcs, self.faces.len() + 1)?;
            let mut named: Vec<usize> = found.arcs.iter().filter_map(|a| a.limit).map(|(s, _)| s).collect();
            named.sort_unstable();
            named.dedup();
            Some((named, Length::from_pm(-found.sum)))
        };
        let (mut named, mut misses) = among(&|_| true)?;
        let mut at = 0;
        while at < named.len() {
            match among(&|s| s != named[at] && named.contains(&s)) {
                Some((fewer, by)) => (named, misses, at) = (fewer, by, 0),
                None => at += 1,
            }
        }
        Some((named, misses))
    }

    fn holds(&self, again: &[usize]) -> bool {
        negative_loop(&self.arcs(again), self.faces.len() + 1).is_none()
    }

    /// The fewest faces cut again that leave no clash, and whether that is proved; none where all of them do not suffice.
    fn fewest(&self, all: &[usize]) -> Option<(Vec<usize>, bool)> {
        let most = MOST_ARCS / self.arcs(all).len().max(1);
        let mut tried = 0;
        for size in 0..=all.len() {
            let mut picks: Vec<usize> = (0..size).collect();
            loop {
                let set: Vec<usize> = picks.iter().map(|i| all[*i]).collect();
                if self.holds(&set) {
                    return Some((set, true));
                }
                tried += 1;
                if tried > most {
                    return self.needed(all).map(|set| (set, false));
                }
                if !next(&mut picks, all.len()) {
                    break;
                }
            }
        }
        None
    }

    /// A set of faces cut again of which each is needed.
    fn needed(&self, all: &[usize]) -> Option<Vec<usize>> {
        let mut set = all.to_vec();
        if !self.holds(&set) {
            return None;
        }
        for face in all {
            let fewer: Vec<usize> = set.iter().copied().filter(|f| f != face).collect();
            if self.holds(&fewer) {
                set = fewer;
            }
        }
        Some(set)
    }

    /// The least that limits must give so that the rest holds.
    fn least_giving(&self, again: &[usize]) -> Option<Vec<(usize, Length)>> {
        let frame = self.faces.len();
        let arcs = self.arcs(again);
        // A limit carries one unit, there and back; metal carries any.
        let mut used = vec![0_u64; arcs.len()];
        let residual = |used: &[u64]| -> Vec<(Arc, usize, bool)> {
            let mut list = Vec::new();
            for (i, arc) in arcs.iter().enumerate() {
                if arc.limit.is_none() || used[i] == 0 {
                    list.push((*arc, i, true));
                }
                if used[i] > 0 {
                    list.push((Arc { from: arc.to, to: arc.from, most: -arc.most, limit: arc.limit }, i, false));
                }
            }
            list
        };
        for _ in 0..MOST_LOOPS {
            let list = residual(&used);
            let bare: Vec<Arc> = list.iter().map(|(a, ..)| *a).collect();
            let Some(found) = negative_loop(&bare, frame + 1) else {
                let at = potentials(&bare, frame + 1);
                return Some(self.given_at(&at));
            };
            // Where nothing on the loop has an end, the metal contradicts itself.
            let room = |at: &usize| match list[*at] {
                (arc, _, true) if arc.limit.is_none() => u64::MAX,
                (_, _, true) => 1,
                (_, i, false) => used[i],
            };
            let push = found.places.iter().map(room).min().filter(|n| *n < u64::MAX)?;
            for at in &found.places {
                let (_, i, onward) = list[*at];
                used[i] = if onward { used[i] + push } else { used[i] - push };
            }
        }
        None
    }

    /// By how much each limit is missed when faces stand so.
    fn given_at(&self, at: &[i64]) -> Vec<(usize, Length)> {
        let free = self.stated.iter().enumerate().filter(|(_, s)| !s.fixed);
        free.filter_map(|(i, s)| {
            let is = Length::from_pm(at[s.to] - at[s.from]);
            let by = if is > s.limits.max { is - s.limits.max } else { (is - s.limits.min).min(Length::ZERO) };
            (by != Length::ZERO).then_some((i, by))
        })
        .collect()
    }

    /// Where each face goes: what is done stays, what is cut stays as drawn where that is as safe as it was, and goes to the
    /// middle of what is left to it where it is not.
    fn places(&self, out: &mut Replan) -> Option<()> {
        let frame = self.faces.len();
        let margins = self.margins(&out.again);
        let mut arcs = self.arcs_by(&out.again, &Errors::Less(&margins));
        out.at = vec![None; frame];
        out.windows = vec![None; frame];
        let mut order: Vec<usize> = (0..frame).collect();
        // Faces that are done tell where they are; then those that the drawing places, from the datum end.
        order.sort_by_key(|f| (self.faces[*f].open || out.again.contains(f), self.faces[*f].drawn));
        let drawn_windows = self.drawn_windows();
        for f in order {
            let face = self.faces[f];
            let window = reach(&arcs, frame, f)?;
            let cut = face.open || out.again.contains(&f);
            let place = match (cut, window) {
                (false, _) => face.at.or(face.drawn),
                (true, window) => aim(face.drawn, window, drawn_windows[f], self.step),
            };
            out.at[f] = place;
            if let Some(at) = place {
                arcs.push(Arc { from: frame, to: f, most: at.pm(), limit: None });
                arcs.push(Arc { from: f, to: frame, most: -at.pm(), limit: None });
            }
        }
        // Within what each may come out, the others standing where they are aimed.
        for f in (0..frame).filter(|f| self.faces[*f].open || out.again.contains(f)) {
            let mut others = self.arcs_by(&out.again, &Errors::Less(&margins));
            for (g, at) in out.at.iter().enumerate().filter(|(g, _)| *g != f) {
                if let Some(at) = at.filter(|_| !self.same(f, g)) {
                    others.push(Arc { from: frame, to: g, most: at.pm(), limit: None });
                    others.push(Arc { from: g, to: frame, most: -at.pm(), limit: None });
                }
            }
            let (low, high) = reach(&others, frame, f)?;
            out.windows[f] = low.zip(high).map(|(low, high)| Limits::new(low, high));
        }
        out.unsure = self.unsure(out);
        Some(())
    }

    /// Whether two names are one face.
    fn same(&self, one: usize, other: usize) -> bool {
        let joined = |s: &&Stated| s.fixed && ((s.from, s.to) == (one, other) || (s.to, s.from) == (one, other));
        self.stated.iter().any(|s| joined(&s))
    }

    /// Within what each face lies when nothing is cut yet and the datum face is where it is drawn.
    fn drawn_windows(&self) -> Vec<Option<Limits>> {
        let faces: Vec<Now> = self
            .faces
            .iter()
            .enumerate()
            .map(|(f, n)| Now { at: (f == 0).then_some(Length::ZERO), open: f > 0, again: false, ..*n })
            .collect();
        let net = Net { faces: &faces, stated: self.stated.clone(), step: self.step };
        let arcs = net.arcs(&[]);
        (0..faces.len())
            .map(|f| {
                let (low, high) = reach(&arcs, faces.len(), f)?;
                low.zip(high).map(|(low, high)| Limits::new(low, high))
            })
            .collect()
    }
}

/// Where a face is aimed: as drawn where that is no closer to an edge than the drawing has it, or well inside; else the middle.
fn aim(
    drawn: Option<Length>,
    (low, high): (Option<Length>, Option<Length>),
    was: Option<Limits>,
    step: Length,
) -> Option<Length> {
    let inside = |at: Length, limits: Limits| (at - limits.min).min(limits.max - at);
    match (low, high) {
        (Some(low), Some(high)) => {
            let window = Limits::new(low, high);
            let quarter = Length::from_pm(window.band().pm() / 4);
            let kept = drawn.filter(|at| window.holds(*at)).filter(|at| {
                let had = was.filter(|w| w.holds(*at)).map_or(quarter, |w| inside(*at, w));
                inside(*at, window) >= had.min(quarter)
            });
            let middle = window.middle();
            let round = Some(middle.round_to(step)).filter(|at| step.is_positive() && window.holds(*at));
            kept.or(round).or(Some(middle))
        }
        (Some(low), None) => Some(drawn.map_or(low, |at| at.max(low))),
        (None, Some(high)) => Some(drawn.map_or(high, |at| at.min(high))),
        (None, None) => drawn,
    }
}

/// Least and most of a face from the frame; none when the arcs contradict each other.
fn reach(arcs: &[Arc], frame: usize, face: usize) -> Option<(Option<Length>, Option<Length>)> {
    let high = super::arcs::shortest(arcs, frame + 1, frame, false)?[face];
    let low = super::arcs::shortest(arcs, frame + 1, frame, true)?[face];
    Some((low.map(|l| Length::from_pm(-l)), high.map(Length::from_pm)))
}

/// The next choice of so many out of `n`, in order.
fn next(picks: &mut [usize], n: usize) -> bool {
    let size = picks.len();
    for i in (0..size).rev() {
        if picks[i] < n - (size - i) {
            picks[i] += 1;
            for j in i + 1..size {
                picks[j] = picks[j - 1] + 1;
            }
            return true;
        }
    }
    false
}
