#![doc = include_str!("not_supported.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::eccentric;
use crate::model::slip::Fault;
use crate::model::{Feature, Kind, Part};
use crate::unit::{Length, show};

use super::of_slip;
use crate::{tell, told};

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
        let message = tell!("not supported yet: {word}", "noch nicht unterstützt: {word}");
        out.push(of_slip::finding(facts, &CHECK, slip, message).help(told!(
            "Plan this by hand; nothing of it is checked, planned or printed on the sheet",
            "Von Hand planen; nichts davon wird geprüft, geplant oder gedruckt"
        )));
    }
    let planned = |id: usize| {
        facts.derived.is_some_and(|d| d.operations.iter().any(|(o, _)| o.throw.is_some() && o.feature == Some(id)))
    };
    for feature in facts.part.sections().filter(|f| matches!(f.kind, Kind::Eccentric { .. }) && !planned(f.id)) {
        let [what, rest @ ..] = by_hand(facts.part, feature);
        let place = feature.offset.as_ref().map_or(feature.head, |o| o.place);
        let mut finding = Finding::new(
            CHECK.id,
            Severity::Error,
            tell!("not supported yet: {what}", "noch nicht unterstützt: {what}"),
        )
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
        tell!(
            ", {} under narrow ones on the {} bar",
            ", {} unter schmalen auf der Stange {}",
            near(packing),
            shown(bar)
        )
    });
    [
        tell!("eccentric {}, {} off the part's axis", "Exzenter {}, {} neben der Achse des Teils", feature.letter, shown(throw)),
        tell!("No finished section beside it can be held while it is turned. Plan it by hand: {} (its diameter and twice the throw) must stand when it is begun", "Kein fertiger Abschnitt daneben kann dabei gespannt werden. Von Hand planen: {} (Durchmesser und doppelter Hub) muss noch stehen, wenn er begonnen wird",
            shown(diameter + reading)
        ),
        tell!("Where it is short, throw it over in a three-jaw chuck with packing under one jaw, {} under flat tips{narrow}, or in a four-jaw \
             chuck; between centers, on second center holes {} off the first, on the same side in both ends", "Wo es kurz ist, im Dreibackenfutter mit Unterlage unter einer Backe außermittig spannen, {} unter flachen Backen{narrow}, oder im Vierbackenfutter; zwischen Spitzen auf zweiten Zentrierungen, {} neben den ersten, an beiden Enden auf derselben Seite",
            shown(eccentric::packing_flat(throw)),
            shown(throw)
        ),
        tell!("Set it by the indicator: it reads {} in all over a turn, twice the throw", "Mit der Messuhr einstellen: sie zeigt {} in allem über eine Umdrehung, den doppelten Hub", shown(reading)),
        told!("Mind that it is out of balance and the cut is interrupted: clamp hard, turn it once by hand past bed, slide and tool, take the \
         slowest gear, guard it and stand aside; follow your shop's rules, local law and your training", "Es läuft unwuchtig und der Schnitt ist unterbrochen: fest spannen, von Hand an Bett, Schlitten und Stahl vorbeidrehen, langsamster Gang, abschirmen und zur Seite treten; Werkstattregeln, örtliches Recht und Ausbildung befolgen")
            .to_owned(),
    ]
}
