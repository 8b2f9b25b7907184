//! Knurls: after their blank, before what lies beside them is turned thin.

use crate::model::plan::Verb;

use super::table::{Table, covers};
use crate::unit::Station;
use crate::{tell, told};

impl Table<'_> {
    pub(super) fn knurls(&mut self) {
        for b in self.all(|o| o.verb == Verb::Knurl) {
            let Some(knurl) = self.op(b).feature.and_then(|f| self.layout.section(f)) else { continue };
            let letter = knurl.letter.clone();
            for a in self.all(|o| self.last(o)) {
                let last = self.op(a);
                if covers(last, knurl.feature) {
                    self.before(
                        "R2",
                        a,
                        b,
                        tell!(
                            "the blank of {letter} is turned before it is knurled",
                            "{letter} wird vor dem Rändeln auf seinen Durchmesser gedreht"
                        ),
                    );
                    self.together(
                        "R18",
                        a,
                        b,
                        tell!(
                            "{letter} is knurled where its blank was turned, running true",
                            "{letter} wird gerändelt, wo sein Durchmesser gedreht wurde und rund läuft"
                        ),
                    );
                    continue;
                }
                let (one, other) = self.layout.beside(knurl.feature);
                let thin = [one, other].into_iter().flatten().any(|s| s.aim < knurl.aim && covers(last, s.feature));
                // The thickest section may be knurled from either end: then before both of its neighbours.
                if thin && (last.end == self.op(b).end || self.op(b).end.is_none()) {
                    let reason = tell!(
                        "{letter} is knurled before {} beside it is turned thin and springs",
                        "{letter} wird gerändelt, bevor {} daneben dünn wird und federt",
                        self.call(a)
                    );
                    self.before("R11", b, a, reason);
                }
            }
            for hole in self.inside(|o| o.verb != Verb::Chamfer) {
                let (one, other) = (self.op(b), self.op(hole));
                let under = |from: Station, to: Station| from < knurl.to && knurl.from < to;
                let beneath = other.from.zip(other.to).is_some_and(|(x, y)| under(x.min(y), x.max(y)));
                if beneath && (one.end == other.end || one.end.is_none()) {
                    let reason = tell!(
                        "{letter} is knurled before {}: the knurl presses hard, and a hole under it gives way",
                        "{letter} wird gerändelt, bevor {}: das Rändel drückt stark, und ein Loch darunter gibt nach",
                        knurled_over(other.verb)
                    );
                    self.before("knurl-hole", b, hole, reason);
                }
            }
            for a in self.all(|o| o.verb == Verb::Chamfer) {
                if self.chamfered(self.op(a)) == Some(knurl.feature) {
                    self.before(
                        "R2",
                        b,
                        a,
                        tell!(
                            "the edge of {letter} is broken after the knurl has thrown it up",
                            "die Kante von {letter} wird gebrochen, nachdem das Rändeln sie aufgeworfen hat"
                        ),
                    );
                }
            }
        }
    }
}

/// What is done to a hole, in the order's words.
fn knurled_over(verb: Verb) -> &'static str {
    match verb {
        Verb::Drill => told!("the hole in it is drilled", "das Loch darin gebohrt wird"),
        Verb::Tap | Verb::Thread => told!("the thread in it is cut", "das Gewinde darin geschnitten wird"),
        _ => told!("the bore in it is cut", "die Bohrung darin ausgedreht wird"),
    }
}
