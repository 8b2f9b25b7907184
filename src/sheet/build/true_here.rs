//! What comes true to what in a mounting.

use super::Sources;
use crate::chain::Profile;
use crate::check::Facts;
use crate::check::holding::jaws_room;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Kind, Workholder};
use crate::sheet::view::Rich;
use crate::sheet::words;

/// Diameters that a last cut is long where the least set-over shows as a taper (common practice, no source).
const SLENDER: i64 = 12;

/// How far short of the nearest cut soft jaws are bored, or the tool cuts them too.
fn soft_jaws_end(s: &Sources, setup: &Setup) -> Option<Rich> {
    let facts = Facts {
        part: s.part,
        slips: &[],
        chain: s.chain,
        profile: &Profile::of(s.part, s.chain),
        shop: s.shop,
        derived: None,
        plan: None,
    };
    let (gap, _) = jaws_room::nearest(&facts, setup).filter(|_| setup.by == Workholder::SoftJaws)?;
    gap.is_positive().then(|| Rich::from(words::soft_jaws_end(&s.length(gap))))
}

/// The later mounting that drills out or cuts off a center this one stands on: how true it runs cannot be measured on centers any more.
fn loses_its_center(s: &Sources, setup: &Setup) -> Option<u32> {
    let end = setup.works.filter(|_| matches!(setup.holding, Holding::BetweenCenters | Holding::ChuckAndCenter))?;
    let on = |at: Option<End>| setup.holding == Holding::BetweenCenters || at == Some(end);
    let later = s.plan.operations().filter(|(at, _)| at.number > setup.number);
    let mut takes = later.filter(|(_, o)| {
        o.verb == Verb::PartOff || o.inside && matches!(o.verb, Verb::Drill | Verb::Bore) && on(o.end)
    });
    takes.next().map(|(at, _)| at.number)
}

/// What comes true to what in a mounting: told where the later of the two is brought to size.
pub(super) fn true_here(s: &Sources, setup: &Setup) -> Vec<Rich> {
    let last = |verb| matches!(verb, Verb::Finish | Verb::Turn | Verb::Taper | Verb::Bore | Verb::Ream);
    let made = |feature: usize| {
        let all = s.plan.operations().filter(|(_, o)| o.feature == Some(feature) && last(o.verb));
        all.map(|(at, o)| (at.number, o.number)).max()
    };
    let mut lines: Vec<Rich> = soft_jaws_end(s, setup).into_iter().collect();
    for feature in &s.part.features {
        let Some(to) = &feature.true_to else { continue };
        let (one, other) = (made(feature.id), made(to.feature));
        if one.max(other).is_some_and(|(number, _)| number == setup.number) {
            let (later, first) = if one >= other { (feature.id, to.feature) } else { (to.feature, feature.id) };
            let within = s.length(to.within.nominal);
            let mut says = words::true_to(s.letter(later), s.letter(first), &within);
            if let Some(number) = loses_its_center(s, setup) {
                says = format!("{says} {}", words::measured_before_the_center_goes(number));
            }
            lines.push(Rich::from(says));
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
