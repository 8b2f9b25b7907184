//! What to mind where a follow rest runs with the tool, and beside it.

use super::Figure;
use super::given::{Given, at_tailstock, carriage};
use crate::model::End;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::Length;
use crate::{tell, told};

/// How the jaws of a follow rest are set for a cut that it carries: on what the tool has just turned (F. D. Jones, Turning and Boring,
/// 1914; Rose); for a thread on the crests, finished before (common practice, no source).
pub(super) fn followed(given: &Given, setup: &Setup, op: &Operation, once: bool) -> Option<String> {
    let shown = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let thread = super::thread_cut::thread_of(given, op);
    let text = match (op.verb, thread) {
        _ if !op.followed => return None,
        (Verb::Thread, Some(thread)) if step_before(given, setup, op).is_some() => {
            let (at, smaller) = step_before(given, setup, op)?;
            tell!(
                "follow rest: jaws wider than {}, behind the tool on its tailstock side, on the finished Ø {}, oiled; stone burrs off the crests. Toward the tailstock the work steps down to {} at {}: there the jaws hang free, and must not run over the step. Draw them back before every return; set them again once they stand wholly past it, and while they are set bring the carriage no farther back",
                "mitlaufende Lünette: Backen breiter als {}, hinter dem Stahl auf dessen Reitstockseite, auf dem fertigen Ø {}, geölt; Grat abziehen. Zum Reitstock hin fällt das Werkstück ab, auf {} bei {}: dort hängen die Backen frei und dürfen nicht über die Stufe laufen. Vor jedem Rücklauf zurückziehen; erst wieder anstellen, wenn sie ganz dahinter stehen; solange sie angestellt sind, den Schlitten nicht weiter zurück",
                shown(thread.pitch),
                op.from_diameter.map_or_else(String::new, shown),
                shown(smaller),
                shown(at)
            )
        }
        (Verb::Thread, Some(thread)) => tell!(
            "follow rest: jaws wider than {} on the finished Ø {}, set once, oiled; stone burrs off the crests",
            "mitlaufende Lünette: Backen breiter als {} auf dem fertigen Ø {}, einmal angestellt, geölt; Grat abziehen",
            shown(thread.pitch),
            op.from_diameter.map_or_else(String::new, shown)
        ),
        _ if once => told!(
            "follow rest: turn a start, jaws on it behind the tool, oil",
            "mitlaufende Lünette: Anfang drehen, Backen dahinter anstellen, ölen"
        )
        .to_owned(),
        _ => told!(
            "follow rest: turn a start, jaws on it behind the tool, oil; set them anew for every cut",
            "mitlaufende Lünette: Anfang drehen, Backen dahinter anstellen, ölen; für jeden Schnitt neu"
        )
        .to_owned(),
    };
    Some(text)
}

/// What lies beside a thread toward the tailstock, where that is cut smaller by then: where it begins on the carriage, and its diameter.
fn step_before(given: &Given, setup: &Setup, op: &Operation) -> Option<(Length, Length)> {
    let (end, from, blank) = (at_tailstock(setup)?, op.from?, op.from_diameter?);
    let beside = given.profile.pieces.iter().find(|p| match end {
        End::Datum => p.to == from,
        End::Far => p.from == from,
    })?;
    let cuts = |o: &&Operation| o.feature == Some(beside.feature) || o.with.contains(&beside.feature);
    let here = setup.operations.iter().take_while(|o| o.id != op.id).filter(cuts).filter_map(|o| o.to_diameter).min();
    let there = setup.before.iter().filter(|s| s.from < beside.to && beside.from < s.to);
    let now = here.or_else(|| there.map(|s| s.diameter.max(s.diameter_to)).min())?;
    (now < blank).then(|| (carriage(from, end, given.overall), now))
}

/// A groove in work so slender that its other cuts run in a follow rest: the rest stands beside it, the carriage locked (common practice, no source).
pub(super) fn plunged_slender(setup: &Setup, op: &Operation) -> Option<String> {
    let rested = setup.rest.as_ref().is_some_and(|r| r.follows);
    (rested && op.verb == Verb::Groove && !op.inside && !op.followed).then(|| {
        told!(
            "slender: it springs from a straight plunge. Set the follow rest's jaws on the full diameter beside the groove, carriage locked; narrow tool, slowest gear, fed lightly",
            "schlank: beim geraden Einstechen weicht es aus. Die Backen der mitlaufenden Lünette neben dem Einstich auf den vollen Durchmesser stellen, Schlitten klemmen; schmaler Stahl, langsamster Gang, wenig Vorschub"
        )
        .to_owned()
    })
}
