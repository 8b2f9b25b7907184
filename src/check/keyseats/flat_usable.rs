#![doc = include_str!("flat_usable.md")]

use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::flats::on_round;
use crate::model::Kind;
use crate::model::feature::FlatMeasure;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "flat-usable",
    severity: Severity::Warning,
    group: "keyseats",
    source: "geometry of a chord; the share is common practice, no source",
    page: include_str!("flat_usable.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::Flats { size, measure, count, .. } = &feature.kind else { continue };
        let Some(on) = facts.chain.span(feature.id).and_then(|(a, b)| facts.round_under(a.min(b), a.max(b))) else {
            continue;
        };
        let (section, round) = (on.section, on.diameter);
        let depth = match measure {
            FlatMeasure::Across => (round - size.nominal).half(),
            FlatMeasure::ToFarSide => round - size.nominal,
            FlatMeasure::Deep => size.nominal,
        };
        let (called, whole) = (feature.called(), facts.show(round));
        let finding = match on_round(round, depth, *count) {
            None => Finding::new(
                CHECK.id,
                Severity::Error,
                tell!(
                    "{called} is {}, which does not cut a flat on {} ({whole})",
                    "{called} hat {}, das schneidet keine Fläche an {} ({whole})",
                    size.text,
                    section.called()
                ),
            )
            .length("round", round)
            .help(tell!(
                "Say a size below {whole} and above half of it, or make the round larger",
                "Ein Maß unter {whole} und über der Hälfte angeben, oder das Rund größer machen"
            )),
            Some(cut) => {
                let least = times(cut.full_width, facts.limit_number(CHECK.id, "share"));
                if *count < 2 || cut.width >= least {
                    continue;
                }
                Finding::new(
                    CHECK.id,
                    Severity::Warning,
                    tell!(
                        "the flats of {called} come out {} wide on {} ({whole}), under {}",
                        "die Flächen von {called} werden {} breit an {} ({whole}), unter {}",
                        facts.show(cut.width),
                        section.called(),
                        facts.show(least)
                    ),
                )
                .length("wide", cut.width)
                .length("least", least)
                .help(told!(
                    "Make the round larger, or the size across smaller",
                    "Das Rund größer oder das Maß darüber kleiner machen"
                ))
            }
        };
        out.push(finding.at(feature.value).of(feature.letter.clone()).of(section.letter.clone()));
    }
}
