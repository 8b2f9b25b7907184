#![doc = include_str!("bar_past_spindle.md")]

use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "bar-past-spindle",
    severity: Severity::Error,
    group: "holding",
    source: "the shop file's spindle bore",
    page: include_str!("bar_past_spindle.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(bore), Some(stock)) = (facts.shop.and_then(|s| s.spindle_bore), &facts.part.stock) else { return };
    let bar = stock.across_corners();
    let Some(behind) = behind_the_jaws(facts).filter(|_| bar > bore) else { return };
    if behind <= facts.limit(CHECK.id, "room") {
        return;
    }
    let message = tell!(
        "the bar is {} and {} of it lies behind the jaws, but the spindle bore is {}",
        "die Stange hat {}, und {} davon liegt hinter den Backen, aber die Spindelbohrung hat {}",
        facts.bar_over_corners(bar),
        facts.show(behind),
        facts.show(bore)
    );
    out.push(
        Finding::new(CHECK.id, Severity::Error, message)
            .by_limit("room")
            .at(stock.size.place)
            .length("bar", bar)
            .length("spindle_bore", bore)
            .length("behind", behind)
            .help(told!(
                "Saw the bar to the length of one part and a grip, so that nothing must go through the spindle",
                "Die Stange auf die Länge eines Teils und des Spannens sägen, dann muss nichts durch die Spindel"
            )),
    );
}

/// What is left of the bar behind the grip when one part is made at its end.
pub(super) fn behind_the_jaws(facts: &Facts<'_>) -> Option<Length> {
    let stock = facts.part.stock.as_ref()?;
    let used = facts.chain.overall(facts.part)? + facts.limit("stock-length", "facing").times(2);
    let grip =
        times(stock.size.nominal, facts.limit_number("grip-short", "diameters")).min(facts.limit("grip-short", "long"));
    let parted = if facts.is_parted_off() { facts.limit("stock-length", "parting") } else { Length::ZERO };
    Some(stock.length.nominal - used - grip - parted)
}
