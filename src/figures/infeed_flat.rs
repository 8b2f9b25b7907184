//! The power a tool with a wide flat takes in the first cut of a trapezoid, Acme, stub or square thread.

use super::Speed;
use super::given::Given;
use super::speed::material;
use crate::handbook::cutting;
use crate::handbook::infeed::last_cuts;
use crate::handbook::speed::SurfaceSpeed;
use crate::unit::Length;

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
