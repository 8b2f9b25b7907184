//! Spindle speeds from surface speeds: n = 12 V / (π D) in feet a minute and inches, 1000 v / (π d) in metres a minute and millimetres.
//!
//! Physics, in floating point. The shop's shorthand 4 V / D is 4.7 % faster and is not used.

use super::Source;
use crate::unit::{Length, Unit};

/// A surface speed.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct SurfaceSpeed {
    /// Metres a minute.
    pub metres_per_minute: f64,
}

impl SurfaceSpeed {
    /// Feet a minute.
    pub fn feet(per_minute: f64) -> Self {
        Self { metres_per_minute: per_minute * 0.3048 }
    }

    /// Metres a minute.
    pub fn metres(per_minute: f64) -> Self {
        Self { metres_per_minute: per_minute }
    }

    /// In feet a minute for inches, metres a minute for millimetres.
    pub fn in_unit(self, unit: Unit) -> f64 {
        match unit {
            Unit::Inch => self.metres_per_minute / 0.3048,
            Unit::Millimetre => self.metres_per_minute,
        }
    }

    /// So many times as fast.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self::metres(self.metres_per_minute * factor)
    }
}

/// Revolutions a minute that give a surface speed at a diameter; `None` for a diameter of zero or less.
pub fn rpm(speed: SurfaceSpeed, diameter: Length) -> Option<f64> {
    diameter.is_positive().then(|| 1000.0 * speed.metres_per_minute / (std::f64::consts::PI * diameter.mm()))
}

/// Surface speed at a diameter and a speed of rotation.
pub fn surface_speed(rpm: f64, diameter: Length) -> SurfaceSpeed {
    SurfaceSpeed::metres(rpm * std::f64::consts::PI * diameter.mm() / 1000.0)
}

/// What a cut asks of the turning speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Cut {
    /// Roughing.
    Rough,
    /// Finishing, and facing.
    Finish,
    /// Grooving.
    Groove,
    /// Parting off.
    Part,
    /// Single-point threading by hand on the half-nut lever.
    Thread,
    /// Reaming.
    Ream,
    /// Drilling from the tailstock.
    Drill,
    /// Countersinking, counterboring and forming.
    Form,
    /// Knurling.
    Knurl,
}

/// The part of the turning speed a cut is run at, and where that rule was printed.
pub const fn factor(cut: Cut) -> (f64, Source) {
    match cut {
        Cut::Rough | Cut::Finish => (1.0, Source::printed("the material's own speed")),
        Cut::Groove => (
            0.25,
            Source::printed(
                "Introduction to Machining (open textbook, pressbooks), Manual Lathes: grooving at about 1/4 of turning speed",
            ),
        ),
        // US Army Air Corps, TM 1-420 Lathes (1940), page 55 of the scan: parting speeds comparable to turning speeds. US Army, TC 9-524
        // (1996), ch. 7, from memory: usually slower than turning speeds. The half between them is the trade's, printed in neither.
        Cut::Part => (
            0.5,
            Source::from_memory(
                "at most the turning speed (TM 1-420 Lathes, 1940), usually slower (TC 9-524, from memory); half of it: common practice, no source",
            ),
        ),
        Cut::Thread => {
            (0.25, Source::from_memory("common practice, no source: threading at about 1/4 of turning speed"))
        }
        Cut::Ream => (
            0.5,
            Source::printed(
                "machine shop study cards: reaming at half, countersinking and counterboring at a quarter of drilling speed",
            ),
        ),
        Cut::Drill => (0.8, Source::from_memory("common practice, no source: drilling at about 4/5 of turning speed")),
        Cut::Form => (
            0.25,
            Source::printed(
                "machine shop study cards: reaming at half, countersinking and counterboring at a quarter of drilling speed",
            ),
        ),
        Cut::Knurl => (0.5, Source::from_memory("common practice, no source: knurling at about half of turning speed")),
    }
}

/// The speed of the list that is nearest to `wanted` without going above it; the slowest when all are above.
///
/// Source: US Army OD1645, Lathe Operations, lesson 1: when the wanted speed is not to be had, take the nearest lower one.
pub fn gear(wanted: f64, speeds: &[f64]) -> Option<f64> {
    let below = speeds
        .iter()
        .copied()
        .filter(|s| *s <= wanted)
        .fold(None, |best: Option<f64>, s| Some(best.map_or(s, |b| b.max(s))));
    below.or_else(|| speeds.iter().copied().reduce(f64::min))
}
