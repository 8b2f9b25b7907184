#![doc = include_str!("too_big.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

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
        let message = tell!(
            "held for {}, the part sweeps {}, and the lathe swings {} over the bed",
            "für {} gespannt schwingt das Teil {}, und die Maschine lässt {} über dem Bett zu",
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
                .help(told!("Use a larger lathe: turned about the eccentric's axis, the largest diameter and twice the throw must pass the bed", "Eine größere Maschine: um die Achse des Exzenters müssen größter Durchmesser und doppelter Hub am Bett vorbei")),
        );
    }
}

fn bar(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(shop), Some(stock)) = (facts.shop, &facts.part.stock) else { return };
    let bar = stock.across_corners();
    let swings = [
        (shop.swing_over_cross_slide, told!("over the cross slide", "über dem Planschlitten")),
        (shop.swing, told!("over the bed", "über dem Bett")),
    ];
    let Some((swing, where_)) = swings.into_iter().filter_map(|(s, w)| Some((s?, w))).find(|(s, _)| bar > *s) else {
        return;
    };
    let message = tell!(
        "the bar is {}, and the lathe swings {} {where_}",
        "die Stange hat {}, und die Maschine lässt {} {where_} zu",
        facts.bar_over_corners(bar),
        facts.show(swing)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(stock.size.place)
            .length("bar", bar)
            .length("swing", swing)
            .help(told!("Use a larger lathe; near the jaws the cross slide may stay clear, but then not along the work", "Eine größere Maschine; nahe am Futter bleibt der Planschlitten vielleicht frei, aber nicht entlang des Werkstücks")),
    );
}
