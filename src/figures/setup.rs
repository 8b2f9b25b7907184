//! The figures of a mounting.

use super::dial::Zeros;
use super::flip::correction;
use super::given::Given;
use super::{Correction, Figure, OperationFigures, operation, stops};
use crate::model::plan::{Setup, Verb, Zero};

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
    /// How far it stands behind the jaws, toward the spindle.
    pub behind_jaws: Option<Figure>,
    /// By how much roughed faces stand proud, where some do.
    pub proud: Option<Figure>,
    /// Label of the mark that says how far jaws or dog may reach.
    pub grip_mark: Option<String>,
    /// How it is thrown over for an eccentric, where it is.
    pub thrown: Option<super::Thrown>,
    /// One for each operation, in order.
    pub operations: Vec<OperationFigures>,
}

/// Works out one mounting. The mark of its grip is added when the marks are known.
pub(super) fn mounting(given: &Given, setup: &Setup) -> SetupFigures {
    let mut zeros = Zeros::default();
    let mut operations: Vec<OperationFigures> =
        setup.operations.iter().map(|op| operation::operation(given, setup, op, &mut zeros)).collect();
    stops::add(given, setup, &mut operations);
    let shown = |l| Figure::usual(l, given.unit);
    let proud = setup.operations.iter().filter(|o| o.verb == Verb::Rough).find_map(|o| Some((o.face? - o.to?).abs()));
    SetupFigures {
        number: setup.number,
        zero: match setup.zero {
            Zero::DatumFace => CarriageZero::DatumFace,
            Zero::FarFace => CarriageZero::FarFace,
            Zero::FacedToOverall => CarriageZero::FacedToOverall,
            Zero::None => CarriageZero::OffLathe,
        },
        correction: correction(given, setup),
        stick_out: setup.stick_out.map(shown),
        behind_jaws: super::remains::behind_the_jaws(given, setup),
        proud: proud.map(shown),
        grip_mark: None,
        thrown: super::thrown::thrown(given, setup),
        operations,
    }
}
