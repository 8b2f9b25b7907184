//! Between centers with the tailstock set over: a mounting of its own for the tapers it cuts, and nothing else.

use super::mountings::Candidate;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Verb};
use crate::model::{Part, Shop, Workholder};
use crate::plan::derive::{Layout, taper_ways};
use crate::plan::precede::{Pairs, is_last_cut};
use crate::plan::rules::because;
use crate::tell;
use crate::unit::{Length, show};

/// For each candidate between centers, one with the tailstock set over for the tapers of its end that allow it.
pub(super) fn set_over(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    operations: &[Operation],
    on_lathe: &[Candidate],
) -> Vec<Candidate> {
    let mut list: Vec<Candidate> = Vec::new();
    for candidate in on_lathe.iter().filter(|c| c.setup.holding == Holding::BetweenCenters) {
        for operation in operations.iter().filter(|o| o.verb == Verb::Taper && !o.inside) {
            let Some((by, _)) = over(part, layout, shop, operation) else { continue };
            if operation.end.is_some_and(|e| e != candidate.end) {
                continue;
            }
            let shown = show::exact(by, part.units, show::usual_decimals(part.units), 3);
            let name = candidate.setup.name.replacen(
                "between centers",
                &format!("between centers, tailstock set over {shown}"),
                1,
            );
            if list.iter().any(|c| c.setup.name == name) {
                continue;
            }
            let mut setup = candidate.setup.clone();
            setup.by = Workholder::SetOver(by);
            setup.name = name;
            setup.why = vec![because(
                "taper-method",
                tell!(
                    "the tailstock is set over {shown} for the taper alone, and proved true again after it",
                    "der Reitstock wird nur für den Kegel um {shown} verstellt und danach wieder gerade gestellt"
                ),
            )];
            list.push(Candidate { setup, held: candidate.held.clone(), track: None, tapers: true, ..*candidate });
        }
    }
    list
}

/// How far the tailstock is set over for a taper, where it can be, and whether nothing else can cut it.
pub(super) fn over(part: &Part, layout: &Layout, shop: Option<&Shop>, operation: &Operation) -> Option<(Length, bool)> {
    let ways = taper_ways(part, layout, shop, operation)?;
    Some((ways.set_over?, !ways.compound && !ways.attachment))
}

/// Whether a mounting may do an operation, as far as set-over tailstocks go.
pub(super) fn suits(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    operation: &Operation,
    candidate: &Candidate,
) -> bool {
    let Workholder::SetOver(by) = candidate.setup.by else { return true };
    match operation.verb {
        // A taper pipe thread is cut where its taper was, in one setting.
        Verb::Taper | Verb::Thread => {
            !operation.inside && over(part, layout, shop, operation).is_some_and(|(o, _)| o == by)
        }
        // An edge and a strip do not ask where the tailstock is.
        Verb::Chamfer | Verb::Polish => !operation.inside,
        _ => false,
    }
}

/// Cylinders are cut while the tailstock is true: before a taper that only the tailstock set over can cut, close sizes too.
pub(in crate::plan) fn cylinders_first(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    operations: &[Operation],
    rules: &mut Pairs,
) {
    let tapers = (0..operations.len()).filter(|i| {
        let o = &operations[*i];
        o.verb == Verb::Taper && !o.inside && over(part, layout, shop, o).is_some_and(|(_, only)| only)
    });
    for taper in tapers.collect::<Vec<_>>() {
        rules.before.retain(|(a, _, why)| *a != taper || !matches!(why.rule, "R5" | "close-last"));
        for (i, o) in operations.iter().enumerate() {
            let last = i != taper && o.verb != Verb::Taper && !o.inside && is_last_cut(layout, o);
            if last && (o.end.is_none() || operations[taper].end.is_none() || o.end == operations[taper].end) {
                let reason = "the cylinders are cut while the tailstock is true, the taper after them";
                rules.before.push((i, taper, because("taper-method", reason)));
            }
        }
    }
}
