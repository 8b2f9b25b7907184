#![doc = include_str!("thread_seat.md")]

use crate::check::asked::Pair;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::plan::Verb;
use crate::model::{Feature, Kind};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "order-thread-seat",
    severity: Severity::Warning,
    group: "order",
    source: "common practice, no source",
    page: include_str!("thread_seat.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let mut said = Vec::new();
    for pair in facts.pairs() {
        let (Some(thread), Some(seat)) = (pair.first_on, pair.then_on) else { continue };
        let last_cut = matches!(pair.then, Verb::Finish | Verb::Turn | Verb::Polish);
        if pair.first != Verb::Thread || !last_cut || !is_seat(seat) || !facts.beside_each_other(thread, seat) {
            continue;
        }
        if said.contains(&(thread.id, seat.id)) {
            continue;
        }
        said.push((thread.id, seat.id));
        out.push(finding(&pair, thread, seat));
    }
}

/// A section that something sits on, or that is held close.
fn is_seat(section: &Feature) -> bool {
    let Kind::Turn { diameter, kept: false, .. } = &section.kind else { return false };
    let close = matches!(diameter.from, crate::model::LimitsFrom::Written | crate::model::LimitsFrom::Fit);
    !section.carries.is_empty() || section.finish.is_some() || close
}

fn finding(pair: &Pair<'_>, thread: &Feature, seat: &Feature) -> Finding {
    let message = tell!(
        "{}: its chips and burr, and the knocks of threading, land on the finish",
        "{}: Späne, Grat und die Schläge vom Gewinde treffen die fertige Fläche",
        pair.words()
    );
    let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
        .of(thread.letter.clone())
        .of(seat.letter.clone())
        .help(told!("Finish the seat first, or leave its last cut and take it cold after the thread, on purpose", "Erst den Sitz fertig drehen, oder seinen letzten Schnitt lassen und ihn mit Absicht kalt nach dem Gewinde tun"));
    finding.place = pair.place();
    finding.compared.push(("first", Compared::Text(pair.first.word().to_owned())));
    finding.compared.push(("then", Compared::Text(pair.then.word().to_owned())));
    finding
}
