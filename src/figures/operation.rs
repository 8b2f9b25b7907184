//! The figures of one operation.

use super::{CrossDial, Figure, KeyseatCut, Passes, Position, SizeLimits, Speed, ThreadCut};

/// A center hole.
#[derive(Debug, Clone, PartialEq)]
pub struct CenterCut {
    /// As written: `A 1/8`.
    pub size: String,
    /// Diameter of the pilot.
    pub drill: Figure,
    /// Mouth of the 60° cone: drill until it measures this.
    pub mouth: Figure,
    /// Depth from the face.
    pub depth: Figure,
}

/// A chamfer.
#[derive(Debug, Clone, PartialEq)]
pub struct ChamferCut {
    /// Leg along the axis.
    pub leg: Figure,
    /// Angle to the axis, degrees.
    pub angle_deg: f64,
    /// `.045 × 45°`.
    pub says: String,
}

/// A taper.
#[derive(Debug, Clone, PartialEq)]
pub struct TaperCut {
    /// As written: `1:10`.
    pub rate: String,
    /// Compound from the axis, degrees.
    pub half_angle_deg: f64,
    /// In degrees and minutes.
    pub half_angle: String,
    /// Set-over of the tailstock over the whole length between centers.
    pub setover: Figure,
    /// On the diameter, a foot of length (inches) or 100 mm.
    pub per_length: Figure,
    /// What an indicator on the compound moves over one inch or 25 mm of travel along the axis.
    pub drop: Figure,
    /// Diameters to check, each with its place.
    pub checks: Vec<(Position, Figure)>,
}

/// What some operations need besides.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Job {
    /// Nothing.
    #[default]
    Plain,
    /// A thread.
    Thread(Box<ThreadCut>),
    /// A keyseat.
    Keyseat(Box<KeyseatCut>),
    /// A taper.
    Taper(Box<TaperCut>),
    /// A chamfer.
    Chamfer(ChamferCut),
    /// A center hole.
    Center(CenterCut),
}

/// All numbers of one operation.
#[derive(Debug, Clone, PartialEq)]
pub struct OperationFigures {
    /// Number in the plan.
    pub number: u32,
    /// Diameter before.
    pub from: Option<Figure>,
    /// Size to aim at, rounded to the digits shown.
    pub aim: Option<Figure>,
    /// Limits of that size.
    pub limits: Option<SizeLimits>,
    /// Spindle speed; none at the bench.
    pub speed: Option<Speed>,
    /// Feed a revolution; none where the hand feeds.
    pub feed: Option<Figure>,
    /// Cuts.
    pub passes: Option<Passes>,
    /// Cross dial; none without a shop file that says what it reads.
    pub cross_dial: Option<CrossDial>,
    /// Places along the part.
    pub positions: Vec<Position>,
    /// Width of the tool's edge (grooving), where the shop lists one.
    pub tool_width: Option<Figure>,
    /// What else it needs.
    pub job: Job,
    /// What to do before it: STOP, let it cool.
    pub stop_before: Option<String>,
    /// What to do after it, before going on.
    pub stop_after: Option<String>,
    /// Short remarks: polish now, corner at most, face it on the last cut.
    pub remarks: Vec<String>,
}
