#![doc = include_str!("outside_part.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Place, Severity};
use crate::model::feature::EdgeAt;
use crate::model::{Feature, Kind, PlaceRef};
use crate::unit::{Length, Station};

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "outside-part",
    severity: Severity::Error,
    group: "description",
    source: "what is cut lies on the part",
    page: include_str!("outside_part.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(overall) = facts.chain.overall(facts.part).filter(|o| o.is_positive()) else { return };
    if of_slip::text_is_broken(facts) {
        return;
    }
    for feature in &facts.part.features {
        match &feature.kind {
            Kind::Chamfer { at: EdgeAt::Face(at), .. } | Kind::Fillet { at, .. } => {
                out.extend(on_a_face(facts, feature, at));
            }
            _ if feature.kind.is_section() => out.extend(section(facts, feature, overall)),
            _ => out.extend(lying(facts, feature, overall)),
        }
    }
    for no_face in &facts.chain.no_face {
        let message = format!("no face lies at {}", facts.show(no_face.asked.0));
        out.push(nearest(facts, Finding::new(CHECK.id, CHECK.severity, message).at(no_face.place), no_face.nearest));
    }
}

/// A section that ends before the datum face. One that ends behind the far end is `no-overall`.
fn section(facts: &Facts<'_>, feature: &Feature, _: Length) -> Option<Finding> {
    let (_, to) = facts.chain.span(feature.id)?;
    let message = format!("{} ends at {}, before the datum face", feature.called(), facts.show(to.0));
    (to < Station::DATUM)
        .then(|| told(feature, feature.head, message).help("Count places from the datum end, toward the far end"))
}

/// A groove, keyseat or hole.
fn lying(facts: &Facts<'_>, feature: &Feature, overall: Length) -> Option<Finding> {
    let (from, to) = facts.chain.span(feature.id)?;
    let (from, to) = (from.min(to), from.max(to));
    let off = from < Station::DATUM || to.0 > overall;
    let where_ = if from == to {
        format!("at {}", facts.show(from.0))
    } else {
        format!("from {} to {}", facts.show(from.0), facts.show(to.0))
    };
    let message = format!("{} lies {where_}, and the part from .000 to {}", feature.called(), facts.show(overall));
    off.then(|| {
        told(feature, place_of(feature), message)
            .length("from", from.0)
            .length("to", to.0)
            .length("overall", overall)
            .help("Say where it lies, counted from the datum end")
    })
}

/// A chamfer or fillet, which needs a face between two sections.
fn on_a_face(facts: &Facts<'_>, feature: &Feature, at: &PlaceRef) -> Option<Finding> {
    let asked = facts.chain.station(at)?;
    let faces: Vec<Station> =
        facts.part.sections().filter_map(|s| facts.chain.span(s.id)).flat_map(|(from, to)| [from, to]).collect();
    if faces.is_empty()
        || faces.contains(&asked)
        || facts.chain.at.iter().take(facts.chain.far + 1).any(Option::is_none)
    {
        return None;
    }
    let near = faces.into_iter().min_by_key(|f| (*f - asked).abs());
    let message = format!("{} is at {}, where no section ends", feature.called(), facts.show(asked.0));
    Some(nearest(facts, told(feature, at.place(), message), near))
}

fn told(feature: &Feature, place: Place, message: String) -> Finding {
    let finding = Finding::new(CHECK.id, CHECK.severity, message).at(place);
    if feature.letter.is_empty() { finding } else { finding.of(feature.letter.clone()) }
}

fn nearest(facts: &Facts<'_>, finding: Finding, near: Option<Station>) -> Finding {
    match near {
        Some(near) => finding.length("nearest", near.0).help(format!("Write {}, the nearest face", facts.show(near.0))),
        None => finding.help("Name a face of the part"),
    }
}

/// Where the feature says that it lies.
fn place_of(feature: &Feature) -> Place {
    match &feature.kind {
        Kind::Groove { from, .. } | Kind::ParallelKeyseat { from, .. } => from.place(),
        Kind::Woodruff { at, .. } | Kind::CrossHole { at, .. } => at.place(),
        _ => feature.head,
    }
}
