//! Knurls: after their blank, before what lies beside them is turned thin.

use crate::model::plan::Verb;

use super::table::{Table, covers};

impl Table<'_> {
    pub(super) fn knurls(&mut self) {
        for b in self.all(|o| o.verb == Verb::Knurl) {
            let Some(knurl) = self.op(b).feature.and_then(|f| self.layout.section(f)) else { continue };
            let letter = knurl.letter.clone();
            for a in self.all(|o| self.last(o)) {
                let last = self.op(a);
                if covers(last, knurl.feature) {
                    self.before("R2", a, b, format!("the blank of {letter} is turned before it is knurled"));
                    self.together("R18", a, b, format!("{letter} is knurled where its blank was turned, running true"));
                    continue;
                }
                let (one, other) = self.layout.beside(knurl.feature);
                let thin = [one, other].into_iter().flatten().any(|s| s.aim < knurl.aim && covers(last, s.feature));
                if thin && last.end == self.op(b).end {
                    let reason =
                        format!("{letter} is knurled before {} beside it is turned thin and springs", self.call(a));
                    self.before("R11", b, a, reason);
                }
            }
            for a in self.all(|o| o.verb == Verb::Chamfer) {
                if self.chamfered(self.op(a)) == Some(knurl.feature) {
                    self.before("R2", b, a, format!("the edge of {letter} is broken after the knurl has thrown it up"));
                }
            }
        }
    }
}
