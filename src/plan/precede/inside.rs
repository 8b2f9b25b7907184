//! What is cut inside: the order in a hole, and how it stands to the rest.

use crate::model::Operation;
use crate::model::plan::Verb;

use super::table::{Table, covers, is_bench, is_cut};
use crate::chain::Mouth;
use crate::plan::derive::led_from_other;
use crate::{tell, told};

/// Two holes of an end: roughed from the narrow one out; then the wide one to size first, since the bar reaches the deeper
/// one through it; a reamer last.
fn bored_after(first: &Operation, then: &Operation) -> bool {
    let last = |o: &Operation| o.close || o.verb != Verb::Bore;
    match (last(first), last(then)) {
        (false, true) => true,
        (true, false) => false,
        (false, false) => first.to_diameter < then.to_diameter,
        (true, true) => then.verb == Verb::Ream || first.to_diameter > then.to_diameter,
    }
}

impl Table<'_> {
    pub(super) fn inside_cuts(&mut self) {
        self.inside_ends();
        self.roughed_before_bored();
        self.true_to_bore();
        self.in_one_hole();
        self.bottom_first();
        self.through_first();
        self.mouths_of_through_holes();
        self.drilled_across();
        for (a, bench) in self.pairs_with(is_bench) {
            self.before(
                "order-bench",
                a,
                bench,
                told!("the bench comes after the last cut", "die Werkbank kommt nach dem letzten Schnitt"),
            );
        }
        for (a, part_off) in self.pairs_with(|o| o.verb == Verb::PartOff) {
            if self.op(a).end == self.layout.parted {
                self.before(
                    "R23",
                    a,
                    part_off,
                    told!("the part is cut off the bar last", "das Teil wird zuletzt von der Stange abgestochen"),
                );
            } else {
                let word = self.op(a).end.map_or("", crate::model::End::said);
                self.before(
                    "R23",
                    part_off,
                    a,
                    tell!(
                        "the {word} end is reached once the part is off the bar",
                        "das {word}ende ist erst frei, wenn das Teil von der Stange ist"
                    ),
                );
            }
        }
    }

    /// Every operation inside with every one outside that is wanted.
    fn pairs_with(&self, wanted: impl Fn(&Operation) -> bool) -> Vec<(usize, usize)> {
        let others = self.all(wanted);
        self.inside(|_| true).iter().flat_map(|a| others.iter().map(move |b| (*a, *b))).collect()
    }

    /// The face first; drilling is heavy work and comes before the close cuts outside where no center stands in its way.
    fn inside_ends(&mut self) {
        for (a, face) in self.pairs_with(|o| o.verb == Verb::Face) {
            if self.op(face).end == self.op(a).end {
                self.before(
                    "R1",
                    face,
                    a,
                    told!(
                        "the end is faced before a hole is measured from it",
                        "das Ende wird plangedreht, bevor eine Bohrung von ihm gemessen wird"
                    ),
                );
            }
        }
        let centered: Vec<_> = self.all(|o| o.verb == Verb::Center).iter().map(|i| self.op(*i).end).collect();
        for (a, close) in self.pairs_with(|o| o.close && is_cut(o)) {
            let (hole, last) = (self.op(a), self.op(close));
            let heavy = hole.verb == Verb::Drill && hole.end == last.end && !centered.contains(&hole.end);
            if heavy {
                let reason = tell!(
                    "{} is held close: drilling heats and pushes the work",
                    "{} hat enge Grenzen: Bohren erwärmt und schiebt das Werkstück",
                    self.call(close)
                );
                self.before("drill-first", a, close, reason);
            }
        }
    }

    /// The outside of an end is roughed before a close bore in it is finished: heavy cuts heat and move the wall.
    fn roughed_before_bored(&mut self) {
        let parted = self.layout.parted;
        for (a, rough) in self.pairs_with(|o| o.verb == Verb::Rough && o.throw.is_none()) {
            let (hole, outside) = (self.op(a).end, self.op(rough).end);
            let beside = match parted {
                Some(end) => hole == parted && outside != Some(end.other()),
                None => hole.is_some() && hole == outside,
            };
            if self.op(a).close && beside {
                let reason = tell!(
                    "{} is roughed first: heavy cuts heat the wall and move it",
                    "{} wird zuerst geschruppt: schwere Schnitte erwärmen die Wand und verziehen sie",
                    self.call(rough)
                );
                // Where the center bears on its mouth, the end may have to be roughed on that: then the bore comes first.
                let seat = hole.is_some_and(|end| matches!(self.layout.mouth(end), Mouth::Seat { .. }));
                self.before(if seat { "rough-then-bore" } else { "R5" }, rough, a, reason);
            }
        }
    }

    /// What the drawing asks to run true to a bore cut from the same end is finished in the bore's own holding.
    fn true_to_bore(&mut self) {
        for f in &self.part.features {
            let Some(to) = &f.true_to else { continue };
            for (a, b) in self.pairs_with(|o| is_cut(o) && o.limits.is_some()) {
                let (hole, outside) = (self.op(a), self.op(b));
                let pair = |one, other| hole.feature == Some(one) && covers(outside, other) && self.last(outside);
                let sized = matches!(hole.verb, Verb::Bore | Verb::Ream | Verb::Taper);
                if sized && hole.end == outside.end && (pair(f.id, to.feature) || pair(to.feature, f.id)) {
                    let reason = tell!(
                        "{} runs true to {} as drawn: one holding",
                        "{} läuft laut Zeichnung zu {}: eine Aufspannung",
                        self.call(b),
                        self.call(a)
                    );
                    self.together("mandrel", a, b, reason);
                }
            }
        }
    }

    /// Drill, then bore, then ream; the chamfer and the hole before the thread; a groove before the last size.
    fn in_one_hole(&mut self) {
        let all = self.inside(|_| true);
        for a in &all {
            for b in &all {
                let (first, then) = (self.op(*a), self.op(*b));
                if first.feature != then.feature || a == b {
                    continue;
                }
                let rank = |o: &Operation| match o.verb {
                    Verb::Drill => 0,
                    Verb::Bore if !o.close => 1,
                    Verb::Bore | Verb::Ream | Verb::Taper => 2,
                    _ => 3,
                };
                if rank(first) < rank(then) {
                    let reason = match then.verb {
                        Verb::Tap | Verb::Thread => told!(
                            "the hole is to its size before the thread is cut in it",
                            "die Bohrung hat ihr Maß, bevor das Gewinde hineinkommt"
                        ),
                        Verb::Ream => told!(
                            "a reamer follows its drill or boring tool: it does not find the axis itself",
                            "eine Reibahle folgt ihrem Bohrer oder Ausdrehstahl: die Achse findet sie nicht selbst"
                        ),
                        _ => told!(
                            "drilled first, so that the boring tool goes in and makes the hole run true",
                            "erst gebohrt, damit der Ausdrehstahl hineingeht und die Bohrung rund läuft"
                        ),
                    };
                    self.before("order-bore", *a, *b, reason);
                    self.together(
                        "order-bore",
                        *a,
                        *b,
                        told!(
                            "one hole is finished in one holding: it runs true to itself",
                            "eine Bohrung wird in einer Aufspannung fertig: dann läuft sie zu sich selbst"
                        ),
                    );
                }
            }
        }
        // The center drill cuts the seat of a tapped center in the hole that leads the tap.
        for center in self.all(|o| o.verb == Verb::Center) {
            for i in self.inside(|_| true) {
                if self.op(i).feature.is_none() || self.op(i).feature != self.op(center).feature {
                    continue;
                }
                match self.op(i).verb {
                    Verb::Drill => self.before(
                        "order-bore",
                        i,
                        center,
                        told!("the seat is cut over the core hole", "die Senkung kommt über die Kernbohrung"),
                    ),
                    _ => self.before(
                        "order-bore",
                        center,
                        i,
                        told!("the seat leads the tap in", "die Senkung führt den Gewindebohrer"),
                    ),
                }
                self.together(
                    "order-bore",
                    i,
                    center,
                    told!(
                        "hole and seat in one holding: the center runs true",
                        "Bohrung und Senkung in einer Aufspannung: die Zentrierung läuft rund"
                    ),
                );
            }
        }
    }

    /// A smaller, deeper hole leads the larger; a mouth's chamfer comes before the thread and before the ream.
    fn bottom_first(&mut self) {
        for end in [crate::model::End::Datum, crate::model::End::Far] {
            let own = self.inside(|o| o.end == Some(end));
            for a in &own {
                for b in &own {
                    let (first, then) = (self.op(*a), self.op(*b));
                    if first.feature == then.feature {
                        continue;
                    }
                    match (first.verb, then.verb) {
                        (Verb::Drill, Verb::Drill) if first.to_diameter < then.to_diameter && a != b => {
                            self.before(
                                "order-bore",
                                *a,
                                *b,
                                told!("the smaller drill leads the larger", "der kleinere Bohrer führt den größeren"),
                            );
                        }
                        (Verb::Drill, Verb::Bore | Verb::Ream | Verb::Taper | Verb::Groove | Verb::Chamfer) => {
                            self.before(
                                "order-bore",
                                *a,
                                *b,
                                told!(
                                    "the drilling of this end is done before its finish cuts",
                                    "dieses Ende ist gebohrt, bevor es geschlichtet wird"
                                ),
                            );
                        }
                        (Verb::Bore, Verb::Bore | Verb::Taper | Verb::Ream) if bored_after(first, then) => {
                            self.before(
                                "order-bore",
                                *a,
                                *b,
                                told!(
                                    "every bore finds the hole before it as it is told here",
                                    "jede Bohrung findet die vorige, wie hier gesagt"
                                ),
                            );
                        }
                        (Verb::Bore | Verb::Taper, Verb::Groove | Verb::Chamfer) => {
                            self.before(
                                "order-bore",
                                *a,
                                *b,
                                told!(
                                    "the bore is to size before what is cut in its wall",
                                    "die Bohrung ist auf Maß vor dem, was in ihre Wand kommt"
                                ),
                            );
                        }
                        (Verb::Groove | Verb::Chamfer, Verb::Tap | Verb::Thread) => {
                            self.before(
                                "R9",
                                *a,
                                *b,
                                told!(
                                    "the thread starts and runs out in it",
                                    "das Gewinde beginnt darin und läuft darin aus"
                                ),
                            );
                        }
                        _ => {}
                    }
                }
            }
        }
    }

    /// A hole right through is finished before what is opened wider from the other end: nothing is drilled twice.
    fn through_first(&mut self) {
        for end in [crate::model::End::Datum, crate::model::End::Far] {
            let Some(through) = led_from_other(self.part, self.layout, end).map(|h| h.feature) else { continue };
            for a in self.inside(|o| o.feature == Some(through)) {
                for b in self.inside(|o| o.end == Some(end)) {
                    self.before(
                        "order-bore",
                        a,
                        b,
                        told!(
                            "the hole runs through first: what is wider here starts in it",
                            "erst die Durchgangsbohrung: was hier weiter ist, beginnt in ihr"
                        ),
                    );
                }
            }
        }
    }

    /// The mouth a hole comes out at has no edge to break before the hole is there.
    fn mouths_of_through_holes(&mut self) {
        let through: Vec<usize> = self.layout.hollows.iter().filter(|h| h.through).map(|h| h.feature).collect();
        let opens = |o: &Operation| matches!(o.verb, Verb::Drill | Verb::Bore | Verb::Ream | Verb::Taper);
        for a in self.inside(|o| opens(o) && o.feature.is_some_and(|f| through.contains(&f))) {
            for b in self.inside(|o| o.verb == Verb::Chamfer && o.end != self.op(a).end) {
                self.before("order-bore", a, b, "the hole comes out here before its edge is broken");
            }
        }
    }

    /// Holes across the part: drilled, then tapped.
    fn drilled_across(&mut self) {
        for (a, b) in self.cross(|o| o.verb == Verb::Drill, |o| o.verb == Verb::Tap) {
            if self.op(a).feature == self.op(b).feature {
                self.before("order-bore", a, b, told!("drilled, then tapped", "erst Kernloch, dann Gewindebohrer"));
            }
        }
    }
}
