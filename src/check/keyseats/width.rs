#![doc = include_str!("width.md")]

use crate::check::keyed::Keyed;
use crate::check::round::Surface;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::{key_parallel, woodruff};
use crate::model::{Feature, Kind};
use crate::unit::{Length, Limits};
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
    out.extend(facts.part.features.iter().filter_map(|f| too_large(facts, f)));
    for key in facts.keyseats() {
        let Some((usual, inside, source)) = usual(&key) else { continue };
        if inside || too_large(facts, key.feature).is_some() {
            continue;
        }
        // The ranges of parallel keys begin over their first size: a shaft of just that has the next smaller key.
        let over = matches!(key.feature.kind, Kind::ParallelKeyseat { .. });
        let (least, most) = (facts.show(usual.min), facts.show(usual.max));
        let range = if over {
            tell!("over {least}, up to {most}", "über {least} bis {most}")
        } else {
            tell!("of {least} to {most}", "von {least} bis {most}")
        };
        let message = tell!(
            "a key {} wide is usual in shafts {range}; {} is {}",
            "eine Passfeder {} breit ist in Wellen {range} üblich; {} hat {}",
            facts.show(key.width),
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

/// A key that the round cannot take: as wide as it, or seated to its middle. The sheet has no numbers for one that is too wide.
fn too_large(facts: &Facts<'_>, feature: &Feature) -> Option<Finding> {
    let (width, height) = match &feature.kind {
        Kind::Woodruff { number, .. } => (woodruff::find(number)?.width, None),
        Kind::ParallelKeyseat { width, height, .. } => (width.nominal, Some(height)),
        _ => return None,
    };
    let (a, b) = facts.chain.span(feature.id)?;
    let middle = a + (b - a).half();
    let on = facts.round_under(middle, middle).filter(|r| !matches!(r.is, Surface::Cone { .. }))?;
    let deep = match height {
        Some(height) => key_parallel::with_size(on.diameter, width, height.nominal, height.unit).ok().map(|k| k.depths),
        None => feature_depths(&feature.kind, on.diameter),
    };
    if deep.is_some_and(|d| d.from_top < on.diameter.half()) {
        return None;
    }
    let (key, round) = (facts.show(width), facts.show(on.diameter));
    let message = match deep {
        Some(d) => tell!(
            "{} would be {} deep from the top: half of {} ({round}) or more",
            "{} wäre {} tief von oben: die Hälfte von {} ({round}) oder mehr",
            feature.called(),
            facts.show(d.from_top),
            on.section.called()
        ),
        None => tell!(
            "a key {key} wide does not go into {}, which is {round} large",
            "eine Passfeder {key} breit passt nicht in {} mit {round}",
            on.section.called()
        ),
    };
    Some(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(feature.value)
            .of(feature.letter.clone())
            .of(on.section.letter.clone())
            .length("width", width)
            .length("shaft", on.diameter)
            .help(told!(
                "Take a smaller key, or look whether the keyseat lies where it should",
                "Eine kleinere Passfeder nehmen, oder prüfen, ob die Nut richtig liegt"
            )),
    )
}

/// Depths of a Woodruff keyseat in a round; none where the key is too wide for it.
fn feature_depths(kind: &Kind, round: Length) -> Option<crate::handbook::keyseat::SeatDepths> {
    let Kind::Woodruff { number, .. } = kind else { return None };
    Some(woodruff::find(number)?.seat_in(round)?.depths)
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
