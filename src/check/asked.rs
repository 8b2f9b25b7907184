//! Orders that the description asks for, and the order of a plan, as pairs of operations.

use super::Facts;
use crate::finding::Place;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Feature, Kind, Plan};
use crate::tell;

/// One operation that stands, or is wished, before another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair<'a> {
    /// What is done first.
    pub(super) first: Verb,
    /// On this feature.
    pub(super) first_on: Option<&'a Feature>,
    /// What is done after it.
    pub(super) then: Verb,
    /// On this feature.
    pub(super) then_on: Option<&'a Feature>,
    /// Where the wish stands; none for an order of the plan.
    pub(super) wish: Option<Place>,
    /// The rule against it, for a wish that is refused.
    pub(super) rule: &'a str,
}

/// The operation that makes a feature what it is.
fn makes(feature: &Feature) -> Verb {
    match feature.kind {
        Kind::Thread { .. } => Verb::Thread,
        Kind::Relief { .. } | Kind::Groove { .. } | Kind::Undercut { .. } => Verb::Groove,
        Kind::Knurl { .. } => Verb::Knurl,
        Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } | Kind::Flats { .. } => Verb::Mill,
        Kind::CrossHole { .. } => Verb::Drill,
        _ => Verb::Finish,
    }
}

impl Pair<'_> {
    /// `polish before mill`, with the features.
    pub(super) fn words(&self) -> String {
        let said = |verb: Verb, on: Option<&Feature>| match on {
            // `thread C`, not `thread thread C`.
            Some(feature) if feature.called().split(' ').next() == Some(verb.word()) => feature.called(),
            Some(feature) => format!("{} {}", verb.word(), feature.called()),
            None => verb.word().to_owned(),
        };
        tell!("{} comes before {}", "{} kommt vor {}", said(self.first, self.first_on), said(self.then, self.then_on))
    }

    /// Where a finding about it stands: at the wish, else at the feature that is done too early.
    pub(super) fn place(&self) -> Option<Place> {
        self.wish.or(self.first_on.map(|f| f.head))
    }
}

impl<'a> Facts<'a> {
    /// Orders that the description wishes: those refused, and those the plan follows.
    pub(super) fn wished_pairs(&self) -> Vec<Pair<'a>> {
        let Some(derived) = self.derived else { return Vec::new() };
        let mut pairs = Vec::new();
        for refused in &derived.refused {
            let ((first, first_on), (then, then_on)) = (refused.first, refused.then);
            let on = |id: Option<usize>| id.and_then(|f| self.feature(f));
            let (first_on, then_on) = (on(first_on), on(then_on));
            let pair = Pair { first, first_on, then, then_on, wish: Some(refused.place), rule: refused.why.rule };
            pairs.push(pair);
            // A wish that names features alone means what makes them: their thread, groove, slot or last cut.
            if let Some((a, b)) = refused.wish.split_once(" before ") {
                let (first_on, then_on) = (self.named(a).or(first_on), self.named(b).or(then_on));
                let first = if a.starts_with(first.word()) { first } else { first_on.map_or(first, makes) };
                let then = if b.starts_with(then.word()) { then } else { then_on.map_or(then, makes) };
                pairs.push(Pair { first, first_on, then, then_on, rule: "", ..pair });
            }
        }
        for (before, after, why) in derived.before.iter().filter(|(.., w)| w.rule == "wish") {
            let (Some((a, _)), Some((b, _))) = (derived.operations.get(*before), derived.operations.get(*after)) else {
                continue;
            };
            let Some(place) = self.wish_place(&why.reason) else { continue };
            pairs.push(self.pair(a, b, Some(place)));
        }
        pairs
    }

    /// Wishes, then every pair of operations of the plan, the earlier first.
    pub(super) fn pairs(&self) -> impl Iterator<Item = Pair<'a>> {
        let row: Vec<&Operation> = self.plan.into_iter().flat_map(Plan::operations).map(|(_, o)| o).collect();
        let count = row.len();
        let planned = (0..count).flat_map(move |i| (i + 1..count).map(move |j| (i, j)));
        self.wished_pairs().into_iter().chain(planned.map(move |(i, j)| self.pair(row[i], row[j], None)))
    }

    fn pair(&self, a: &Operation, b: &Operation, wish: Option<Place>) -> Pair<'a> {
        let on = |o: &Operation| o.feature.and_then(|f| self.feature(f));
        Pair { first: a.verb, first_on: on(a), then: b.verb, then_on: on(b), wish, rule: "" }
    }

    /// The feature that a wish names alone: by its name, its letter, or a kind that only one has.
    fn named(&self, text: &str) -> Option<&'a Feature> {
        let letter = |f: &&Feature| !f.letter.is_empty() && f.letter.eq_ignore_ascii_case(text);
        let by_name = self.part.named(text).or_else(|| self.part.features.iter().find(letter));
        let mut of_kind = self.part.features.iter().filter(|f| f.kind.word().eq_ignore_ascii_case(text));
        by_name.or_else(|| of_kind.next().filter(|_| of_kind.next().is_none()))
    }

    /// The `before:` entry that a reason quotes.
    fn wish_place(&self, reason: &str) -> Option<Place> {
        let wishes = &self.part.wishes.before;
        let quoted = wishes.iter().find(|(a, b)| reason.ends_with(&format!("{} before {}", a.text, b.text)));
        quoted.map(|(a, _)| a.place)
    }

    /// Mountings for which something holds and cannot be helped: those of the plan, or, without one, where it holds for every
    /// mounting that some operation may be done in.
    pub(super) fn unavoidable(&self, holds: impl Fn(&Setup) -> bool) -> Vec<&'a Setup> {
        if let Some(plan) = self.plan {
            return plan.setups.iter().filter(|s| holds(s)).collect();
        }
        let Some(derived) = self.derived else { return Vec::new() };
        let mut found: Vec<&Setup> = Vec::new();
        for (_, places) in &derived.operations {
            let setups: Vec<&Setup> = places.iter().filter_map(|m| derived.mountings.get(*m)).collect();
            if !setups.is_empty() && setups.iter().all(|s| holds(s)) && !found.iter().any(|f| f.name == setups[0].name)
            {
                found.push(setups[0]);
            }
        }
        found
    }

    /// Whether the drawing forbids a center hole in an end.
    pub(super) fn center_forbidden(&self, end: End) -> bool {
        let none = |f: &Feature| matches!(&f.kind, Kind::CenterHole { size: None, ends } if ends.at(end));
        self.part.features.iter().any(none)
    }

    /// Where a finding about a mounting stands: at the section held, else at the bar, else at the part.
    pub(super) fn setup_place(&self, setup: &Setup) -> Place {
        let held = setup.grip.as_ref().filter(|g| !g.letter.is_empty());
        let section = held.and_then(|g| self.part.features.iter().find(|f| f.letter == g.letter));
        let bar = self.part.stock.as_ref().map(|s| s.place);
        section.map(|f| f.head).or(bar).unwrap_or(self.part.name.place)
    }

    /// Whether two sections lie side by side, or with only a relief or groove between.
    pub(super) fn beside_each_other(&self, one: &Feature, other: &Feature) -> bool {
        let sections: Vec<&Feature> = self.part.sections().collect();
        let at = |f: &Feature| sections.iter().position(|s| s.id == f.id);
        let (Some(a), Some(b)) = (at(one), at(other)) else { return false };
        let (low, high) = (a.min(b), a.max(b));
        low != high && sections[low + 1..high].iter().all(|s| matches!(s.kind, Kind::Relief { .. }))
    }
}
