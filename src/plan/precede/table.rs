//! The operations of one part and the pairs collected so far, with the questions the rules ask of them.

use std::collections::BTreeSet;

use crate::model::feature::Kind;
use crate::model::plan::{Operation, Verb};
use crate::model::{End, Part};
use crate::plan::derive::{Layout, Section};
use crate::plan::rules::because;
use crate::unit::Station;

use super::{Pairs, Switches};
use crate::{tell, told};

/// Pairs of one rule that are written out one by one; a part of some hundred sections has more.
const MOST_PAIRS: usize = 4_000;

/// Whether one before another of these would be too many pairs to write down.
pub(super) const fn is_many(first: &[usize], then: &[usize]) -> bool {
    first.len() * then.len() > MOST_PAIRS
}

/// A pass over one part.
pub(super) struct Table<'a> {
    pub(super) part: &'a Part,
    pub(super) layout: &'a Layout,
    operations: &'a [Operation],
    switches: &'a Switches,
    pub(super) pairs: Pairs,
    /// Pairs already said, by rule: a long part has tens of thousands.
    said: BTreeSet<(usize, usize, &'static str)>,
}

impl<'a> Table<'a> {
    pub(super) fn new(part: &'a Part, layout: &'a Layout, operations: &'a [Operation], switches: &'a Switches) -> Self {
        Self { part, layout, operations, switches, pairs: Pairs::default(), said: BTreeSet::new() }
    }

    pub(super) fn before(&mut self, id: &'static str, a: usize, b: usize, reason: impl Into<String>) {
        if a != b && self.switches.on(id) && self.said.insert((a, b, id)) {
            self.pairs.before.push((a, b, because(id, reason)));
        }
    }

    /// All of the first before all of the others; both rising. Where that is too many pairs to write down, one of the first gathers the rest:
    /// the last listed, which by the list comes last anyway.
    pub(super) fn all_before(
        &mut self,
        id: &'static str,
        first: &[usize],
        then: &[usize],
        reason: impl Fn(&Self, usize, usize) -> String,
    ) {
        let Some(last) = first.last().copied().filter(|_| is_many(first, then)) else {
            for (a, b) in first.iter().flat_map(|a| then.iter().map(move |b| (*a, *b))) {
                let reason = reason(self, a, b);
                self.before(id, a, b, reason);
            }
            return;
        };
        for a in first.iter().copied().filter(|a| *a != last) {
            let reason = reason(self, a, last);
            self.before(id, a, last, reason);
        }
        for b in then.iter().copied().filter(|b| first.binary_search(b).is_err()) {
            let reason = reason(self, last, b);
            self.before(id, last, b, reason);
        }
    }

    pub(super) fn together(&mut self, id: &'static str, a: usize, b: usize, reason: impl Into<String>) {
        if a != b && self.switches.on(id) {
            self.pairs.together.push((a, b, because(id, reason)));
        }
    }

    pub(super) fn all(&self, wanted: impl Fn(&Operation) -> bool) -> Vec<usize> {
        // What is cut inside has rules of its own, and so have what is cut about an eccentric's axis and what is done for a rest.
        let plain = |o: &Operation| !o.inside && o.throw.is_none() && !o.for_rest;
        (0..self.operations.len()).filter(|i| plain(&self.operations[*i]) && wanted(&self.operations[*i])).collect()
    }

    /// Operations about an eccentric's axis.
    pub(super) fn thrown(&self) -> Vec<usize> {
        (0..self.operations.len()).filter(|i| self.operations[*i].throw.is_some()).collect()
    }

    /// How many operations there are.
    pub(super) const fn count(&self) -> usize {
        self.operations.len()
    }

    /// Operations inside that are wanted.
    pub(super) fn inside(&self, wanted: impl Fn(&Operation) -> bool) -> Vec<usize> {
        (0..self.operations.len()).filter(|i| self.operations[*i].inside && wanted(&self.operations[*i])).collect()
    }

    /// Every pair of an operation of the first kind and one of the second.
    pub(super) fn cross(
        &self,
        first: impl Fn(&Operation) -> bool,
        then: impl Fn(&Operation) -> bool,
    ) -> Vec<(usize, usize)> {
        let (first, then) = (self.all(first), self.all(then));
        first.iter().flat_map(|a| then.iter().map(move |b| (*a, *b))).collect()
    }

    pub(super) fn last(&self, operation: &Operation) -> bool {
        is_last_cut(self.layout, operation)
    }

    pub(super) const fn operations(&self) -> &'a [Operation] {
        self.operations
    }

    pub(super) fn op(&self, i: usize) -> &'a Operation {
        &self.operations[i]
    }

    /// Letters of what an operation works, for a sentence.
    pub(super) fn call(&self, i: usize) -> String {
        let feature = self.op(i).feature.and_then(|f| self.part.features.get(f));
        match (feature, self.op(i).end) {
            (Some(f), _) if !f.letter.is_empty() => f.letter.clone(),
            (_, Some(end)) => tell!("the {} end", "das {}ende", end.said()),
            (Some(f), None) => f.called(),
            (None, None) => told!("the part", "das Teil").to_owned(),
        }
    }

    /// The section on which an operation's feature lies, when it is no section itself.
    pub(super) fn host(&self, operation: &Operation) -> Option<&'a Section> {
        let feature = operation.feature?;
        if self.layout.section(feature).is_some() {
            return None;
        }
        let (from, to) = stretch(operation)?;
        self.layout.under(from, to)
    }

    /// Whether an operation cuts an undercut in a corner.
    pub(super) fn is_undercut(&self, operation: &Operation) -> bool {
        let feature = operation.feature.and_then(|f| self.part.features.get(f));
        feature.is_some_and(|f| matches!(f.kind, crate::model::Kind::Undercut { .. }))
    }

    /// The section whose edge a chamfer breaks.
    pub(super) fn chamfered(&self, chamfer: &Operation) -> Option<usize> {
        let (from, to) = stretch(chamfer)?;
        self.layout.under(from, to).map(|s| s.feature)
    }

    /// A neck beside one of an operation's sections.
    pub(super) fn beside(&self, neck: &Operation, last: &Operation) -> bool {
        let Some(feature) = neck.feature.filter(|f| self.layout.section(*f).is_some()) else { return false };
        let (one, other) = self.layout.beside(feature);
        [one, other].into_iter().flatten().any(|s| covers(last, s.feature))
    }

    /// The section outboard of a neck, seen from the tailstock.
    pub(super) fn outboard(&self, neck: &Operation) -> Option<usize> {
        let feature = neck.feature.filter(|f| self.layout.section(*f).is_some())?;
        let (toward_datum, toward_far) = self.layout.beside(feature);
        let outboard = if neck.end == Some(End::Far) { toward_far } else { toward_datum };
        outboard.map(|s| s.feature)
    }

    /// The last cuts of each feature, so that a rule need not ask every operation about every other.
    pub(super) fn lasts_by_feature(&self) -> Vec<Vec<usize>> {
        let mut by = vec![Vec::new(); self.part.features.len()];
        for i in self.all(|o| self.last(o)) {
            let o = self.op(i);
            for f in o.feature.into_iter().chain(o.with.iter().copied()) {
                if let Some(list) = by.get_mut(f).filter(|l: &&mut Vec<usize>| l.last() != Some(&i)) {
                    list.push(i);
                }
            }
        }
        by
    }
}

pub(super) fn is_face(operation: &Operation, end: End) -> bool {
    operation.verb == Verb::Face && operation.end == Some(end)
}

pub(super) fn is_end_work(operation: &Operation) -> bool {
    matches!(operation.verb, Verb::Face | Verb::Center)
}

pub(super) fn is_bench(operation: &Operation) -> bool {
    matches!(operation.verb, Verb::Deburr | Verb::FitTest | Verb::Inspect)
}

/// A cut on the lathe other than facing, centering and parting.
pub(in crate::plan) fn is_cut(operation: &Operation) -> bool {
    !is_end_work(operation)
        && !is_bench(operation)
        && !matches!(operation.verb, Verb::Mill | Verb::Drill | Verb::Tap | Verb::PartOff | Verb::HeatTreat)
}

/// The cut that brings a section to its size; a groove on a section is none, a narrow valley made by the grooving tool is.
pub(in crate::plan) fn is_last_cut(layout: &Layout, operation: &Operation) -> bool {
    if operation.inside || operation.throw.is_some() || operation.for_rest {
        return false;
    }
    let section = || operation.feature.and_then(|f| layout.section(f));
    match operation.verb {
        Verb::Finish | Verb::Turn | Verb::Taper => true,
        Verb::Groove => section().is_some_and(Section::is_turned),
        _ => false,
    }
}

/// A cut that heats or springs the work.
pub(super) fn is_heavy(operation: &Operation) -> bool {
    matches!(operation.verb, Verb::Rough | Verb::Groove | Verb::Finish | Verb::Turn | Verb::Taper) && !operation.close
}

/// Whether an operation works a feature.
pub(in crate::plan) fn covers(operation: &Operation, feature: usize) -> bool {
    operation.feature == Some(feature) || operation.with.contains(&feature)
}

/// Whether two operations work a feature in common.
pub(super) fn share(one: &Operation, other: &Operation) -> bool {
    one.feature.into_iter().chain(one.with.iter().copied()).any(|f| covers(other, f))
}

/// Whether two operations cut on a common stretch and may be worked from one end; true where one has no place.
pub(super) fn meet(one: &Operation, other: &Operation) -> bool {
    if one.end.is_some() && other.end.is_some() && one.end != other.end {
        return false;
    }
    match (stretch(one), stretch(other)) {
        (Some((a, b)), Some((c, d))) => a < d && c < b,
        _ => true,
    }
}

pub(super) fn stretch(operation: &Operation) -> Option<(Station, Station)> {
    let (a, b) = (operation.from?, operation.to?);
    Some((a.min(b), a.max(b)))
}

/// Whether a kind is milled or drilled across: used for wishes about operations that are not planned.
pub(in crate::plan) fn is_slot_kind(kind: &Kind) -> bool {
    matches!(kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } | Kind::CrossHole { .. } | Kind::Flats { .. })
}
