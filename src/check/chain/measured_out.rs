#![doc = include_str!("measured_out.md")]

use crate::chain::diameter_gives;
use crate::check::lengths_read::{LengthsRead, lengths_read};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Place, Severity};
use crate::model::measured::{Measured, MeasuredWhat};
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
    let read = lengths_read(facts);
    out.extend(facts.part.measured.iter().filter_map(|m| found(facts, m, read.as_ref())));
}

/// Whether a length that was read is out, and no cut saves it.
pub(super) fn is_lost(facts: &Facts<'_>, measured: &Measured) -> bool {
    let length = matches!(measured.what, MeasuredWhat::Overall(_) | MeasuredWhat::Face { .. });
    length && found(facts, measured, lengths_read(facts).as_ref()).is_some_and(|f| f.severity == Severity::Error)
}

fn found(facts: &Facts<'_>, measured: &Measured, read: Option<&LengthsRead>) -> Option<Finding> {
    let place = measured.place;
    match &measured.what {
        MeasuredWhat::Overall(size) => {
            let limits = facts.part.overall.as_ref().and_then(|o| o.limits)?;
            let of = Of::Length(read);
            judge(facts, told!("the overall", "die Gesamtlänge"), size, (limits, Metal::Longer), (of, place))
        }
        MeasuredWhat::Diameter { feature, size } => {
            let feature = facts.feature(*feature)?;
            let limits = diameter(&feature.kind)?;
            let found = judge(facts, &feature.called(), size, (limits, Metal::Longer), (Of::Diameter, place));
            found.map(|f| f.of(feature.letter.clone()))
        }
        // Their limits are worked with the figures: `inspect` judges them.
        MeasuredWhat::Other { .. } | MeasuredWhat::Mate { .. } => None,
        MeasuredWhat::Face { face, at, from } => {
            let drawn = facts.chain.drawn(face)?;
            let limits = face_limits(facts, drawn, *from)?;
            let called = tell!("the face at {}", "die Fläche bei {}", facts.show(drawn.0));
            judge(facts, &called, at, limits, (Of::Length(read), place))
        }
    }
}

/// What a reading is of, and what is known of the others of its kind.
#[derive(Clone, Copy)]
enum Of<'a> {
    Length(Option<&'a LengthsRead>),
    Diameter,
}

/// On which side of its limits metal is left to cut.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Metal {
    /// Too large a reading leaves something to come off.
    Longer,
    /// Too small a reading does.
    Shorter,
}

fn judge(
    facts: &Facts<'_>,
    what: &str,
    size: &Size,
    (limits, metal): (Limits, Metal),
    (of, place): (Of<'_>, Place),
) -> Option<Finding> {
    if limits.holds(size.nominal) {
        return None;
    }
    let over = size.nominal > limits.max;
    let by = if over { size.nominal - limits.max } else { limits.min - size.nominal };
    let recut = over == (metal == Metal::Longer);
    let lengths = if let Of::Length(read) = of { read } else { None };
    let saved = lengths.filter(|r| !r.again.is_empty());
    let mut concession = None;
    let (severity, ending, help) = if let (false, Some(read)) = (recut, saved) {
        (
            Severity::Note,
            told!("another cut saves it", "ein weiterer Schnitt rettet es"),
            tell!("To be cut again: {}", "Noch einmal zu drehen: {}", read.again.join(", ")),
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
        let asks = match of {
            Of::Diameter => {
                let to = diameter_gives(limits, false, size.nominal).unwrap_or(limits);
                concession = Some((to.max - limits.max) + (limits.min - to.min));
                tell!(
                    "Scrap, unless the drawing's limits {} to {} may become {} to {}: ask, then `accept` it with the reason",
                    "Ausschuss, wenn die Grenzen {} bis {} der Zeichnung nicht auf {} bis {} geändert werden: fragen, dann mit Grund unter `accept`",
                    facts.show(limits.min),
                    facts.show(limits.max),
                    facts.show(to.min),
                    facts.show(to.max)
                )
            }
            Of::Length(Some(read)) if !read.gives.is_empty() => {
                concession = Some(read.sum());
                tell!(
                    "Scrap, unless the drawing gives: {}. Ask, then `accept` it with the reason",
                    "Ausschuss, wenn die Zeichnung nicht nachgibt: {}. Fragen, dann mit Grund unter `accept`",
                    read.asks(facts)
                )
            }
            Of::Length(_) => told!(
                "`plan` says what the rest of the work still saves, and what the drawing would have to give",
                "`plan` sagt, was die übrige Arbeit noch rettet und was die Zeichnung geben müsste"
            )
            .to_owned(),
        };
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
    let mut finding = Finding::new(CHECK.id, severity, message)
        .at(place)
        .length("measured", size.nominal)
        .length("min", limits.min)
        .length("max", limits.max)
        .help(help);
    if let Some(concession) = concession {
        finding = finding.length("concession", concession);
        finding = lengths.and_then(|r| r.instead.as_ref()).into_iter().fold(finding, |f, first| f.help(first.clone()));
    }
    Some(finding)
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
