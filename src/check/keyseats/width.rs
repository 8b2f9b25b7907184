#![doc = include_str!("width.md")]

use crate::check::keyed::Keyed;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::{key_parallel, woodruff};
use crate::model::Kind;
use crate::unit::Limits;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-width",
    severity: Severity::Warning,
    group: "keyseats",
    source: "ASME B17.1, ISO 773; Woodruff: common practice",
    page: include_str!("width.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats() {
        let Some((usual, inside, source)) = usual(&key) else { continue };
        if inside {
            continue;
        }
        let message = tell!(
            "a key {} wide is usual in shafts of {} to {}; {} is {}",
            "eine Passfeder {} breit ist in Wellen von {} bis {} üblich; {} hat {}",
            facts.show(key.width),
            facts.show(usual.min),
            facts.show(usual.max),
            key.seat.called(),
            facts.show(key.shaft)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(key.feature.value)
            .of(key.feature.letter.clone())
            .of(key.seat.letter.clone())
            .length("width", key.width)
            .length("shaft", key.shaft)
            .length("usual_from", usual.min)
            .length("usual_to", usual.max)
            .source(source);
        if let Kind::ParallelKeyseat { width, .. } = &key.feature.kind
            && let Ok(better) = key_parallel::for_shaft(key.shaft, width.unit)
        {
            finding = finding.help(tell!(
                "Measure again; {} x {} is usual here",
                "Noch einmal messen; {} x {} ist hier üblich",
                facts.show(better.width),
                facts.show(better.height)
            ));
        } else {
            finding = finding.help(told!(
                "Measure the width in the bottom of the old keyseat again",
                "Die Breite am Grund der alten Nut noch einmal messen"
            ));
        }
        out.push(finding);
    }
}

/// The shafts this width is usual in, and whether this one is among them.
fn usual(key: &Keyed<'_>) -> Option<(Limits, bool, String)> {
    if let Kind::ParallelKeyseat { width, .. } = &key.feature.kind {
        let shafts = key_parallel::usual_shafts(key.width, width.unit)?;
        return Some((shafts, shafts.min < key.shaft && key.shaft <= shafts.max, CHECK.source.to_owned()));
    }
    let (shafts, source) = woodruff::usual_shafts(key.width)?;
    Some((shafts, shafts.holds(key.shaft), source.line()))
}
