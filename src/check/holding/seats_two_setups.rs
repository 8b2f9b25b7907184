#![doc = include_str!("seats_two_setups.md")]

use crate::chain::Mouth;
use crate::check::passing::is_bearing;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::{Setup, Verb};
use crate::model::{End, Feature, Kind};
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "seats-two-setups",
    severity: Severity::Warning,
    group: "holding",
    source: "what must run true is finished in one holding or between centers (a lathe maker's support note)",
    page: include_str!("seats_two_setups.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // What neighbouring seats may run out where nobody wrote it (common practice, no source).
    let usual = match facts.part.units {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(20),
    };
    for (one, other) in pairs(facts) {
        if !facts.finished_apart(one, other) {
            continue;
        }
        let within = one.true_to.as_ref().filter(|t| t.feature == other.id).map(|t| t.within.nominal);
        if facts.held_true(one, other, within.unwrap_or(usual)) {
            continue;
        }
        let bored = facts.is_inside(one) || facts.is_inside(other);
        let message = tell!(
            "{} and {} must run true to each other{}, but they are finished in different holdings",
            "{} und {} müssen zueinander laufen{}, werden aber in verschiedenen Aufspannungen fertig",
            other.called(),
            one.called(),
            within.map_or(String::new(), |w| tell!(" within {}", " auf {}", facts.show(w)))
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(one.head)
            .also(other.head, "the other seat")
            .of(other.letter.clone())
            .of(one.letter.clone())
            .number("holdings", 2.0)
            .help(if bored {
                told!(
                    "Hold the finished part in a 4-jaw chuck, a collet or soft jaws, listed in the shop file, and indicate it before it is bored; or a 60° chamfer in the mouth, bored in one holding with it, and the seats turned on that",
                    "Das fertige Teil im Vierbackenfutter, in einer Spannzange oder in weichen Backen spannen, die die Werkstattdatei nennt, und vor dem Ausdrehen ausrichten; oder eine 60°-Fase in der Mündung, in derselben Aufspannung gedreht, und die Sitze darauf drehen"
                )
            } else {
                told!(
                    "Finish both between centers, or indicate the first seat before the second is cut",
                    "Beide zwischen Spitzen schlichten, oder nach dem ersten Sitz ausrichten, bevor der zweite gedreht wird"
                )
            });
        if let Some(within) = within {
            finding = finding.length("within", within);
        }
        out.push(finding);
    }
    unasked(facts, usual, out);
}

/// A taper or a close bore that nobody wrote `true to` for, cut in the finished part in a chuck that is not indicated.
fn unasked(facts: &Facts<'_>, usual: Length, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    for setup in plan.setups.iter().filter(|s| s.holding == Holding::Chuck) {
        let on_finished = setup.grip.as_ref().is_some_and(|g| !g.letter.is_empty());
        let true_enough = setup.runs_true.is_some_and(|t| t <= usual);
        let socket = setup.operations.iter().find(|o| o.inside && (o.close || o.verb == Verb::Taper));
        let socket = socket.and_then(|o| facts.feature(o.feature?)).filter(|f| f.true_to.is_none());
        let before = plan.operations().filter(|(s, o)| s.number < setup.number && o.close && !o.inside);
        let seat = before.filter_map(|(_, o)| facts.feature(o.feature?)).last();
        let (true, false, Some(socket), Some(seat)) = (on_finished, true_enough, socket, seat) else { continue };
        let message = tell!(
            "{} is cut in the finished part, in a chuck that nothing says runs true to {}",
            "{} wird in das fertige Teil gedreht, in einem Futter, von dem niemand sagt, dass es zu {} läuft",
            socket.called(),
            seat.called()
        );
        out.push(
            Finding::new(CHECK.id, Severity::Note, message)
                .at(socket.head)
                .also(seat.head, "the seat")
                .of(socket.letter.clone())
                .of(seat.letter.clone())
                .number("holdings", 2.0)
                .help(told!(
                    "Indicate it before it is bored: list a 4-jaw chuck in the shop file, and say how true it must run, `true to: NAME within …`",
                    "Vor dem Ausdrehen ausrichten: ein Vierbackenfutter in der Werkstattdatei nennen, und wie gut es laufen muss, `true to: NAME within …`"
                )),
        );
    }
}

/// Seats that must run true: as stated, else every two neighbouring bearing seats.
fn pairs<'a>(facts: &Facts<'a>) -> Vec<(&'a Feature, &'a Feature)> {
    let stated = facts.part.features.iter().filter_map(|f| Some((f, facts.feature(f.true_to.as_ref()?.feature)?)));
    let stated: Vec<_> = stated.collect();
    if !stated.is_empty() {
        return stated;
    }
    let turned = |f: &&&Feature| matches!(f.kind, Kind::Turn { kept: false, .. });
    let seats: Vec<&Feature> = facts.part.sections().filter(|f| f.carries.iter().any(is_bearing)).collect();
    let seats: Vec<&Feature> = seats.iter().filter(turned).copied().collect();
    seats.windows(2).map(|w| (w[1], w[0])).collect()
}

impl<'a> Facts<'a> {
    /// Whether the last cuts of two features are made in different holdings that are not between centers. Without a plan: from
    /// different ends, with no way between centers.
    pub(super) fn finished_apart(&self, one: &Feature, other: &Feature) -> bool {
        let between = |setups: &[&Setup]| setups.iter().any(|s| s.holding == Holding::BetweenCenters);
        let (a, b) = (self.finishing(one), self.finishing(other));
        if self.run_on_its_mouth(one, other, &b) || self.run_on_its_mouth(other, one, &a) {
            return false;
        }
        if a.is_empty() || b.is_empty() || (between(&a) && between(&b)) {
            return false;
        }
        if self.plan.is_some() {
            return !a.iter().any(|s| b.iter().any(|t| s.number == t.number));
        }
        if self.is_inside(one) || self.is_inside(other) {
            return !a.iter().any(|s| b.iter().any(|t| std::ptr::eq(*s, *t)));
        }
        let from = |setups: &[&'a Setup], end| setups.iter().all(|s| s.works == Some(end));
        (from(&a, End::Datum) && from(&b, End::Far)) || (from(&a, End::Far) && from(&b, End::Datum))
    }

    /// Whether the later of two is cut in a mounting that holds the finished work true enough by itself: a collet, soft jaws bored to
    /// it, four jaws indicated, a mandrel.
    fn held_true(&self, one: &Feature, other: &Feature, within: Length) -> bool {
        let true_enough = |s: &Setup| s.holding == Holding::Mandrel || s.runs_true.is_some_and(|t| t <= within);
        let both = || self.finishing(one).into_iter().chain(self.finishing(other));
        if self.plan.is_none() {
            return both().any(true_enough);
        }
        both().max_by_key(|s| s.number).is_some_and(true_enough)
    }

    /// Whether a feature is cut inside.
    fn is_inside(&self, feature: &Feature) -> bool {
        self.profile.hollow(feature.id).is_some()
    }

    /// A bore whose 60° mouth, cut in one holding with it, is what the center runs on while the other is finished.
    fn run_on_its_mouth(&self, bored: &Feature, other: &Feature, turned: &[&Setup]) -> bool {
        let Some(hollow) = self.profile.hollow(bored.id).filter(|_| !self.is_inside(other)) else { return false };
        let Mouth::Seat { feature: mouth, .. } = self.profile.mouth(hollow.end) else { return false };
        if self.plan.is_none() {
            return turned.iter().any(|s| s.runs_on_center(hollow.end));
        }
        let cut = |s: &Setup| s.operations.iter().any(|o| o.feature == Some(mouth));
        let last = self.finishing(bored).into_iter().max_by_key(|s| s.number);
        last.is_some_and(|s| cut(s) && turned.iter().all(|t| t.number > s.number && t.runs_on_center(hollow.end)))
    }

    /// Mountings in which a feature gets its last cut: the plan's, or those it may have.
    fn finishing(&self, feature: &Feature) -> Vec<&'a Setup> {
        let last = |verb: Verb| matches!(verb, Verb::Finish | Verb::Turn | Verb::Taper);
        let inside = |verb: Verb| matches!(verb, Verb::Drill | Verb::Bore | Verb::Ream | Verb::Thread);
        let on =
            |o: &crate::model::Operation| o.feature == Some(feature.id) && (last(o.verb) || o.inside && inside(o.verb));
        if let Some(plan) = self.plan {
            return plan.operations().filter(|(_, o)| on(o)).map(|(s, _)| s).collect();
        }
        let Some(derived) = self.derived else { return Vec::new() };
        let places = derived.operations.iter().filter(|(o, _)| on(o)).flat_map(|(_, places)| places);
        places.filter_map(|m| derived.mountings.get(*m)).collect()
    }
}
