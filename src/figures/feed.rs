//! Feed a revolution: the lathe's own nearest that is not above the usual one.

use super::Figure;
use super::given::Given;
use crate::model::plan::Verb;
use crate::unit::{Length, show};

/// Usual feeds on a small lathe: .008 in / 0.2 mm roughing, .003 in / 0.08 mm finishing, .005 in / 0.12 mm facing (common practice,
/// no source). None where the hand feeds.
pub(super) fn usual(given: &Given, verb: Verb) -> Option<Length> {
    Some(match verb {
        Verb::Rough => given.pick(8_000, 200),
        Verb::Finish | Verb::Turn | Verb::Taper | Verb::Bore => given.pick(3_000, 80),
        Verb::Face => given.pick(5_000, 120),
        _ => return None,
    })
}

/// The feed of an operation: from the shop's list the nearest not above the usual, its finest when all are above.
pub(super) fn feed(given: &Given, verb: Verb) -> Option<Figure> {
    let wanted = usual(given, verb)?;
    let list = given.shop.map(|s| s.feeds.as_slice()).unwrap_or_default();
    let own = list.iter().copied().filter(|f| *f <= wanted).max().or_else(|| list.iter().copied().min());
    let feed = own.unwrap_or(wanted);
    let least = show::usual_decimals(given.unit);
    Some(Figure::new(feed, show::decimals_needed(feed, given.unit, least, least + 1)))
}
