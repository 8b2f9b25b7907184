//! The radial force of a light last cut: the specific cutting force of the metal at that chip, times the chip, and the radial share of it.

use super::deflection::CHECK;
use super::thread_force::LastCut;
use crate::check::Facts;
use crate::handbook::cutting;

/// How a thinner chip is harder to cut where the shop's own kc1.1 counts (Kienzle's exponent; tool makers print .21 to .28 for steel).
const EXPONENT: f64 = 0.25;

/// A radial force and what it was reckoned with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct CuttingForce {
    /// Radial, newtons.
    pub(super) newtons: f64,
    /// Specific cutting force at this chip, N/mm².
    pub(super) specific: f64,
    /// The metal whose table gave it; none where the limit `kc` did: stated in the shop file, or the material is not known.
    pub(super) metal: Option<&'static str>,
}

/// Of a finishing cut `depth` mm deep, a side.
pub(super) fn turning(facts: &Facts<'_>, depth: f64) -> CuttingForce {
    let feed = facts.limit(CHECK.id, "feed").mm();
    of_chip(facts, depth * feed, feed)
}

/// Of a roughing cut `depth` mm deep, a side, at a feed in mm a turn.
pub(super) fn roughing(facts: &Facts<'_>, depth: f64, feed: f64) -> CuttingForce {
    of_chip(facts, depth * feed, feed)
}

/// Of a thread's last cut, straight in.
pub(super) fn threading(facts: &Facts<'_>, cut: LastCut) -> CuttingForce {
    of_chip(facts, cut.area, cut.thickness())
}

/// On a chip of this section, mm², and mean thickness, mm.
fn of_chip(facts: &Facts<'_>, area: f64, thickness: f64) -> CuttingForce {
    let grade = facts.grade().filter(|_| !facts.is_stated(CHECK.id, "kc"));
    let (specific, metal) = match &grade {
        Some(grade) => {
            let material = Some(&grade.material);
            (cutting::specific(material, thickness).0, Some(cutting::counts_as(material)))
        }
        None => (facts.limit_number(CHECK.id, "kc") * thickness.powf(-EXPONENT), None),
    };
    CuttingForce { newtons: specific * area * facts.limit_number(CHECK.id, "radial"), specific, metal }
}
