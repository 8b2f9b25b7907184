#![doc = include_str!("wall.md")]

use crate::check::keyed::Keyed;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Kind};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-wall",
    severity: Severity::Warning,
    group: "keyseats",
    source: "common practice, no source",
    page: include_str!("wall.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats() {
        let hollow = facts.profile.hollow_between(key.from, key.to).max(tapped_center(facts, &key));
        if !hollow.is_positive() {
            continue;
        }
        let wall = (key.bottom() - hollow).half();
        let least = key.width.half().max(facts.limit(CHECK.id, "wall"));
        if wall >= least {
            continue;
        }
        let left = if wall.is_positive() { facts.show(wall) } else { "nothing".to_owned() };
        let message = tell!(
            "between the bottom of {} and the hole of {} inside it {left} is left: less than {}",
            "zwischen dem Grund von {} und der Bohrung von {} darin bleibt {left}: weniger als {}",
            key.feature.called(),
            facts.show(hollow),
            facts.show(least)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(key.feature.head)
                .of(key.feature.letter.clone())
                .length("wall", wall)
                .length("least", least)
                .help(told!(
                    "Make the hole smaller or shallower, or move the keyseat beyond its bottom",
                    "Die Bohrung kleiner oder flacher machen, oder die Nut hinter ihren Grund legen"
                )),
        );
    }
}

/// Diameter of a tapped center hole under the keyseat; zero where there is none.
fn tapped_center(facts: &Facts<'_>, key: &Keyed<'_>) -> Length {
    let overall = facts.chain.overall(facts.part).unwrap_or_default();
    let under = |end: End, deep: Length| match end {
        End::Datum => key.from < Station::DATUM + deep,
        End::Far => key.to > Station(overall) - deep,
    };
    let holes = facts.part.features.iter().filter_map(|f| match &f.kind {
        Kind::CenterHole { size: Some(size), ends } => {
            size.tapped.as_deref().map(|(t, _)| (ends, size.depth, t.nominal))
        }
        _ => None,
    });
    let there = holes.filter(|(ends, deep, _)| [End::Datum, End::Far].iter().any(|e| ends.at(*e) && under(*e, *deep)));
    there.map(|(_, _, d)| d).max().unwrap_or(Length::ZERO)
}
