//! Why a mounting holds the work as it does: the holding itself, what lies under jaws or dog, what is poor about the place.

use super::decide::EndHolding;
use super::grip::Held;
use crate::model::part::Holding;
use crate::model::plan::Why;
use crate::plan::derive::Layout;
use crate::plan::rules::because;

/// The reasons of a mounting that holds a place.
pub(super) fn reasons(layout: &Layout, holding: &EndHolding, how: Holding, held: &Held, turns: bool) -> Vec<Why> {
    let mut why = Vec::new();
    if turns {
        why.push(holding.why.clone());
    }
    let dog = how == Holding::BetweenCenters;
    if matches!(how, Holding::Chuck | Holding::ChuckAndRest) && !turns {
        why.push(because("R1", format!("the {} end must stand free to be faced and centered", holding.end.word())));
    }
    if matches!(how, Holding::Chuck | Holding::ChuckAndCenter) && layout.is_short() {
        let reason = "no longer than it is wide: its face lies against the steps of the jaws, turned round where the rim asks for it, \
                      and so a short grip holds it, with light cuts";
        why.push(because("short-work", reason));
    }
    why.push(under(layout, held, if dog { "dog" } else { "jaws" }));
    if held.poor && dog {
        why.push(because("grip-short", "a poor place for a dog: a split nut or bush under its screw, and light cuts"));
    } else if held.poor {
        why.push(because("grip-short", "a poor place to hold: a split bush or soft jaws, and light cuts"));
    }
    why
}

/// What lies under jaws or dog.
fn under(layout: &Layout, held: &Held, tool: &str) -> Why {
    match (held.section, held.grip.protect) {
        (Some(_), _) => {
            let turned = layout.sections.iter().any(|s| s.letter == held.grip.letter && s.is_turned());
            let surface = if turned { "finished" } else { "kept" };
            because("R25", format!("{tool} on {}, over copper: its surface is {surface}", held.grip.letter))
        }
        (None, true) => because("R25", format!("{tool} on the bar, over copper where its own surface stays")),
        (None, false) => because("R25", format!("{tool} on bar that is still to be turned, so no mark matters")),
    }
}
