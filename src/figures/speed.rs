//! Spindle speed: from the surface speed of material, tool and cut; then the lathe's own gear.

use super::Figure;
use super::given::Given;
use crate::handbook::material::Named;
use crate::handbook::speed::{self, SurfaceSpeed};
use crate::model::plan::{Operation, Setup};
use crate::plan::run_out::Relief;
pub use crate::plan::run_out::SECONDS_TO_REVERSE;
pub use crate::plan::spindle::SpeedLimit;
use crate::plan::{cutting, spindle};
use crate::unit::Unit;

/// The speed of an operation.
#[derive(Debug, Clone, PartialEq)]
pub struct Speed {
    /// Wanted, revolutions a minute, as computed.
    pub wanted: f64,
    /// The lathe's gear: the nearest that is not above; its slowest when all are. None off the lathe or without a shop file.
    pub gear: Option<u32>,
    /// Diameter that runs at the surface speed: the largest one cut, or the cutter's on the mill.
    pub diameter: Figure,
    /// Surface speed at the gear, or as wanted where there is none; metres a minute.
    pub surface_speed: f64,
    /// What set it.
    pub by: SpeedLimit,
    /// The slowest gear is above the wanted speed.
    pub above_wanted: bool,
}

impl Speed {
    /// The gear, or the wanted speed where there is no list of gears.
    pub fn rpm(&self) -> f64 {
        self.gear.map_or(self.wanted, f64::from)
    }

    /// Surface speed in feet a minute for inches, metres a minute for millimetres.
    pub fn surface_in(&self, unit: Unit) -> f64 {
        SurfaceSpeed::metres(self.surface_speed).in_unit(unit)
    }
}

/// Material of the part, as the handbook knows it.
pub(super) fn material(given: &Given) -> Option<Named> {
    cutting::named_material(given.part)
}

/// Turning speed for roughing or finishing.
pub(super) fn turning_speed(given: &Given, finishing: bool) -> SurfaceSpeed {
    cutting::turning_speed(given.part, given.shop, finishing)
}

/// Stands out of the jaws, without a center or a rest, farther than the check `overhang` lets pass.
pub(super) fn overhangs(given: &Given, setup: &Setup) -> bool {
    slow(given, setup).overhung
}

fn slow(given: &Given, setup: &Setup) -> crate::model::plan::Slow {
    setup.slow.unwrap_or_else(|| spindle::slow(&given.facts(), setup))
}

/// The speed of an operation, the one its minutes are counted with; none where nothing turns at a set speed.
pub(super) fn speed(given: &Given, setup: &Setup, op: &Operation) -> Option<Speed> {
    let found = spindle::spindle(&given.facts(), Some(setup), &slow(given, setup), op)?;
    let rpm = found.rpm();
    Some(Speed {
        wanted: found.wanted,
        gear: found.gear,
        diameter: Figure::usual(found.diameter, given.unit),
        surface_speed: speed::surface_speed(rpm, found.diameter).metres_per_minute,
        by: found.by,
        above_wanted: rpm > found.wanted,
    })
}

/// Seconds the tool takes through a relief.
pub(super) fn relief_seconds(relief: &Relief, rpm: f64) -> Option<f64> {
    let seconds = relief.width.mm() / relief.lead.mm() * 60.0 / rpm;
    // To a thousandth: the lead of an inch thread is itself rounded to a picometre.
    seconds.is_finite().then_some((seconds * 1000.0).round() / 1000.0)
}
