//! What a setup makes, in a few words and in one sentence.

use super::Sources;
use crate::model::feature::Kind;
use crate::model::plan::{DatumEnd, Setup, Verb};
use crate::model::{End, part::Holding};
use crate::sheet::words;

/// `Turn C, groove B, thread A`.
pub(super) fn title(s: &Sources, setup: &Setup) -> String {
    let groups = [
        (words::MAKE_TURN.say(), letters(s, setup, &[Verb::Finish, Verb::Turn], false)),
        (words::MAKE_ROUGH.say(), only_roughed(s, setup)),
        (words::MAKE_TAPER.say(), letters(s, setup, &[Verb::Taper], false)),
        (words::MAKE_GROOVE.say(), letters(s, setup, &[Verb::Groove], false)),
        (words::MAKE_KNURL.say(), letters(s, setup, &[Verb::Knurl], false)),
        (words::MAKE_BORE.say(), letters(s, setup, &[Verb::Bore, Verb::Ream], true)),
        (words::MAKE_TAP.say(), letters(s, setup, &[Verb::Tap], true)),
        (words::MAKE_THREAD.say(), letters(s, setup, &[Verb::Thread], true)),
        (words::MAKE_MILL.say(), milled(s, setup, false)),
        (flats_word(s, setup), milled(s, setup, true)),
        (words::MAKE_DRILL.say(), drilled(s, setup)),
    ];
    let mut made: Vec<String> = groups
        .into_iter()
        .filter(|(_, l)| !l.is_empty())
        .map(|(word, l)| format!("{word}\u{a0}{}", l.join(",\u{a0}")))
        .collect();
    if made.is_empty() {
        made = bare(s, setup);
    }
    words::capital(&made.join("; "))
}

/// Setups that only face, center, part off, fit or inspect.
fn bare(s: &Sources, setup: &Setup) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for op in &setup.operations {
        let word = match op.verb {
            Verb::Face => words::face(op.end.or(setup.works), s.plan.faces_to_overall(op), &s.length(s.overall())),
            Verb::Center if op.is_rough_center() => words::ROUGH_CENTERS.say().to_owned(),
            Verb::Turn if op.is_spot() => words::TURN_SPOT.say().to_owned(),
            Verb::Center if op.throw.is_some() => words::SECOND_CENTERS.say().to_owned(),
            Verb::FitTest => words::TRY_MATES.say().to_owned(),
            verb => words::verb(verb).to_owned(),
        };
        if !out.contains(&word) {
            out.push(word);
        }
    }
    out
}

/// Letters of what some verbs do; a thread's on a blank counts as the thread's.
fn letters(s: &Sources, setup: &Setup, verbs: &[Verb], threads: bool) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for op in setup.operations.iter().filter(|o| verbs.contains(&o.verb)) {
        for id in op.feature.into_iter().chain(op.with.iter().copied()) {
            let is_thread = s.feature(id).is_some_and(|f| matches!(f.kind, Kind::Thread { .. }));
            let letter = s.letter(id).to_owned();
            if !letter.is_empty() && !out.contains(&letter) && (threads || !is_thread) {
                out.push(letter);
            }
        }
    }
    out.sort_by_key(|l| (l.chars().count(), l.clone()));
    out
}

/// Letters of keyseats or of flats.
fn milled(s: &Sources, setup: &Setup, flats: bool) -> Vec<String> {
    let is_flat = |l: &String| {
        let mut all = s.part.features.iter().filter(|f| f.letter == *l);
        all.any(|f| matches!(f.kind, Kind::Flats { .. }))
    };
    let mut out = letters(s, setup, &[Verb::Mill], false);
    out.retain(|l| is_flat(l) == flats);
    out
}

/// `mill flat` where there is one alone, else `mill flats`.
fn flats_word(s: &Sources, setup: &Setup) -> &'static str {
    let mut flats = setup.operations.iter().filter(|o| o.verb == Verb::Mill).filter_map(|o| s.feature(o.feature?));
    let count: u32 =
        flats.by_ref().map(|f| if let Kind::Flats { count, .. } = f.kind { u32::from(count) } else { 0 }).sum();
    if count == 1 { words::MAKE_MILL_FLAT.say() } else { words::MAKE_MILL_FLATS.say() }
}

/// What is drilled and not bored, reamed or tapped in the same setup.
fn drilled(s: &Sources, setup: &Setup) -> Vec<String> {
    let finished = letters(s, setup, &[Verb::Bore, Verb::Ream, Verb::Tap, Verb::Thread], true);
    let mut list = letters(s, setup, &[Verb::Drill], false);
    list.retain(|l| !finished.contains(l));
    list
}

fn only_roughed(s: &Sources, setup: &Setup) -> Vec<String> {
    let done =
        letters(s, setup, &[Verb::Finish, Verb::Turn, Verb::Taper, Verb::Groove, Verb::Thread, Verb::Knurl], true);
    let mut rough = letters(s, setup, &[Verb::Rough], true);
    rough.retain(|l| !done.contains(l));
    rough
}

/// `Between centers, datum end at TAILSTOCK. Turn C; groove B; thread A.`
pub(super) fn sentence(s: &Sources, setup: &Setup) -> String {
    let held = words::held(setup.by, setup.holding);
    let place = match setup.datum_end {
        DatumEnd::Tailstock => format!(", {}", words::DATUM_AT_TAILSTOCK.say()),
        DatumEnd::Headstock => format!(", {}", words::DATUM_AT_HEADSTOCK.say()),
        DatumEnd::Left => String::new(),
    };
    format!("{held}{place}. {}.", title(s, setup))
}

/// The end worked in a setup.
pub(super) fn worked_end(setup: &Setup) -> Option<End> {
    match setup.holding {
        Holding::Mill | Holding::Bench => None,
        _ => setup.works,
    }
}
