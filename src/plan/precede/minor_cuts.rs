//! Grooves, chamfers, threads, slots, parting and the bench: what follows the main cuts.

use crate::model::plan::{Operation, Verb};
use crate::model::trade_words::kind_word;
use crate::model::{End, Kind};
use crate::plan::derive::Section;

use super::table::{Table, covers, is_bench, is_cut, is_end_work, is_face, meet, stretch};
use crate::{tell, told};

impl Table<'_> {
    pub(super) fn minor_after_main(&mut self) {
        let lasts = self.lasts_by_feature();
        let of = |feature: usize| lasts.get(feature).map_or(&[][..], Vec::as_slice);
        for (a, b) in self.plunged_after(&of) {
            let reason = tell!(
                "{} is plunged from the finished surface beside it",
                "{} wird von der fertigen Fläche daneben eingestochen",
                self.call(b)
            );
            self.before("R2", a, b, reason);
        }
        self.grooved_after_roughing();
        let mut pairs = Vec::new();
        for b in self.all(|o| matches!(o.verb, Verb::Chamfer | Verb::Polish | Verb::File)) {
            let minor = self.op(b);
            let host = if minor.verb == Verb::Polish { minor.feature } else { self.chamfered(minor) };
            let on_it = host.into_iter().flat_map(of).filter(|a| meet(self.op(**a), minor));
            pairs.extend(on_it.map(|a| (*a, b)));
        }
        pairs.sort_unstable();
        for (a, b) in pairs {
            let letter = self.call(a);
            let reason = match self.op(b).verb {
                Verb::Polish => tell!(
                    "{letter} is turned to size before it is polished",
                    "{letter} ist auf Maß gedreht, bevor es poliert wird"
                ),
                Verb::File => tell!(
                    "{letter} is to size before the crown is cut over it",
                    "{letter} ist auf Maß, bevor die Wölbung darüberkommt"
                ),
                _ => tell!(
                    "{letter} is to size before its edge is broken",
                    "{letter} ist auf Maß, bevor die Kante gebrochen wird"
                ),
            };
            self.before("R2", a, b, reason);
        }
    }

    /// A groove or neck is plunged from what the roughing over it leaves, never from the bar.
    fn grooved_after_roughing(&mut self) {
        for (a, b) in self.cross(|o| o.verb == Verb::Rough, |o| o.verb == Verb::Groove) {
            if stretch(self.op(b)).is_some() && meet(self.op(a), self.op(b)) {
                let reason = tell!(
                    "{} is roughed before {} is plunged in it",
                    "{} wird geschruppt, bevor {} darin eingestochen wird",
                    self.call(a),
                    self.call(b)
                );
                self.before("R2", a, b, reason);
            }
        }
    }

    /// Last cuts, and the grooves that are plunged from their surface: on it, or inboard of it.
    fn plunged_after<'b>(&self, of: &impl Fn(usize) -> &'b [usize]) -> Vec<(usize, usize)> {
        let mut pairs = Vec::new();
        for b in self.all(|o| o.verb == Verb::Groove && !o.close) {
            let groove = self.op(b);
            let host = self.host(groove).map(|s| s.feature);
            let on_it = host.into_iter().flat_map(of).filter(|a| meet(self.op(**a), groove));
            let outboard = self.outboard(groove).into_iter().flat_map(of);
            // What is held close takes the burr of a groove away with its last cut; an undercut is so much below the finished seat.
            let under = self.is_undercut(groove);
            pairs.extend(on_it.chain(outboard).filter(|a| under || !self.op(**a).close).map(|a| (*a, b)));
        }
        pairs.sort_unstable();
        pairs.dedup();
        pairs
    }

    pub(super) fn threads(&mut self) {
        for b in self.all(|o| o.verb == Verb::Thread) {
            let Some(thread) = self.op(b).feature.and_then(|f| self.layout.section(f)) else { continue };
            let (one, other) = self.layout.beside(thread.feature);
            let letter = thread.letter.clone();
            for a in self.all(|o| self.last(o)) {
                let last = self.op(a);
                if covers(last, thread.feature) {
                    self.before(
                        "R2",
                        a,
                        b,
                        tell!(
                            "the blank of {letter} is turned before the thread is cut",
                            "der Durchmesser von {letter} wird gedreht, bevor das Gewinde kommt"
                        ),
                    );
                }
                let seat = [one, other].into_iter().flatten().find(|s| s.seat && covers(last, s.feature));
                let parted = self.layout.parted.is_some() && last.end != self.op(b).end;
                if let Some(seat) = seat.filter(|_| !parted) {
                    let reason = tell!(
                        "seat {} beside the thread is finished before {letter} is cut",
                        "Sitz {} neben dem Gewinde ist fertig, bevor {letter} geschnitten wird",
                        seat.letter
                    );
                    self.before("order-thread-seat", a, b, reason);
                }
            }
            for a in self.all(|o| matches!(o.verb, Verb::Groove | Verb::Chamfer | Verb::File)) {
                if self.serves(self.op(a), thread) {
                    let what = self
                        .op(a)
                        .feature
                        .and_then(|f| self.part.features.get(f))
                        .map_or_else(String::new, |f| kind_word(f.kind.word()));
                    let reason = tell!(
                        "the {what} is there before {letter} is cut: the tool starts and runs out in it",
                        "erst {what}, dann {letter}: der Stahl beginnt darin und läuft darin aus"
                    );
                    self.before("R9", a, b, reason);
                }
            }
        }
    }

    /// Whether a thread's tool starts or runs out in a groove, relief or chamfer.
    pub(super) fn serves(&self, minor: &Operation, thread: &Section) -> bool {
        let Some((from, to)) = stretch(minor) else { return false };
        if matches!(minor.verb, Verb::Chamfer | Verb::File) {
            return self.chamfered(minor) == Some(thread.feature);
        }
        from <= thread.to && thread.from <= to
    }

    pub(super) fn slots(&mut self) {
        let slot = |o: &Operation| matches!(o.verb, Verb::Mill | Verb::Drill | Verb::Tap);
        for (a, b) in self.cross(|o| matches!(o.verb, Verb::Polish | Verb::File), slot) {
            let letter = self.call(a);
            let reason = if self.op(a).verb == Verb::File {
                tell!(
                    "{letter} is filed before any slot or hole is there to catch the file",
                    "{letter} wird gefeilt, bevor eine Nut oder Bohrung da ist, an der die Feile hängen bleibt"
                )
            } else {
                tell!(
                    "{letter} is polished before any slot or hole is there to catch the strip",
                    "{letter} wird poliert, bevor eine Nut oder Bohrung da ist, in der das Band hängen bleibt"
                )
            };
            self.before("order-polish-keyseat", a, b, reason);
        }
        let early: Vec<usize> = self.all(slot).into_iter().filter(|b| self.is_early(*b)).collect();
        for (a, b) in self.cross(is_cut, slot) {
            let host = self.host(self.op(b)).map(|s| s.feature);
            if early.contains(&b) {
                self.early(a, b, host.is_some_and(|h| covers(self.op(a), h)));
                continue;
            }
            let (turned, cut) = (self.call(a), self.call(b));
            if self.last(self.op(a)) && host.is_some_and(|h| covers(self.op(a), h)) {
                self.before(
                    "R12",
                    a,
                    b,
                    tell!(
                        "{cut} takes its depth from the finished diameter of {turned}",
                        "{cut} bekommt seine Tiefe vom fertigen Durchmesser von {turned}"
                    ),
                );
            } else if self.op(a).verb != Verb::Polish {
                self.before(
                    "order-turn-keyseat",
                    a,
                    b,
                    tell!(
                        "{turned} is turned before {cut} interrupts the cut",
                        "{turned} wird gedreht, bevor {cut} den Schnitt unterbricht"
                    ),
                );
            }
        }
    }

    /// Keyseats at one clocking are cut without letting the work go between them: it is not found again as it lay.
    pub(super) fn one_clocking(&mut self) {
        let keyseat = |o: &Operation| {
            let feature = o.feature.and_then(|f| self.part.features.get(f))?;
            let seat = matches!(feature.kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. });
            (o.verb == Verb::Mill && seat).then(|| feature.angle_mdeg.unwrap_or(0))
        };
        let seats: Vec<(usize, i64)> =
            self.all(|_| true).into_iter().filter_map(|i| keyseat(self.op(i)).map(|at| (i, at))).collect();
        for (k, (a, at)) in seats.iter().enumerate() {
            // Each with the next at its clocking is enough.
            if let Some((b, _)) = seats[k + 1..].iter().find(|(_, other)| other == at) {
                let reason = tell!(
                    "{} and {} are clocked alike: one setup",
                    "{} und {} liegen unter demselben Winkel: eine Aufspannung",
                    self.call(*a),
                    self.call(*b)
                );
                self.together("R14", *a, *b, reason);
            }
        }
    }

    pub(super) fn parting(&mut self) {
        let behind = self.layout.parted.map(End::other);
        for (a, b) in self.cross(|o| is_cut(o) || is_end_work(o), |o| o.verb == Verb::PartOff) {
            if self.op(a).end != behind && self.op(a).verb != Verb::PartOff {
                self.before(
                    "R23",
                    a,
                    b,
                    told!("the part is cut off the bar last", "das Teil wird zuletzt von der Stange abgestochen"),
                );
            }
        }
        for (a, b) in self.cross(|o| o.verb == Verb::PartOff, |o| behind.is_some_and(|e| is_face(o, e))) {
            let word = behind.map_or("", End::said);
            self.before(
                "R23",
                a,
                b,
                tell!(
                    "the {word} end is reached once the part is off the bar",
                    "das {word}ende ist erst frei, wenn das Teil von der Stange ist"
                ),
            );
        }
    }

    pub(super) fn bench(&mut self) {
        for (a, b) in self.cross(|o| !is_bench(o), |o| o.verb == Verb::Deburr) {
            self.before(
                "order-bench",
                a,
                b,
                told!("edges are broken after the last cut", "Kanten werden nach dem letzten Schnitt gebrochen"),
            );
        }
        for (a, b) in self.cross(|o| o.verb == Verb::Deburr, |o| o.verb == Verb::FitTest) {
            self.before(
                "order-bench",
                a,
                b,
                told!("the mates are tried on clean edges", "die Gegenstücke werden an sauberen Kanten probiert"),
            );
        }
        for (a, b) in self.cross(|o| o.verb == Verb::Deburr || o.verb == Verb::FitTest, |o| o.verb == Verb::Inspect) {
            self.before(
                "order-bench",
                a,
                b,
                told!("what is measured is what leaves the bench", "gemessen wird, was die Werkbank verlässt"),
            );
        }
    }
}
