//! What comes true to what in a mounting.

use super::Sources;
use crate::model::Kind;
use crate::model::plan::{Operation, Setup, Verb};
use crate::sheet::view::Rich;
use crate::sheet::words;

/// Diameters that a last cut is long where the least set-over shows as a taper (common practice, no source).
const SLENDER: i64 = 12;

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

/// The last cut on which a tailstock out of line shows best, where one must be parallel: the longest of the close ones, the slender ones and the
/// thread blanks beside them.
pub(super) fn test_cut<'a>(s: &Sources, setup: &'a Setup) -> Option<&'a Operation> {
    let long = |o: &Operation| o.from.zip(o.to).map(|(a, b)| (a - b).abs()).unwrap_or_default();
    let last = |o: &&Operation| matches!(o.verb, Verb::Finish | Verb::Turn) && !o.inside;
    let asks = |o: &Operation| o.close || o.to_diameter.is_some_and(|d| long(o) >= d.times(SLENDER));
    let threaded = |o: &Operation| {
        o.feature.and_then(|f| s.part.features.get(f)).is_some_and(|f| matches!(f.kind, Kind::Thread { .. }))
    };
    let cuts = || setup.operations.iter().filter(last);
    if !setup.operations.iter().any(|o| o.close) && !cuts().any(asks) {
        return None;
    }
    // Of equally long ones the first.
    let longest = cuts().filter(|o| asks(o) || threaded(o)).rev().max_by_key(|o| long(o));
    longest.or_else(|| setup.operations.iter().find(|o| o.close))
}
