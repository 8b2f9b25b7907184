//! Feed a revolution: the lathe's own nearest that is not above the usual one.

use super::Figure;
use super::given::Given;
use crate::model::plan::Verb;
use crate::plan::cutting;
use crate::unit::show;

/// The feed of an operation, as the minutes are counted with it.
pub(super) fn feed(given: &Given, verb: Verb) -> Option<Figure> {
    let feed = cutting::feed(given.unit, given.shop, verb)?;
    let least = show::usual_decimals(given.unit);
    Some(Figure::new(feed, show::decimals_needed(feed, given.unit, least, least + 1)))
}
