#![doc = include_str!("scale.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-scale",
    severity: Severity::Warning,
    group: "stock",
    source: "the first cut goes under the scale (lathe texts; US Navy Machinery Repairman manual); the depth is practice",
    page: include_str!("scale.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(stock), Some((section, largest))) = (&facts.part.stock, facts.largest_turned()) else { return };
    if !facts.bar_state().condition.has_scale() {
        return;
    }
    let a_side = (stock.size.nominal - largest).half();
    let least = facts.limit(CHECK.id, "a side");
    if a_side >= least {
        return;
    }
    let message = tell!(
        "only {} a side comes off {} on {}: less than {}, so the tool stays in the scale",
        "nur {} je Seite kommt von {} an {} herunter: weniger als {}, der Stahl bleibt in der Haut",
        facts.show(a_side),
        section.called(),
        facts.bar_state().condition.words(),
        facts.show(least)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Warning, message)
            .by_limit("a side")
            .at(stock.size.place)
            .also(section.head, "the largest that is turned")
            .of(section.letter.clone())
            .length("a_side", a_side)
            .length("least", least)
            .help(told!(
                "Take the first cut at once to below the scale, with a tough tool, slowly; or take a larger bar",
                "Den ersten Schnitt gleich unter die Haut, mit zähem Stahl, langsam; oder eine größere Stange nehmen"
            )),
    );
}
