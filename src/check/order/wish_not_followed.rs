#![doc = include_str!("wish_not_followed.md")]

use super::{center_lost, polish_keyseat, relief_thread, thread_seat};
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Place, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "wish-not-followed",
    severity: Severity::Warning,
    group: "order",
    source: "the rule that stands against it",
    page: include_str!("wish_not_followed.md"),
    look,
};

/// Rules about holding that have a check of their own to tell of them.
const TOLD_ELSEWHERE: [&str; 4] = ["overhang", "center-missing", "feature-in-jaws", "R23"];

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(derived) = facts.derived else { return };
    let judged = by_order_checks(facts);
    let refused = derived.refused.iter().map(|r| (Some(r.place), &r.wish, &r.why));
    let unheeded = derived.unheeded.iter().map(|u| (u.place, &u.wish, &u.why));
    for (place, wish, why) in refused.chain(unheeded) {
        if TOLD_ELSEWHERE.contains(&why.rule) || (place.is_some() && judged.contains(&place)) {
            continue;
        }
        let place = place.unwrap_or(facts.part.wishes.place.unwrap_or(facts.part.name.place));
        let mut finding = Finding::new(
            CHECK.id,
            Severity::Warning,
            tell!("the wish `{wish}` is not followed: {}", "der Wunsch `{wish}` wird nicht befolgt: {}", why.reason),
        )
        .at(place)
        .source(why.source)
        .help(told!(
            "Change the wish or take it out: the plan is made without it",
            "Den Wunsch ändern oder streichen: der Plan ist ohne ihn gemacht"
        ));
        finding.compared.push(("wish", Compared::Text(wish.clone())));
        out.push(finding);
    }
}

/// Places of the wishes that the other checks of this group tell of.
fn by_order_checks(facts: &Facts<'_>) -> Vec<Option<Place>> {
    let mut findings = Vec::new();
    for check in [&polish_keyseat::CHECK, &relief_thread::CHECK, &thread_seat::CHECK, &center_lost::CHECK] {
        (check.look)(facts, &mut findings);
    }
    findings.iter().map(|f| f.place).collect()
}
