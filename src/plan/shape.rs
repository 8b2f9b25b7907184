//! The work as it is at some moment: a row of spans, cut by one operation after another.

use crate::model::End;
use crate::model::plan::{Operation, Span, State, Verb};
use crate::unit::{Length, Station};

use super::derive::{Layout, Shape};

/// The work, bar included, from the datum end outward.
#[derive(Debug, Clone)]
pub(super) struct Work<'a> {
    layout: &'a Layout,
    spans: Vec<Span>,
}

impl<'a> Work<'a> {
    /// The sawn bar, with what is too much over its ends.
    pub(super) fn bar(layout: &'a Layout) -> Self {
        let from = Station::DATUM - layout.over(End::Datum);
        let to = from + layout.sawn;
        let bar = Span { from, to, diameter: layout.bar, diameter_to: layout.bar, state: State::Bar, feature: None };
        let mut work = Self { layout, spans: vec![bar] };
        for section in layout.sections.iter().filter(|s| s.shape == Shape::Kept && !s.thrown) {
            work.each(section.from, section.to, |s| {
                s.state = State::Finished;
                s.feature = Some(section.feature);
            });
        }
        work
    }

    /// What jaws close on where the work measures this: of a bar with corners its flats.
    pub(super) fn jaws_on(&self, diameter: Length) -> Length {
        if diameter == self.layout.bar { self.layout.jaws_on } else { diameter }
    }

    /// The spans now, alike neighbours as one.
    pub(super) fn spans(&self) -> Vec<Span> {
        let mut joined: Vec<Span> = Vec::new();
        for span in &self.spans {
            match joined.last_mut() {
                Some(last) if alike(last, span) => last.to = span.to,
                _ => joined.push(*span),
            }
        }
        joined
    }

    /// Largest diameter between two places.
    pub(super) fn largest(&self, from: Station, to: Station) -> Option<Length> {
        let (a, b) = (from.min(to), from.max(to));
        let first = self.spans.partition_point(|s| s.to < a);
        let near = self.spans[first..].iter().take_while(|s| s.from <= b);
        let inside = near.filter(|s| s.from < b && a < s.to || (a == b && s.from <= a && a <= s.to));
        inside.map(|s| s.diameter.max(s.diameter_to)).max()
    }

    /// What an operation finds before it: the largest diameter it cuts. What roughing left standing at shoulders does not
    /// count for a finish cut: it comes off with the shoulder's face.
    pub(super) fn found(&self, operation: &Operation) -> Option<Length> {
        let (from, to) = (operation.from?, operation.to?);
        if let Some(throw) = operation.throw {
            return self.swings(operation, from, to, throw);
        }
        match operation.verb {
            Verb::Face => self.largest(operation.to?, operation.to?),
            Verb::Mill => self.roughed(from, to),
            Verb::Center | Verb::Drill | Verb::Tap => None,
            Verb::Finish | Verb::Turn | Verb::Taper => {
                let left = self.layout.allow.face.min((to - from).abs().times_ratio(1, 3));
                self.largest(from.min(to) + left, from.max(to) - left)
            }
            _ => self.largest(from, to),
        }
    }

    /// The diameter under a slot that is milled before its seat is finished; none where what it lies on is to size, or an eccentric's.
    fn roughed(&self, from: Station, to: Station) -> Option<Length> {
        let middle = from + (to - from).half();
        let span = self.spans.iter().find(|s| s.from <= middle && middle < s.to)?;
        let plain = self.layout.under(from, to).is_some_and(|s| !s.thrown);
        (span.state == State::Rough && plain).then_some(span.diameter.max(span.diameter_to))
    }

    /// How far a cut along the work is fed with `works` at the tailstock: to where it ends from where the metal it takes begins. That is the
    /// face of the work, or a step that was cut lower before, unless something larger stays between the two: then the tool is plunged in
    /// where its own section begins. None for what is not turned about the part's own axis, or belongs to no end.
    pub(super) fn travel(&self, operation: &Operation, works: Option<End>) -> Option<Length> {
        if operation.verb == Verb::PartOff {
            // From the outside to where the metal ends: the middle, or the hole that is cut before.
            let open = self.layout.open_where_parted();
            return self.found(operation).map(|d| (d - open).half().max(Length::ZERO));
        }
        let along = matches!(operation.verb, Verb::Rough | Verb::Finish | Verb::Turn);
        if !along || operation.inside || operation.throw.is_some() || operation.for_rest {
            return None;
        }
        let (from, to, size) = (operation.from?, operation.to?, operation.to_diameter?);
        let end = operation.end.or(works)?;
        let depth = |at: Station| self.layout.depth(end, at);
        let (start, stop) = if depth(from) <= depth(to) { (from, to) } else { (to, from) };
        let walled = self.layout.largest_outboard(end, start).is_some_and(|d| d > size);
        let nearest = if walled { start } else { self.layout.face(end) };
        let metal = self.spans.iter().filter(|s| s.diameter.max(s.diameter_to) > size);
        let cut = metal.filter_map(|s| {
            let (outer, inner) = if end == End::Datum { (s.from, s.to) } else { (s.to, s.from) };
            let begins = depth(outer).max(depth(nearest));
            if begins >= depth(inner).min(depth(stop)) {
                return None;
            }
            // What roughing left standing at a shoulder farther out comes off with that shoulder's face.
            match (depth(inner).min(depth(start)) - begins <= self.layout.allow.face, inner) {
                (false, _) => Some(begins),
                (true, inner) if depth(inner) > depth(start) => Some(begins.max(depth(start))),
                (true, _) => None,
            }
        });
        cut.min().map(|begins| depth(stop) - begins)
    }

    /// The largest diameter about an eccentric's axis that the work has where it is cut.
    fn swings(&self, operation: &Operation, from: Station, to: Station, throw: Length) -> Option<Length> {
        let (a, b) = (from.min(to), from.max(to));
        let begun = self.spans.iter().filter(|s| s.from < b && a < s.to);
        let about = |s: &Span| {
            let eccentric = s.feature.and_then(|f| self.layout.section(f)).is_some_and(|s| s.thrown);
            // What is turned about that axis already stands here by what it sweeps about the part's.
            if eccentric { s.diameter - throw.times(2) } else { s.diameter.max(s.diameter_to) + throw.times(2) }
        };
        let left = self.layout.allow.face.min((b - a).times_ratio(1, 3));
        let inner = begun.filter(|s| s.from < b - left && a + left < s.to);
        inner.map(about).max().filter(|_| !matches!(operation.verb, Verb::Chamfer))
    }

    /// Applies a cut about an eccentric's axis: what stands there afterwards, about the part's own, is what it sweeps.
    fn throw(&mut self, operation: &Operation, a: Station, b: Station, throw: Length) {
        let Some(to) = operation.to_diameter else { return };
        let (state, own) = match operation.verb {
            Verb::Rough => (State::Rough, operation.feature),
            Verb::Finish | Verb::Turn | Verb::Groove => (State::Finished, operation.feature),
            _ => return,
        };
        // A groove on an eccentric is drawn by the eccentric it lies on.
        let eccentric = own.filter(|f| self.layout.section(*f).is_some_and(|s| s.thrown));
        let Some(feature) = eccentric else { return };
        self.each(a, b, |s| {
            (s.diameter, s.diameter_to) = (to + throw.times(2), to + throw.times(2));
            s.state = state;
            s.feature = Some(feature);
        });
    }

    /// Applies an operation done with `works` at the tailstock.
    pub(super) fn apply(&mut self, operation: &Operation, works: Option<End>) {
        if operation.inside {
            return;
        }
        let (Some(from), Some(to)) = (operation.from, operation.to) else { return };
        let (a, b) = (from.min(to), from.max(to));
        if let Some(throw) = operation.throw {
            return self.throw(operation, a, b, throw);
        }
        match operation.verb {
            Verb::Face | Verb::PartOff => self.end_at(operation.end.or(works), to),
            Verb::Rough => {
                let a = self.reached_through(operation, works, a, b).0;
                let b = self.reached_through(operation, works, a, b).1;
                self.cut(a, b, operation.to_diameter, State::Rough);
            }
            // The spot for a rest: nothing of the part is finished there.
            Verb::Turn if operation.for_rest => self.cut(a, b, operation.to_diameter, State::Rough),
            Verb::Finish | Verb::Turn => {
                self.cut(a, b, operation.to_diameter, State::Finished);
                self.own(operation, a, b);
            }
            Verb::Groove => {
                self.cut(a, b, operation.to_diameter, State::Finished);
                let feature = operation.feature;
                self.each(a, b, |s| s.feature = feature);
            }
            Verb::Taper => self.taper(operation, a, b),
            Verb::Knurl => {
                let (feature, grown) = (operation.feature, operation.to_diameter);
                self.each(a, b, |s| {
                    s.diameter = grown.unwrap_or(s.diameter);
                    s.diameter_to = s.diameter;
                    s.state = State::Finished;
                    s.feature = feature;
                });
            }
            Verb::Thread => {
                let feature = operation.feature;
                self.each(a, b, |s| {
                    s.state = State::Threaded;
                    s.feature = feature;
                });
            }
            _ => {}
        }
    }

    /// A summit worked from either end is roughed from the tailstock on: everything outboard that is larger goes too.
    fn reached_through(&self, operation: &Operation, works: Option<End>, a: Station, b: Station) -> (Station, Station) {
        let top = self.layout.top();
        let summit = operation.feature.and_then(|f| self.layout.section(f)).is_some_and(|s| s.aim == top);
        match works {
            Some(end) if operation.end.is_none() && summit => {
                let face = self.layout.face(end);
                (a.min(face), b.max(face))
            }
            _ => (a, b),
        }
    }

    /// A section that is turned, but not to size, came out at this diameter: it was roughed, or is cut again.
    pub(super) fn measured(&mut self, feature: usize, diameter: Length) {
        let Some((from, to)) = self.layout.section(feature).map(|s| (s.from, s.to)) else { return };
        self.each(from, to, |s| {
            if matches!(s.state, State::Rough | State::Finished) {
                (s.diameter, s.diameter_to) = (diameter, diameter);
                s.state = State::Rough;
            }
        });
    }

    /// A finished section came out at this diameter: what is cut on it later is touched off there.
    pub(super) fn stands(&mut self, feature: usize, diameter: Length) {
        let Some((from, to)) = self.layout.section(feature).map(|s| (s.from, s.to)) else { return };
        self.each(from, to, |s| {
            if s.feature == Some(feature) && s.state == State::Finished && s.diameter == s.diameter_to {
                (s.diameter, s.diameter_to) = (diameter, diameter);
            }
        });
    }

    fn end_at(&mut self, end: Option<End>, at: Station) {
        self.split(at);
        let far = end == Some(End::Far);
        self.spans.retain(|s| if far { s.to <= at } else { s.from >= at });
    }

    fn cut(&mut self, a: Station, b: Station, to: Option<Length>, state: State) {
        let Some(to) = to else { return };
        self.each(a, b, |s| {
            if s.diameter > to || s.diameter_to > to {
                (s.diameter, s.diameter_to) = (to, to);
                s.state = state;
                s.feature = None;
            } else if s.diameter == to && s.diameter_to == to && state == State::Finished && s.state == State::Rough {
                s.state = state;
            }
        });
    }

    /// Marks the sections an operation brings to size.
    fn own(&mut self, operation: &Operation, a: Station, b: Station) {
        let mine = operation.feature.into_iter().chain(operation.with.iter().copied());
        let sections: Vec<(usize, Station, Station)> = mine
            .filter_map(|f| self.layout.section(f))
            .filter(|s| !s.thrown)
            .map(|s| (s.feature, s.from.max(a), s.to.min(b)))
            .collect();
        for (feature, from, to) in sections {
            self.each(from, to, |s| s.feature = Some(feature));
        }
    }

    fn taper(&mut self, operation: &Operation, a: Station, b: Station) {
        let Some((at_a, at_b)) = operation.feature.and_then(|f| self.layout.taper_ends(f)) else { return };
        let feature = operation.feature;
        self.each(a, b, |s| {
            (s.diameter, s.diameter_to) = (at_a, at_b);
            s.state = State::Finished;
            s.feature = feature;
        });
        self.join(a, b);
    }

    /// Makes one span of a stretch that has just been cut as one.
    fn join(&mut self, a: Station, b: Station) {
        let from = self.spans.partition_point(|s| s.from < a);
        let long = self.spans[from..].iter().take_while(|s| s.to <= b).count();
        if let [first, .., last] = self.spans[from..from + long] {
            self.spans.splice(from..from + long, [Span { to: last.to, diameter_to: last.diameter_to, ..first }]);
        }
    }

    fn each(&mut self, a: Station, b: Station, mut change: impl FnMut(&mut Span)) {
        if a >= b {
            return;
        }
        self.split(a);
        self.split(b);
        let first = self.spans.partition_point(|s| s.from < a);
        self.spans[first..].iter_mut().take_while(|s| s.to <= b).for_each(&mut change);
    }

    fn split(&mut self, at: Station) {
        let i = self.spans.partition_point(|s| s.to <= at);
        if self.spans.get(i).is_none_or(|s| s.from >= at) {
            return;
        }
        let whole = self.spans[i];
        let middle = if whole.diameter == whole.diameter_to {
            whole.diameter
        } else {
            let share = (at - whole.from).to_f64(crate::unit::Unit::Millimetre) / (whole.to - whole.from).mm();
            let step = (whole.diameter_to - whole.diameter).mm() * share;
            whole.diameter + Length::from_f64(step, crate::unit::Unit::Millimetre)
        };
        self.spans[i] = Span { to: at, diameter_to: middle, ..whole };
        self.spans.insert(i + 1, Span { from: at, diameter: middle, ..whole });
    }
}

/// Whether one cylinder goes on in the next.
fn alike(one: &Span, next: &Span) -> bool {
    one.to == next.from
        && one.diameter == one.diameter_to
        && next.diameter == next.diameter_to
        && (one.diameter, one.state, one.feature) == (next.diameter, next.state, next.feature)
}
