//! The ordering problem of a part, its answer, and the plan made of it.

use std::collections::BTreeMap;

use crate::chain::{Chain, Profile};
use crate::model::part::Holding;
use crate::model::plan::{Derived, Operation, Setup, Verb, Why, Zero};
use crate::model::shop::ToolKind;
use crate::model::{End, Kind, Part, Plan, Shop};

use super::cost::Rates;
use super::derive::{Layout, of_layout};
use super::holding::Lengths;
use super::order::{self, Certificate, Cost, Limits, Minutes, Op, Problem};
use super::rules::{because, rule};
use super::shape::Work;

/// A plan with what it follows from and the problem a second program can solve again.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Operations, mountings and rules.
    pub derived: Derived,
    /// The chosen order.
    pub plan: Plan,
    /// The ordering problem and its answer.
    pub certificate: Certificate,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// The part has no known length or no section that can be turned.
    NothingToTurn,
    /// Rules and wishes leave no order; those that clash, with their reasons.
    Clash(Vec<Why>),
    /// The time allowed was over before any order was found.
    OutOfTime,
}

/// Derives the operations of a part and finds the cheapest order that keeps every rule, within `seconds`.
///
/// # Errors
/// [`NoPlan`]: nothing to turn, rules that clash, or no time.
pub fn plan(
    part: &Part,
    chain: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    seconds: u64,
) -> Result<Planned, NoPlan> {
    let layout = Layout::of(part, chain, profile).ok_or(NoPlan::NothingToTurn)?;
    let mut derived = of_layout(part, chain, &layout, shop);
    let rates = Rates::of(part, shop);
    let limits = Limits { seconds, ..Limits::default() };
    let (certificate, given_way) = search(part, &mut derived, &rates, limits)?;
    let mut plan = build(part, &layout, &derived, shop, &certificate);
    plan.given_way = given_way;
    plan.assumed.clone_from(&derived.assumed);
    plan.assumed.extend(rates.assumed());
    let holds = |h: &[Holding]| plan.setups.iter().any(|s| h.contains(&s.holding));
    let chuck = holds(&[Holding::Chuck, Holding::ChuckAndCenter]);
    let dog = holds(&[Holding::BetweenCenters]);
    plan.assumed.extend(Lengths::of(part.units, shop).assumed(chuck, dog));
    Ok(Planned { derived, plan, certificate })
}

/// Searches; where no order keeps every rule, soft rules among those that clash give way one at a time.
fn search(
    part: &Part,
    derived: &mut Derived,
    rates: &Rates,
    limits: Limits,
) -> Result<(Certificate, Vec<Why>), NoPlan> {
    let mut given_way = Vec::new();
    loop {
        let problem = problem(part, derived, rates);
        let refusal = match order::solve(&problem, limits) {
            Ok(answer) => return Ok((Certificate::new(problem, answer), given_way)),
            Err(refusal) => refusal,
        };
        let order::Refusal::Conflict { rules, .. } = &refusal else { return Err(no_plan(derived, &problem, &refusal)) };
        match rules.iter().find_map(|clash| drop_soft(derived, &problem, clash)) {
            Some(why) if !given_way.contains(&why) => given_way.push(why),
            Some(_) => {}
            None => return Err(no_plan(derived, &problem, &refusal)),
        }
    }
}

/// Takes a pair out of the derivation when only soft rules ask for it; gives the reason it had.
fn drop_soft(derived: &mut Derived, problem: &Problem, clash: &order::Rule) -> Option<Why> {
    let op = |id: &str| problem.ops.iter().position(|o| o.id == id);
    let (list, a, b) = match clash {
        order::Rule::Precedence(a, b) => (&mut derived.before, op(a)?, op(b)?),
        order::Rule::SameSetup(a, b) => (&mut derived.together, op(a)?, op(b)?),
        _ => return None,
    };
    let same =
        |x: usize, y: usize| (x, y) == (a, b) || (matches!(clash, order::Rule::SameSetup(..)) && (x, y) == (b, a));
    let soft = |w: &Why| w.rule != "wish" && rule(w.rule).is_some_and(|r| !r.hard);
    let why = list.iter().find(|(x, y, _)| same(*x, *y)).map(|(_, _, w)| w.clone())?;
    if !list.iter().filter(|(x, y, _)| same(*x, *y)).all(|(_, _, w)| soft(w)) {
        return None;
    }
    list.retain(|(x, y, _)| !same(*x, *y));
    Some(why)
}

/// The certificate's problem of a derivation.
fn problem(part: &Part, derived: &Derived, rates: &Rates) -> Problem {
    let id = |i: usize| derived.operations[i].0.id.clone();
    let name = |m: usize| derived.mountings[m].name.clone();
    let ops = derived.operations.iter().map(|(o, places)| Op {
        id: o.id.clone(),
        setups: places.iter().map(|m| name(*m)).collect(),
        tool: tool(part, o),
        cost: Cost::Same(minutes(o.minutes)),
        verb: o.verb.word().to_owned(),
        feature: o.feature.and_then(|f| part.features.get(f)).map_or_else(String::new, |f| match f.letter.as_str() {
            "" => f.kind.word().to_owned(),
            letter => letter.to_owned(),
        }),
        end: o.end.map(|e| e.word().to_owned()),
    });
    let setups = derived.mountings.iter().map(|m| order::Setup {
        name: m.name.clone(),
        holding: m.holding.word().to_owned(),
        datum_end: m.datum_end.word().to_owned(),
    });
    let mut problem = Problem { ops: ops.collect(), setups: setups.collect(), ..Problem::default() };
    let mut pairs: Vec<(String, String)> = Vec::new();
    for (a, b, _) in &derived.before {
        let pair = (id(*a), id(*b));
        if !pairs.contains(&pair) {
            pairs.push(pair);
        }
    }
    problem.precedences = pairs;
    let mut same: Vec<(String, String)> = Vec::new();
    for (a, b, _) in &derived.together {
        let pair = (id(*a.min(b)), id(*a.max(b)));
        if !same.contains(&pair) {
            same.push(pair);
        }
    }
    problem.same_setup = same;
    for (m, o, _) in &derived.needs {
        add(&mut problem.setup_needs, name(*m), id(*o));
    }
    for (m, o, _) in &derived.ends {
        add(&mut problem.setup_ends, name(*m), id(*o));
    }
    problem.setup_change = changes(derived, rates);
    problem.setup_first = Cost::Same(minutes(rates.minutes.setup));
    problem.tool_change = minutes(rates.minutes.tool);
    problem.tool_first = minutes(rates.minutes.tool);
    problem
}

fn add(table: &mut BTreeMap<String, Vec<String>>, key: String, value: String) {
    let list = table.entry(key).or_default();
    if !list.contains(&value) {
        list.push(value);
    }
}

/// A setup change costs the same everywhere, but for two things: drawing the bar out of the chuck and bringing up the
/// center is half of one, and a poor place to hold costs three, for the bush or the soft jaws it wants.
fn changes(derived: &Derived, rates: &Rates) -> Cost {
    let setup = rates.minutes.setup;
    let mut each = BTreeMap::from([("*".to_owned(), minutes(setup))]);
    let poor = |s: &Setup| s.why.iter().any(|w| w.rule == "grip-short");
    for (i, from) in derived.mountings.iter().enumerate() {
        for (j, to) in derived.mountings.iter().enumerate() {
            if i == j {
                continue;
            }
            let same_grip = |s: &Setup| s.grip.as_ref().is_some_and(|g| !g.protect || g.letter.is_empty());
            let drawn_out =
                from.holding == Holding::Chuck && to.holding == Holding::ChuckAndCenter && from.works == to.works;
            if poor(to) {
                each.insert(format!("{}>{}", from.name, to.name), minutes(setup * 3.0));
            } else if drawn_out && same_grip(from) && same_grip(to) {
                each.insert(format!("{}>{}", from.name, to.name), minutes(setup * 0.5));
            }
        }
    }
    if each.len() == 1 { Cost::Same(minutes(setup)) } else { Cost::Each(each) }
}

fn minutes(m: f64) -> Minutes {
    Minutes::from_thousandths((m * 1000.0).round().clamp(0.0, 1e9) as u64)
}

/// What must be changed to go from one operation to another: the kind of tool, and its size where that differs.
fn tool(part: &Part, operation: &Operation) -> String {
    let size = match (operation.tool, operation.feature.and_then(|f| part.features.get(f)).map(|f| &f.kind)) {
        (ToolKind::WoodruffCutter, Some(Kind::Woodruff { number, .. })) => number.clone(),
        (ToolKind::EndMill, Some(Kind::ParallelKeyseat { width, .. })) => width.text.clone(),
        (ToolKind::Drill, Some(Kind::CrossHole { diameter, .. })) => diameter.text.clone(),
        _ => String::new(),
    };
    format!("{} {size}", operation.tool.word()).trim_end().to_owned()
}

fn no_plan(derived: &Derived, problem: &Problem, refusal: &order::Refusal) -> NoPlan {
    match refusal {
        order::Refusal::Undecided => NoPlan::OutOfTime,
        order::Refusal::Malformed(_) => NoPlan::NothingToTurn,
        order::Refusal::Conflict { rules, .. } => {
            let mut reasons: Vec<Why> = Vec::new();
            for clash in rules {
                let why = reason_of(derived, problem, clash);
                if !reasons.contains(&why) {
                    reasons.push(why);
                }
            }
            NoPlan::Clash(reasons)
        }
    }
}

/// The reason behind a rule of the problem.
fn reason_of(derived: &Derived, problem: &Problem, clash: &order::Rule) -> Why {
    let op = |id: &str| problem.ops.iter().position(|o| o.id == id);
    let setup = |name: &str| problem.setups.iter().position(|s| s.name == name);
    let pair = |list: &[(usize, usize, Why)], a: Option<usize>, b: Option<usize>| {
        list.iter().find(|(x, y, _)| Some(*x) == a && Some(*y) == b).map(|(_, _, w)| w.clone())
    };
    let found = match clash {
        order::Rule::Precedence(a, b) => pair(&derived.before, op(a), op(b)),
        order::Rule::SameSetup(a, b) => {
            pair(&derived.together, op(a), op(b)).or_else(|| pair(&derived.together, op(b), op(a)))
        }
        order::Rule::SetupNeeds(s, o) => pair(&derived.needs, setup(s), op(o)),
        order::Rule::SetupEnds(s, o) => pair(&derived.ends, setup(s), op(o)),
        order::Rule::Adjacent(..) => None,
    };
    found.unwrap_or_else(|| because("", "rules of this part"))
}

/// Setups and operations in the order of the answer, with shapes, zeros and reasons.
fn build(part: &Part, layout: &Layout, derived: &Derived, shop: Option<&Shop>, certificate: &Certificate) -> Plan {
    let rates = Rates::of(part, shop);
    let mut work = Work::bar(layout, part.wishes.part_off);
    let mut setups: Vec<Setup> = Vec::new();
    let mut number = 0;
    let mut last: Option<&str> = None;
    for (id, name) in &certificate.order {
        let Some(i) = derived.operations.iter().position(|(o, _)| o.id == *id) else { continue };
        if last != Some(name.as_str()) {
            let Some(m) = derived.mountings.iter().position(|s| s.name == *name) else { continue };
            setups.push(open(derived, m, setups.len(), &work));
            last = Some(name);
        }
        let Some(setup) = setups.last_mut() else { continue };
        number += 10;
        let mut operation = derived.operations[i].0.clone();
        operation.number = number;
        orient(&mut operation, setup.works);
        operation.from_diameter = work.found(&operation);
        operation.minutes = rates.minutes(layout, &operation);
        operation.why = reasons(derived, i);
        work.apply(&operation, setup.works);
        if operation.verb == Verb::Face && operation.end == Some(End::Far) {
            setup.zero = Zero::FacedToOverall;
        }
        setup.operations.push(operation);
        setup.after = work.spans();
    }
    let as_number = |m: Minutes| m.thousandths() as f64 / 1000.0;
    Plan {
        setups,
        cost: as_number(certificate.cost),
        lower_bound: as_number(certificate.lower_bound),
        proven_optimal: certificate.proven_optimal,
        assumed: Vec::new(),
        given_way: Vec::new(),
    }
}

/// A mounting as the work comes to it.
fn open(derived: &Derived, m: usize, before: usize, work: &Work) -> Setup {
    let mut setup = derived.mountings[m].clone();
    setup.number = u32::try_from(before + 1).unwrap_or(u32::MAX);
    setup.before = work.spans();
    setup.after = work.spans();
    if let Some(grip) = &mut setup.grip
        && let Some(diameter) = work.largest(grip.from, grip.to)
    {
        grip.diameter = diameter;
    }
    for (_, _, why) in derived.needs.iter().chain(&derived.ends).filter(|(x, _, _)| *x == m) {
        if !setup.why.iter().any(|w| w.rule == why.rule && w.reason == why.reason) {
            setup.why.push(why.clone());
        }
    }
    setup
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

/// Every rule that holds an operation behind another, one reason a rule; what must follow it where nothing precedes it.
fn reasons(derived: &Derived, i: usize) -> Vec<Why> {
    let mut why = derived.operations[i].0.why.clone();
    let add = |why: &mut Vec<Why>, w: &Why| {
        if !why.iter().any(|have| have.rule == w.rule) {
            why.push(w.clone());
        }
    };
    derived.before.iter().filter(|(_, b, _)| *b == i).for_each(|(_, _, w)| add(&mut why, w));
    derived.together.iter().filter(|(a, b, _)| *a == i || *b == i).for_each(|(_, _, w)| add(&mut why, w));
    if why.is_empty() {
        derived.before.iter().filter(|(a, _, _)| *a == i).for_each(|(_, _, w)| add(&mut why, w));
    }
    why.sort_by_key(|w| weight(w.rule));
    let worked = !matches!(derived.operations[i].0.verb, Verb::Face | Verb::Center);
    if worked && why.iter().any(|w| w.rule != "R1") {
        why.retain(|w| w.rule != "R1");
    }
    if why.is_empty() {
        add(&mut why, &because("", "no rule holds it here: any other place costs as many minutes or more"));
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
