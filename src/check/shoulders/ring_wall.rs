#![doc = include_str!("ring_wall.md")]

use crate::check::rings::outside;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind, Size};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "ring-wall",
    severity: Severity::Error,
    group: "shoulders",
    source: "geometry: a ring holds what lies between its loaded wall and the shoulder",
    page: include_str!("ring_wall.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for groove in &facts.part.features {
        if let Kind::Groove { ring: Some(ring), .. } = &groove.kind {
            out.extend(behind_the_shoulder(facts, groove, ring));
        }
    }
    for held in facts.held_by_rings() {
        let wide = held.wide.nominal;
        let room = |ring: &crate::check::rings::Ring<'_>| (ring.loaded_at - held.shoulder_at).abs();
        if held.rings.iter().any(|r| outside(&held, r) && room(r) > wide) {
            continue;
        }
        for ring in &held.rings {
            let message = tell!(
                "the loaded wall of {} is {} from the shoulder, but the {} it should hold is {} wide: the ring is on its wrong side",
                "die belastete Wand von {} liegt {} von der Schulter, aber {}, das sie halten soll, ist {} breit: der Ring liegt auf der falschen Seite",
                ring.feature.called(),
                facts.show(room(ring)),
                held.carried.part.text,
                facts.show(wide)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(ring.feature.head)
                    .also(held.carried.place, tell!("{} wide", "{} breit", facts.show(wide)))
                    .of(ring.feature.letter.clone())
                    .of(held.seat.letter.clone())
                    .length("loaded_wall", room(ring))
                    .length("wide", wide)
                    .help(tell!(
                        "Put the wall away from the shoulder at {} from it: the width and the ring",
                        "Die von der Schulter abgewandte Wand {} davon legen: Breite und Ring",
                        facts.show(wide + ring.thick.nominal)
                    )),
            );
        }
    }
}

/// A ring on a section that carries nothing and is itself the shoulder of a seat beside it: it holds nothing there.
fn behind_the_shoulder(facts: &Facts<'_>, groove: &Feature, ring: &Size) -> Option<Finding> {
    let (from, to) = facts.chain.span(groove.id)?;
    let mut on = facts.profile.between(from.min(to), from.max(to));
    let (piece, None) = (on.next()?, on.next()) else { return None };
    let section = facts.feature(piece.feature).filter(|s| s.carries.is_empty())?;
    let beside = [End::Datum, End::Far].into_iter().filter_map(|side| {
        let next = facts.beside(piece, side).section()?;
        Some((next, facts.feature(next.feature)?))
    });
    let seats: Vec<_> = beside.filter(|(_, f)| f.carries.iter().any(|c| c.wide.is_some())).collect();
    let (_, seat) = seats.first().filter(|_| seats.iter().all(|(p, _)| p.largest() < piece.smallest()))?;
    let message = tell!(
        "{} lies on {} ({}), behind the shoulder of {}, and holds nothing there",
        "{} liegt auf {} ({}), hinter der Schulter von {}, und hält dort nichts",
        groove.called(),
        section.called(),
        facts.show(piece.smallest()),
        seat.called()
    );
    let seat_piece = facts.profile.piece(seat.id)?;
    Some(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(groove.head)
            .also(seat.head, "the seat beside it")
            .of(groove.letter.clone())
            .of(section.letter.clone())
            .length("around", piece.smallest())
            .length("seat", seat_piece.largest())
            .help(tell!(
                "Count its place from the shoulder, toward the end: the ring of {} holds what sits on the seat",
                "Den Ort von der Schulter zum Ende hin zählen: der Ring von {} hält, was auf dem Sitz sitzt",
                facts.show(ring.nominal)
            )),
    )
}
