#![doc = include_str!("play_negative.md")]

use crate::check::passing::is_bearing;
use crate::check::rings::{Held, Ring, outside};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::bearing_limits;
use crate::model::{End, Feature, Kind, LimitsFrom, Size};
use crate::unit::{Length, Limits};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "play-negative",
    severity: Severity::Error,
    group: "chain",
    source: "worst case of shoulder to loaded wall, less the width and the ring",
    page: include_str!("play_negative.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for groove in &facts.part.features {
        if let Kind::Groove { wide, ring: Some(ring), .. } = &groove.kind {
            out.extend(ring_too_thick(facts, groove, wide, ring));
        }
    }
    for held in facts.held_by_rings() {
        for ring in held.rings.iter().filter(|r| outside(&held, r)) {
            let Some(room) = room(facts, &held, ring) else { continue };
            let wide = width(&held);
            if room.max <= wide.min {
                continue;
            }
            let play = room.minus(wide).minus(written(ring.thick));
            let most = facts.limit(CHECK.id, "play");
            if play.min < Length::ZERO {
                out.push(finding(facts, &held, ring, room, play, Severity::Error));
            } else if play.max > most {
                out.push(finding(facts, &held, ring, room, play, Severity::Warning));
            }
        }
    }
}

/// The ring against its own groove, whatever it holds.
fn ring_too_thick(facts: &Facts<'_>, groove: &Feature, wide: &Size, ring: &Size) -> Option<Finding> {
    let (thickest, narrowest) = (written(ring).max, wide.limits_or_nominal().min);
    if thickest <= narrowest {
        return None;
    }
    // By a general tolerance alone it is a doubt about the drawing, not yet about the ring.
    let general = !matches!(wide.from, LimitsFrom::Written | LimitsFrom::Fit) && thickest <= wide.nominal;
    let severity = if general { Severity::Warning } else { Severity::Error };
    let message = tell!(
        "the ring may be {} thick, and {} only {} wide: it may not go in",
        "der Ring kann {} dick sein, und {} nur {} breit: er geht vielleicht nicht hinein",
        facts.show(thickest),
        groove.called(),
        facts.show(narrowest)
    );
    Some(
        Finding::new(CHECK.id, severity, message)
            .at(wide.place)
            .also(ring.place, "the ring")
            .of(groove.letter.clone())
            .length("ring", thickest)
            .length("groove", narrowest)
            .help(tell!(
                "Cut the groove {} wide or more, by the table of the ring",
                "Den Einstich {} oder breiter machen, nach der Tabelle des Rings",
                facts.show(thickest)
            )),
    )
}

/// What the lengths guarantee between the shoulder and the loaded wall.
fn room(facts: &Facts<'_>, held: &Held<'_>, ring: &Ring<'_>) -> Option<Limits> {
    match held.side {
        End::Datum => facts.chain.guaranteed(held.shoulder, ring.loaded),
        End::Far => facts.chain.guaranteed(ring.loaded, held.shoulder),
    }
}

/// The width by its own limits; without any, that of a rolling bearing by ISO 492.
fn width(held: &Held<'_>) -> Limits {
    let bore = held.carried.bore.as_ref().filter(|_| is_bearing(held.carried));
    match (held.wide.from, bore) {
        (LimitsFrom::Written | LimitsFrom::Fit, _) | (_, None) => written(held.wide),
        (_, Some(bore)) => {
            bearing_limits::width(bore.nominal, held.wide.nominal).map_or(written(held.wide), |(l, _)| l)
        }
    }
}

fn written(size: &Size) -> Limits {
    match size.from {
        LimitsFrom::Written | LimitsFrom::Fit => size.limits_or_nominal(),
        _ => Limits::exactly(size.nominal),
    }
}

fn finding(
    facts: &Facts<'_>,
    held: &Held<'_>,
    ring: &Ring<'_>,
    room: Limits,
    play: Limits,
    severity: Severity,
) -> Finding {
    let what = if severity == Severity::Error {
        told!("the ring may not go in", "der Ring geht vielleicht nicht hinein").to_owned()
    } else {
        tell!("more than {}", "mehr als {}", facts.show(facts.limit(CHECK.id, "play")))
    };
    let message = tell!(
        "between shoulder, {} and ring the play is {} to {}: {what}",
        "zwischen Schulter, {} und Ring ist das Spiel {} bis {}: {what}",
        held.carried.part.text,
        facts.show(play.min),
        facts.show(play.max)
    );
    let most = facts.limit(CHECK.id, "play");
    let wanted = room.max - play.max;
    let mut finding = Finding::new(CHECK.id, severity, message)
        .at(ring.feature.head)
        .also(held.carried.place, "what it holds")
        .of(ring.feature.letter.clone())
        .of(held.seat.letter.clone())
        .length("play_min", play.min)
        .length("play_max", play.max)
        .length("most", most);
    finding = if severity == Severity::Error {
        finding.help(tell!(
            "Move the loaded wall {} away from the shoulder, or hold it closer: dimension it from the shoulder",
            "Die belastete Wand um {} weiter von der Schulter weg legen oder enger halten: von der Schulter bemaßen",
            facts.show(-play.min)
        ))
    } else {
        finding.by_limit("play").help(tell!(
            "Hold the loaded wall closer, or take up the play with a shim of up to {}",
            "Die belastete Wand enger halten oder das Spiel mit einer Passscheibe bis {} ausgleichen",
            facts.show(play.max)
        ))
    };
    finding.length("room_max", room.max).length("needed_min", wanted)
}
