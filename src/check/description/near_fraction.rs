#![doc = include_str!("near_fraction.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::{Length, NumberForm, Unit, show};

use super::sizes::{self, Is};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "near-fraction",
    severity: Severity::Note,
    group: "description",
    source: "common practice, no source",
    page: include_str!("near_fraction.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for one in sizes::all(facts.part) {
        let NumberForm::Decimal(decimals @ 3..=5) = one.size.form else { continue };
        let judged = matches!(one.is, Is::Diameter | Is::Length | Is::Place) && one.size.unit == Unit::Inch;
        let Some(limits) = one.size.limits.filter(|_| judged) else { continue };
        let Some((fraction, text)) = rounded_fraction(one.size.nominal, decimals) else { continue };
        let off = (one.size.nominal - fraction).abs();
        if off.times(10) <= limits.band() {
            continue;
        }
        let exact = show::exact(fraction, Unit::Inch, 3, 6);
        let message = tell!(
            "{} is {text} rounded: {text} is {exact}, off by more than a tenth of the limits' width {}",
            "{} ist {text} gerundet: {text} ist {exact}, daneben um mehr als ein Zehntel der Toleranz {}",
            one.size.text,
            facts.show(limits.band())
        );
        let mut finding = Finding::new(CHECK.id, CHECK.severity, message)
            .at(one.size.place)
            .length("written", one.size.nominal)
            .length("fraction", fraction)
            .length("band", limits.band())
            .help(tell!(
                "Write {text} or {exact} if that is meant; else leave it",
                "{text} oder {exact} schreiben, wenn das gemeint ist; sonst lassen"
            ));
        if let Some(letter) = one.feature.map(|f| f.letter.clone()).filter(|l| !l.is_empty()) {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
}

/// The 64th (in lowest terms) whose decimal, rounded to so many places, is this size, when the size is not it exactly.
fn rounded_fraction(size: Length, decimals: u8) -> Option<(Length, String)> {
    let sixty_fourth = Length::PER_INCH.times_ratio(1, 64);
    let fraction = size.round_to(sixty_fourth);
    let off = (size - fraction).abs();
    if off == Length::ZERO || off.times(2) > show::step(Unit::Inch, decimals) || !fraction.is_positive() {
        return None;
    }
    let (mut top, mut bottom) = (fraction.pm() / sixty_fourth.pm(), 64);
    while top % 2 == 0 && bottom > 1 {
        top /= 2;
        bottom /= 2;
    }
    let (whole, rest) = (top / bottom, top % bottom);
    let text = match (whole, rest) {
        (w, 0) => w.to_string(),
        (0, t) => format!("{t}/{bottom}"),
        (w, t) => format!("{w} {t}/{bottom}"),
    };
    Some((fraction, text))
}
