#![doc = include_str!("seal_edge.md")]

use crate::chain::Piece;
use crate::check::shape::{face, says_any, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Carried, End, Feature, Kind};
use crate::unit::Station;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "seal-edge",
    severity: Severity::Warning,
    group: "assembly",
    source: "common practice, no source",
    page: include_str!("seal_edge.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for seat in facts.part.sections() {
        let Some(piece) = facts.profile.piece(seat.id) else { continue };
        for carried in seat.carries.iter().filter(|c| is_seal(c)) {
            let Some(from) = facts.enters(piece, carried) else { continue };
            for edge in edges(facts, piece, from) {
                out.push(finding(facts, seat, piece, carried, edge));
            }
        }
    }
}

fn is_seal(carried: &Carried) -> bool {
    says_any(&carried.part.text, &["seal", "o-ring", "o ring", "wiper"]) && !says_any(&carried.part.text, &["sleeve"])
}

/// Sharp things that a lip of about the seat's size touches on its way.
fn edges<'a>(facts: &Facts<'a>, piece: &Piece, from: End) -> Vec<&'a Feature> {
    let lip = times(piece.smallest(), facts.limit_number(CHECK.id, "lip"));
    let touched: Vec<&Piece> = facts.outward(piece, from).into_iter().filter(|p| p.largest() >= lip).collect();
    let threads =
        touched.iter().filter_map(|p| facts.feature(p.feature)).filter(|f| matches!(f.kind, Kind::Thread { .. }));
    let sharp = facts.part.features.iter().filter(|f| {
        let keyseat = matches!(f.kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. });
        let groove = matches!(f.kind, Kind::Groove { .. });
        let Some((a, b)) = facts.chain.span(f.id).filter(|_| keyseat || groove) else { return false };
        let on_the_way = touched.iter().any(|p| p.from <= a && b <= p.to);
        let led = groove && [a, b].iter().any(|wall| facts.chamfer_at(*wall).is_some());
        !led && (on_the_way || (keyseat && first_half(piece, from, a)))
    });
    threads.chain(sharp).collect()
}

/// A keyseat in the outer half of the seal's own section is passed too.
fn first_half(piece: &Piece, from: End, at: Station) -> bool {
    let middle = piece.from + piece.long().half();
    piece.from <= at && at <= piece.to && (at - face(piece, from)).abs() < (middle - face(piece, from)).abs()
}

fn finding(facts: &Facts<'_>, seat: &Feature, piece: &Piece, carried: &Carried, edge: &Feature) -> Finding {
    let message = tell!(
        "on its way to {} ({}) the lip of the {} is drawn over {}, with no lead to lift it",
        "auf dem Weg zu {} ({}) wird die Lippe von {} über {} gezogen, und keine Schräge hebt sie",
        seat.called(),
        facts.show(piece.smallest()),
        carried.part.text,
        edge.called()
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .by_limit("lip")
        .at(carried.place)
        .also(edge.head, "the sharp edge")
        .of(seat.letter.clone())
        .of(edge.letter.clone())
        .length("seat", piece.smallest())
        .length("edge", facts.chain.span(edge.id).map_or(piece.from.0, |(from, _)| from.0))
        .help(told!(
            "Step that length down, put the seal on from the other end, or fit it over a thin sleeve",
            "Diese Länge absetzen, die Dichtung vom anderen Ende aufschieben oder über eine dünne Hülse montieren"
        ))
}
