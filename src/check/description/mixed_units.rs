#![doc = include_str!("mixed_units.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::{Length, NumberForm, Unit, show};

use super::sizes::{self, Is, Sized};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "mixed-units",
    severity: Severity::Warning,
    group: "description",
    source: "common practice, no source",
    page: include_str!("mixed_units.md"),
    look,
};

/// Diameters in whole millimetres that bearings and metric stock come in.
const METRIC: [i64; 22] = [8, 10, 12, 15, 16, 17, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80];

/// How near a millimetre size an inch decimal is taken for it.
const NEAR: Length = Length::micro_inches(500);

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let unit = facts.part.units;
    let bar = facts.bar();
    for one in sizes::all(facts.part).iter().filter(|s| s.is == Is::Diameter && s.size.unit == unit) {
        let (d, text) = (one.size.nominal, &one.size.text);
        let found = match (unit, bar) {
            (Unit::Inch, Some(bar)) if d > bar && as_other(d, unit) <= bar => Some((
                as_other(d, unit),
                tell!(
                    "`{text}` inches is over the bar of {}: it looks like {} mm",
                    "`{text}` Zoll ist mehr als die Stange mit {}: es sieht nach {} mm aus",
                    facts.show(bar),
                    number(d, unit)
                ),
            )),
            (Unit::Millimetre, Some(bar)) if d.times(8) < bar && as_other(d, unit) <= bar && is_inch_text(one) => {
                Some((
                    as_other(d, unit),
                    tell!(
                        "`{text}` mm is small beside the bar of {}: it looks like inches",
                        "`{text}` mm ist klein neben der Stange mit {}: es sieht nach Zoll aus",
                        facts.show(bar)
                    ),
                ))
            }
            (Unit::Inch, _) => metric_size(one).map(|(mm, size)| {
                (
                    size,
                    tell!("`{text}` is {mm} mm ({}) rounded", "`{text}` ist {mm} mm ({}) gerundet", facts.show(size)),
                )
            }),
            _ => None,
        };
        let Some((other, message)) = found else { continue };
        let other_unit = if unit == Unit::Inch { "mm" } else { "in" };
        let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
            .at(one.size.place)
            .length("written", d)
            .length("in_the_other_unit", other)
            .help(tell!(
                "Write the unit behind it, `{} {other_unit}`, if that is meant",
                "Die Einheit dahinter schreiben, `{} {other_unit}`, wenn das gemeint ist",
                suggestion(d, other, unit)
            ));
        if let Some(letter) = one.feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
}

/// The same digits in the other unit.
fn as_other(d: Length, unit: Unit) -> Length {
    match unit {
        Unit::Inch => d.times_ratio(10, 254),
        Unit::Millimetre => d.times_ratio(254, 10),
    }
}

fn number(d: Length, unit: Unit) -> String {
    show::plain(d, unit, show::decimals_needed(d, unit, 0, 4))
}

/// What to write before the other unit: the same digits, or the round metric size an inch decimal is near.
fn suggestion(d: Length, other: Length, unit: Unit) -> String {
    if unit == Unit::Inch && (d - other).abs() <= NEAR {
        return number(other, Unit::Millimetre);
    }
    number(d, unit)
}

/// Three or more decimals, a fraction, or decimals that are whole sixteenths (`1.25`): as inches are written.
fn is_inch_text(one: &Sized<'_>) -> bool {
    let sixteenths =
        || as_other(one.size.nominal, Unit::Millimetre).pm() % Length::PER_INCH.times_ratio(1, 16).pm() == 0;
    match one.size.form {
        NumberForm::Decimal(0) => false,
        NumberForm::Decimal(1 | 2) => sixteenths(),
        NumberForm::Fraction | NumberForm::Decimal(_) => true,
    }
}

/// The round millimetre size that an inch decimal of at most three places is near, unless it is near a sixteenth as well.
fn metric_size(one: &Sized<'_>) -> Option<(i64, Length)> {
    let NumberForm::Decimal(2 | 3) = one.size.form else { return None };
    let d = one.size.nominal;
    let sixteenth = (d - d.round_to(Length::PER_INCH.times_ratio(1, 16))).abs();
    if sixteenth <= Length::micro_inches(1_000) {
        return None;
    }
    METRIC.iter().map(|mm| (*mm, Length::PER_MM.times(*mm))).find(|(_, size)| (*size - d).abs() <= NEAR)
}
