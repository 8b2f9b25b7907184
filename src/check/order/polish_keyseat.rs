#![doc = include_str!("polish_keyseat.md")]

use crate::check::asked::Pair;
use crate::check::stock::bow::finished_after;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::plan::Verb;
use crate::model::{Feature, Kind};
use crate::told;

/// The check.
pub const CHECK: Check = Check {
    id: "order-polish-keyseat",
    severity: Severity::Error,
    group: "order",
    source: "Ontario Ministry of Labour, alert on entanglement while polishing: polish before slots are milled",
    page: include_str!("polish_keyseat.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let mut said = Vec::new();
    for pair in facts.pairs() {
        if !cuts_a_slot(&pair) {
            continue;
        }
        let rubbed = matches!(pair.then, Verb::Polish | Verb::File) || means_its_polish(facts, &pair);
        let turned = matches!(pair.then, Verb::Finish | Verb::Turn) && lies_on(facts, pair.first_on, pair.then_on);
        let severity = match (rubbed, turned) {
            (true, _) => Severity::Error,
            // Wished so for what drawn bar does when it is slotted: R13.
            (_, true) if pair.first_on.is_some_and(|key| finished_after(facts, key)) => Severity::Note,
            (_, true) => Severity::Warning,
            _ => continue,
        };
        let key = (pair.place(), pair.then_on.map(|f| f.id), severity);
        if said.contains(&key) {
            continue;
        }
        said.push(key);
        out.push(finding(&pair, severity));
    }
}

/// A keyseat or a hole is cut first.
fn cuts_a_slot(pair: &Pair<'_>) -> bool {
    let slot = |f: &Feature| {
        matches!(
            f.kind,
            Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } | Kind::CrossHole { .. } | Kind::Flats { .. }
        )
    };
    matches!(pair.first, Verb::Mill | Verb::Drill) && pair.first_on.is_none_or(slot)
}

/// A wish that names the seat means all its operations: also the polish that a fine finish plans.
fn means_its_polish(facts: &Facts<'_>, pair: &Pair<'_>) -> bool {
    let Some((place, seat)) = pair.wish.zip(pair.then_on) else { return false };
    let names = |text: &str| {
        seat.name.as_ref().is_some_and(|n| n.text.eq_ignore_ascii_case(text)) || seat.letter.eq_ignore_ascii_case(text)
    };
    let named = facts.part.wishes.before.iter().any(|(first, then)| first.place == place && names(&then.text));
    let polished = |d: &crate::model::plan::Derived| {
        d.operations
            .iter()
            .any(|(o, _)| o.verb == Verb::Polish && (o.feature == Some(seat.id) || o.with.contains(&seat.id)))
    };
    named && facts.derived.is_some_and(polished)
}

/// Whether the slot lies on this section.
fn lies_on(facts: &Facts<'_>, slot: Option<&Feature>, section: Option<&Feature>) -> bool {
    let (Some(slot), Some(section)) = (slot, section) else { return true };
    let (Some((a, b)), Some((from, to))) = (facts.chain.span(slot.id), facts.chain.span(section.id)) else {
        return false;
    };
    a <= to && from <= b
}

fn finding(pair: &Pair<'_>, severity: Severity) -> Finding {
    let danger = match severity {
        Severity::Error => told!(
            "a strip or file that catches in it takes the hand with it",
            "ein Band oder eine Feile, die darin hängen bleibt, reißt die Hand mit"
        ),
        _ => told!(
            "the tool knocks over its edges at every turn",
            "der Stahl schlägt bei jeder Umdrehung über die Kanten"
        ),
    };
    let help = match severity {
        Severity::Note => told!(
            "Break the edges of the slot first; a sharp tool, light and slow cuts",
            "Erst die Kanten der Nut brechen; scharfer Stahl, leichte und langsame Schnitte"
        ),
        _ => told!(
            "Finish, file and polish first; mill keyseats and flats and drill cross holes after the last work on the lathe",
            "Erst schlichten, feilen und polieren; Nuten und Flächen fräsen und Querbohrungen nach der letzten Arbeit auf der Drehmaschine"
        ),
    };
    let mut finding = Finding::new(CHECK.id, severity, format!("{}: {danger}", pair.words())).help(help);
    finding.place = pair.place();
    finding.features = [pair.first_on, pair.then_on].into_iter().flatten().map(|f| f.letter.clone()).collect();
    finding.compared.push(("first", Compared::Text(pair.first.word().to_owned())));
    finding.compared.push(("then", Compared::Text(pair.then.word().to_owned())));
    finding
}
