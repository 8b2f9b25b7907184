#![doc = include_str!("long.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "stock-long",
    severity: Severity::Warning,
    group: "stock",
    source: "common practice, no source",
    page: include_str!("long.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(stock), Some(overall)) = (&facts.part.stock, facts.chain.overall(facts.part)) else { return };
    if facts.is_parted_off() {
        return;
    }
    let saw = stock.length.nominal;
    let ends = facts.limit("stock-length", "facing").times(2);
    let spare = saw - overall - ends;
    if spare <= facts.limit(CHECK.id, "spare") {
        return;
    }
    let message = tell!(
        "sawn {} long for a part of {}: {} is faced away at the far end, unless the part is cut off the bar",
        "{} lang gesägt für ein Teil von {}: {} werden am Gegenende plangedreht, wenn das Teil nicht von der Stange abgestochen wird",
        facts.show(saw),
        facts.show(overall),
        facts.show(saw - overall - ends.half()),
    );
    out.push(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(stock.length.place)
            .length("saw_length", saw)
            .length("spare", spare)
            .by_limit("spare")
            .help(tell!(
                "Saw it to {}; or cut the part off the bar: the plan does so where it costs less, and always with `plan: {{part off: true}}`",
                "Auf {} sägen; oder das Teil von der Stange abstechen: der Plan tut es, wo es weniger kostet, und immer mit `plan: {{part off: true}}`",
                facts.show(overall + ends)
            )),
    );
}
