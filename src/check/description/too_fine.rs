#![doc = include_str!("too_fine.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{LimitsFrom, Size};
use crate::unit::{Length, NumberForm, show};

use super::sizes::{self, Is};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "too-fine",
    severity: Severity::Warning,
    group: "description",
    source: "common practice, no source",
    page: include_str!("too_fine.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let steps = facts.limit_number(CHECK.id, "steps");
    for one in sizes::all(facts.part) {
        let judged = matches!(one.is, Is::Diameter | Is::Length | Is::Place);
        let Some((decimals, band)) = decimals_and_band(one.size).filter(|_| judged) else { continue };
        let step = show::step(one.size.unit, decimals);
        if (band.pm() as f64) < steps * step.pm() as f64 || is_inch_fraction(one.size.nominal) {
            continue;
        }
        let message = tell!(
            "`{}` has {decimals} decimals, and its limits lie {} apart",
            "`{}` hat {decimals} Dezimalen, und die Grenzen liegen {} auseinander",
            one.size.text,
            facts.show(band)
        );
        let fewer = show::plain(one.size.nominal, one.size.unit, decimals - 1);
        let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
            .by_limit("steps")
            .at(one.size.place)
            .length("step", step)
            .length("band", band)
            .help(tell!(
                "Write {fewer}, or closer limits if the last digit matters",
                "{fewer} schreiben, oder engere Grenzen, wenn die letzte Ziffer zählt"
            ));
        if let Some(letter) = one.feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
}

/// Decimals that say something, and the width of the limits, for a decimal size with limits of its own or general ones.
fn decimals_and_band(size: &Size) -> Option<(u8, Length)> {
    let NumberForm::Decimal(written) = size.form else { return None };
    if !matches!(size.from, LimitsFrom::Written | LimitsFrom::General) {
        return None;
    }
    let band = size.limits?.band();
    let decimals = show::decimals_needed(size.nominal, size.unit, 0, written);
    (decimals > 0 && band.is_positive()).then_some((decimals, band))
}

/// A multiple of 1/64 inch.
fn is_inch_fraction(nominal: Length) -> bool {
    nominal.pm() % Length::PER_INCH.times_ratio(1, 64).pm() == 0
}
