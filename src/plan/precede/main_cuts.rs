//! Faces, roughing, finishing: the cuts that make the shape.

use crate::model::End;
use crate::model::plan::{Operation, Verb};

use super::table::{Table, covers, is_cut, is_face, is_heavy, is_many, meet, share};
use crate::{tell, told};

/// Longer than so many of its diameters, a section is slender: where lathe texts begin to ask for a rest (common practice).
const SLENDER: i64 = 10;

impl Table<'_> {
    pub(super) fn end_faces(&mut self) {
        for (face, b) in self.cross(|o| o.verb == Verb::Face, |o| is_cut(o) || o.verb == Verb::Center) {
            let (end, other) = (self.op(face).end, self.op(b).end);
            if end == other || (other.is_none() && end == self.layout.parted.or(Some(End::Datum))) {
                let word = end.map_or("", End::said);
                self.before(
                    "R1",
                    face,
                    b,
                    tell!(
                        "the {word} end is faced before anything is measured or cut from it",
                        "das {word}ende wird plangedreht, bevor von ihm gemessen oder gedreht wird"
                    ),
                );
            }
        }
        for (center, b) in self.cross(|o| o.verb == Verb::Center, is_cut) {
            if self.op(center).end == self.op(b).end {
                let word = self.op(center).end.map_or("", End::said);
                self.before(
                    "R1",
                    center,
                    b,
                    tell!(
                        "the {word} end is centered while its face is fresh",
                        "das {word}ende wird zentriert, solange die Planfläche frisch ist"
                    ),
                );
            }
        }
        if self.layout.parted.or(self.part.wishes.first_end) != Some(End::Far) {
            for (a, b) in self.cross(|o| is_face(o, End::Datum), |o| is_face(o, End::Far)) {
                self.before(
                    "R21",
                    a,
                    b,
                    told!("every length is measured from the datum face: it is cut first, the far face to the overall", "jede Länge wird von der Bezugsfläche gemessen: sie kommt zuerst, die Gegenfläche dann auf Gesamtlänge"),
                );
            }
        }
    }

    pub(super) fn roughing(&mut self) {
        let (roughs, lasts) = (self.all(|o| o.verb == Verb::Rough), self.all(|o| self.last(o)));
        let many = is_many(&roughs, &lasts);
        for (a, b) in roughs.iter().flat_map(|a| lasts.iter().map(move |b| (*a, *b))) {
            let (rough, last) = (self.op(a), self.op(b));
            let same_end = rough.end == last.end || rough.end.is_none() || last.end.is_none();
            if same_end && share(rough, last) {
                let reason = tell!(
                    "{} is roughed before its last cut",
                    "{} wird vor dem letzten Schnitt geschruppt",
                    self.call(b)
                );
                self.before("R2", a, b, reason);
            } else if rough.end == last.end && !many {
                let reason = self.first_of_all(a);
                self.before("R3", a, b, reason);
            }
        }
        if many {
            for end in [Some(End::Datum), Some(End::Far), None] {
                let (first, then) = (self.at(&roughs, end), self.at(&lasts, end));
                self.all_before("R3", &first, &then, |table, a, _| table.first_of_all(a));
            }
        }
        self.largest_first(&roughs);
    }

    fn first_of_all(&self, rough: usize) -> String {
        tell!(
            "{} is roughed first: heavy cuts spring and heat the work",
            "{} wird zuerst geschruppt: schwere Schnitte biegen und erwärmen das Werkstück",
            self.call(rough)
        )
    }

    /// Those of some operations that belong to an end.
    fn at(&self, some: &[usize], end: Option<End>) -> Vec<usize> {
        some.iter().copied().filter(|i| self.op(*i).end == end).collect()
    }

    fn largest_first(&mut self, roughs: &[usize]) {
        let through: Vec<usize> = roughs.iter().copied().filter(|i| self.is_through(*i)).collect();
        let many = is_many(roughs, roughs);
        for a in &through {
            let behind =
                if many { self.next_smaller(*a, roughs, &through) } else { self.smaller(*a, roughs, &through) };
            for b in behind {
                let reason = tell!(
                    "{} is larger: roughing it first keeps the work stiff",
                    "{} ist größer: zuerst geschruppt bleibt das Werkstück steif",
                    self.call(*a)
                );
                self.before("R20", *a, b, reason);
            }
        }
    }

    /// All that are roughed after a larger one.
    fn smaller(&self, large: usize, roughs: &[usize], through: &[usize]) -> Vec<usize> {
        let a = self.op(large);
        let behind = |i: &usize| {
            let b = self.op(*i);
            (a.end == b.end || a.end.is_none()) && (a.to_diameter > b.to_diameter || through.binary_search(i).is_err())
        };
        roughs.iter().copied().filter(behind).collect()
    }

    /// The next smaller at each end, or what lies between shoulders behind the smallest: the rest follows.
    fn next_smaller(&self, large: usize, roughs: &[usize], through: &[usize]) -> Vec<usize> {
        let a = self.op(large);
        let ends = [Some(End::Datum), Some(End::Far), None].into_iter().filter(|e| a.end.is_none() || *e == a.end);
        let mut behind = Vec::new();
        for end in ends {
            let smaller =
                through.iter().filter(|i| self.op(**i).end == end && self.op(**i).to_diameter < a.to_diameter);
            match smaller.max_by_key(|i| self.op(**i).to_diameter) {
                Some(next) => behind.push(*next),
                None => behind
                    .extend(roughs.iter().filter(|i| self.op(**i).end == end && through.binary_search(i).is_err())),
            }
        }
        behind
    }

    /// Roughed from the tailstock inward, not between two shoulders.
    fn is_through(&self, i: usize) -> bool {
        let operation = self.op(i);
        if let Some(end) = operation.end {
            return operation.from == Some(self.layout.face(end));
        }
        operation.feature.and_then(|f| self.layout.section(f)).map(|s| s.aim) == Some(self.layout.top())
    }

    /// What is roughed at one end drives through what is finished at the other: a slender screw or journal waits for it.
    pub(super) fn slender_last(&mut self) {
        let slender = |o: &Operation| {
            let section = o.feature.and_then(|f| self.layout.section(f));
            section.is_some_and(|s| s.aim.is_positive() && s.to - s.from > s.aim.times(SLENDER))
        };
        for (a, b) in self.cross(|o| o.verb == Verb::Rough, |o| self.last(o) && slender(o)) {
            let (rough, last) = (self.op(a).end, self.op(b).end);
            if rough.is_some() && last.is_some() && rough != last {
                let reason = tell!(
                    "{} is slender: {} is roughed before, not driven through it",
                    "{} ist schlank: {} wird vorher geschruppt, damit das nicht hindurchgetrieben wird",
                    self.call(b),
                    self.call(a)
                );
                self.before("slender-last", a, b, reason);
            }
        }
    }

    pub(super) fn close_sizes(&mut self) {
        for (a, b) in
            self.cross(|o| o.verb == Verb::Groove && !o.close && !self.is_undercut(o), |o| o.close && self.last(o))
        {
            let (groove, last) = (self.op(a), self.op(b));
            let lies_on = self.host(groove).is_some_and(|s| covers(last, s.feature)) && meet(last, groove);
            let beside = self.beside(groove, last);
            if lies_on || beside {
                let reason = tell!(
                    "{} is cut before the last cuts of {}, which take its burr away",
                    "{} kommt vor den letzten Schnitten an {}, die den Grat mitnehmen",
                    self.call(a),
                    self.call(b)
                );
                self.before("last-cut-takes-burr", a, b, reason);
            }
        }
        let (heavy, close) = (self.all(|o| is_heavy(o) && !self.is_undercut(o)), self.all(|o| o.close && self.last(o)));
        let ends = [Some(End::Datum), Some(End::Far), None];
        for (one, other) in ends.into_iter().flat_map(|one| ends.map(|other| (one, other))) {
            let (first, then) = (self.at(&heavy, one), self.at(&close, other));
            if one == other {
                self.all_before("R5", &first, &then, |table, _, b| {
                    let letter = table.call(b);
                    tell!(
                        "{letter} is held close: it is finished cold, after the heavier cuts of this end",
                        "{letter} hat enge Grenzen: kalt fertig gedreht, nach den schwereren Schnitten an diesem Ende"
                    )
                });
            } else if one.is_none() || other.is_none() {
                self.all_before("close-last", &first, &then, |table, _, b| {
                    let letter = table.call(b);
                    tell!(
                        "{letter} is held close: the heavier cuts that either end can take come first",
                        "{letter} hat enge Grenzen: schwerere Schnitte, die von beiden Enden gehen, kommen zuerst"
                    )
                });
            }
        }
    }
}
