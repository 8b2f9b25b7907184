#![doc = include_str!("heat_growth.md")]

use crate::check::sizes::{Held, Measure};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::heat;
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "heat-growth",
    severity: Severity::Note,
    group: "chain",
    source: "growth = size · coefficient · rise; the rise is common practice, no source",
    page: include_str!("heat_growth.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let expansion = facts.grade().map_or(heat::STEEL, |g| heat::of(&g.material));
    let rise = facts.limit_number(CHECK.id, "rise");
    for held in facts.held_sizes() {
        let growth = heat::growth(held.limits.max.abs(), rise, expansion, Unit::Millimetre);
        if held.limits.band().times(2) < growth {
            out.push(finding(facts, &held, growth, rise));
        }
    }
}

fn finding(facts: &Facts<'_>, held: &Held, growth: Length, rise: f64) -> Finding {
    let degrees = match facts.part.units {
        Unit::Inch => format!("{:.0} °F", rise * 1.8),
        Unit::Millimetre => format!("{rise:.0} K"),
    };
    let message = tell!(
        "{} must be held within {}, and {degrees} of warmth from the cut makes it grow {}",
        "{} muss auf {} stimmen, und {degrees} Wärme vom Schnitt lassen es um {} wachsen",
        held.what,
        facts.show(held.limits.band()),
        facts.show(growth)
    );
    let how = match held.measure {
        Measure::Diameter => told!(
            "Let it cool before the last cuts, and measure it cold",
            "Vor den letzten Schnitten abkühlen lassen und kalt messen"
        ),
        Measure::Length => told!(
            "Measure it at the temperature of the instrument, an hour after the last cut",
            "Bei der Temperatur des Messzeugs messen, eine Stunde nach dem letzten Schnitt"
        ),
    };
    Finding::new(CHECK.id, Severity::Note, message)
        .by_limit("rise")
        .at(held.place)
        .of(held.letter.clone())
        .length("band", held.limits.band())
        .length("growth", growth)
        .help(how)
}
