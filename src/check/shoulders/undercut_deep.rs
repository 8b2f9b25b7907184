#![doc = include_str!("undercut_deep.md")]

use crate::chain::Piece;
use crate::check::shape::{nominal_at, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind};
use crate::tell;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "undercut-deep",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source",
    page: include_str!("undercut_deep.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in facts.part.sections() {
        let Kind::Relief { diameter, .. } = &feature.kind else { continue };
        let Some(piece) = facts.profile.piece(feature.id) else { continue };
        let Some(seat) = seat(facts, piece) else { continue };
        let seat_diameter = nominal_at(seat, End::Datum);
        let deep = (seat_diameter - diameter.nominal).half();
        let most = times(seat_diameter, facts.limit_number(CHECK.id, "share"));
        if deep <= most {
            continue;
        }
        let message = tell!(
            "{} is {} deep below {}, more than {}",
            "{} ist {} tief unter {}, mehr als {}",
            feature.called(),
            facts.show(deep),
            seat.called(),
            facts.show(most)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("share")
                .at(feature.value)
                .of(feature.letter.clone())
                .of(seat.letter.clone())
                .length("deep", deep)
                .length("most", most)
                .help(tell!(
                    "Make it {} or larger",
                    "{} oder größer machen",
                    facts.at_least(shallow(seat_diameter, most))
                )),
        );
    }
}

fn shallow(seat: Length, most: Length) -> Length {
    seat - most.times(2)
}

/// The seat an undercut serves: a plain section on one side, something larger on the other, and no thread beside it.
fn seat<'a>(facts: &Facts<'a>, piece: &Piece) -> Option<&'a Feature> {
    let at = |side| facts.beside(piece, side).section().and_then(|p| facts.feature(p.feature));
    let (near, far) = (at(End::Datum)?, at(End::Far)?);
    let thread = |f: &Feature| matches!(f.kind, Kind::Thread { .. });
    if thread(near) || thread(far) {
        return None;
    }
    let smaller = if nominal_at(near, End::Far) < nominal_at(far, End::Datum) { near } else { far };
    matches!(smaller.kind, Kind::Turn { .. }).then_some(smaller)
}
