#![doc = include_str!("passes_seat.md")]

use crate::check::passing::{Obstacle, Sliding};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "passes-seat",
    severity: Severity::Warning,
    group: "assembly",
    source: "common practice, no source; bores of rolling bearings by ISO 492, normal class",
    page: include_str!("passes_seat.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for sliding in facts.sliding() {
        let Some(from) = facts.enters(sliding.piece, sliding.carried) else { continue };
        if facts.blocked(&sliding, from).is_some() {
            continue;
        }
        let passed = facts.obstacles(&sliding, from);
        if let Some(seat) = passed.iter().max_by_key(|o| o.largest) {
            out.push(finding(facts, &sliding, seat, passed.len()));
        }
    }
}

fn finding(facts: &Facts<'_>, sliding: &Sliding<'_>, seat: &Obstacle<'_>, count: usize) -> Finding {
    let more = if count > 1 { tell!(", and {} more", ", und {} weitere", count - 1) } else { String::new() };
    let message = tell!(
        "on its way to {} the {} ({}) must be pushed over {}, which may be {}{more}",
        "auf dem Weg zu {} muss {} ({}) über {} geschoben werden, das bis {} haben kann{more}",
        sliding.seat.called(),
        sliding.carried.part.text,
        sliding.by,
        seat.feature.called(),
        facts.show(seat.largest)
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .by_limit("share")
        .at(sliding.carried.place)
        .also(seat.feature.head, "pushed over")
        .of(sliding.seat.letter.clone())
        .of(seat.feature.letter.clone())
        .length("bore", sliding.smallest)
        .length("passed", seat.largest)
        .help(tell!(
            "Turn {} down to {} or less where nothing sits on it",
            "{} auf {} oder weniger abdrehen, wo nichts darauf sitzt",
            seat.feature.called(),
            facts.at_most(sliding.smallest)
        ))
}
