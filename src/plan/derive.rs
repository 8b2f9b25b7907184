//! From features to operations: what is cut, from which end, to what size, in which mountings it may be done, and what must
//! come before what. No order is chosen here.

mod aims;
mod draft;
mod drill_sizes;
mod eccentric;
mod from_bar;
mod inside;
mod layout;
mod lying;
mod taper;
mod through;
mod turning;

pub(crate) use drill_sizes::least_bored;
pub(super) use from_bar::from_the_bar;
pub(super) use inside::is_open;
pub(super) use layout::{Layout, Section, Shape};
pub(super) use taper::{in_a_chuck, ways as taper_ways};
pub(super) use through::led_from_other;

use crate::chain::{Chain, Profile};
use crate::check::Facts;
use crate::handbook::material::{self, Condition};
use crate::model::plan::{Derived, Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Part, Shop};
use crate::unit::{Station, show};

use super::cost::Rates;
use super::holding::{
    Alone, Candidates, Lengths, between_its_cuts, candidates, cylinders_first, decide, faced_first, throws,
};
use super::precede::{Switches, is_last_cut, pairs};
use super::rules::because;
use super::shape::Work;
use super::wishes;
use crate::{tell, told};

/// Derives operations, candidate mountings and the rules between them. A part whose length or sections are not known gives
/// an empty result.
pub fn derive(part: &Part, chain: &Chain, profile: &Profile, shop: Option<&Shop>) -> Derived {
    match Layout::of(part, chain, profile) {
        Some(layout) => best_held(part, chain, &layout, shop),
        None => Derived::default(),
    }
}

/// The usual derivation; where it must hold something badly and the bar is long enough to cut the part from it well, that one.
fn best_held(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>) -> Derived {
    let usual = of_layout(part, chain, layout, shop);
    let badly = held_badly(&usual);
    if badly == 0 {
        return usual;
    }
    let others = from_the_bar(part, layout, shop).into_iter().map(|l| of_layout(part, chain, &l, shop));
    others.filter(|d| held_badly(d) < badly).min_by_key(held_badly).unwrap_or(usual)
}

/// Operations that nothing but a place that is too short can be held by for.
fn held_badly(derived: &Derived) -> usize {
    let poor = |m: &usize| derived.mountings[*m].why.iter().any(|w| w.rule == "grip-short");
    derived.operations.iter().filter(|(_, allowed)| !allowed.is_empty() && allowed.iter().all(poor)).count()
}

/// An operation of a feature with nothing filled in.
pub(super) fn fresh(part: &Part, verb: Verb, feature: usize, end: Option<End>) -> Operation {
    draft::on(part, verb, feature, end, ToolKind::None)
}

/// An operation of no feature in particular.
pub(super) fn of_no_feature(id: &str, verb: Verb, end: End, tool: ToolKind) -> Operation {
    draft::named(id, verb, Some(end), tool)
}

/// The same with its tool.
pub(super) fn fresh_with(part: &Part, verb: Verb, feature: usize, end: Option<End>, tool: ToolKind) -> Operation {
    draft::on(part, verb, feature, end, tool)
}

pub(super) fn of_layout(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>) -> Derived {
    let (derived, reached) = attempt(part, chain, layout, shop, Alone::Chuck);
    let wished = part.wishes.holding.is_some() || !part.wishes.holding_by_end.is_empty();
    if reached || wished || layout.parted.is_some() {
        return derived;
    }
    // The chuck alone leaves something to cut in its jaws or too far out of them: centers carry the ends.
    let (carried, reached) = attempt(part, chain, layout, shop, Alone::Nothing);
    if reached { carried } else { derived }
}

/// The derivation with a center at each end, where the person has not asked for anything else.
pub(super) fn on_centers(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>) -> Option<Derived> {
    let wished = part.wishes.holding.is_some() || !part.wishes.holding_by_end.is_empty() || layout.parted.is_some();
    (!wished).then(|| attempt(part, chain, layout, shop, Alone::Nothing).0)
}

/// The derivation in which each end may also be held as it is roughed.
pub(super) fn on_roughed(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>) -> Derived {
    let (derived, reached) = attempt_holding(part, chain, layout, shop, Alone::Chuck, true);
    if reached { derived } else { attempt_holding(part, chain, layout, shop, Alone::Nothing, true).0 }
}

/// One derivation, and whether every cut on the lathe has a mounting that reaches it. What is roughed is held where rules or wishes ask an
/// end to be left between two of its cuts; elsewhere no order gains by it.
fn attempt(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>, alone: Alone) -> (Derived, bool) {
    let (derived, reached) = attempt_holding(part, chain, layout, shop, alone, false);
    if between_its_cuts(&derived) {
        return attempt_holding(part, chain, layout, shop, alone, true);
    }
    (derived, reached)
}

fn attempt_holding(
    part: &Part,
    chain: &Chain,
    layout: &Layout,
    shop: Option<&Shop>,
    alone: Alone,
    on_roughed: bool,
) -> (Derived, bool) {
    let switches = Switches::of(part);
    let throws = throws(part, layout, shop);
    let mut operations = eccentric::on_eccentrics(layout, &throws, turning_of(part, chain, layout, shop));
    let (holdings, mut unheeded) = decide(part, layout, &operations, shop, &switches, alone);
    for holding in &holdings {
        operations.extend(lying::end_work(part, layout, holding.end, holding.centered));
    }
    for end in [End::Datum, End::Far] {
        operations.extend(inside::of_end(part, layout, end, shop));
    }
    operations.extend(eccentric::thrown(part, layout, &throws));
    operations.extend(lying::off_the_lathe(part, chain));
    operations.extend(lying::heat_treatment(part));
    operations.extend(lying::at_the_bench(part));
    list(part, layout, &mut operations);
    draft::make_unique(&mut operations);
    fill(part, chain, layout, shop, &mut operations);
    let Candidates { mountings, allowed, needs, ends, unheeded: ungripped, reached } =
        candidates(part, layout, &operations, &holdings, &throws, shop, on_roughed);
    unheeded.extend(ungripped);
    let mut rules = pairs(part, layout, &operations, &switches);
    cylinders_first(part, layout, shop, &operations, &mut rules);
    // What no mounting can reach together is left to the checks.
    rules.together.retain(|(a, b, _)| allowed[*a].iter().any(|m| allowed[*b].contains(m)));
    let gates = faced_first(&operations, &allowed, &mountings, &needs, &rules.before);
    let mut derived = Derived {
        operations: operations.into_iter().zip(allowed).collect(),
        mountings,
        before: rules.before,
        together: rules.together,
        needs,
        ends,
        gates,
        unheeded,
        assumed: layout.allow.assumed(part),
        refused: Vec::new(),
        outweighed: Vec::new(),
        too_soft: Vec::new(),
        eased: Vec::new(),
    };
    wishes::apply(part, layout, &switches, &mut derived);
    (derived, reached)
}

/// Everything the lathe cuts besides faces and center holes.
fn turning_of(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>) -> Vec<Operation> {
    let mut operations = Vec::new();
    for end in [End::Datum, End::Far] {
        operations.extend(turning::side(part, layout, end));
    }
    operations.extend(turning::either(part, layout));
    operations.extend(lying::necks(part, layout));
    operations.extend(lying::on_sections(part, chain, layout));
    if let Some(end) = layout.parted {
        for operation in operations.iter_mut().filter(|o| o.end.is_none()) {
            // What either end could take is done on the bar, before the part is cut off.
            operation.end = Some(end);
        }
        // Past the parting tool's path: no collar of bar is left for it, and what turns after it runs out clear.
        let path = Layout::toward(end.other(), layout.face(end), Lengths::of(layout, shop).parted_at(layout));
        let behind = layout.face(end.other());
        for rough in operations.iter_mut().filter(|o| o.verb == Verb::Rough && o.to == Some(behind)) {
            rough.to = Some(path);
        }
        operations.push(lying::part_off(layout, end));
    }
    operations
}

/// Puts the operations in the order a lathe hand would list them: first one end, then the other, then mill and bench; at an
/// end the roughing largest first, then finishing, necks, close sizes, polish, chamfer, thread.
fn list(part: &Part, layout: &Layout, operations: &mut [Operation]) {
    let first = layout.parted.or(part.wishes.first_end).unwrap_or(End::Datum);
    operations.sort_by_key(|o| {
        let rank = rank(layout, o);
        let second = u8::from(o.end.is_some_and(|e| e != first));
        let place = match o.verb {
            _ if o.throw.is_some() => 4,
            _ if o.inside => second,
            Verb::Face | Verb::Center => second,
            _ if rank >= 10 => 4,
            _ => 2 + second,
        };
        let size = if o.verb == Verb::Rough { o.to_diameter.map_or(0, |d| -d.pm()) } else { 0 };
        (place, rank, size)
    });
}

/// Where an operation stands at its end.
fn rank(layout: &Layout, operation: &Operation) -> u8 {
    match operation.verb {
        _ if operation.inside => 2,
        // Behind everything about the part's axis, before the mill.
        Verb::Rough if operation.throw.is_some() => 5,
        Verb::Finish | Verb::Turn if operation.throw.is_some() => 6,
        Verb::Face => 0,
        Verb::Center => 1,
        Verb::Rough => 2,
        _ if is_last_cut(layout, operation) => 3 + 2 * u8::from(operation.close),
        Verb::Groove | Verb::Knurl => 4,
        Verb::Polish => 6,
        Verb::Chamfer | Verb::File => 7,
        Verb::Thread => 8,
        Verb::PartOff => 9,
        Verb::Mill | Verb::Drill | Verb::Tap | Verb::HeatTreat => 10,
        Verb::Deburr => 11,
        Verb::FitTest => 12,
        Verb::Inspect => 13,
        _ => 3,
    }
}

/// The state the bar is bought in, where the description says so.
pub(super) fn bar_of(part: &Part) -> Option<Condition> {
    material::find(&part.material.as_ref()?.text)?.condition
}

/// A cut along the bar that finds its own skin.
fn first_cut(layout: &Layout, operation: &Operation) -> bool {
    let along = matches!(operation.verb, Verb::Rough | Verb::Turn | Verb::Finish | Verb::Taper);
    along && !operation.inside && operation.from_diameter == Some(layout.bar)
}

/// Works out what each operation finds before it, as if they were done in the listed order, and its minutes.
fn fill(part: &Part, chain: &Chain, layout: &Layout, shop: Option<&Shop>, operations: &mut [Operation]) {
    let profile = Profile::of(part, chain);
    let facts = Facts { part, slips: &[], chain, profile: &profile, shop, derived: None, plan: None };
    let rates = Rates::of(facts, layout);
    let mut work = Work::bar(layout);
    let scale = bar_of(part).is_some_and(Condition::has_scale) && !part.wishes.is_off("R6");
    for operation in operations.iter_mut() {
        if !operation.inside {
            operation.from_diameter = work.found(operation);
        }
        operation.travel = work.travel(operation, operation.end);
        work.apply(operation, operation.end);
        operation.minutes = rates.minutes(operation);
        let corners = layout.bar > layout.jaws_on && operation.from_diameter.is_some_and(|d| d > layout.jaws_on);
        if corners && !operation.inside && matches!(operation.verb, Verb::Rough | Verb::Turn) {
            let unit = layout.allow.unit;
            let flats = show::exact(layout.jaws_on, unit, show::usual_decimals(unit), 4);
            let reason = tell!(
                "the corners strike the tool until the work is round at {flats}: an interrupted cut",
                "die Kanten schlagen auf den Stahl, bis die Stange auf {flats} rund ist: unterbrochener Schnitt"
            );
            operation.why.push(because("interrupted", reason));
        }
        if scale && first_cut(layout, operation) {
            let reason = told!(
                "the first cut goes under the scale: skin as hard as that takes the edge off a tool that rubs in it",
                "der erste Schnitt geht unter die Haut: sie ist so hart, dass ein Stahl, der darin reibt, die Schneide verliert"
            );
            operation.why.push(because("R6", reason));
        }
        if operation.verb == Verb::Rough {
            let reason = told!(
                "what is left for the finish is a cut the tool can take cleanly",
                "was zum Schlichten bleibt, nimmt der Stahl sauber in einem Schnitt"
            );
            operation.why.push(because("R4", reason));
        }
        let measured_from = operation.to == Some(Station::DATUM) && layout.parted != Some(End::Far);
        if operation.verb == Verb::Face && measured_from {
            operation.why.push(because(
                "R21",
                told!("every length is measured from this face", "jede Länge wird von dieser Fläche gemessen"),
            ));
        }
        if operation.verb == Verb::Taper {
            operation.why.extend(taper::method(part, layout, shop, operation));
        }
        if operation.verb == Verb::Thread {
            operation.why.push(because(
                "R10",
                told!(
                    "cut and gauged in one holding: the lead is not found again",
                    "in einer Aufspannung gedreht und geprüft: die Steigung findet man nicht wieder"
                ),
            ));
        }
    }
}
