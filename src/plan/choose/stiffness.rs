//! How far the work gives way under its last cuts, as it is when each mounting begins: what wants a follow rest, and the
//! barrel to expect elsewhere.

use crate::check::Facts;
use crate::check::holding::deflection::{Give, give};
use crate::model::Plan;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Rest, Setup};
use crate::plan::rules::because;
use crate::unit::Length;

/// Share of the band from which a cut is worth a word.
const WORTH_A_WORD: f64 = 0.1;

/// Adds follow rests where the work would give way by more than half of a band, and says what to expect of the other cuts.
pub(super) fn stiffen(facts: &Facts<'_>, plan: &mut Plan) {
    let setups = plan.setups.clone();
    for setup in &mut plan.setups {
        let gives: Vec<Option<Give>> = setup.operations.iter().map(|o| give(facts, &setups, setup, o)).collect();
        let worst = setup.operations.iter().zip(&gives).filter_map(|(o, g)| Some((o, (*g)?)));
        let worst = worst.max_by(|a, b| a.1.share().total_cmp(&b.1.share()));
        if let Some((operation, give)) = worst
            && give.share() > facts.limit_number("deflection", "share")
            && !facts.part.wishes.is_off("R16")
            && let Some(rest) = follow_rest(facts, setup, operation)
        {
            let says = format!(
                "{} gives way by about {} under its last cut, {:.0} % of its band: a follow rest carries it behind the tool (its setting is not in the minutes)",
                rest.letter,
                facts.show(give.error),
                100.0 * give.share()
            );
            setup.why.push(because("R16", says));
            setup.rest = Some(rest);
            continue;
        }
        for (operation, give) in setup.operations.iter_mut().zip(gives) {
            if let Some(give) = give.filter(|g| g.share() > WORTH_A_WORD) {
                operation.why.push(because("deflection", barrel(facts, &give)));
            }
        }
    }
}

/// What a cut leaves, and what passes without infeed make of it.
fn barrel(facts: &Facts<'_>, give: &Give) -> String {
    let (passes, left) = give.spring_passes();
    let left = facts.show(left);
    let nothing = !left.contains(|c: char| c.is_ascii_digit() && c != '0');
    format!(
        "the work gives way by about {} on the diameter under this cut: {passes} {} without infeed {} {}",
        facts.show(give.error),
        if passes == 1 { "pass" } else { "passes" },
        if passes == 1 { "leaves" } else { "leave" },
        if nothing { "next to nothing".to_owned() } else { format!("about {left}") }
    )
}

/// The shop's follow rest on what an operation turns, where it can run: on a center, and on something long enough.
fn follow_rest(facts: &Facts<'_>, setup: &Setup, operation: &Operation) -> Option<Rest> {
    let on_center = matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters);
    let (from, to, diameter) = (operation.from?, operation.to?, operation.to_diameter?);
    let takes =
        |range: &Option<(Length, Length)>| range.is_none_or(|(least, most)| least <= diameter && diameter <= most);
    let at_hand = facts.shop?.rests.iter().any(|(kind, range)| kind == "follow" && takes(range));
    let long = (to - from).abs() >= diameter.times(3);
    (on_center && at_hand && long && setup.rest.is_none()).then(|| Rest {
        follows: true,
        from: from.min(to),
        to: from.max(to),
        diameter,
        letter: operation
            .feature
            .and_then(|f| facts.part.features.get(f))
            .map_or_else(String::new, |f| f.letter.clone()),
    })
}
