//! States of faces and the cuts that join them. A state of a face ends when the face is cut again; a cut joins the state it is
//! measured from with the state it makes. Each cut makes a new state, so the joints are trees; a second cut of one face in one
//! operation would close a loop and is set aside.

use std::collections::{BTreeMap, VecDeque};

use crate::model::End;
use crate::model::chart::{Chart, MeasuredBy};
use crate::unit::Length;

/// A signed sum of working dimensions, each at most once: cut and sign.
pub(super) type Terms = Vec<(usize, i64)>;

/// A cut as a joint: the place of `to` less the place of `from` is `sign` times the working dimension.
#[derive(Debug, Clone, Copy)]
pub(super) struct Joint {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) sign: i64,
}

/// What a cut takes off: the place of `new` less the place of `old` is `sign` times the stock.
#[derive(Debug, Clone, Copy)]
pub(super) struct Removal {
    pub(super) cut: usize,
    pub(super) old: usize,
    pub(super) new: usize,
    pub(super) sign: i64,
}

/// A cut that cannot be a joint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misplaced {
    /// The face is cut already in the same operation: cut, the one before it, the loop of cuts between them.
    Twice(usize, usize, Vec<usize>),
    /// Measured from the face that it cuts.
    FromItself(usize),
}

/// All states, joints and removals of a chart.
#[derive(Debug)]
pub(super) struct Tree {
    /// Joint of each cut, by its index; none for a cut set aside.
    pub(super) joints: Vec<Option<Joint>>,
    pub(super) removals: Vec<Removal>,
    /// Last state of each face, if it has any.
    pub(super) last: Vec<Option<usize>>,
    /// Cuts in the order they are made.
    pub(super) order: Vec<usize>,
    pub(super) misplaced: Vec<Misplaced>,
    /// Joints at each state.
    at: Vec<Vec<usize>>,
}

impl Tree {
    pub(super) fn of(chart: &Chart) -> Self {
        let mut order: Vec<usize> = (0..chart.cuts.len()).collect();
        order.sort_by_key(|i| chart.cuts[*i].op);
        let mut tree = Self {
            joints: vec![None; chart.cuts.len()],
            removals: Vec::new(),
            last: vec![None; chart.faces.len()],
            order,
            misplaced: Vec::new(),
            at: Vec::new(),
        };
        let mut made: BTreeMap<(u32, usize), (usize, usize)> = BTreeMap::new();
        for cut in tree.order.clone() {
            tree.add(chart, cut, &mut made);
        }
        tree
    }

    /// How many states there are.
    pub(super) fn states(&self) -> usize {
        self.at.len()
    }

    fn state(&mut self) -> usize {
        self.at.push(Vec::new());
        self.at.len() - 1
    }

    /// The state a face is in; a raw one where nothing has touched it.
    fn current(&mut self, face: usize) -> usize {
        if let Some(state) = self.last[face] {
            return state;
        }
        let raw = self.state();
        self.last[face] = Some(raw);
        raw
    }

    fn add(&mut self, chart: &Chart, cut: usize, made: &mut BTreeMap<(u32, usize), (usize, usize)>) {
        let c = &chart.cuts[cut];
        let into = match chart.faces[c.face].looks {
            End::Datum => 1,
            End::Far => -1,
        };
        let (from, sign) = match c.by {
            MeasuredBy::From(face) if face == c.face => {
                self.misplaced.push(Misplaced::FromItself(cut));
                return;
            }
            MeasuredBy::From(face) => (self.current(face), if c.face > face { 1 } else { -1 }),
            MeasuredBy::Stock => (self.current(c.face), into),
        };
        if let Some((first, state)) = made.get(&(c.op, c.face)).copied() {
            let mut between: Vec<usize> = self.path(from, state).into_iter().flatten().map(|(i, _)| i).collect();
            if !between.contains(&first) {
                between.push(first);
            }
            between.sort_unstable();
            self.misplaced.push(Misplaced::Twice(cut, first, between));
            return;
        }
        let old = self.last[c.face];
        let new = self.state();
        self.joints[cut] = Some(Joint { from, to: new, sign });
        self.at[from].push(cut);
        self.at[new].push(cut);
        self.last[c.face] = Some(new);
        made.insert((c.op, c.face), (cut, new));
        if let Some(old) = old {
            self.removals.push(Removal { cut, old, new, sign: into });
        }
    }

    /// The cuts between two states with their signs, in order from the first; none when nothing joins them.
    pub(super) fn path(&self, from: usize, to: usize) -> Option<Terms> {
        let mut reached: Vec<Option<usize>> = vec![None; self.at.len()];
        let mut queue = VecDeque::from([from]);
        while let Some(state) = queue.pop_front() {
            if state == to {
                break;
            }
            for &cut in &self.at[state] {
                let Some(joint) = self.joints[cut] else { continue };
                let other = if joint.from == state { joint.to } else { joint.from };
                if other != from && reached[other].is_none() {
                    reached[other] = Some(cut);
                    queue.push_back(other);
                }
            }
        }
        let mut terms = Terms::new();
        let mut state = to;
        while state != from {
            let cut = reached[state]?;
            let joint = self.joints[cut]?;
            if joint.to == state {
                terms.push((cut, joint.sign));
                state = joint.from;
            } else {
                terms.push((cut, -joint.sign));
                state = joint.to;
            }
        }
        terms.reverse();
        Some(terms)
    }
}

/// A place along the axis as a length and a sum of tolerances, which are not all known yet.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Affine {
    pub(super) constant: Length,
    /// How often each cut's tolerance is in it.
    pub(super) tolerances: BTreeMap<usize, i64>,
}

impl Affine {
    pub(super) fn of(constant: Length) -> Self {
        Self { constant, tolerances: BTreeMap::new() }
    }

    /// Adds `times` the other.
    pub(super) fn add(&mut self, other: &Self, times: i64) {
        self.constant += other.constant.times(times);
        for (cut, n) in &other.tolerances {
            *self.tolerances.entry(*cut).or_default() += n * times;
        }
        self.tolerances.retain(|_, n| *n != 0);
    }

    /// Adds `times` the tolerances of all cuts of a path.
    pub(super) fn add_tolerances(&mut self, path: &[(usize, i64)], times: i64) {
        for (cut, _) in path {
            *self.tolerances.entry(*cut).or_default() += times;
        }
        self.tolerances.retain(|_, n| *n != 0);
    }

    /// Its value with these tolerances.
    pub(super) fn value(&self, tolerances: &[Option<Length>]) -> Option<Length> {
        let mut sum = self.constant;
        for (cut, n) in &self.tolerances {
            sum += tolerances[*cut]?.times(*n);
        }
        Some(sum)
    }
}
