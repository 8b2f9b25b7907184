//! The figures of a mounting.

use super::dial::Zeros;
use super::flip::correction;
use super::given::Given;
use super::{Correction, CountsFrom, Figure, OperationFigures, Position, operation, positions, stops};
use crate::handbook::v_block;
use crate::model::plan::{Operation, Setup, Verb, Zero};
use crate::unit::Length;

/// How the carriage's zero is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CarriageZero {
    /// 0 on the datum face.
    DatumFace,
    /// 0 on the far face, corrected by the measured overall.
    FarFace,
    /// 0 on the far face when it is faced to length.
    FacedToOverall,
    /// 0 on the sawn end of the bar, before anything is faced.
    SawnEnd,
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
    /// What goes under the V-block of the smaller of two rounds that it lies on.
    pub packing: Option<Figure>,
    /// How it is thrown over for an eccentric, where it is.
    pub thrown: Option<super::Thrown>,
    /// Letter of what the indicator is put on where finished work is bored in four jaws.
    pub indicated: Option<String>,
    /// The largest diameter that goes into the spindle behind the jaws, where it is more than what they hold.
    pub in_spindle: Option<Figure>,
    /// One for each operation, in order.
    pub operations: Vec<OperationFigures>,
}

/// Works out one mounting. The mark of its grip is added when the marks are known.
pub(super) fn mounting(given: &Given, setup: &Setup) -> SetupFigures {
    let mut zeros = Zeros::default();
    let mut operations: Vec<OperationFigures> =
        setup.operations.iter().map(|op| operation::operation(given, setup, op, &mut zeros)).collect();
    stops::add(given, setup, &mut operations);
    let corrected = given.chain.measured_overall.is_none() && given.chain.needs_correction(given.part, setup);
    for (op, figures) in setup.operations.iter().zip(&mut operations) {
        positions::count_from(given, setup, (op, corrected), &mut figures.positions);
    }
    let cut_by_face = setup.operations.iter().zip(&operations).any(|(op, f)| is_cut_by_face(op, f));
    let shown = |l| Figure::usual(l, given.unit);
    let proud = setup.operations.iter().filter(|o| o.verb == Verb::Rough).find_map(|o| Some((o.face? - o.to?).abs()));
    SetupFigures {
        number: setup.number,
        zero: match setup.zero {
            Zero::DatumFace => CarriageZero::DatumFace,
            Zero::FarFace => CarriageZero::FarFace,
            Zero::FacedToOverall => CarriageZero::FacedToOverall,
            Zero::SawnEnd => CarriageZero::SawnEnd,
            Zero::None => CarriageZero::OffLathe,
        },
        correction: correction(given, setup, cut_by_face),
        stick_out: setup.stick_out.map(shown),
        behind_jaws: super::remains::behind_the_jaws(given, setup),
        proud: proud.map(shown),
        grip_mark: None,
        packing: packing(setup).map(shown),
        thrown: super::thrown::thrown(given, setup),
        indicated: super::indicated::on(given, setup),
        in_spindle: super::indicated::in_spindle(setup).map(shown),
        operations,
    }
}

/// On the mill, in two V-blocks of one size under two diameters.
fn packing(setup: &Setup) -> Option<Length> {
    let (one, other) = setup.grip.as_ref().zip(setup.also.as_ref())?;
    // A hundredth or two is paper and copper (common practice, no source).
    let apart = one.letter != other.letter && (one.diameter - other.diameter).abs() > Length::micrometres(50);
    apart.then(|| v_block::packing(one.diameter, other.diameter))
}

/// Whether the carriage is taken to a length from the far face itself: not where it only touches that face, or the tailstock counts.
fn is_cut_by_face(op: &Operation, figures: &OperationFigures) -> bool {
    use Verb as V;
    let along = matches!(op.verb, V::Rough | V::Finish | V::Turn | V::Groove | V::Taper | V::Knurl | V::Bore);
    let by_face =
        |p: &Position| p.zero == Some(CountsFrom::FarFace) && p.carriage.is_some_and(|c| c.value != Length::ZERO);
    along && figures.positions.iter().any(by_face)
}
