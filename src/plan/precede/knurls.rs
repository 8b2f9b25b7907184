//! Knurls: after their blank, before what lies beside them is turned thin.

use crate::model::plan::Verb;

use super::table::{Table, covers};
use crate::tell;

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
