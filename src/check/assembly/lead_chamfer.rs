#![doc = include_str!("lead_chamfer.md")]

use crate::check::shape::face;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "lead-chamfer",
    severity: Severity::Warning,
    group: "assembly",
    source: "common practice, no source",
    page: include_str!("lead_chamfer.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for seat in facts.part.sections().filter(|s| matches!(s.kind, Kind::Turn { .. })) {
        let Some(piece) = facts.profile.piece(seat.id) else { continue };
        let Some(carried) = seat.carries.iter().find(|c| c.bore.is_some()) else { continue };
        let Some(from) = facts.enters(piece, carried) else { continue };
        let edge = facts.leading(piece, from);
        let tapered =
            facts.feature(edge.feature).is_some_and(|f| matches!(f.kind, Kind::Taper { .. } | Kind::Thread { .. }));
        let beside = facts.beside(edge, from);
        let known = !matches!(beside, crate::check::shape::Beside::Unknown);
        if tapered || !known || facts.chamfer_on(edge, from).is_some() {
            continue;
        }
        let at = face(edge, from);
        let message = tell!(
            "the {} goes onto {} ({}) over the edge at {}, and no chamfer is stated there",
            "{} geht auf {} ({}) über die Kante bei {}, und dort ist keine Fase angegeben",
            carried.part.text,
            seat.called(),
            facts.show(piece.largest()),
            facts.show(at.0)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(seat.head)
                .of(seat.letter.clone())
                .length("seat", piece.largest())
                .length("edge", at.0)
                .help(told!(
                    "State one, long and flat: `chamfer: …` of 15° to 30°, with the place of that edge",
                    "Eine angeben, lang und flach: `chamfer: …` von 15° bis 30°, mit dem Ort der Kante"
                )),
        );
    }
}
