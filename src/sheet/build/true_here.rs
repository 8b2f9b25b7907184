//! What comes true to what in a mounting.

use super::Sources;
use crate::model::plan::{Setup, Verb};
use crate::sheet::view::Rich;
use crate::sheet::words;

/// What comes true to what in a mounting: told where the later of the two is brought to size.
pub(super) fn true_here(s: &Sources, setup: &Setup) -> Vec<Rich> {
    let last = |verb| matches!(verb, Verb::Finish | Verb::Turn | Verb::Taper | Verb::Bore | Verb::Ream);
    let made = |feature: usize| {
        let all = s.plan.operations().filter(|(_, o)| o.feature == Some(feature) && last(o.verb));
        all.map(|(at, o)| (at.number, o.number)).max()
    };
    let mut lines = Vec::new();
    for feature in &s.part.features {
        let Some(to) = &feature.true_to else { continue };
        let (one, other) = (made(feature.id), made(to.feature));
        if one.max(other).is_some_and(|(number, _)| number == setup.number) {
            let (later, first) = if one >= other { (feature.id, to.feature) } else { (to.feature, feature.id) };
            lines.push(Rich::from(words::true_to(s.letter(later), s.letter(first), &s.length(to.within.nominal))));
        }
    }
    lines
}
