//! Infeed of threads whose tool has a wide flat: trapezoid, Acme, stub, square. Cuts of equal chip area, the last two fine.
//!
//! Cuts of equal area stay nearly as deep to the end where the flat is wide, and the last of them would tear the flanks over the tool's whole width. So
//! .15 mm (.006 in) are held back and taken in two: .10 and .05 mm (.004 and .002 in). An insert catalogue, which asks .05 mm at least of the last
//! passes, lists 5 to 20 of them by pitch (its page on infeed passes; PLANNING A8).

use super::Speed;
use super::given::Given;
use super::infeed::{Shape, cumulative};
use super::speed::material;
use crate::handbook::cutting;
use crate::handbook::speed::SurfaceSpeed;
use crate::unit::{Length, Unit};

/// The last two cuts, a side, in order.
fn last_cuts(unit: Unit) -> [Length; 2] {
    match unit {
        Unit::Inch => [Length::micro_inches(4_000), Length::micro_inches(2_000)],
        Unit::Millimetre => [Length::micrometres(100), Length::micrometres(50)],
    }
}

/// Cumulative depths, the last being `depth`: equal areas, where the last of those is fine enough; else as far as the last two cuts, which are fine.
pub(super) fn fine_to_depth(shape: Shape, depth: Length, first: Length, unit: Unit) -> Vec<Length> {
    let [before, last] = last_cuts(unit);
    let ending = |list: &[Length]| list.iter().rev().take(2).copied().reduce(|whole, short| whole - short);
    let mut equal = cumulative(shape, depth, first);
    // A cut thinner than the last rubs: fewer then, each a tenth deeper than the first asked.
    let mut deeper = first;
    while equal.len() > 4 && ending(&equal).is_some_and(|step| step < last) {
        deeper = deeper.times_ratio(11, 10);
        equal = cumulative(shape, depth, deeper);
    }
    let ends = ending(&equal);
    if shape == Shape::V || ends.is_none_or(|step| step <= before) || depth <= before + last {
        return equal;
    }
    let mut list = cumulative(shape, depth - before - last, first);
    list.extend([depth - last, depth]);
    list
}

/// The deepest first cut of a tool with a flat this wide that the lathe's power drives at this speed (area × specific force × speed, as in turning), never
/// less than the last cut but one; none where the shop file tells of no power.
pub(super) fn driven(given: &Given, flat: Length, speed: Option<&Speed>) -> Option<Length> {
    let (watts, speed) = given.shop.and_then(|s| s.power_w).zip(speed)?;
    let named = material(given);
    let (specific, _) = cutting::specific(named.as_ref().map(|n| &n.material), CHIP_MM);
    let surface = SurfaceSpeed::metres(speed.surface_speed);
    let [least, _] = last_cuts(given.unit);
    Some(cutting::deepest(specific, flat.mm(), surface, watts * crate::plan::EFFICIENCY).max(least))
}

/// Thickness of a first chip, for its specific force.
const CHIP_MM: f64 = 0.25;
