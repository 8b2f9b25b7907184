//! When the trade carries slender work by a follow rest, and whether one is at hand.

use super::slender::{self, between_supports};
use crate::check::Facts;
use crate::model::part::Holding;
use crate::model::plan::Setup;
use crate::unit::Length;

/// Diameters that a cut is long at least where a follow rest is worth setting (common practice, no source).
const LONG: i64 = 3;

/// Diameters between the supports of work on a center, over the diameter that is cut; none without a center.
pub fn slenderness(facts: &Facts<'_>, setup: &Setup, diameter: Length) -> Option<f64> {
    let between = between_supports(facts, setup)?;
    diameter.is_positive().then(|| between.mm() / diameter.mm())
}

/// Whether work of this diameter is slenderer in a mounting than the trade turns without a rest: the limit of `slender`.
pub fn wants_rest(facts: &Facts<'_>, setup: &Setup, diameter: Length) -> bool {
    let most = facts.limit_number(slender::CHECK.id, "diameters");
    slenderness(facts, setup, diameter).is_some_and(|d| d > most)
}

/// Whether a cut so long at this diameter can be carried by a follow rest of the shop: it has one that takes the diameter, the cut is
/// long enough to set it, and the person has not switched R16 off.
pub fn at_hand(facts: &Facts<'_>, diameter: Length, long: Length) -> bool {
    let takes =
        |range: &Option<(Length, Length)>| range.is_none_or(|(least, most)| least <= diameter && diameter <= most);
    let has = facts.shop.is_some_and(|s| s.rests.iter().any(|(kind, range)| kind == "follow" && takes(range)));
    has && long >= diameter.times(LONG) && !facts.part.wishes.is_off("R16")
}

/// Whether a mounting is one a follow rest runs in: the work on a center, the carriage free to travel beside it.
pub const fn on_center(setup: &Setup) -> bool {
    matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters)
}
