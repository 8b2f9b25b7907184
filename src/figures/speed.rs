//! Spindle speed: from the surface speed of material, tool and cut; then the lathe's own gear.

/// What set the wanted speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpeedLimit {
    /// The surface speed of this cut.
    SurfaceSpeed,
    /// The time the relief gives to open the half-nuts.
    RunOut,
}

/// The speed of an operation.
#[derive(Debug, Clone, PartialEq)]
pub struct Speed {
    /// Wanted, revolutions a minute, as computed.
    pub wanted: f64,
    /// The lathe's gear: the nearest that is not above; its slowest when all are. None off the lathe or without a shop file.
    pub gear: Option<u32>,
    /// Diameter that runs at the surface speed: the largest one cut, or the cutter's on the mill.
    pub diameter: super::Figure,
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
    pub fn surface_in(&self, unit: crate::unit::Unit) -> f64 {
        match unit {
            crate::unit::Unit::Inch => self.surface_speed / 0.3048,
            crate::unit::Unit::Millimetre => self.surface_speed,
        }
    }
}
