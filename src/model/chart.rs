//! A tolerance chart: cuts of faces along the axis, each measured from another face, and what the drawing asks.

use super::{End, Text};
use crate::finding::Place;
use crate::unit::{Length, Limits, Unit};

/// A chart, worked by hand or made of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// `part:` its name.
    pub name: Text,
    /// `units:`.
    pub units: Unit,
    /// Faces in order from the datum end.
    pub faces: Vec<Face>,
    /// Cuts in the order of the file; they are worked in the order of their operations.
    pub cuts: Vec<Cut>,
    /// What the drawing asks between finished faces.
    pub dims: Vec<Wanted>,
    /// First 8 hexadecimal digits of the SHA-256 of the text, in two groups of four; empty for a chart made of a plan.
    pub hash: String,
}

/// A face of the part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Face {
    /// Its name or letter.
    pub name: String,
    /// The end it looks to: cutting a face that looks to the datum end moves it away from that end.
    pub looks: End,
    /// `stock least:` what every cut of it must at least take off.
    pub stock_least: Option<Length>,
    /// Where it is named.
    pub place: Option<Place>,
}

/// What a cut is measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeasuredBy {
    /// The distance from this face, as that is when the cut is taken.
    From(usize),
    /// What comes off the face itself.
    Stock,
}

/// One cut of one face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cut {
    /// Number of the operation.
    pub op: u32,
    /// Face that is cut.
    pub face: usize,
    /// How it is measured.
    pub by: MeasuredBy,
    /// Mean working dimension (a distance, or the stock), where it is given.
    pub mean: Option<Length>,
    /// Its tolerance ±, where it is given.
    pub tolerance: Option<Length>,
    /// What can be held ±; the tolerance is set by it where none is given.
    pub can_hold: Option<Length>,
    /// Least stock of this cut alone.
    pub least: Option<Length>,
    /// Where it is written.
    pub place: Option<Place>,
}

/// A distance that the finished part must keep.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// From this face.
    pub from: usize,
    /// To this face.
    pub to: usize,
    /// Nominal, a distance.
    pub nominal: Length,
    /// Limits of the distance; none for a reference size.
    pub limits: Option<Limits>,
    /// Where it is written.
    pub place: Option<Place>,
}

impl Wanted {
    /// What the means aim at: the middle of the limits, or the nominal.
    pub fn aim(&self) -> Length {
        self.limits.map_or(self.nominal, Limits::middle)
    }
}

impl Chart {
    /// The least that a cut must take off, by itself or by its face.
    pub fn least(&self, cut: &Cut) -> Option<Length> {
        cut.least.or(self.faces[cut.face].stock_least)
    }

    /// `op 30, face B`.
    pub fn called(&self, cut: usize) -> String {
        let c = &self.cuts[cut];
        format!("{} {}", c.op, self.faces[c.face].name)
    }
}
