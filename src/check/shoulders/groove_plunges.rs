#![doc = include_str!("groove_plunges.md")]

use crate::check::slots::Slot;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::{Length, show};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "groove-plunges",
    severity: Severity::Note,
    group: "shoulders",
    source: "geometry: as few plunges as cover the width",
    page: include_str!("groove_plunges.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let tools = facts.grooving_tools();
    for slot in facts.slots() {
        let Some((_, tool)) = tools.iter().rev().find(|(_, w)| *w <= slot.wide()) else { continue };
        let plunges = slot.wide().divided_up(*tool);
        if plunges < 2 {
            continue;
        }
        let message = tell!(
            "{} is {} wide and the tool {}: {plunges} plunges, its edge nearer the datum end at {}",
            "{} ist {} breit und der Stahl {}: {plunges} Stiche, seine Kante zum Bezugsende bei {}",
            slot.feature.called(),
            facts.show(slot.wide()),
            in_the_shop(facts, *tool),
            places(facts, slot, *tool, plunges)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Note, message)
                .at(slot.feature.head)
                .of(slot.feature.letter.clone())
                .length("width", slot.wide())
                .length("tool", *tool)
                .number("plunges", f64::from(plunges))
                .help(told!(
                    "Plunge between the walls first; then both walls, and once across the bottom",
                    "Erst zwischen den Wänden einstechen; dann beide Wände, und einmal über den Grund"
                )),
        );
    }
}

/// A tool's width as the shop file has it; its unit is named where the part has the other one.
fn in_the_shop(facts: &Facts<'_>, tool: Length) -> String {
    match facts.shop.and_then(|s| s.units).filter(|unit| *unit != facts.part.units) {
        Some(unit) => format!("{} {}", show::exact(tool, unit, show::usual_decimals(unit), 4), unit.word()),
        None => facts.show(tool),
    }
}

/// Where the tool's edge nearer the datum end stands, from the datum; of many, the first and the last.
fn places(facts: &Facts<'_>, slot: Slot<'_>, tool: Length, plunges: u32) -> String {
    let (count, travel) = (i64::from(plunges), slot.wide() - tool);
    // Walls as drawn; what is worked from the tool's width to what a carriage can hold.
    let usual = |l: Length| show::length(l, facts.part.units, show::usual_decimals(facts.part.units));
    let at = |i: i64| match i {
        0 => facts.show(slot.from.0),
        i => usual((slot.from + travel.times_ratio(i, count - 1)).0),
    };
    match count {
        2 => tell!("{} and {}", "{} und {}", at(0), at(1)),
        3 => tell!("{}, {} and {}", "{}, {} und {}", at(0), at(1), at(2)),
        _ => tell!("{} to {}", "{} bis {}", at(0), at(count - 1)),
    }
}
