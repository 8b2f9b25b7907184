//! Eccentrics: after everything that runs true to the part's own axis, before slots and the bench.

use crate::model::plan::Verb;

use super::table::{Table, is_bench, stretch};
use crate::{tell, told};

impl Table<'_> {
    pub(super) fn eccentrics(&mut self) {
        let thrown = self.thrown();
        let off_lathe = |t: &Self, i: usize| {
            let o = t.op(i);
            is_bench(o) || (matches!(o.verb, Verb::Mill | Verb::Drill | Verb::Tap) && !o.inside)
        };
        let all: Vec<usize> = (0..self.count()).filter(|i| !thrown.contains(i)).collect();
        let concentric: Vec<usize> = all.iter().copied().filter(|i| !off_lathe(self, *i)).collect();
        let later: Vec<usize> = all.into_iter().filter(|i| off_lathe(self, *i)).collect();
        self.all_before("eccentric", &concentric, &thrown, |table, a, b| {
            let (what, eccentric) = (table.call(a), table.call(b));
            tell!(
                "{what} is finished about the part's own axis before the work is thrown over for {eccentric}",
                "{what} wird um die Achse des Teils fertig, bevor für {eccentric} außermittig gespannt wird"
            )
        });
        for b in &thrown {
            for a in &later {
                let (rule, reason) = if is_bench(self.op(*a)) {
                    (
                        "order-bench",
                        told!(
                            "edges are broken, and the part measured, after the last cut",
                            "Kanten werden gebrochen und das Teil gemessen, wenn der letzte Schnitt getan ist"
                        )
                        .to_owned(),
                    )
                } else {
                    let (turned, cut) = (self.call(*b), self.call(*a));
                    (
                        "order-turn-keyseat",
                        tell!(
                            "{turned} is turned before {cut} interrupts the cut",
                            "{turned} wird gedreht, bevor {cut} den Schnitt unterbricht"
                        ),
                    )
                };
                self.before(rule, *b, *a, reason);
            }
        }
        self.on_one_eccentric(&thrown);
    }

    /// On one eccentric: rough, then to size, then its edges and grooves, all in one holding.
    fn on_one_eccentric(&mut self, thrown: &[usize]) {
        let rank = |verb: Verb| match verb {
            Verb::Rough => 0,
            Verb::Finish | Verb::Turn => 1,
            Verb::Groove => 2,
            _ => 3,
        };
        for (k, a) in thrown.iter().enumerate() {
            for b in &thrown[k + 1..] {
                let meet = match (stretch(self.op(*a)), stretch(self.op(*b))) {
                    (Some((p, q)), Some((r, s))) => p < s && r < q,
                    _ => false,
                };
                if !meet {
                    self.fellows(*a, *b);
                    continue;
                }
                let (first, then) = if rank(self.op(*a).verb) <= rank(self.op(*b).verb) { (*a, *b) } else { (*b, *a) };
                let letter = self.call(first);
                self.before(
                    "R2",
                    first,
                    then,
                    tell!(
                        "{letter} comes first: rough before finish, main before minor",
                        "{letter} zuerst: Schruppen vor Schlichten, Hauptflächen vor kleinen"
                    ),
                );
                self.together(
                    "R18",
                    *a,
                    *b,
                    told!(
                        "what runs true to the eccentric is cut in its one holding",
                        "was zum Exzenter läuft, wird in dessen einer Aufspannung gedreht"
                    ),
                );
            }
        }
    }

    /// Eccentrics of one throw at one place around the part, turned from one end in one holding: all are roughed before one is finished,
    /// since roughing the next springs and warms the work. Others are each finished in their own holding: to come back to one costs a setup.
    fn fellows(&mut self, a: usize, b: usize) {
        let place = |i: usize| {
            let o = self.op(i);
            let angle = o.feature.and_then(|f| self.part.features.get(f)).map(|f| f.angle_mdeg);
            (o.throw, o.end, angle)
        };
        if place(a) != place(b) {
            return;
        }
        for (rough, last) in [(a, b), (b, a)] {
            let finishes = matches!(self.op(last).verb, Verb::Finish | Verb::Turn);
            if self.op(rough).verb == Verb::Rough && finishes {
                let (first, then) = (self.call(rough), self.call(last));
                self.before(
                    "R3",
                    rough,
                    last,
                    tell!(
                        "{first} is roughed before {then} in the same holding is finished",
                        "{first} wird geschruppt, bevor {then} in derselben Aufspannung fertig wird"
                    ),
                );
            }
        }
    }
}
