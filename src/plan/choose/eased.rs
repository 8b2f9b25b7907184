//! Cuts made easier where the work gives way under them: lighter roughing, lighter last cuts, passes without infeed.
//!
//! What an order found has wanted once stays (`Derived::eased`): an order that would do with less is not weighed anew for it, so that the
//! search settles.

use crate::check::Facts;
use crate::check::holding::deflection::{Give, give, roughing_give};
use crate::model::Plan;
use crate::model::plan::{Assumed, Operation, Setup, Verb};
use crate::plan::cutting::{feed, least_cut};
use crate::plan::rough_depth::{DepthBy, dial_step, rough_depth};
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// Share of the band from which a cut is worth a word.
const WORTH_A_WORD: f64 = 0.1;
/// Equal last cuts are at most so many: beyond that passes without infeed do more (common practice, no source).
const MOST_CUTS: i64 = 8;

/// Makes the last cuts of an operation lighter where the work gives way by more than the limit `share` of the band, and counts the passes without
/// infeed; what to say of it.
pub(super) fn last_cuts(
    facts: &Facts<'_>,
    setups: &[Setup],
    held: &Setup,
    operation: &mut Operation,
) -> Option<String> {
    let usual = give(facts, setups, held, &Operation { lighter: None, ..operation.clone() })?;
    let limit = facts.limit_number("deflection", "share");
    let hands_own = facts.shop.is_some_and(|s| s.depth_finish.is_some());
    if usual.share() > limit && operation.verb != Verb::Thread && !hands_own {
        let a_side = (operation.from_diameter? - operation.to_diameter?).half();
        let least = least_cut(facts.shop, facts.part.units);
        let lighter = usual.depth_for(limit).floor_to(least).max(least).max(a_side.times_ratio(1, MOST_CUTS));
        let before = operation.lighter.unwrap_or(usual.depth_for(usual.share()));
        operation.lighter = Some(lighter.min(before)).filter(|l| *l < usual.depth_for(usual.share()));
    }
    let now = give(facts, setups, held, operation)?;
    if now.share() <= WORTH_A_WORD {
        return None;
    }
    operation.spring = operation.spring.max(now.spring_passes().0);
    operation.barrel = Some((now.error, now.left_by(operation.spring)));
    let barrel = barrel(facts, &now, operation.spring);
    Some(match operation.lighter {
        Some(lighter) => tell!(
            "last cuts of at most {} a side: at {} the work would give way by about {}, {:.0} % of its band; so {barrel}",
            "letzte Schnitte von höchstens {} je Seite: bei {} wiche das Werkstück um etwa {} aus, {:.0} % der Toleranz; so: {barrel}",
            facts.show(lighter),
            facts.show(usual.depth_for(usual.share())),
            facts.show(usual.error),
            100.0 * usual.share()
        ),
        None => barrel,
    })
}

/// What a cut leaves, and what passes without infeed make of it.
fn barrel(facts: &Facts<'_>, give: &Give, passes: u32) -> String {
    let left = facts.show(give.left_by(passes));
    let nothing = !left.contains(|c: char| c.is_ascii_digit() && c != '0');
    let left =
        if nothing { told!("next to nothing", "fast nichts").to_owned() } else { tell!("about {left}", "etwa {left}") };
    let gives = facts.show(give.error);
    if passes == 1 {
        return tell!(
            "the work gives way by about {gives} on the diameter under this cut: 1 pass without infeed leaves {left}",
            "das Werkstück weicht bei diesem Schnitt um etwa {gives} im Durchmesser aus: 1 Zug ohne Zustellung lässt {left}"
        );
    }
    tell!(
        "the work gives way by about {gives} on the diameter under this cut: {passes} passes without infeed leave {left}",
        "das Werkstück weicht bei diesem Schnitt um etwa {gives} im Durchmesser aus: {passes} Züge ohne Zustellung lassen {left}"
    )
}

/// Makes roughing lighter where the work would spring away by more than half of what is left for the finish (common practice, no source), but never
/// lighter than a last cut; a hand's own depth stays, and is told.
pub(super) fn rough_lighter(
    facts: &Facts<'_>,
    setups: &[Setup],
    held: &Setup,
    operation: &mut Operation,
) -> Option<String> {
    let last = |o: &&Operation| o.verb == Verb::Finish && o.feature == operation.feature && !o.inside;
    let finished = setups.iter().flat_map(|s| &s.operations).find(last)?.to_diameter?;
    let room = (operation.to_diameter? - finished).half().half().mm();
    let a_side = (operation.from_diameter? - operation.to_diameter?).half();
    let (most, by) = rough_depth(facts.part, facts.shop);
    let most = most.min(a_side);
    let turn = feed(facts.part.units, facts.shop, Verb::Rough)?;
    let gives = roughing_give(facts, setups, held, operation, (most, turn)).filter(|_| most.is_positive())?;
    if gives <= room || room <= 0.0 {
        return None;
    }
    let shown = |mm: f64| facts.show(Length::from_f64(mm, Unit::Millimetre));
    if by == DepthBy::Hand {
        return Some(tell!(
            "at the shop file's own {} a side the work springs away by about {}, more than half of what is left for the finish",
            "bei den {} je Seite der Werkstattdatei federt das Werkstück um etwa {} weg, mehr als die halbe Schlichtzugabe",
            facts.show(most),
            shown(gives)
        ));
    }
    let step = dial_step(facts.part.units);
    let finest = facts.limit("deflection", "depth").min(most);
    let deep = Length::from_f64(most.mm() * room / gives, Unit::Millimetre).floor_to(step).max(finest);
    operation.lighter = Some(operation.lighter.map_or(deep, |known| known.min(deep))).filter(|l| *l < most);
    Some(tell!(
        "cuts of at most {} a side: under {} the work would spring away by about {}, more than half of what is left for the finish",
        "Schnitte von höchstens {} je Seite: unter {} federte das Werkstück um etwa {} weg, mehr als die halbe Schlichtzugabe",
        facts.show(operation.lighter.unwrap_or(most)),
        facts.show(most),
        shown(gives)
    ))
}

/// What was taken to reckon with, where the give of the work decided something.
pub(super) fn assumed(facts: &Facts<'_>, plan: &Plan, too_soft: bool) -> Vec<Assumed> {
    let entry = |what: &str, value: String| Assumed {
        what: what.to_owned(),
        value,
        source: told!("common practice, no source", "Werkstattbrauch, ohne Quelle").to_owned(),
    };
    let told = |rough: bool| {
        let by_give = |o: &Operation| o.why.iter().any(|w| w.rule == "deflection");
        plan.operations().any(|(_, o)| (o.verb == Verb::Rough) == rough && by_give(o))
    };
    let radial = facts.limit_number("deflection", "radial");
    let mut list = Vec::new();
    if told(false) || too_soft {
        let depth = facts.shop.and_then(|s| s.depth_finish).unwrap_or_else(|| facts.limit("deflection", "depth"));
        let value = tell!(
            "{radial} of the cutting force is radial; last cuts of {} a side, {} a turn",
            "{radial} der Schnittkraft wirkt radial; letzte Schnitte {} je Seite, {} je Umdrehung",
            facts.show(depth),
            facts.show(facts.limit("deflection", "feed"))
        );
        list.push(entry(told!("Give of the work", "Nachgeben des Werkstücks"), value));
    }
    if plan.operations().any(|(_, o)| o.lighter.is_some() && o.verb != Verb::Rough) {
        let value = tell!(
            "at most {MOST_CUTS}, none lighter than the cross dial sets",
            "höchstens {MOST_CUTS}, keiner leichter, als die Planskale zustellt"
        );
        list.push(entry(told!("Lighter last cuts", "Leichtere letzte Schnitte"), value));
    }
    if told(true) {
        let value = tell!(
            "the work springs away by no more than half of the finish allowance, {radial} of the force radial",
            "das Werkstück federt höchstens um die halbe Schlichtzugabe weg, {radial} der Kraft radial"
        );
        list.push(entry(told!("Roughing slender work", "Schlankes schruppen"), value));
    }
    list
}
