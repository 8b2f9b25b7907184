//! How far the work gives way under its last cuts, as it is when each mounting begins: what wants a follow rest, and the
//! barrel to expect elsewhere.

use super::eased::{last_cuts, rough_lighter};
use super::too_soft::hence;
use crate::check::Facts;
use crate::check::holding::deflection::{Give, give};
use crate::check::holding::follow;
use crate::model::plan::{Derived, Operation, Rest, Setup, Verb, Why};
use crate::model::{End, Plan};
use crate::plan::rules::because;
use crate::tell;
use crate::unit::{Length, Station};

/// Adds follow rests where the work would give way by more than half of a band, or is slenderer than the trade turns without one; eases the
/// cuts of what still gives way, and says what to expect of it.
pub(super) fn stiffen(facts: &Facts<'_>, derived: &Derived, plan: &mut Plan) {
    let setups = plan.setups.clone();
    for (setup, held) in plan.setups.iter_mut().zip(&setups) {
        setup.why.extend(hence(facts, derived, setup));
        let gives: Vec<Option<Give>> = setup.operations.iter().map(|o| give(facts, &setups, held, o)).collect();
        let wanting = setup.operations.iter().zip(&gives).filter_map(|(o, g)| wanting(facts, setup, o, g.as_ref()));
        let mut wanting: Vec<Wanting> = wanting.collect();
        wanting.sort_by(|a, b| b.share.total_cmp(&a.share));
        if let Some(worst) = wanting.first() {
            setup.rest = Some(rest(facts, worst, &wanting));
            setup.why.push(worst.why.clone());
            let carried: Vec<usize> = wanting.iter().map(|w| w.feature).collect();
            for operation in &mut setup.operations {
                operation.followed =
                    operation.feature.is_some_and(|f| carried.contains(&f)) && is_long(facts, operation);
            }
        }
        for operation in setup.operations.iter_mut().filter(|o| !o.followed) {
            let told = match operation.verb {
                Verb::Rough => rough_lighter(facts, &setups, held, operation),
                _ => last_cuts(facts, &setups, held, operation),
            };
            operation.why.extend(told.into_iter().map(|says| because("deflection", says)));
        }
    }
}

/// A last cut that wants the follow rest, and the stretch the rest travels.
struct Wanting {
    feature: usize,
    diameter: Length,
    stretch: (Station, Station),
    share: f64,
    why: Why,
}

/// Whether a cut wants the follow rest and can have it.
fn wanting(facts: &Facts<'_>, setup: &Setup, operation: &Operation, give: Option<&Give>) -> Option<Wanting> {
    let last = matches!(operation.verb, Verb::Finish | Verb::Turn | Verb::Thread) && operation.throw.is_none();
    if !last || operation.inside || !follow::on_center(setup) || setup.rest.is_some() || !is_long(facts, operation) {
        return None;
    }
    let (feature, diameter) = (operation.feature?, diameter(operation)?);
    let letter = called(facts, feature);
    let says = if let Some(give) = give.filter(|g| g.share() > facts.limit_number("deflection", "share")) {
        tell!(
            "{letter} gives way by about {} under its last cut, {:.0} % of its band: a follow rest carries it behind the tool (its setting is half a setup more)",
            "{letter} weicht beim letzten Schnitt um etwa {} aus, {:.0} % der Toleranz: eine mitlaufende Lünette stützt hinter dem Stahl (ihr Einstellen ist ein halbes Aufspannen mehr)",
            facts.show(give.error),
            100.0 * give.share()
        )
    } else if follow::wants_rest(facts, setup, diameter) {
        tell!(
            "{letter} is {:.1} diameters between its supports, more than {} are turned without a rest: a follow rest carries it behind the tool (its setting is half a setup more)",
            "{letter} ist zwischen den Stützen {:.1} Durchmesser lang, ohne Lünette dreht man nicht mehr als {}: eine mitlaufende Lünette stützt hinter dem Stahl (ihr Einstellen ist ein halbes Aufspannen mehr)",
            follow::slenderness(facts, setup, diameter)?,
            facts.limit_number("slender", "diameters")
        )
    } else {
        return None;
    };
    let (a, b) = (operation.from?, operation.to?);
    let share = give.map_or(0.0, Give::share);
    Some(Wanting { feature, diameter, stretch: (a.min(b), a.max(b)), share, why: because("R16", says) })
}

/// Whether some cut wants the follow rest in every mounting that it may be done in, however the work is drawn in there: then no order does without
/// setting one.
pub(super) fn always_followed(facts: &Facts<'_>, derived: &Derived) -> bool {
    derived.operations.iter().any(|(operation, allowed)| {
        let last = matches!(operation.verb, Verb::Finish | Verb::Turn) && operation.throw.is_none();
        let Some(diameter) = diameter(operation).filter(|_| last && is_long(facts, operation)) else { return false };
        let wants = |m: &usize| {
            let mut mounting = derived.mountings[*m].clone();
            mounting.stick_out = mounting.stick_out.zip(reaches(facts, &mounting, operation)).map(|(a, b)| a.min(b));
            follow::on_center(&mounting) && mounting.rest.is_none() && follow::wants_rest(facts, &mounting, diameter)
        };
        !allowed.is_empty() && allowed.iter().all(wants)
    })
}

/// How far from the end at the tailstock a cut reaches: so far at least the work stands out of the jaws.
fn reaches(facts: &Facts<'_>, setup: &Setup, operation: &Operation) -> Option<Length> {
    let (from, to) = (operation.from?, operation.to?);
    Some(match setup.works? {
        End::Datum => from.max(to) - Station::DATUM,
        End::Far => from.min(to).from_far_end(facts.chain.overall(facts.part)?),
    })
}

/// Turned along so far that a follow rest of the shop can be set on it.
pub(super) fn is_long(facts: &Facts<'_>, operation: &Operation) -> bool {
    let along = matches!(operation.verb, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Thread) && !operation.inside;
    let long = operation.from.zip(operation.to).map(|(a, b)| (b - a).abs());
    along && diameter(operation).zip(long).is_some_and(|(d, long)| follow::at_hand(facts, d, long))
}

/// The diameter the jaws bear on: what the cut leaves, of a thread its finished crests.
fn diameter(operation: &Operation) -> Option<Length> {
    if operation.verb == Verb::Thread { operation.from_diameter } else { operation.to_diameter }
}

pub(super) fn called(facts: &Facts<'_>, feature: usize) -> String {
    facts.part.features.get(feature).map_or_else(String::new, |f| f.letter.clone())
}

/// The rest of a mounting, along all that it carries.
fn rest(facts: &Facts<'_>, worst: &Wanting, all: &[Wanting]) -> Rest {
    let mut features: Vec<usize> = all.iter().map(|w| w.feature).collect();
    features.sort_unstable();
    features.dedup();
    let letters: Vec<String> = features.into_iter().map(|f| called(facts, f)).collect();
    let from = all.iter().map(|w| w.stretch.0).min().unwrap_or(worst.stretch.0);
    let to = all.iter().map(|w| w.stretch.1).max().unwrap_or(worst.stretch.1);
    Rest { follows: true, from, to, diameter: worst.diameter, letter: letters.join(", ") }
}
