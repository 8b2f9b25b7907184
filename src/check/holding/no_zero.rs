#![doc = include_str!("no_zero.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::plan::Zero;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "no-zero",
    severity: Severity::Error,
    group: "holding",
    source: "every length on a dial counts from a face that was touched",
    page: include_str!("no_zero.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for setup in facts.plan.into_iter().flat_map(|p| &p.setups) {
        let placed = setup.operations.iter().filter(|o| o.from.is_some() || o.to.is_some());
        let count = placed.count();
        if setup.works.is_none() || setup.zero != Zero::None || count == 0 {
            continue;
        }
        let message = tell!(
            "setup {} has {count} operations with lengths and no face that the carriage is zeroed on",
            "Aufspannung {} hat {count} Arbeitsgänge mit Längen und keine Fläche für die Null des Schlittens",
            setup.number
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(facts.setup_place(setup))
                .number("setup", f64::from(setup.number))
                .number("operations", count as f64)
                .help(told!(
                    "Touch the face at the tailstock and set the carriage dial there",
                    "An der Fläche am Reitstock ankratzen und die Schlittenskale dort einstellen"
                )),
        );
    }
}
