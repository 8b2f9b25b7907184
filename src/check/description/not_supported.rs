#![doc = include_str!("not_supported.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::eccentric;
use crate::model::slip::Fault;
use crate::model::{Feature, Kind, Part};
use crate::unit::{Length, show};

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "not-supported",
    severity: Severity::Error,
    group: "description",
    source: "this version of the program",
    page: include_str!("not_supported.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::NotSupported { word } = &slip.fault else { continue };
        let message = format!("not supported yet: {word}");
        out.push(
            of_slip::finding(facts, &CHECK, slip, message)
                .help("Plan this by hand; nothing of it is checked, planned or printed on the sheet"),
        );
    }
    let planned = |id: usize| {
        facts.derived.is_some_and(|d| d.operations.iter().any(|(o, _)| o.throw.is_some() && o.feature == Some(id)))
    };
    for feature in facts.part.sections().filter(|f| matches!(f.kind, Kind::Eccentric { .. }) && !planned(f.id)) {
        let [what, rest @ ..] = by_hand(facts.part, feature);
        let place = feature.offset.as_ref().map_or(feature.head, |o| o.place);
        let mut finding = Finding::new(CHECK.id, Severity::Error, format!("not supported yet: {what}"))
            .at(place)
            .of(feature.letter.clone())
            .length("throw", feature.sweeps().half());
        for sentence in rest {
            finding = finding.help(sentence);
        }
        out.push(finding);
    }
}

/// An eccentric that is not planned, and how it is cut by hand: what it is; what is left of the bar; how it is held; how it is set;
/// what to mind.
pub fn by_hand(part: &Part, feature: &Feature) -> [String; 5] {
    let unit = part.units;
    let decimals = show::usual_decimals(unit);
    let shown = |l: Length| show::exact(l, unit, decimals, decimals + 2);
    let near = |l: Length| show::length(l, unit, decimals);
    let diameter = match &feature.kind {
        Kind::Eccentric { diameter, .. } => diameter.nominal,
        _ => Length::ZERO,
    };
    let (reading, throw) = (feature.sweeps(), feature.sweeps().half());
    let bar = part.stock.as_ref().map(|s| s.size.nominal);
    let narrow = bar.and_then(|b| Some((b, eccentric::packing_narrow(throw, b)?)));
    let narrow = narrow.map_or(String::new(), |(bar, packing)| {
        format!(", {} under narrow ones on the {} bar", near(packing), shown(bar))
    });
    [
        format!("eccentric {}, {} off the part's axis", feature.letter, shown(throw)),
        format!(
            "No finished section beside it can be held while it is turned. Plan it by hand: {} (its diameter and twice the throw) must stand when it is begun",
            shown(diameter + reading)
        ),
        format!(
            "Where it is short, throw it over in a three-jaw chuck with packing under one jaw, {} under flat tips{narrow}, or in a four-jaw \
             chuck; between centers, on second center holes {} off the first, on the same side in both ends",
            shown(eccentric::packing_flat(throw)),
            shown(throw)
        ),
        format!("Set it by the indicator: it reads {} in all over a turn, twice the throw", shown(reading)),
        "Mind that it is out of balance and the cut is interrupted: clamp hard, turn it once by hand past bed, slide and tool, take the \
         slowest gear, guard it and stand aside; follow your shop's rules, local law and your training"
            .to_owned(),
    ]
}
