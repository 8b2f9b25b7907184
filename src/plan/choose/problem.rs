//! The ordering problem as the certificate restates it.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::part::Holding;
use crate::model::plan::{Derived, Operation, Setup, Why, Zero};
use crate::model::shop::ToolKind;
use crate::model::{Kind, Part, Workholder};
use crate::plan::cost::Rates;
use crate::plan::order::{self, Cost, Minutes, Op, Problem};
use crate::unit::Length;

/// The certificate's problem of a derivation; the work may be in one of the mountings already.
pub(super) fn problem(part: &Part, derived: &Derived, rates: &Rates<'_>, mounted: Option<&str>) -> Problem {
    let id = |i: usize| derived.operations[i].0.id.clone();
    let name = |m: usize| derived.mountings[m].name.clone();
    let ops = derived.operations.iter().map(|(o, places)| Op {
        id: o.id.clone(),
        setups: places.iter().map(|m| name(*m)).collect(),
        tool: tool(part, o),
        cost: own_cost(derived, rates, o, places),
        verb: o.verb.word().to_owned(),
        feature: o.feature.and_then(|f| part.features.get(f)).map_or_else(String::new, |f| match f.letter.as_str() {
            "" => f.kind.word().to_owned(),
            letter => letter.to_owned(),
        }),
        end: o.end.map(|e| e.word().to_owned()),
    });
    let setups = derived.mountings.iter().map(|m| order::Setup {
        name: m.name.clone(),
        holding: m.held(),
        datum_end: m.datum_end.word().to_owned(),
    });
    let mut problem = Problem { ops: ops.collect(), setups: setups.collect(), ..Problem::default() };
    // Each pair once, whichever rules ask for it.
    let mut said = BTreeSet::new();
    let fresh = derived.before.iter().filter(|(a, b, _)| said.insert((*a, *b)));
    problem.precedences = fresh.map(|(a, b, _)| (id(*a), id(*b))).collect();
    said.clear();
    let in_order = derived.together.iter().map(|(a, b, _)| (*a.min(b), *a.max(b)));
    problem.same_setup = in_order.filter(|pair| said.insert(*pair)).map(|(a, b)| (id(a), id(b))).collect();
    for (m, o, _) in &derived.needs {
        add(&mut problem.setup_needs, name(*m), id(*o));
    }
    for (m, o, _) in &derived.ends {
        add(&mut problem.setup_ends, name(*m), id(*o));
    }
    for (m, a, b, _) in gates(derived) {
        problem.setup_gates.entry(name(*m)).or_default().push((id(*a), id(*b)));
    }
    problem.reasons = reasons(derived);
    problem.setup_change = changes(derived, rates);
    let first = minutes(rates.minutes.setup);
    let mut each = BTreeMap::from([("*".to_owned(), first)]);
    for m in derived.mountings.iter().filter(|m| m.rest.is_some()) {
        each.insert(m.name.clone(), minutes(rates.minutes.setup * (1.0 + setting(m))));
    }
    if let Some(name) = mounted {
        // The work is in this one already.
        each.insert(name.to_owned(), Minutes::ZERO);
    }
    problem.setup_first = if each.len() == 1 { Cost::Same(first) } else { Cost::Each(each) };
    problem.tool_change = minutes(rates.minutes.tool);
    problem.tool_first = minutes(rates.minutes.tool);
    problem
}

/// What an operation costs: in each of its mountings, where that makes a difference.
fn own_cost(derived: &Derived, rates: &Rates<'_>, operation: &Operation, places: &[usize]) -> Cost {
    let each = |m: &usize| {
        let mounting = &derived.mountings[*m];
        let mut operation = operation.clone();
        derived.ease(&mut operation, &mounting.name);
        (mounting.name.clone(), minutes(rates.minutes_in(&operation, mounting)))
    };
    let each: BTreeMap<String, Minutes> = places.iter().map(each).collect();
    match each.values().next() {
        Some(first) if each.values().all(|m| m == first) => Cost::Same(*first),
        Some(_) => Cost::Each(each),
        None => Cost::Same(minutes(operation.minutes)),
    }
}

/// What stands in the problem by the rule of the trade that asks for it.
fn reasons(derived: &Derived) -> BTreeMap<String, Vec<order::Rule>> {
    let id = |i: usize| derived.operations[i].0.id.clone();
    let name = |m: usize| derived.mountings[m].name.clone();
    let pairs = derived.before.iter().map(|(a, b, w)| (w, order::Rule::Precedence(id(*a), id(*b))));
    let beside = derived.together.iter().map(|(a, b, w)| (w, order::Rule::SameSetup(id(*a.min(b)), id(*a.max(b)))));
    let needs = derived.needs.iter().map(|(m, o, w)| (w, order::Rule::SetupNeeds(name(*m), id(*o))));
    let ends = derived.ends.iter().map(|(m, o, w)| (w, order::Rule::SetupEnds(name(*m), id(*o))));
    let gates = gates(derived).map(|(m, a, b, w)| (w, order::Rule::SetupGate(name(*m), id(*a), id(*b))));
    let mut by_rule: BTreeMap<String, BTreeSet<order::Rule>> = BTreeMap::new();
    for (why, stands) in pairs.chain(beside).chain(needs).chain(ends).chain(gates).filter(|(w, _)| !w.rule.is_empty()) {
        by_rule.entry(why.rule.to_owned()).or_default().insert(stands);
    }
    by_rule.into_iter().map(|(rule, stands)| (rule, stands.into_iter().collect())).collect()
}

/// The gates of mountings that the operation which waits there may be done in.
fn gates(derived: &Derived) -> impl Iterator<Item = &(usize, usize, usize, Why)> {
    derived.gates.iter().filter(|(m, a, ..)| derived.operations[*a].1.contains(m))
}

fn add(table: &mut BTreeMap<String, Vec<String>>, key: String, value: String) {
    let list = table.entry(key).or_default();
    if !list.contains(&value) {
        list.push(value);
    }
}

/// A setup change costs the same everywhere, but for two things: drawing the bar out of the chuck and bringing up the
/// center is half of one, setting a steady rest costs another and a follow rest half of one, a poor place to hold costs three, for the bush or the soft
/// jaws it wants, and four jaws, soft jaws and a tailstock set over cost what setting them takes.
fn changes(derived: &Derived, rates: &Rates<'_>) -> Cost {
    let setup = rates.minutes.setup;
    let mut each = BTreeMap::from([("*".to_owned(), minutes(setup))]);
    // Indicating in four jaws is half a setup more; boring soft jaws, setting a tailstock over and back, throwing the work over a whole one.
    let more = |s: &Setup| -> f64 {
        match s.by {
            Workholder::FourJaw | Workholder::SecondCenters(_) => 0.5,
            Workholder::SoftJaws | Workholder::SetOver(_) | Workholder::Thrown(_) | Workholder::Packed(_) => 1.0,
            _ => 0.0,
        }
    };
    let poor = |s: &Setup| s.why.iter().any(|w| w.rule == "grip-short");
    for (i, from) in derived.mountings.iter().enumerate() {
        for (j, to) in derived.mountings.iter().enumerate() {
            if i == j {
                continue;
            }
            let same_grip = |s: &Setup| s.grip.as_ref().is_some_and(|g| !g.protect || g.letter.is_empty());
            // What is roughed is gripped for the first time, or is what the jaws are on already.
            let roughed = |s: &Setup| s.grip.as_ref().filter(|g| g.roughed).map(|g| g.letter.clone());
            let drawn_out =
                from.holding == Holding::Chuck && to.holding == Holding::ChuckAndCenter && from.works == to.works;
            // A rest is set on the spot just turned for it, the work staying in the jaws.
            let spot = from.zero == Zero::SawnEnd && (from.works, &from.grip) == (to.works, &to.grip);
            let change = if to.holding == Holding::ChuckAndRest && spot {
                setting(to)
            } else if to.holding == Holding::ChuckAndRest {
                2.0
            } else if poor(to) {
                3.0 + setting(to)
            } else if drawn_out && more(to) == 0.0 && same_grip(from) && same_grip(to) && roughed(from) == roughed(to) {
                0.5 + setting(to)
            } else {
                1.0 + more(to) + setting(to)
            };
            if (change - 1.0_f64).abs() > 1e-9 {
                each.insert(format!("{}>{}", from.name, to.name), minutes(setup * change));
            }
        }
    }
    if each.len() == 1 { Cost::Same(minutes(setup)) } else { Cost::Each(each) }
}

/// Setups that setting a follow rest takes (common practice, no source).
pub(super) const FOLLOW_REST: f64 = 0.5;

/// Setups that setting a rest takes: a steady rest another one, a follow rest half of one (common practice, no source).
fn setting(mounting: &Setup) -> f64 {
    mounting.rest.as_ref().map_or(0.0, |r| if r.follows { FOLLOW_REST } else { 1.0 })
}

fn minutes(m: f64) -> Minutes {
    Minutes::from_thousandths((m * 1000.0).round().clamp(0.0, 1e9) as u64)
}

/// What must be changed to go from one operation to another: the kind of tool, and its size where that differs.
fn tool(part: &Part, operation: &Operation) -> String {
    let inner = |d: Length| crate::unit::show::exact(d, part.units, 0, 4);
    let size = match (operation.tool, operation.feature.and_then(|f| part.features.get(f)).map(|f| &f.kind)) {
        (ToolKind::WoodruffCutter, Some(Kind::Woodruff { number, .. })) => number.clone(),
        (ToolKind::EndMill, Some(Kind::ParallelKeyseat { width, .. })) => width.text.clone(),
        (ToolKind::Drill, Some(Kind::CrossHole { diameter, .. })) => diameter.text.clone(),
        (ToolKind::Drill | ToolKind::Reamer | ToolKind::Tap, _) if operation.inside => {
            operation.to_diameter.map_or_else(String::new, inner)
        }
        (ToolKind::Boring, _) => match operation.verb {
            crate::model::plan::Verb::Groove => "groove".to_owned(),
            crate::model::plan::Verb::Thread => "thread".to_owned(),
            _ => String::new(),
        },
        _ => String::new(),
    };
    format!("{} {size}", operation.tool.word()).trim_end().to_owned()
}
