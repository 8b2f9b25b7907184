#![doc = include_str!("outside_part.md")]

use std::collections::{BTreeMap, BTreeSet};

use crate::chain::Piece;
use crate::check::shape::{at_face, largest_written, nominal_at};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Place, Severity};
use crate::model::feature::EdgeAt;
use crate::model::{End, Feature, Kind, PlaceRef, Size};
use crate::unit::{Length, Station};

use super::of_slip;
use crate::{tell, told};

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
    let faces = faces(facts);
    for feature in &facts.part.features {
        match &feature.kind {
            Kind::Chamfer { at: EdgeAt::Face(at), .. } | Kind::Fillet { at, .. } => {
                out.extend(on_a_face(facts, &faces, feature, at));
            }
            _ if feature.kind.is_section() => out.extend(section(facts, feature, overall)),
            _ => out.extend(lying(facts, feature, overall)),
        }
    }
    let edges = chamfered(facts);
    for feature in &facts.part.features {
        out.extend(match &feature.kind {
            Kind::Groove { diameter, .. } => cuts_nothing(facts, feature, diameter),
            Kind::Chamfer { leg, .. } => longer_than_its_section(facts, &edges, feature, leg),
            Kind::Fillet { radius, at } => taller_than_its_step(facts, feature, radius, at),
            _ => None,
        });
    }
    for no_face in &facts.chain.no_face {
        let message = tell!("no face lies at {}", "bei {} liegt keine Fläche", facts.show(no_face.asked.0));
        out.push(nearest(
            facts,
            Finding::new(CHECK.id, CHECK.severity, message).at(no_face.place).length("asked", no_face.asked.0),
            no_face.nearest,
        ));
    }
}

/// A section that ends before the datum face. One that ends behind the far end is `no-overall`.
fn section(facts: &Facts<'_>, feature: &Feature, _: Length) -> Option<Finding> {
    let (_, to) = facts.chain.span(feature.id)?;
    let message = tell!(
        "{} ends at {}, before the datum face",
        "{} endet bei {}, vor der Bezugsfläche",
        feature.called(),
        facts.show(to.0)
    );
    (to < Station::DATUM).then(|| {
        told(feature, feature.head, message).help(told!(
            "Count places from the datum end, toward the far end",
            "Orte vom Bezugsende zum Gegenende zählen"
        ))
    })
}

/// A groove, keyseat or hole.
fn lying(facts: &Facts<'_>, feature: &Feature, overall: Length) -> Option<Finding> {
    let (from, to) = facts.chain.span(feature.id)?;
    let radius = match &feature.kind {
        Kind::CrossHole { diameter, .. } => diameter.nominal.half(),
        _ => Length::ZERO,
    };
    let (from, to) = (from.min(to) - radius, from.max(to) + radius);
    let off = from < Station::DATUM || to.0 > overall;
    let where_ = if from == to {
        tell!("at {}", "bei {}", facts.show(from.0))
    } else {
        tell!("from {} to {}", "von {} bis {}", facts.show(from.0), facts.show(to.0))
    };
    let message = tell!(
        "{} lies {where_}, and the part from {} to {}",
        "{} liegt {where_}, und das Teil von {} bis {}",
        feature.called(),
        facts.show(Length::ZERO),
        facts.show(overall)
    );
    if !off && let Some(broken) = no_wall(facts, feature) {
        return Some(broken);
    }
    off.then(|| {
        told(feature, place_of(feature), message)
            .length("from", from.0)
            .length("to", to.0)
            .length("overall", overall)
            .help(told!("Say where it lies, counted from the datum end", "Sagen, wo es liegt, vom Bezugsende gezählt"))
    })
}

/// A bore as large as the section around it.
fn no_wall(facts: &Facts<'_>, feature: &Feature) -> Option<Finding> {
    let hollow = facts.profile.hollow(feature.id)?;
    let around = facts.profile.between(hollow.from, hollow.to).filter(|p| hollow.outermost >= p.smallest());
    let thinnest = around.min_by_key(|p| p.smallest())?;
    let section = facts.part.features.get(thinnest.feature)?;
    let message = tell!(
        "{} is {} inside {} of {}: no wall is left",
        "{} hat {} in {} mit {}: keine Wand bleibt",
        feature.called(),
        facts.show(hollow.outermost),
        section.called(),
        facts.show(thinnest.smallest())
    );
    let finding = told(feature, feature.head, message).length("inside", hollow.outermost);
    Some(
        finding
            .length("outside", thinnest.smallest())
            .help(told!("Make the bore smaller or shallower", "Die Bohrung kleiner oder flacher machen")),
    )
}

/// A groove whose bottom is not below the sections it lies on.
fn cuts_nothing(facts: &Facts<'_>, feature: &Feature, bottom: &Size) -> Option<Finding> {
    let (from, to) = facts.chain.span(feature.id)?;
    let on = facts.profile.between(from.min(to), from.max(to)).filter_map(|p| facts.feature(p.feature));
    let (around, section) =
        on.map(|f| (nominal_at(f, End::Datum).min(nominal_at(f, End::Far)), f)).min_by_key(|(d, _)| *d)?;
    if !around.is_positive() || bottom.nominal < around {
        return None;
    }
    let message = tell!(
        "the bottom of {} is {}, not below {}, {}: nothing is cut there",
        "der Grund von {} ist {}, nicht unter {}, {}: dort wird nichts gedreht",
        feature.called(),
        facts.show(bottom.nominal),
        section.called(),
        facts.show(around)
    );
    Some(
        told(feature, bottom.place, message)
            .also(section.head, "what it lies on")
            .length("bottom", bottom.nominal)
            .length("around", around)
            .help(told!(
                "State the diameter at the bottom of the groove, or place it on another section",
                "Den Durchmesser am Grund des Einstichs angeben, oder ihn auf einen anderen Abschnitt legen"
            )),
    )
}

/// Every chamfered edge: the chamfer, its section, the side of it, and how deep.
type Edges<'a> = BTreeMap<usize, (&'a Piece, End, Length)>;

fn chamfered<'a>(facts: &Facts<'a>) -> Edges<'a> {
    if !facts.part.features.iter().any(|f| matches!(f.kind, Kind::Chamfer { .. })) {
        return Edges::new();
    }
    let edges = facts.profile.pieces.iter().flat_map(|p| [(p, End::Datum), (p, End::Far)]);
    let found = edges.filter_map(|(p, side)| {
        let (chamfer, _, deep) = facts.chamfer_on(p, side)?;
        Some((chamfer.id, (p, side, deep)))
    });
    // Of two edges at one face the one nearer the datum end counts.
    found.fold(Edges::new(), |mut edges, (id, edge)| {
        edges.entry(id).or_insert(edge);
        edges
    })
}

/// A chamfer that takes away more than its section has.
fn longer_than_its_section(facts: &Facts<'_>, edges: &Edges<'_>, feature: &Feature, leg: &Size) -> Option<Finding> {
    let (piece, side, deep) = *edges.get(&feature.id)?;
    let section = facts.feature(piece.feature)?;
    let radius = at_face(piece, side).max.half();
    let (what, is, has) = if leg.nominal > piece.long() {
        ("long", leg.nominal, piece.long())
    } else if deep >= radius {
        ("deep", deep, radius)
    } else {
        return None;
    };
    let message = tell!(
        "the chamfer is {} {what}, and {} has only {} to take it from",
        "die Fase ist {} {what}, und {} hat nur {} dafür",
        facts.show(is),
        section.called(),
        facts.show(has)
    );
    Some(
        told(feature, leg.place, message)
            .of(section.letter.clone())
            .also(section.head, "its section")
            .length("chamfer", is)
            .length("section", has)
            .help(tell!("Make it smaller than {}", "Kleiner als {} machen", facts.show(has))),
    )
}

/// An inside radius that is taller than the step it lies in: it comes out on the larger surface. A warning, since it can be cut.
fn taller_than_its_step(facts: &Facts<'_>, feature: &Feature, radius: &Size, at: &PlaceRef) -> Option<Finding> {
    let at = facts.chain.station(at)?;
    let near = facts.profile.pieces.iter().find(|p| p.to == at)?;
    let far = facts.profile.pieces.iter().find(|p| p.from == at)?;
    let across =
        |p: &crate::chain::Piece, side| Some(nominal_at(facts.feature(p.feature)?, side)).filter(|d| d.is_positive());
    let step = (across(near, End::Far)? - across(far, End::Datum)?).abs().half();
    let radius_at_most = largest_written(radius);
    if radius_at_most <= step {
        return None;
    }
    let message = tell!(
        "the fillet at {} is {}, and the step there is only {} high",
        "die Hohlkehle bei {} ist {}, und der Absatz dort nur {} hoch",
        facts.show(at.0),
        facts.show(radius_at_most),
        facts.show(step)
    );
    let mut finding =
        told(feature, radius.place, message).length("fillet", radius_at_most).length("step", step).help(tell!(
            "Make it {} or smaller, or put it at the step it belongs to",
            "{} oder kleiner machen, oder an den Absatz setzen, zu dem sie gehört",
            facts.at_most(step)
        ));
    finding.severity = Severity::Warning;
    Some(finding)
}

/// Where sections end; empty where one of their faces is not located.
fn faces(facts: &Facts<'_>) -> BTreeSet<Station> {
    if facts.chain.at.iter().take(facts.chain.far + 1).any(Option::is_none) {
        return BTreeSet::new();
    }
    facts.part.sections().filter_map(|s| facts.chain.span(s.id)).flat_map(|(from, to)| [from, to]).collect()
}

/// A chamfer or fillet, which needs a face between two sections.
fn on_a_face(facts: &Facts<'_>, faces: &BTreeSet<Station>, feature: &Feature, at: &PlaceRef) -> Option<Finding> {
    let asked = facts.chain.station(at)?;
    if faces.is_empty() || faces.contains(&asked) {
        return None;
    }
    let near = faces.iter().copied().min_by_key(|f| (*f - asked).abs());
    let message = tell!(
        "{} is at {}, where no section ends",
        "{} steht bei {}, wo kein Abschnitt endet",
        feature.called(),
        facts.show(asked.0)
    );
    Some(nearest(facts, told(feature, at.place(), message).length("asked", asked.0), near))
}

fn told(feature: &Feature, place: Place, message: String) -> Finding {
    let finding = Finding::new(CHECK.id, CHECK.severity, message).at(place);
    if feature.letter.is_empty() { finding } else { finding.of(feature.letter.clone()) }
}

fn nearest(facts: &Facts<'_>, finding: Finding, near: Option<Station>) -> Finding {
    match near {
        Some(near) => finding.length("nearest", near.0).help(tell!(
            "Write {}, the nearest face",
            "{} schreiben, die nächste Fläche",
            facts.show(near.0)
        )),
        None => finding.help(told!("Name a face of the part", "Eine Fläche des Teils nennen")),
    }
}

/// Where the feature says that it lies.
fn place_of(feature: &Feature) -> Place {
    match &feature.kind {
        Kind::Groove { from, .. } | Kind::ParallelKeyseat { from, .. } | Kind::Flats { from, .. } => from.place(),
        Kind::Woodruff { at, .. } | Kind::CrossHole { at, .. } => at.place(),
        _ => feature.head,
    }
}
