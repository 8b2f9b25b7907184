//! What lies inside a part: bores and holes along the axis, and what is cut in them.

use super::feature::{End, Hand, PlaceRef, ThreadForm};
use super::{Size, Text};
use crate::finding::Place;
use crate::unit::{Length, Limits};

/// One thing cut inside, from one end. Those of an end stand in the list from its mouth inward and meet end to end.
#[derive(Debug, Clone)]
pub struct Inside {
    /// The end it is cut from.
    pub end: End,
    /// How far in.
    pub reach: Reach,
    /// What it is, with its own sizes.
    pub cut: InsideCut,
}

/// How far a bore goes in.
#[derive(Debug, Clone)]
pub enum Reach {
    /// `depth:` from the face of its own end.
    Deep(Size),
    /// `to:` a place, measured as all places are.
    To(PlaceRef),
    /// `end: through`: as far as what is cut from the other end, or out of it.
    Through,
    /// It has no length of its own: a chamfer at the mouth, or a groove, which says its own place.
    Own,
}

/// What is cut inside.
#[derive(Debug, Clone)]
pub enum InsideCut {
    /// A cylinder: bored, reamed, or left as drilled.
    Bore {
        /// Diameter; for a kept one the tube's own.
        diameter: Size,
        /// `bore: stock`: the tube's own bore stays.
        kept: bool,
        /// Stated as a `hole`: left as the drill leaves it, point and all, where its limits allow.
        hole: bool,
        /// `drill depth:` full diameter of the drill, where it may go deeper than the bore.
        drill_depth: Option<Size>,
    },
    /// An internal thread.
    Thread {
        /// The thread.
        thread: Box<Tapped>,
        /// `drill:` the hole before it.
        drill: Option<Size>,
        /// `drill depth:` to the drill's full diameter.
        drill_depth: Option<Size>,
        /// Stated as a `tapped hole`: a tap cuts it, whatever its size.
        tap: bool,
    },
    /// A relief at the bottom of a bore or thread.
    Relief {
        /// Its diameter.
        diameter: Size,
        /// `corner:` radius.
        corner: Option<Size>,
    },
    /// A taper.
    Taper {
        /// Diameter nearer the datum end.
        start: Size,
        /// Diameter nearer the far end.
        end: Size,
        /// Half of the included angle, degrees.
        half_angle_deg: f64,
        /// As written.
        rate: Text,
    },
    /// A groove in the wall.
    Groove {
        /// Diameter at its bottom.
        diameter: Size,
        /// One wall.
        from: PlaceRef,
        /// Width.
        wide: Size,
    },
    /// A chamfer at the mouth. One of 30 degrees to the axis is a seat for a center.
    Chamfer {
        /// Leg along the axis.
        leg: Size,
        /// Angle to the axis in thousandths of a degree.
        angle_mdeg: i64,
        /// Diameter of the mouth, where it was given by that; the leg follows from it and the hole under it.
        mouth: Option<Size>,
    },
}

impl InsideCut {
    /// The trade's word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Bore { hole: true, .. } => "hole",
            Self::Bore { .. } => "bore",
            Self::Thread { .. } => "tapped hole",
            Self::Relief { .. } => "inside relief",
            Self::Taper { .. } => "inside taper",
            Self::Groove { .. } => "inside groove",
            Self::Chamfer { .. } => "inside chamfer",
        }
    }
}

/// An internal thread with the limits its standard gives.
#[derive(Debug, Clone)]
pub struct Tapped {
    /// Designation as the standard writes it.
    pub designation: String,
    /// Where it is written.
    pub place: Place,
    /// Form.
    pub form: ThreadForm,
    /// Inch series.
    pub inch: bool,
    /// Threads per inch as a fraction, where it is an inch thread.
    pub tpi: Option<(i64, i64)>,
    /// Pitch.
    pub pitch: Length,
    /// Lead.
    pub lead: Length,
    /// Starts.
    pub starts: u8,
    /// Hand.
    pub hand: Hand,
    /// Nominal diameter.
    pub nominal: Length,
    /// Minor diameter: the hole before the thread.
    pub minor: Limits,
    /// Pitch diameter.
    pub pitch_diameter: Limits,
    /// Least major diameter.
    pub major_min: Length,
    /// A taper pipe thread; its diameters are those at the mouth.
    pub taper: Option<super::feature::PipeTaper>,
    /// Usual tap drill by the handbook: name, diameter, percent of thread.
    pub usual_drill: Option<(String, Length, Option<f64>)>,
    /// Whether the diameter and pitch stand in a series of the standard.
    pub standard: bool,
}

impl super::Feature {
    /// The internal thread of a feature: in the end, in a hole across, in a center.
    pub fn tapped(&self) -> Option<&Tapped> {
        match &self.kind {
            super::Kind::Inside(inside) => match &inside.cut {
                InsideCut::Thread { thread, .. } => Some(thread),
                _ => None,
            },
            super::Kind::CrossHole { tapped, .. } => tapped.as_deref(),
            super::Kind::CenterHole { size: Some(size), .. } => size.tapped.as_deref().map(|(thread, _)| thread),
            _ => None,
        }
    }
}
