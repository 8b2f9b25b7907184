//! Other plans beside the one chosen.

use crate::model::part::Holding;
use crate::model::plan::{Alternative, NoSecond, Plan, Setup};
use crate::{tell, told};

/// A mounting in quotation marks.
pub fn quoted(setup: &Setup) -> String {
    tell!("“{}”", "„{}“", mounting(setup))
}

/// `one, two and three`.
fn listed(each: &[String]) -> String {
    match each.split_last() {
        Some((last, before)) if !before.is_empty() => {
            let before = before.join(", ");
            tell!("{before} and {last}", "{before} und {last}")
        }
        _ => each.concat(),
    }
}

/// What doing without a holding would cost: `what` is the holding, in quotation marks.
pub fn without(what: &str, more: &str, at_most: bool) -> String {
    let at_most = if at_most { told!(" at most", " höchstens") } else { "" };
    tell!("Without {what}: {more} minutes more{at_most}.", "Ohne {what}: {more} Minuten mehr{at_most}.")
}

/// The runner-up: what it does without, each in quotation marks, and what it does instead.
pub fn next_best(what: &[String], more: &str, at_most: bool, instead: &str) -> String {
    let what = listed(what);
    let at_most = if at_most { told!(" at most", " höchstens") } else { "" };
    tell!(
        "The next best plan, {more} minutes more{at_most}, does without {what}: {instead}.",
        "Der nächstbeste Plan, {more} Minuten mehr{at_most}, kommt aus ohne {what}: {instead}."
    )
}

/// A plan that takes no longer: what it does otherwise.
pub fn as_quick(instead: &str) -> String {
    tell!("An equally quick plan: {instead}.", "Ein gleich schneller Plan: {instead}.")
}

/// What another plan does instead: its holdings, how many there are, where it begins.
pub fn instead(plan: &Plan, other: &Alternative) -> String {
    instead_named(plan, other, quoted)
}

/// The same, each mounting by a name in quotation marks.
pub fn instead_named(plan: &Plan, other: &Alternative, name: impl Fn(&Setup) -> String) -> String {
    let moved = other.instead.iter().map(|i| {
        let (done, held) = (spans(&i.numbers(plan)), name(&i.setup));
        tell!("{done} in {held}", "{done} in {held}")
    });
    let (now, then) = (plan.setups.len(), other.setups.len());
    let many = match then {
        _ if then == now => told!("as many setups", "ebenso viele Spannlagen").to_owned(),
        1 => tell!("1 setup instead of {now}", "1 Spannlage statt {now}"),
        _ => tell!("{then} setups instead of {now}", "{then} Spannlagen statt {now}"),
    };
    let first = other.first_end.map(|end| tell!("the {} end turned first", "das {}ende zuerst gedreht", end.said()));
    moved.chain([many]).chain(first).collect::<Vec<_>>().join("; ")
}

/// `10 to 60 and 90`.
fn spans(numbers: &[(u32, u32)]) -> String {
    let each = numbers.iter().map(|(a, b)| if a == b { a.to_string() } else { tell!("{a} to {b}", "{a} bis {b}") });
    listed(&each.collect::<Vec<_>>())
}

/// A mounting by what holds it, the end that is worked, and the place held.
pub fn mounting(setup: &Setup) -> String {
    let mut parts = vec![super::held(setup.by, setup.holding)];
    let on_centers = matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters);
    parts.extend(setup.works.map(|end| match end.said() {
        end if on_centers => tell!("{end} end at the tailstock", "{end}ende am Reitstock"),
        end => tell!("{end} end out", "{end}ende frei"),
    }));
    if let (Some(grip), true) = (&setup.grip, setup.works.is_some()) {
        parts.push(super::grip_on(&grip.letter, false, None));
    }
    let rest = setup.rest.as_ref().filter(|r| !r.follows && !r.letter.is_empty());
    parts.extend(rest.map(|r| tell!("the rest on {}", "Lünette auf {}", r.letter)));
    parts.join(", ")
}

/// Why no second plan is told.
pub fn no_second(why: NoSecond) -> String {
    match why {
        NoSecond::TooMany(most) => tell!(
            "No second plan was looked for: more than {most} operations.",
            "Nach einem zweiten Plan wurde nicht gesucht: mehr als {most} Arbeitsgänge."
        ),
        NoSecond::Unproven => told!(
            "No second plan was looked for: this one is not proven to be the cheapest.",
            "Nach einem zweiten Plan wurde nicht gesucht: dieser ist nicht als der günstigste bewiesen."
        )
        .to_owned(),
        NoSecond::OutOfTime(seconds) => tell!(
            "No second plan was found within {seconds} seconds.",
            "Ein zweiter Plan wurde in {seconds} Sekunden nicht gefunden."
        ),
    }
}
