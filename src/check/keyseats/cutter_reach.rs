#![doc = include_str!("cutter_reach.md")]

use crate::check::keyed::Keyed;
use crate::check::shape::face;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature};
use crate::tell;
use crate::unit::{Length, Unit};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-cutter-reach",
    severity: Severity::Error,
    group: "keyseats",
    source: "geometry of a Woodruff cutter beside a shoulder",
    page: include_str!("cutter_reach.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats() {
        let Some(cutter) = key.cutter else { continue };
        for side in [End::Datum, End::Far] {
            let Some((shoulder, distance, reach)) = meets(facts, &key, cutter, side) else { continue };
            if distance < key.long().half() || distance >= reach {
                continue;
            }
            let message = tell!(
                "above the seat the cutter reaches {} from its center, but {} stands {} from it",
                "über dem Sitz reicht der Fräser {} von seiner Mitte, aber {} steht {} davon",
                facts.show(reach),
                shoulder.called(),
                facts.show(distance)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(key.feature.head)
                    .also(shoulder.head, "what the cutter meets")
                    .of(key.feature.letter.clone())
                    .of(shoulder.letter.clone())
                    .length("reach", reach)
                    .length("distance", distance)
                    .help(tell!(
                        "Keep the center {} or more from that shoulder, or take a smaller key",
                        "Die Mitte {} oder mehr von dieser Schulter halten, oder eine kleinere Scheibenfeder nehmen",
                        facts.show(reach)
                    )),
            );
        }
    }
}

/// The nearest section taller than the seat on one side: how far it is from the cutter's center, and how far the cutter reaches
/// at that height.
fn meets<'a>(facts: &Facts<'a>, key: &Keyed<'a>, cutter: Length, side: End) -> Option<(&'a Feature, Length, Length)> {
    let tall = facts.outward(key.piece, side).into_iter().find(|p| p.largest() > key.piece.largest())?;
    let distance = (face(tall, side.other()) - key.middle()).abs();
    let height = (tall.largest() - key.shaft).half();
    Some((facts.feature(tall.feature)?, distance, reach(cutter, key.depths.from_top, height)))
}

/// Half the chord of the cutter at a height above the round; its radius once that is above its center.
fn reach(cutter: Length, from_top: Length, height: Length) -> Length {
    let radius = cutter.mm() / 2.0;
    let below_center = radius - from_top.mm() - height.mm();
    if below_center <= 0.0 {
        return cutter.half();
    }
    Length::from_f64((radius * radius - below_center * below_center).max(0.0).sqrt(), Unit::Millimetre)
}
