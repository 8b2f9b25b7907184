#![doc = include_str!("cross_hole_large.md")]

use crate::check::shape::{nominal_at, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Kind};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "cross-hole-large",
    severity: Severity::Note,
    group: "keyseats",
    source: "common practice, no source",
    page: include_str!("cross_hole_large.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::CrossHole { diameter, .. } = &feature.kind else { continue };
        let on = facts.chain.center(feature.id).and_then(|c| facts.feature(facts.profile.at(c)?.feature));
        let Some(section) = on else { continue };
        let around = nominal_at(section, End::Datum);
        let holes = facts.limit_number(CHECK.id, "times");
        // As large as the section is `cross-hole-breaks`.
        if diameter.nominal >= around || times(diameter.nominal, holes) <= around {
            continue;
        }
        let message = tell!(
            "the cross hole is {}, more than a {} of {} ({})",
            "die Querbohrung hat {}, mehr als {} von {} ({})",
            facts.show(diameter.nominal),
            if (holes - 3.0).abs() < f64::EPSILON { "third".to_owned() } else { format!("1/{} part", number(holes)) },
            section.called(),
            facts.show(around)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Note, message).by_limit("times")
                .at(feature.value)
                .of(feature.letter.clone())
                .of(section.letter.clone())
                .length("hole", diameter.nominal)
                .length("diameter", around)
                .help(told!("Normal in a head for a bar; in a shaft that carries load, make the hole smaller or the shaft thicker there", "In einem Kopf für eine Stange üblich; in einer belasteten Welle die Bohrung kleiner oder die Welle dort dicker machen")),
        );
    }
}
