#![doc = include_str!("ring_wall.md")]

use crate::check::rings::outside;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

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
    for held in facts.held_by_rings() {
        let wide = held.wide.nominal;
        let room = |ring: &crate::check::rings::Ring<'_>| (ring.loaded_at - held.shoulder_at).abs();
        if held.rings.iter().any(|r| outside(&held, r) && room(r) > wide) {
            continue;
        }
        for ring in &held.rings {
            let message = format!(
                "the loaded wall of {} is {} from the shoulder, but the {} it should hold is {} wide: the ring is on its wrong side",
                ring.feature.called(),
                facts.show(room(ring)),
                held.carried.part.text,
                facts.show(wide)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(ring.feature.head)
                    .also(held.carried.place, format!("{} wide", facts.show(wide)))
                    .of(ring.feature.letter.clone())
                    .of(held.seat.letter.clone())
                    .length("loaded_wall", room(ring))
                    .length("wide", wide)
                    .help(format!(
                        "Put the wall away from the shoulder at {} from it: the width and the ring",
                        facts.show(wide + ring.thick.nominal)
                    )),
            );
        }
    }
}
