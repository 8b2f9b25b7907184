//! Faces, roughing, finishing: the cuts that make the shape.

use crate::model::End;
use crate::model::plan::Verb;

use super::table::{Table, covers, is_cut, is_face, is_heavy, meet, share};

impl Table<'_> {
    pub(super) fn end_faces(&mut self) {
        for (face, b) in self.cross(|o| o.verb == Verb::Face, |o| is_cut(o) || o.verb == Verb::Center) {
            let (end, other) = (self.op(face).end, self.op(b).end);
            if end == other || (other.is_none() && end == Some(End::Datum)) {
                let word = end.map_or("", End::word);
                self.before(
                    "R1",
                    face,
                    b,
                    format!("the {word} end is faced before anything is measured or cut from it"),
                );
            }
        }
        for (center, b) in self.cross(|o| o.verb == Verb::Center, is_cut) {
            if self.op(center).end == self.op(b).end {
                let word = self.op(center).end.map_or("", End::word);
                self.before("R1", center, b, format!("the {word} end is centered while its face is fresh"));
            }
        }
        if self.part.wishes.first_end != Some(End::Far) {
            for (a, b) in self.cross(|o| is_face(o, End::Datum), |o| is_face(o, End::Far)) {
                self.before(
                    "R21",
                    a,
                    b,
                    "every length is measured from the datum face: it is cut first, the far face to the overall",
                );
            }
        }
    }

    pub(super) fn roughing(&mut self) {
        for (a, b) in self.cross(|o| o.verb == Verb::Rough, |o| self.last(o)) {
            let (rough, last) = (self.op(a), self.op(b));
            let same_end = rough.end == last.end || rough.end.is_none() || last.end.is_none();
            if same_end && share(rough, last) {
                let reason = format!("{} is roughed before its last cut", self.call(b));
                self.before("R2", a, b, reason);
            } else if rough.end == last.end {
                let reason = format!("{} is roughed first: heavy cuts spring and heat the work", self.call(a));
                self.before("R3", a, b, reason);
            }
        }
        for (a, b) in self.cross(|o| o.verb == Verb::Rough, |o| o.verb == Verb::Rough) {
            let (large, small) = (self.op(a), self.op(b));
            let one_end = large.end == small.end || (large.end.is_none() && self.is_through(a));
            if one_end && self.is_through(a) && (large.to_diameter > small.to_diameter || !self.is_through(b)) {
                let reason = format!("{} is larger: roughing it first keeps the work stiff", self.call(a));
                self.before("R20", a, b, reason);
            }
        }
    }

    /// Roughed from the tailstock inward, not between two shoulders.
    fn is_through(&self, i: usize) -> bool {
        let operation = self.op(i);
        if let Some(end) = operation.end {
            return operation.from == Some(self.layout.face(end));
        }
        let top = self.layout.sections.iter().map(|s| s.aim).max();
        operation.feature.and_then(|f| self.layout.section(f)).map(|s| s.aim) == top
    }

    pub(super) fn close_sizes(&mut self) {
        for (a, b) in self.cross(|o| o.verb == Verb::Groove && !o.close, |o| o.close && self.last(o)) {
            let (groove, last) = (self.op(a), self.op(b));
            let lies_on = self.host(groove).is_some_and(|s| covers(last, s.feature)) && meet(last, groove);
            let beside = self.beside(groove, last);
            if lies_on || beside {
                let reason = format!(
                    "{} is cut before the last cuts of {}, which take its burr away",
                    self.call(a),
                    self.call(b)
                );
                self.before("last-cut-takes-burr", a, b, reason);
            }
        }
        for (a, b) in self.cross(is_heavy, |o| o.close && self.last(o)) {
            let (heavy, last) = (self.op(a), self.op(b));
            let letter = self.call(b);
            if heavy.end == last.end {
                let reason = format!("{letter} is held close: it is finished cold, after the heavier cuts of this end");
                self.before("R5", a, b, reason);
            } else if heavy.end.is_none() || last.end.is_none() {
                let reason = format!("{letter} is held close: the heavier cuts that either end can take come first");
                self.before("close-last", a, b, reason);
            }
        }
    }
}
