#![doc = include_str!("groove_deep.md")]

use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "groove-deep",
    severity: Severity::Error,
    group: "shoulders",
    source: "common practice, no source",
    page: include_str!("groove_deep.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let tools = facts.grooving_tools();
    let widths = facts.limit_number(CHECK.id, "widths");
    for slot in facts.slots() {
        let fitting = tools.iter().filter(|(_, w)| *w <= slot.widest);
        let reach =
            fitting.map(|(tool, w)| (tool.reach.map_or(times(*w, widths), |r| r.min(times(*w, widths))), *w)).max();
        let Some((reach, width)) = reach else { continue };
        if slot.deep <= reach {
            continue;
        }
        let message = tell!(
            "{} is {} deep a side, but the widest tool that fits it, {}, reaches {} ({} times its width at most)",
            "{} ist {} tief je Seite, aber der breiteste passende Stahl, {}, reicht {} (höchstens {} mal seine Breite)",
            slot.feature.called(),
            facts.show(slot.deep),
            facts.show(width),
            facts.show(reach),
            number(widths)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .by_limit("widths")
                .at(slot.feature.value)
                .of(slot.feature.letter.clone())
                .length("deep", slot.deep)
                .length("reach", reach)
                .help(told!(
                    "Widen the groove for a wider tool, or rough the depth with a stepped one",
                    "Den Einstich für einen breiteren Stahl weiten, oder die Tiefe mit einem abgesetzten vorstechen"
                )),
        );
    }
}
