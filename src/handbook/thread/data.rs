//! What the handbook tells of a thread.

use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit};

use super::{Designation, Hand, Pitch};

/// The shape of a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Form {
    /// 60°, Unified and ISO metric.
    Sixty,
    /// 29°, Acme.
    Acme,
    /// 29°, stub Acme.
    StubAcme,
    /// 30°, ISO metric trapezoidal.
    Trapezoidal,
    /// 55°, Whitworth.
    Whitworth,
    /// 60° on a taper of 1 in 16 (NPT).
    TaperSixty,
    /// 55° on a taper of 1 in 16 (R).
    TaperWhitworth,
    /// Flanks square to the axis.
    Square,
    /// 7° pressure flank and 45° clearance flank.
    Buttress,
}

impl Form {
    /// Its name in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sixty => "60°",
            Self::Acme => "Acme 29°",
            Self::StubAcme => "stub Acme 29°",
            Self::Trapezoidal => "trapezoidal 30°",
            Self::Whitworth => "Whitworth 55°",
            Self::TaperSixty => "60°, taper 1:16",
            Self::TaperWhitworth => "Whitworth 55°, taper 1:16",
            Self::Square => "square",
            Self::Buttress => "buttress 7°/45°",
        }
    }

    /// Angle between a flank and the normal to the axis, in degrees; `None` where the two flanks differ.
    pub const fn half_angle(self) -> Option<f64> {
        match self {
            Self::Sixty | Self::TaperSixty => Some(30.0),
            Self::Acme | Self::StubAcme => Some(14.5),
            Self::Trapezoidal => Some(15.0),
            Self::Whitworth | Self::TaperWhitworth => Some(27.5),
            Self::Square => Some(0.0),
            Self::Buttress => None,
        }
    }
}

/// The external thread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct External {
    /// Tolerance class.
    pub class: String,
    /// Distance of the largest pitch diameter below the basic one.
    pub allowance: Length,
    /// Major diameter.
    pub major: Limits,
    /// Pitch diameter.
    pub pitch_diameter: Limits,
    /// Minor diameter. The largest is the standard table's own (UNR for Unified, flat-rooted d1 for ISO metric, d3 for
    /// trapezoidal); the smallest is d3 min for ISO metric and trapezoidal, the table's for Acme, and what a tool with a flat
    /// of P/8 leaves for the others.
    pub minor: Limits,
}

/// The internal thread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Internal {
    /// Tolerance class.
    pub class: String,
    /// Minor diameter.
    pub minor: Limits,
    /// Pitch diameter.
    pub pitch_diameter: Limits,
    /// Least major diameter.
    pub major_min: Length,
}

/// One way to feed the tool to full depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feed {
    /// Angle the compound is set to from the cross slide, degrees; 0 is straight in.
    pub angle: f64,
    /// Depth a side.
    pub depth: Length,
    /// Travel of the compound, or of the cross slide when straight in.
    pub travel: Length,
    /// Which depth it is, in words: `0.6134 P`.
    pub height: &'static str,
}

/// Measuring wires.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wire {
    /// Touches the flanks at the pitch diameter; as printed, to .0001 in or .001 mm.
    pub best: Length,
    /// Smallest that still stands above the crests.
    pub smallest: Length,
    /// Largest that still touches the flanks.
    pub largest: Length,
}

/// A reading over three wires.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OverWires {
    /// Wire diameter.
    pub wire: Length,
    /// At the basic pitch diameter.
    pub basic: Length,
    /// At the largest external pitch diameter.
    pub max: Length,
    /// At the smallest external pitch diameter.
    pub min: Length,
}

/// A drill for tapping.
#[derive(Debug, Clone, PartialEq)]
pub struct TapDrill {
    /// As stamped: `42`, `I`, `25/64`, `8.5 mm`.
    pub name: String,
    /// Diameter.
    pub diameter: Length,
    /// Thread height the drilled hole leaves, in percent of .6495 P a side (60°) or .6403 P (Whitworth); `None` for taper threads.
    pub percent: Option<f64>,
}

/// The relief a thread runs out into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Relief {
    /// Least width.
    pub width_min: Length,
    /// Greatest width.
    pub width_max: Length,
    /// Its diameter.
    pub diameter: Length,
    /// Corner radius, where the standard gives one.
    pub radius: Option<Length>,
}

/// What a taper thread has besides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Taper {
    /// Taper on the diameter: 1 in so many.
    pub one_in: u32,
    /// Distance of the gauge plane from the small end of the external thread: L1, or the gauge length.
    pub gauge_length: Length,
    /// By how much the gauge plane may lie nearer or farther.
    pub gauge_tolerance: Length,
    /// Length of useful external thread: L2.
    pub useful_length: Length,
    /// Pitch diameter at the small end: E0.
    pub small_end: Length,
    /// Pitch diameter at the gauge plane: E1.
    pub gauge_plane: Length,
}

/// Everything about one thread. All lengths are exact as published or rounded as the standard rounds.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreadData {
    /// The thread asked for.
    pub designation: Designation,
    /// Unit its standard gives sizes in.
    pub unit: Unit,
    /// Shape.
    pub form: Form,
    /// Whether diameter and pitch are a standard pair of the series.
    pub standard: bool,
    /// Basic major diameter (for pipe threads not the size's name).
    pub nominal: Length,
    /// Basic pitch diameter, to the picometre.
    pub basic_pitch_diameter: Length,
    /// Pitch.
    pub pitch: Pitch,
    /// Lead.
    pub lead: Pitch,
    /// Starts.
    pub starts: u8,
    /// Hand.
    pub hand: Hand,
    /// External thread; `None` where the standard has none of this name (Rc, Rp).
    pub external: Option<External>,
    /// Internal thread; `None` where the standard gives no limits for it.
    pub internal: Option<Internal>,
    /// Depth a side: .6134 P for 60° threads, total height for Acme and trapezoidal.
    pub depth: Length,
    /// Ways to feed the tool in.
    pub compound: Vec<Feed>,
    /// Wires; `None` where three wires are not used (square, buttress, taper).
    pub wire: Option<Wire>,
    /// Readings over the best wire.
    pub over_wires: Option<OverWires>,
    /// Lead angle at the basic pitch diameter, degrees.
    pub lead_angle: f64,
    /// Limits for the turned blank.
    pub blank: Option<Limits>,
    /// Drill for tapping the internal thread.
    pub tap_drill: Option<TapDrill>,
    /// Relief at the end of the external thread.
    pub relief: Option<Relief>,
    /// Least start chamfer, measured along the axis at 45°: the thread's depth.
    pub start_chamfer: Length,
    /// Flat of the tool, which is the flat it leaves at the root; for rounded roots the radius.
    pub tool_flat: Length,
    /// Taper threads only.
    pub taper: Option<Taper>,
    /// Where the figures come from.
    pub source: Vec<Source>,
    /// What must be said with them: assumed class, exceptions, practice.
    pub notes: Vec<String>,
}
