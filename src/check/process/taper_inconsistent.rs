#![doc = include_str!("taper_inconsistent.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "taper-inconsistent",
    severity: Severity::Error,
    group: "process",
    source: "geometry: difference of the diameters = rate · length",
    page: include_str!("taper_inconsistent.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for section in facts.part.sections() {
        let Kind::Taper { start, end, half_angle_deg, rate, .. } = &section.kind else { continue };
        let Some(piece) = facts.profile.piece(section.id).filter(|_| !start.reference && !end.reference) else {
            continue;
        };
        let stated = (start.nominal - end.nominal).abs();
        let by_rate = by_rate(piece.long(), *half_angle_deg);
        let apart = (stated - by_rate).abs();
        if apart <= facts.limit(CHECK.id, "slack") {
            continue;
        }
        let message = tell!(
            "{} falls {} over {}, but {} makes {}: {} apart",
            "{} fällt um {} auf {}, aber {} gibt {}: {} Unterschied",
            section.called(),
            facts.show(stated),
            facts.show(piece.long()),
            rate.text,
            facts.show(by_rate),
            facts.show(apart)
        );
        let large = start.nominal.max(end.nominal);
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .by_limit("slack")
                .at(rate.place)
                .of(section.letter.clone())
                .length("by_diameters", stated)
                .length("by_rate", by_rate)
                .length("difference", apart)
                .help(tell!(
                    "With {} and the large end {} the small end is {}",
                    "Mit {} und dem großen Ende {} wird das kleine Ende {}",
                    rate.text,
                    facts.show(large),
                    facts.show(large - by_rate)
                ))
                .help(told!(
                    "State one diameter and the rate, or both diameters and a rate that fits them",
                    "Einen Durchmesser und das Verhältnis angeben, oder beide Durchmesser und ein passendes Verhältnis"
                )),
        );
    }
}

/// Difference of the diameters over a length; an angle is no link of a chain, so floating point serves.
fn by_rate(long: Length, half_angle_deg: f64) -> Length {
    Length::from_f64(2.0 * long.mm() * half_angle_deg.to_radians().tan(), Unit::Millimetre)
}
