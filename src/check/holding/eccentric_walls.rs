#![doc = include_str!("eccentric_walls.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Feature, Kind};
use crate::unit::{Length, Limits};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "eccentric-walls",
    severity: Severity::Warning,
    group: "holding",
    source: "plain geometry",
    page: include_str!("eccentric_walls.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let pieces = &facts.profile.pieces;
    for near in pieces.windows(3) {
        let [before, own, behind] = near else { continue };
        let Some(feature) = facts.part.features.get(own.feature) else { continue };
        let (Some(throw), Some(size)) = (feature.throw(), own_size(feature).map(|l| l.min)) else { continue };
        let sides = [before, behind].map(|p| {
            let beside = facts.part.features.get(p.feature);
            (beside, swept(feature, throw, beside, p.largest()))
        });
        if sides.iter().any(|(_, sweeps)| *sweeps <= size) {
            continue;
        }
        let Some((beside, sweeps)) = sides.into_iter().max_by_key(|(_, sweeps)| *sweeps) else { continue };
        let deep = (sweeps - size).half();
        let message = tell!(
            "{} lies between walls: turned about its axis, {} sweeps {}, so the tool must reach in {} over a width of {}",
            "{} liegt zwischen Wänden: um seine Achse gedreht, schlägt {} einen Kreis von {}; der Stahl muss {} tief hinein, auf einer Breite von {}",
            feature.called(),
            beside.map_or_else(String::new, Feature::called),
            facts.show(sweeps),
            facts.at_least(deep),
            facts.show(own.long())
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(feature.head)
                .of(feature.letter.clone())
                .length("sweeps", sweeps)
                .length("reach", deep)
                .length("wide", own.long())
                .help(told!(
                    "Grind a tool that reaches in so deep with no holder beside it; turn the work by hand past tool and holder before power, and come in only between the walls",
                    "Einen Stahl schleifen, der so tief hineinreicht, ohne Halter daneben; das Werkstück erst von Hand an Stahl und Halter vorbeidrehen, und nur zwischen den Wänden hineinfahren"
                )),
        );
    }
}

/// Limits of an eccentric's own diameter: the profile has the circle it sweeps about the part's axis.
fn own_size(feature: &Feature) -> Option<Limits> {
    match &feature.kind {
        Kind::Eccentric { diameter, .. } => Some(diameter.limits_or_nominal()),
        _ => None,
    }
}

/// The circle of what lies beside an eccentric, by what it sweeps about the part's axis; its own diameter where it lies on the same axis.
fn swept(eccentric: &Feature, throw: Length, beside: Option<&Feature>, about_the_part: Length) -> Length {
    let fellow = beside.filter(|b| b.throw() == Some(throw) && b.angle_mdeg == eccentric.angle_mdeg);
    fellow.and_then(own_size).map_or(about_the_part + throw.times(2), |l| l.max)
}
