#![doc = include_str!("slender.md")]

use super::follow;
use crate::check::shape::{nominal_at, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::Setup;
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "slender",
    severity: Severity::Warning,
    group: "holding",
    source: "common practice, no source; the computed deflection decides",
    page: include_str!("slender.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let most = facts.limit_number(CHECK.id, "diameters");
    let Some((thick, length)) = main_section(facts) else { return };
    let limit = times(thick, most);
    // The plan sets the shop's follow rest where the work is so slender; before a plan that much is known already.
    let carried = |setup: &Setup| match facts.plan {
        Some(_) => setup.rest.as_ref().is_some_and(|r| r.follows),
        None => follow::at_hand(facts, thick, length),
    };
    let long = |setup: &Setup| between_supports(facts, setup).filter(|l| *l > limit && !carried(setup));
    let found = facts.unavoidable(|s| long(s).is_some());
    let Some((long, setup)) = found.into_iter().filter_map(|s| Some((long(s)?, s))).max_by_key(|(l, _)| *l) else {
        return;
    };
    let message = tell!(
        "{}: {} between supports on a main diameter of {} is {} diameters, more than {}",
        "{}: {} zwischen den Stützen bei einem Hauptdurchmesser von {} sind {} Durchmesser, mehr als {}",
        setup.name,
        facts.show(long),
        facts.show(thick),
        number(long.mm() / thick.mm()),
        number(most)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Warning, message)
            .by_limit("diameters")
            .at(facts.setup_place(setup))
            .length("between_supports", long)
            .length("diameter", thick)
            .number("diameters", long.mm() / thick.mm())
            .help(if has_follow_rest(facts) {
                told!(
                    "The follow rest has no cut here that is long enough for it: a steady in the middle, or lighter cuts with a sharp, narrow-nosed tool, spring passes, measured along the length",
                    "Für die mitlaufende Lünette ist hier kein Schnitt lang genug: eine feste in die Mitte, oder leichtere Schnitte mit scharfem, spitzem Stahl, Züge ohne Zustellung, der Länge nach gemessen"
                )
            } else {
                told!("Set a follow rest behind the tool, or a steady in the middle, and list it under `rests` of the shop file: the plan \
                 then sets the follow rest. Without one: lighter cuts with a sharp, narrow-nosed tool, spring passes, measured \
                 along the length", "Eine mitlaufende Lünette hinter den Stahl setzen oder eine feste in die Mitte, und unter `rests` eintragen: dann setzt der Plan die mitlaufende. Ohne sie: leichtere Schnitte mit scharfem, spitzem Stahl, Züge ohne Zustellung, der Länge nach gemessen")
            }),
    );
}

fn has_follow_rest(facts: &Facts<'_>) -> bool {
    facts.shop.is_some_and(|s| s.rests.iter().any(|(kind, _)| kind == "follow"))
}

/// Unsupported length of a holding that uses a center.
pub(super) fn between_supports(facts: &Facts<'_>, setup: &Setup) -> Option<Length> {
    match setup.holding {
        Holding::BetweenCenters => facts.chain.overall(facts.part),
        Holding::ChuckAndCenter => setup.stick_out,
        _ => None,
    }
}

/// Diameter and length of the longest section.
fn main_section(facts: &Facts<'_>) -> Option<(Length, Length)> {
    let longest = facts.profile.pieces.iter().max_by_key(|p| p.long())?;
    let diameter = nominal_at(facts.feature(longest.feature)?, End::Datum);
    diameter.is_positive().then_some((diameter, longest.long()))
}
