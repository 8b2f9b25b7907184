//! What is drawn: stretches of a turned body and what lies on them, in millimetres of the part.

use crate::model::feature::KnurlPattern;

/// State of a stretch's surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// Still the bar.
    Bar,
    /// Turned, finished or kept.
    Turned,
    /// Threaded, with the depth of the thread a side.
    Thread(f64),
    /// Knurled.
    Knurled(KnurlPattern),
}

/// A stretch of the body between two faces.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// From here, measured from the datum end; below zero on a bar that is longer than the part.
    pub from: f64,
    /// To here.
    pub to: f64,
    /// Diameter at `from`.
    pub diameter: f64,
    /// Diameter at `to`; differs on a taper.
    pub diameter_to: f64,
    /// How far its own axis lies off the body's, upward on the picture: an eccentric.
    pub off: f64,
    /// Its surface.
    pub surface: Surface,
    /// Corners of a hexagon or square bar whose flats are seen here; 0 where it is round.
    pub corners: u8,
    /// Feature whose shape it is.
    pub feature: Option<usize>,
    /// Its letter, or empty.
    pub letter: String,
    /// Chamfer at `from`: along the axis, and a side.
    pub bevel_from: (f64, f64),
    /// Chamfer at `to`.
    pub bevel_to: (f64, f64),
    /// Height of a dome that closes the body at `from`; 0 for a plain face.
    pub dome_from: f64,
    /// Height of a dome at `to`.
    pub dome_to: f64,
}

impl Stretch {
    /// A plain cylinder.
    pub fn cylinder(from: f64, to: f64, diameter: f64, letter: &str) -> Self {
        Self {
            from,
            to,
            diameter,
            diameter_to: diameter,
            off: 0.0,
            surface: Surface::Turned,
            corners: 0,
            feature: None,
            letter: letter.to_owned(),
            bevel_from: (0.0, 0.0),
            bevel_to: (0.0, 0.0),
            dome_from: 0.0,
            dome_to: 0.0,
        }
    }

    /// The same with a surface.
    #[must_use]
    pub fn surface(mut self, surface: Surface) -> Self {
        self.surface = surface;
        self
    }

    /// The same as the shape of a feature.
    #[must_use]
    pub fn of(mut self, feature: usize) -> Self {
        self.feature = Some(feature);
        self
    }

    /// Its middle.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.from, self.to)
    }

    /// Its larger diameter; of an eccentric what it sweeps about the body's axis.
    pub fn largest(&self) -> f64 {
        self.diameter.max(self.diameter_to) + 2.0 * self.off.abs()
    }
}

/// What lies on the body.
#[derive(Debug, Clone, PartialEq)]
pub struct OnIt {
    /// What it looks like.
    pub shape: OnShape,
    /// Feature.
    pub feature: Option<usize>,
    /// Letter, or empty.
    pub letter: String,
}

/// What something on the body looks like from the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OnShape {
    /// A keyseat, seen from above it.
    Slot {
        /// From.
        from: f64,
        /// To.
        to: f64,
        /// Width.
        width: f64,
        /// Whether its ends are round (an end mill's).
        round: bool,
    },
    /// A flat, seen from above it.
    Flat {
        /// From.
        from: f64,
        /// To.
        to: f64,
        /// Width.
        width: f64,
    },
    /// A bore along the axis, behind the surface.
    Cavity {
        /// From.
        from: f64,
        /// To.
        to: f64,
        /// Diameter at `from`.
        diameter: f64,
        /// Diameter at `to`.
        diameter_to: f64,
        /// Height of a thread in its wall, outward; 0 for none.
        thread: f64,
        /// The drilled hole goes on so far beyond its bottom: above zero behind `to`, below zero before `from`.
        tail: f64,
        /// Length of the drill's point behind that, in the same direction; 0 for none.
        point: f64,
    },
    /// A hole across the axis.
    Hole {
        /// Centre.
        at: f64,
        /// Diameter.
        diameter: f64,
    },
}

impl OnShape {
    /// Its middle along the axis.
    pub fn middle(&self) -> f64 {
        match self {
            Self::Slot { from, to, .. } | Self::Flat { from, to, .. } | Self::Cavity { from, to, .. } => {
                f64::midpoint(*from, *to)
            }
            Self::Hole { at, .. } => *at,
        }
    }
}

/// A whole body.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// From the datum end outward, each beginning where the one before ends.
    pub stretches: Vec<Stretch>,
    /// What lies on it.
    pub on: Vec<OnIt>,
}

impl Outline {
    /// Where it begins.
    pub fn start(&self) -> f64 {
        self.stretches.first().map_or(0.0, |s| s.from)
    }

    /// Where it ends.
    pub fn end(&self) -> f64 {
        self.stretches.last().map_or(0.0, |s| s.to)
    }

    /// Its largest diameter.
    pub fn largest(&self) -> f64 {
        self.stretches.iter().map(Stretch::largest).fold(0.0, f64::max)
    }

    /// Diameter at a place, the larger of two that meet there.
    pub fn diameter_at(&self, at: f64) -> f64 {
        let there = self.stretches.iter().filter(|s| s.from <= at && at <= s.to);
        there
            .map(|s| {
                let part = if s.to > s.from { (at - s.from) / (s.to - s.from) } else { 0.0 };
                s.diameter + (s.diameter_to - s.diameter) * part + 2.0 * s.off.abs()
            })
            .fold(0.0, f64::max)
    }
}
