//! Finished work bored in a chuck: what is indicated before, and what stands in the spindle behind the jaws.

use super::OperationFigures;
use super::given::Given;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Workholder};
use crate::told;
use crate::unit::Length;

/// Whether finished work is bored in four jaws that are indicated.
fn is_bored_true(setup: &Setup) -> bool {
    let first_inside = setup.operations.first().is_some_and(|o| o.inside);
    first_inside && setup.by == Workholder::FourJaw && setup.runs_true.is_some()
}

/// Letter of what the indicator is put on: the seat that is asked for where it stands free of the jaws, else what they hold.
pub(super) fn on(given: &Given, setup: &Setup) -> Option<String> {
    let grip = setup.grip.as_ref().filter(|_| is_bored_true(setup))?;
    let free = |feature: usize| {
        given.profile.piece(feature).is_some_and(|p| match setup.works {
            Some(End::Far) => p.from >= grip.to,
            _ => p.to <= grip.from,
        })
    };
    let asked = setup.operations.iter().filter_map(|o| given.feature(o.feature?)?.true_to.as_ref());
    let seat = asked.map(|t| t.feature).find(|f| free(*f)).and_then(|f| given.feature(f));
    Some(seat.map_or_else(|| grip.letter.clone(), |f| f.letter.clone()))
}

/// The stops: before the first cut, and before the last ones, since drilling pushes the work.
pub(super) fn stops(setup: &Setup, operations: &mut [OperationFigures]) {
    if !is_bored_true(setup) {
        return;
    }
    let first = told!(
        "Indicate as told above before anything touches the work.",
        "Erst ausrichten, wie oben gesagt: vorher berührt nichts das Werkstück."
    );
    let again = told!(
        "Indicate again: drilling pushes the work. True as told above before the last cuts.",
        "Noch einmal ausrichten: Bohren schiebt das Werkstück. Vor den letzten Schnitten läuft es, wie oben gesagt."
    );
    let is_last = |o: &Operation| {
        matches!(o.verb, Verb::Bore | Verb::Ream | Verb::Taper | Verb::Thread) && (o.close || o.verb != Verb::Bore)
    };
    let last = setup.operations.iter().position(is_last).filter(|i| *i > 0);
    for (at, says) in [(Some(0), first), (last, again)] {
        let Some(figures) = at.and_then(|i| operations.get_mut(i)) else { continue };
        let after = figures.stop_before.take().map_or(String::new(), |s| format!(" {s}"));
        figures.stop_before = Some(format!("{says}{after}"));
    }
}

/// The largest diameter behind the jaws, where it is more than what they hold.
pub(super) fn in_spindle(setup: &Setup) -> Option<Length> {
    let grip = setup.grip.as_ref().filter(|g| !g.letter.is_empty() && setup.holding == Holding::Chuck)?;
    // What ends within the chuck, about as deep as its jaws are long, does not come to the spindle.
    let deep = grip.to - grip.from;
    let behind = setup.before.iter().filter(|s| match setup.works {
        Some(End::Far) => s.from < grip.from - deep,
        _ => s.to > grip.to + deep,
    });
    behind.map(|s| s.diameter.max(s.diameter_to)).max().filter(|d| *d > grip.diameter)
}
