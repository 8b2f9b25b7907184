//! From the answer to the plan: setups and operations in order, with shapes, zeros, grips and reasons.

use std::collections::BTreeMap;

use crate::check::Facts;
use crate::model::plan::{Derived, Operation, Setup, State, Verb, Why, Zero};
use crate::model::{End, Plan};
use crate::plan::cost::Rates;
use crate::plan::derive::Layout;
use crate::plan::derive::in_a_chuck;
use crate::plan::holding::{Lengths, draw_in, lay, tell_stick_out};
use crate::plan::order::{Certificate, Minutes};
use crate::plan::rules::because;
use crate::plan::shape::Work;
use crate::plan::spindle::slow;

use super::rest::Begun;
use crate::told;

/// Setups and operations in the order of the answer, with shapes, zeros and reasons.
pub(super) fn build(
    facts: &Facts<'_>,
    layout: &Layout,
    derived: &Derived,
    certificate: &Certificate,
    begun: Option<&Begun>,
) -> Plan {
    let (part, shop) = (facts.part, facts.shop);
    let mut work = Work::bar(layout);
    let mut opened = 0;
    let mut datum_faced =
        begun.is_some_and(|b| b.done.iter().any(|(o, _)| o.verb == Verb::Face && o.end == Some(End::Datum)));
    if let Some(begun) = begun {
        begun.done.iter().for_each(|(operation, works)| work.apply(operation, *works));
        begun.again.iter().for_each(|(operation, works, _)| work.apply(operation, *works));
        begun.diameters.iter().for_each(|(feature, diameter)| work.measured(*feature, *diameter));
        begun.stand.iter().for_each(|(feature, diameter)| work.stands(*feature, *diameter));
        let (now, number) = begun.mounted.as_ref().map_or(("", 0), |(name, number)| (name.as_str(), *number));
        let goes_on = certificate.order.first().is_some_and(|(_, name)| name == now);
        opened = (number as usize).saturating_sub(usize::from(goes_on));
    }
    let mut setups: Vec<Setup> = Vec::new();
    let mut number = 0;
    let mut last: Option<&str> = None;
    let by_id: BTreeMap<&str, usize> =
        derived.operations.iter().enumerate().map(|(i, (o, _))| (o.id.as_str(), i)).collect();
    let rules = Rules::of(derived);
    for (id, name) in &certificate.order {
        let Some(i) = by_id.get(id.as_str()).copied() else { continue };
        if last != Some(name.as_str()) {
            let Some(m) = derived.mountings.iter().position(|s| s.name == *name) else { continue };
            let mut setup = open(derived, m, opened + setups.len(), &work);
            if begun.is_some() {
                spare_what_is_finished(&mut setup);
            }
            setups.push(setup);
            last = Some(name);
        }
        let Some(setup) = setups.last_mut() else { continue };
        number += 10;
        let mut operation = derived.operations[i].0.clone();
        operation.number = begun.and_then(|b| b.numbers.get(id).copied()).unwrap_or(number);
        orient(&mut operation, setup.works);
        if !operation.inside {
            operation.from_diameter = work.found(&operation);
        }
        operation.travel = work.travel(&operation, setup.works);
        operation.followed = false;
        derived.ease(&mut operation, name);
        operation.why = reasons(derived, &rules, i);
        work.apply(&operation, setup.works);
        datum_faced |= operation.verb == Verb::Face && operation.end == Some(End::Datum);
        if datum_faced && operation.verb == Verb::Face && operation.end == Some(End::Far) {
            setup.zero = Zero::FacedToOverall;
        }
        setup.operations.push(operation);
        setup.after = work.spans();
    }
    if layout.parted.is_none() {
        let lengths = Lengths::of(layout, shop);
        for setup in &mut setups {
            draw_in(layout, &lengths, setup);
        }
    }
    setups.iter_mut().for_each(clip);
    for setup in &mut setups {
        tell_stick_out(setup);
        in_a_chuck(part, shop, setup);
        lay(part, layout, shop, setup);
    }
    let rates = Rates::of(*facts, layout);
    for setup in &mut setups {
        clocked(facts, &rates, setup);
    }
    let as_number = |m: Minutes| m.thousandths() as f64 / 1000.0;
    Plan {
        setups,
        cost: as_number(certificate.cost),
        lower_bound: as_number(certificate.lower_bound),
        floor: as_number(certificate.lower_bound),
        proven_optimal: certificate.proven_optimal,
        assumed: Vec::new(),
        given_way: Vec::new(),
        done: begun.map(words).unwrap_or_default(),
        remarks: begun.map(|b| b.remarks.clone()).unwrap_or_default(),
        rest: None,
        others: Vec::new(),
        no_second: None,
        compared: Vec::new(),
        chart_answers: Vec::new(),
    }
}

/// What keeps the cuts of a mounting slow, and the minutes they then take.
fn clocked(facts: &Facts<'_>, rates: &Rates<'_>, setup: &mut Setup) {
    setup.slow = Some(slow(facts, setup));
    let mut operations = std::mem::take(&mut setup.operations);
    for operation in &mut operations {
        operation.minutes = rates.minutes_in(operation, setup);
    }
    setup.operations = operations;
}

/// Jaws and dog hold no farther than the work reaches: an end that is faced by now is no longer bar.
fn clip(setup: &mut Setup) {
    let ends = setup.before.first().map(|s| s.from).zip(setup.before.last().map(|s| s.to));
    if let (Some(grip), Some((from, to))) = (&mut setup.grip, ends) {
        (grip.from, grip.to) = (grip.from.max(from), grip.to.min(to));
    }
}

/// Operations done, by number and words.
fn words(begun: &Begun) -> Vec<(u32, String)> {
    let number = |id: &str| begun.numbers.get(id).copied().unwrap_or(0);
    begun.done.iter().map(|(o, _)| (number(&o.id), o.verb.word().to_owned())).collect()
}

/// A mounting as the work comes to it.
fn open(derived: &Derived, m: usize, before: usize, work: &Work) -> Setup {
    let mut setup = derived.mountings[m].clone();
    setup.number = u32::try_from(before + 1).unwrap_or(u32::MAX);
    setup.before = work.spans();
    setup.after = work.spans();
    // Whether a follow rest is wanted is found from the plan anew.
    setup.rest = setup.rest.filter(|r| !r.follows);
    if let Some(grip) = &mut setup.grip
        && let Some(diameter) = work.largest(grip.from, grip.to)
    {
        // Jaws close on flats; a dog goes over the corners.
        let dog = setup.holding == crate::model::part::Holding::BetweenCenters;
        grip.diameter = if dog { diameter } else { work.jaws_on(diameter) };
    }
    if let Some(rest) = &mut setup.rest
        && let Some(diameter) = work.largest(rest.from, rest.to)
    {
        rest.diameter = diameter;
    }
    for (_, _, why) in derived.needs.iter().chain(&derived.ends).filter(|(x, _, _)| *x == m) {
        if !setup.why.iter().any(|w| w.rule == why.rule && w.reason == why.reason) {
            setup.why.push(why.clone());
        }
    }
    setup
}

/// Bar that was still to be turned when its mounting was first thought of may be finished by now.
fn spare_what_is_finished(setup: &mut Setup) {
    let Some(grip) = &mut setup.grip else { return };
    let under = setup.before.iter().filter(|s| s.from < grip.to && grip.from < s.to);
    let finished = under.clone().any(|s| matches!(s.state, State::Finished | State::Threaded));
    if finished && !grip.protect && !setup.by.spares() {
        grip.protect = true;
        setup.why.retain(|w| w.rule != "R25");
        setup.why.push(because(
            "R25",
            told!(
                "over copper: by now it holds on what is finished",
                "über Kupfer: hier wird schon an Fertigem gespannt"
            ),
        ));
    }
}

/// What can be worked from either end is described from the one that is at the tailstock.
fn orient(operation: &mut Operation, works: Option<End>) {
    if operation.end.is_some() {
        return;
    }
    let (Some(from), Some(to)) = (operation.from, operation.to) else { return };
    if works == Some(End::Far) && from < to {
        (operation.from, operation.to) = (Some(to), Some(from));
        if operation.face.is_some() {
            operation.face = Some(from);
        }
    }
}

/// Reasons by operation: what it comes behind, what it shares its mounting with, what it comes ahead of.
struct Rules<'a> {
    behind: Vec<Vec<&'a Why>>,
    beside: Vec<Vec<&'a Why>>,
    ahead: Vec<Vec<&'a Why>>,
}

impl<'a> Rules<'a> {
    fn of(derived: &'a Derived) -> Self {
        let none = vec![Vec::new(); derived.operations.len()];
        let mut rules = Self { behind: none.clone(), beside: none.clone(), ahead: none };
        for (a, b, why) in &derived.before {
            rules.ahead[*a].push(why);
            rules.behind[*b].push(why);
        }
        for (a, b, why) in &derived.together {
            rules.beside[*a].push(why);
            rules.beside[*b].push(why);
        }
        rules
    }
}

/// Every rule that holds an operation behind another, one reason a rule; what must follow it where nothing precedes it.
fn reasons(derived: &Derived, rules: &Rules, i: usize) -> Vec<Why> {
    let mut why = derived.operations[i].0.why.clone();
    let add = |why: &mut Vec<Why>, w: &Why| {
        if !why.iter().any(|have| have.rule == w.rule) {
            why.push(w.clone());
        }
    };
    rules.behind[i].iter().for_each(|w| add(&mut why, w));
    rules.beside[i].iter().for_each(|w| add(&mut why, w));
    if why.is_empty() {
        rules.ahead[i].iter().for_each(|w| add(&mut why, w));
    }
    why.sort_by_key(|w| weight(w.rule));
    let worked = !matches!(derived.operations[i].0.verb, Verb::Face | Verb::Center);
    if worked && why.iter().any(|w| w.rule != "R1") {
        why.retain(|w| w.rule != "R1");
    }
    if why.is_empty() {
        add(
            &mut why,
            &because(
                "",
                told!(
                    "no rule holds it here: any other place costs as many minutes or more",
                    "keine Regel hält es hier fest: an jeder anderen Stelle kostet es ebenso viele Minuten oder mehr"
                ),
            ),
        );
    }
    why
}

/// What tells most about a place comes first; what holds for every operation of an end comes last.
fn weight(id: &str) -> usize {
    const FIRST: &[&str] = &[
        "wish",
        "order-polish-keyseat",
        "R23",
        "R21",
        "R9",
        "order-thread-seat",
        "R12",
        "last-cut-takes-burr",
        "R5",
        "close-last",
        "R2",
        "R20",
        "order-bench",
        "order-turn-keyseat",
        "R10",
        "R18",
        "R4",
        "R3",
        "R1",
    ];
    FIRST.iter().position(|r| *r == id).unwrap_or(FIRST.len())
}
