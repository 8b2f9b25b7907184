//! What comes before the work is sent out to be hardened, and what after: it comes back hard, scaled and bent.

use crate::handbook::material::left_hard;
use crate::model::plan::{Operation, Verb};

use super::table::{Table, is_cut, is_end_work};
use crate::tell;

impl Table<'_> {
    /// Whether the part is sent out and comes back too hard for a steel tool: what is polished then was turned before.
    pub(super) fn hard_by_then(&self) -> bool {
        let sent = !self.all(|o| o.verb == Verb::HeatTreat).is_empty();
        sent && self.part.heat_treatment.as_ref().is_some_and(|t| left_hard(&t.text))
    }

    /// Roughing and holes while the steel is soft; threads, close sizes and polish after it has moved. What a steel tool does not cut any more is
    /// cut before, all but the polish, unless a wish has it ground.
    pub(super) fn hardening(&mut self) {
        let heat = |o: &Operation| o.verb == Verb::HeatTreat;
        let beyond = self.hard_by_then();
        let slot = |o: &Operation| matches!(o.verb, Verb::Mill | Verb::Drill | Verb::Tap);
        let polish = |o: &Operation| o.verb == Verb::Polish;
        let soft = |o: &Operation| {
            let cut =
                if beyond { slot(o) || is_cut(o) && !polish(o) } else { matches!(o.verb, Verb::Rough | Verb::Knurl) };
            is_end_work(o) || cut
        };
        let outside = self.cross(soft, heat);
        let inside = self.inside(|o| beyond || matches!(o.verb, Verb::Drill | Verb::Tap));
        let inside = inside.into_iter().flat_map(|a| self.all(heat).into_iter().map(move |b| (a, b)));
        let inside: Vec<(usize, usize)> = inside.collect();
        for (a, b) in outside.into_iter().chain(inside) {
            let reason = tell!(
                "{} is cut while the steel is soft",
                "{} wird gemacht, solange der Stahl weich ist",
                self.call(a)
            );
            self.before("R27", a, b, reason);
        }
        let close = |o: &Operation| o.close && matches!(o.verb, Verb::Finish | Verb::Turn | Verb::Taper);
        let after = |o: &Operation| polish(o) || !beyond && (o.verb == Verb::Thread || close(o));
        for (a, b) in self.cross(heat, after) {
            let letter = self.call(b);
            let reason = match self.op(b).verb {
                Verb::Thread => tell!(
                    "hardening would distort the thread {letter}: it is cut after it",
                    "Härten würde das Gewinde {letter} verziehen: es wird danach geschnitten"
                ),
                Verb::Polish => {
                    tell!(
                        "{letter} is polished last: it comes back scaled",
                        "{letter} wird zuletzt poliert: es kommt verzundert zurück"
                    )
                }
                _ => tell!(
                    "{letter} is held close and moves in hardening: what is left on it comes off after it",
                    "{letter} hat enge Grenzen und verzieht sich beim Härten: was daran bleibt, kommt danach ab"
                ),
            };
            self.before("R27", a, b, reason);
        }
    }
}
