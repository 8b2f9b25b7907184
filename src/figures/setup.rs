//! The figures of a mounting, and of the whole plan.

use super::{Correction, Figure, OperationFigures};

/// How the carriage's zero is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CarriageZero {
    /// 0 on the datum face.
    DatumFace,
    /// 0 on the far face, corrected by the measured overall.
    FarFace,
    /// 0 on the far face when it is faced to length.
    FacedToOverall,
    /// Measured from the datum face, off the lathe.
    OffLathe,
}

/// All numbers of one mounting.
#[derive(Debug, Clone, PartialEq)]
pub struct SetupFigures {
    /// Number in the plan.
    pub number: u32,
    /// How the carriage's zero is set.
    pub zero: CarriageZero,
    /// The correction for the measured overall, where the zero needs it.
    pub correction: Option<Correction>,
    /// How far the work stands out of the jaws.
    pub stick_out: Option<Figure>,
    /// By how much roughed faces stand proud, where some do.
    pub proud: Option<Figure>,
    /// Label of the mark that says how far jaws or dog may reach.
    pub grip_mark: Option<String>,
    /// One for each operation, in order.
    pub operations: Vec<OperationFigures>,
}
