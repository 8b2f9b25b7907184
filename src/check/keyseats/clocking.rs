#![doc = include_str!("clocking.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Feature, Kind};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-clocking",
    severity: Severity::Warning,
    group: "keyseats",
    source: "common practice, no source",
    page: include_str!("clocking.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let all: Vec<&Feature> = facts.part.features.iter().filter(|f| is_keyseat(f)).collect();
    let (count, stated) = (all.len(), all.iter().filter(|f| f.angle_mdeg.is_some()).count());
    if let Some(thrown) = facts.part.features.iter().find(|f| f.throw().is_some())
        && let Some(keyseat) = all.first().filter(|_| stated == 0)
    {
        out.push(to_the_throw(keyseat, thrown));
    }
    let mut keyseats = all.into_iter();
    let Some(first) = keyseats.next() else { return };
    for later in keyseats.filter(|f| f.angle_mdeg.is_none()) {
        let message = tell!(
            "no angle is stated between {} and {}",
            "zwischen {} und {} ist kein Winkel angegeben",
            first.called(),
            later.called()
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(later.head)
                .also(first.head, "the first keyseat, 0°")
                .of(first.letter.clone())
                .of(later.letter.clone())
                .number("keyseats", count as f64)
                .number("angles_stated", stated as f64)
                .help(told!(
                    "State it, counter-clockwise seen from the datum end: `angle: 0°` if they lie in one line",
                    "Angeben, vom Bezugsende gesehen gegen den Uhrzeiger: `angle: 0°`, wenn sie in einer Linie liegen"
                )),
        );
    }
}

/// The keyseat of a shaft with an eccentric times what it drives by it.
fn to_the_throw(keyseat: &Feature, thrown: &Feature) -> Finding {
    let message = tell!(
        "no angle is stated between {} and the high side of {}",
        "zwischen {} und der hohen Seite von {} ist kein Winkel angegeben",
        keyseat.called(),
        thrown.called()
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .at(keyseat.head)
        .also(thrown.head, "its high side, 0° unless it has an angle of its own")
        .of(keyseat.letter.clone())
        .of(thrown.letter.clone())
        .help(told!(
            "State it, counter-clockwise seen from the datum end: `angle: 0°` if the keyseat lies on the high side",
            "Angeben, vom Bezugsende gesehen gegen den Uhrzeiger: `angle: 0°`, wenn die Nut auf der hohen Seite liegt"
        ))
}

fn is_keyseat(feature: &Feature) -> bool {
    matches!(feature.kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. })
}
