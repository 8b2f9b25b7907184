#![doc = include_str!("too_big.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

/// The check.
pub const CHECK: Check = Check {
    id: "too-big",
    severity: Severity::Error,
    group: "holding",
    source: "the shop file's swing",
    page: include_str!("too_big.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    bar(facts, out);
    thrown_over(facts, out);
}

/// While an eccentric is turned, the rest of the part swings about its axis.
fn thrown_over(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(swing), Some(largest)) = (facts.shop.and_then(|s| s.swing), facts.profile.largest()) else { return };
    for feature in facts.part.sections().filter(|f| f.sweeps().is_positive()) {
        let sweep = largest + feature.sweeps();
        if sweep <= swing {
            continue;
        }
        let message = format!(
            "held for {}, the part sweeps {}, and the lathe swings {} over the bed",
            feature.called(),
            facts.show(sweep),
            facts.show(swing)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(feature.head)
                .of(feature.letter.clone())
                .length("sweeps", sweep)
                .length("swing", swing)
                .help("Use a larger lathe: turned about the eccentric's axis, the largest diameter and twice the throw must pass the bed"),
        );
    }
}

fn bar(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(shop), Some(stock)) = (facts.shop, &facts.part.stock) else { return };
    let bar = stock.across_corners();
    let swings = [(shop.swing_over_cross_slide, "over the cross slide"), (shop.swing, "over the bed")];
    let Some((swing, where_)) = swings.into_iter().filter_map(|(s, w)| Some((s?, w))).find(|(s, _)| bar > *s) else {
        return;
    };
    let message =
        format!("the bar is {}, and the lathe swings {} {where_}", facts.bar_over_corners(bar), facts.show(swing));
    out.push(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(stock.size.place)
            .length("bar", bar)
            .length("swing", swing)
            .help("Use a larger lathe; near the jaws the cross slide may stay clear, but then not along the work"),
    );
}
