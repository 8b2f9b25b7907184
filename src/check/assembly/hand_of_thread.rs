#![doc = include_str!("hand_of_thread.md")]

use crate::chain::Piece;
use crate::check::shape::says_any;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::End;
use crate::model::feature::{Feature, Hand};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "hand-of-thread",
    severity: Severity::Note,
    group: "assembly",
    source: "common practice, no source: the nut is dragged against the turning of its shaft",
    page: include_str!("hand_of_thread.md"),
    look,
};

/// Which way something turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Turn {
    Clockwise,
    Counterclockwise,
}

impl Turn {
    const fn back(self) -> Self {
        match self {
            Self::Clockwise => Self::Counterclockwise,
            Self::Counterclockwise => Self::Clockwise,
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Self::Clockwise => "clockwise",
            Self::Counterclockwise => "counterclockwise",
        }
    }
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, piece) in facts.threads() {
        let Some(rotation) = &thread.rotation else { continue };
        let Some(nut_end) = nut_end(facts, section, piece) else { continue };
        let Some(turn) = turn_seen_from(&rotation.text, nut_end) else { continue };
        // Dragged behind, a nut turns backward on its shaft: that tightens right-hand when the shaft turns counterclockwise.
        let tightens = if thread.hand == Hand::Right { Turn::Counterclockwise } else { Turn::Clockwise };
        if turn == tightens {
            continue;
        }
        let hand = if thread.hand == Hand::Right { "right" } else { "left" };
        let message = tell!(
            "seen from the nut's end the part turns {}: a {hand}-hand nut on {} is dragged loose",
            "vom Ende der Mutter gesehen dreht das Teil {}: eine Mutter mit {hand}gewinde an {} wird losgedreht",
            turn.word(),
            thread.designation
        );
        let mut finding =
            Finding::new(CHECK.id, Severity::Note, message).at(rotation.place).of(section.letter.clone()).help(told!(
                "Lock the nut (tab washer, second nut, pin), or make this thread the other hand",
                "Die Mutter sichern (Sicherungsblech, zweite Mutter, Stift) oder das Gewinde andersherum schneiden"
            ));
        finding.compared.push(("turns", Compared::Text(turn.word().to_owned())));
        finding.compared.push(("tightens", Compared::Text(tightens.word().to_owned())));
        out.push(finding);
    }
}

/// The end the nut comes on from.
fn nut_end(facts: &Facts<'_>, section: &Feature, piece: &Piece) -> Option<End> {
    if let Some(enters) = section.carries.iter().find_map(|c| c.enters) {
        return Some(enters);
    }
    let free = |side| !facts.outward(piece, side).iter().any(|p| p.largest() > piece.largest());
    match (free(End::Datum), free(End::Far)) {
        (true, false) => Some(End::Datum),
        (false, true) => Some(End::Far),
        _ => None,
    }
}

/// `clockwise` or `counterclockwise` (`cw`, `ccw`), seen from the datum end unless it says `far`; turned round for the other end.
fn turn_seen_from(text: &str, end: End) -> Option<Turn> {
    let turn = if says_any(text, &["counter", "anti", "ccw"]) {
        Turn::Counterclockwise
    } else if says_any(text, &["clockwise", "cw"]) {
        Turn::Clockwise
    } else {
        return None;
    };
    let seen_from = if says_any(text, &["far"]) { End::Far } else { End::Datum };
    Some(if seen_from == end { turn } else { turn.back() })
}
