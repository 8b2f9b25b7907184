//! What stays in one mounting.

use crate::model::plan::Verb;

use super::table::{Table, covers, is_many};
use crate::{tell, told};

impl Table<'_> {
    /// What the drawing asks to run true to each other, at one end, is finished in one holding.
    fn stated_true(&mut self) {
        for f in &self.part.features {
            let Some(to) = &f.true_to else { continue };
            for a in self.all(|o| self.last(o) && covers(o, f.id)) {
                for b in self.all(|o| self.last(o) && covers(o, to.feature)) {
                    let end = self.op(a).end;
                    if a != b && end.is_some() && end == self.op(b).end {
                        let reason = tell!(
                            "{} runs true to {} as drawn: one holding",
                            "{} läuft laut Zeichnung zu {}: eine Aufspannung",
                            self.call(a),
                            self.call(b)
                        );
                        self.together("R18", a, b, reason);
                    }
                }
            }
        }
    }

    pub(super) fn one_holding(&mut self) {
        for (a, b) in self.cross(|o| o.verb == Verb::Face, |o| o.verb == Verb::Center) {
            if self.op(a).end == self.op(b).end {
                self.together(
                    "R1",
                    a,
                    b,
                    told!("faced and centered in one holding, so that the center hole is square to the face", "in einer Aufspannung plangedreht und zentriert, damit die Zentrierung rechtwinklig zur Planfläche steht"),
                );
            }
        }
        for (a, b) in self.cross(|o| self.last(o), |o| o.verb == Verb::Thread || o.verb == Verb::Polish) {
            let (last, then) = (self.op(a), self.op(b));
            if then.feature.is_some_and(|f| covers(last, f)) && last.end == then.end {
                let letter = self.call(b);
                if then.verb == Verb::Thread {
                    self.together(
                        "R10",
                        a,
                        b,
                        tell!(
                            "the blank and the thread of {letter} are cut in one holding",
                            "Gewindedurchmesser und Gewinde von {letter} werden in einer Aufspannung gedreht"
                        ),
                    );
                } else if !self.hard_by_then() {
                    self.together(
                        "R18",
                        a,
                        b,
                        tell!(
                            "{letter} is polished where it was turned, still running true",
                            "{letter} wird poliert, wo es gedreht wurde und noch rund läuft"
                        ),
                    );
                }
            }
        }
        for (a, b) in self.cross(|o| o.verb == Verb::Groove, |o| o.verb == Verb::Thread) {
            let Some(thread) = self.op(b).feature.and_then(|f| self.layout.section(f)) else { continue };
            if self.op(a).end == self.op(b).end && self.serves(self.op(a), thread) {
                let reason = tell!(
                    "{} and the thread it serves are cut in one holding",
                    "{} und das Gewinde dazu werden in einer Aufspannung gedreht",
                    self.call(a)
                );
                self.together("R10", a, b, reason);
            }
        }
        self.stated_true();
        let seats =
            self.all(|o| self.last(o) && o.feature.and_then(|f| self.layout.section(f)).is_some_and(|s| s.seat));
        let many = is_many(&seats, &seats);
        for (k, a) in seats.iter().enumerate() {
            for b in &seats[k + 1..] {
                // With very many, each with the next one is enough.
                if many && self.pairs.together.last().is_some_and(|(x, _, w)| x == a && w.rule == "R18") {
                    break;
                }
                if self.op(*a).end.is_some() && self.op(*a).end == self.op(*b).end {
                    let reason = tell!(
                        "{} and {} run true to each other: one holding",
                        "{} und {} laufen zueinander: eine Aufspannung",
                        self.call(*a),
                        self.call(*b)
                    );
                    self.together("R18", *a, *b, reason);
                }
            }
        }
    }
}
