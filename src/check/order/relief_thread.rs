#![doc = include_str!("relief_thread.md")]

use crate::check::asked::Pair;
use crate::check::shape::RunOut;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::plan::Verb;
use crate::model::{End, Feature, Kind};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "order-relief-thread",
    severity: Severity::Error,
    group: "order",
    source: "the relief is there for the tool to come out in (Schneider, Cutting Tool Applications, ch. 6)",
    page: include_str!("relief_thread.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for pair in facts.pairs() {
        let (Some(thread), Some(relief)) = (pair.first_on, pair.then_on) else { continue };
        if pair.first == Verb::Thread && pair.then == Verb::Groove && runs_out_into(facts, thread, relief) {
            out.push(finding(&pair, thread, relief));
        }
    }
}

/// Whether the thread runs out into this relief or groove.
fn runs_out_into(facts: &Facts<'_>, thread: &Feature, relief: &Feature) -> bool {
    let (Kind::Thread { thread: data, .. }, Some(piece)) = (&thread.kind, facts.profile.piece(thread.id)) else {
        return false;
    };
    let sides = [End::Datum, End::Far].map(|side| facts.run_out(piece, data, side));
    sides.iter().any(|r| matches!(r, RunOut::Relief(found) if found.feature.id == relief.id))
        || (matches!(relief.kind, Kind::Relief { .. }) && facts.beside_each_other(thread, relief))
}

fn finding(pair: &Pair<'_>, thread: &Feature, relief: &Feature) -> Finding {
    let message = tell!(
        "{}: the tool then has nothing to come out in",
        "{}: der Stahl hat dann nichts, worin er auslaufen kann",
        pair.words()
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .of(thread.letter.clone())
        .of(relief.letter.clone())
        .help(told!("Cut the relief to size first, then the thread", "Erst den Freistich auf Maß, dann das Gewinde"));
    finding.place = pair.place();
    finding.compared.push(("first", Compared::Text(pair.first.word().to_owned())));
    finding.compared.push(("then", Compared::Text(pair.then.word().to_owned())));
    finding
}
