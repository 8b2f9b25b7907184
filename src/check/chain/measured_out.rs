#![doc = include_str!("measured_out.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Place, Severity};
use crate::model::measured::MeasuredWhat;
use crate::model::rest::Outlook;
use crate::model::{End, Kind, Size};
use crate::unit::{Length, Limits, Station};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "measured-out",
    severity: Severity::Error,
    group: "chain",
    source: "the drawing's own limits",
    page: include_str!("measured_out.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for measured in &facts.part.measured {
        match &measured.what {
            MeasuredWhat::Overall(size) => {
                let limits = facts.part.overall.as_ref().and_then(|o| o.limits);
                out.extend(limits.and_then(|l| {
                    judge(facts, told!("the overall", "die Gesamtlänge"), size, l, Metal::Longer, measured.place)
                }));
            }
            MeasuredWhat::Diameter { feature, size } => {
                let Some(feature) = facts.feature(*feature) else { continue };
                let Some(limits) = diameter(&feature.kind) else { continue };
                let found = judge(facts, &feature.called(), size, limits, Metal::Longer, measured.place);
                out.extend(found.map(|f| f.of(feature.letter.clone())));
            }
            // Their limits are worked with the figures: `inspect` judges them.
            MeasuredWhat::Other { .. } | MeasuredWhat::Mate { .. } => {}
            MeasuredWhat::Face { face, at, from } => {
                let Some(drawn) = facts.chain.drawn(face) else { continue };
                let Some((limits, metal)) = face_limits(facts, drawn, *from) else { continue };
                let called = tell!("the face at {}", "die Fläche bei {}", facts.show(drawn.0));
                out.extend(judge(facts, &called, at, limits, metal, measured.place));
            }
        }
    }
}

/// On which side of its limits metal is left to cut.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Metal {
    /// Too large a reading leaves something to come off.
    Longer,
    /// Too small a reading does.
    Shorter,
}

fn judge(facts: &Facts<'_>, what: &str, size: &Size, limits: Limits, metal: Metal, place: Place) -> Option<Finding> {
    if limits.holds(size.nominal) {
        return None;
    }
    let over = size.nominal > limits.max;
    let by = if over { size.nominal - limits.max } else { limits.min - size.nominal };
    let recut = over == (metal == Metal::Longer);
    let saved = facts.plan.and_then(|p| p.rest.as_ref()).filter(|r| r.outlook < Outlook::Scrap && !r.again.is_empty());
    let (severity, ending, help) = if let (false, Some(rest)) = (recut, saved) {
        let what: Vec<&str> = rest.again.iter().map(|a| a.what.as_str()).collect();
        (
            Severity::Note,
            told!("another cut saves it", "ein weiterer Schnitt rettet es"),
            tell!("Cut again, as the plan says: {}", "Noch einmal drehen, wie der Plan sagt: {}", what.join(", ")),
        )
    } else if recut {
        let aim = limits.middle();
        let off = facts.show((size.nominal - aim).abs());
        (
            Severity::Note,
            told!("still to be cut", "noch zu drehen"),
            tell!(
                "{off} is still to come off to the middle of its limits",
                "{off} kommt noch herunter bis zur Mitte der Grenzen"
            ),
        )
    } else {
        let asks = tell!(
            "Scrap, unless the drawing's {} of {} may become {}: ask, then `accept` it with the reason",
            "Ausschuss, wenn nicht {} der Zeichnung {} auf {} geändert wird: fragen, dann mit Grund unter `accept`",
            if over { "largest" } else { "smallest" },
            facts.show(if over { limits.max } else { limits.min }),
            facts.show(size.nominal)
        );
        (Severity::Error, told!("the metal is gone", "das Metall ist weg"), asks)
    };
    let message = tell!(
        "{what} measures {}, {} {} its limits {} to {}: {ending}",
        "{what} misst {}, {} {} seine Grenzen {} bis {}: {ending}",
        facts.show(size.nominal),
        facts.show(by),
        if over { "over" } else { "under" },
        facts.show(limits.min),
        facts.show(limits.max)
    );
    Some(
        Finding::new(CHECK.id, severity, message)
            .at(place)
            .length("measured", size.nominal)
            .length("min", limits.min)
            .length("max", limits.max)
            .help(help),
    )
}

fn diameter(kind: &Kind) -> Option<Limits> {
    match kind {
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => diameter.limits,
        Kind::Thread { thread, .. } => Some(thread.major),
        _ => None,
    }
}

/// What the drawing guarantees of a face's distance from an end, and on which side of it metal is left: a shoulder is cut
/// deeper from the side where the work is smaller.
fn face_limits(facts: &Facts<'_>, drawn: Station, from: End) -> Option<(Limits, Metal)> {
    let chain = facts.chain;
    let now = chain.moved.iter().find(|(at, _)| *at == drawn).map_or(drawn, |(_, came)| *came);
    let node = chain.at.iter().position(|at| *at == Some(now))?;
    let limits = match from {
        End::Datum => chain.guaranteed(0, node)?,
        End::Far => chain.guaranteed(node, chain.far)?,
    };
    let largest = |side: End| {
        let pieces = &facts.profile.pieces;
        let beside = pieces.iter().find(|p| if side == End::Datum { p.to == now } else { p.from == now });
        beside.map_or(Length::ZERO, |p| if side == End::Datum { p.end.max } else { p.start.max })
    };
    // The larger section's side face is what was cut: facing the datum end, it goes farther from the datum with each cut.
    let faces_datum = largest(End::Far) > largest(End::Datum);
    let metal = if faces_datum == (from == End::Datum) { Metal::Shorter } else { Metal::Longer };
    Some((limits, metal))
}
