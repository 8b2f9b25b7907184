//! A second center hole, for an eccentric between centers: how far below the top of the work in its V-blocks it is scribed.

use super::given::Given;
use super::{CenterCut, Figure};
use crate::check::shape::nominal_at;
use crate::handbook::eccentric;
use crate::model::plan::Operation;
use crate::model::{End, Kind};
use crate::unit::Length;

/// How a second center hole is laid out: the part in V-blocks on the surface plate, the height gauge on the top of a finished section.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondLayout {
    /// How far it lies off the first.
    pub throw: Figure,
    /// The section beside this end whose top the height gauge touches.
    pub on: usize,
    /// Its diameter, as drawn.
    pub on_diameter: Figure,
    /// The part's axis so far below the top: half of the diameter.
    pub axis_below: Figure,
    /// The second line so far below the top.
    pub line_below: Figure,
    /// Where around the part it lies: degrees counter-clockwise seen from the datum end; none where nothing is clocked.
    pub clock_deg: Option<f64>,
    /// Metal between the two mouths.
    pub between: Figure,
    /// Metal between the mouth and the edge of the face.
    pub outside: Figure,
}

/// The figures of a second center hole.
pub(super) fn cut(given: &Given, op: &Operation) -> Option<CenterCut> {
    let (throw, end) = (op.throw?, op.end?);
    let found = crate::plan::second_center(given.part, given.shop, end, throw).ok()?;
    let round = |f: &&crate::model::Feature| matches!(f.kind, Kind::Turn { .. });
    let on = match end {
        End::Datum => given.part.sections().find(round),
        End::Far => given.part.sections().rev().find(round),
    }?;
    let diameter = nominal_at(on, end);
    let shown = |l: Length| Figure::usual(l, given.unit);
    let hole = found.hole;
    Some(CenterCut {
        size: hole.designation.clone(),
        drill: shown(hole.drill_diameter),
        mouth: shown(hole.mouth_diameter),
        mouth_on_scale: super::job::mouth_on_scale(given, shown(hole.mouth_diameter)),
        depth: shown(hole.depth),
        usual_for: None,
        odd_legs: None,
        second: Some(SecondLayout {
            throw: shown(throw),
            on: on.id,
            on_diameter: shown(diameter),
            axis_below: shown(eccentric::below_top(Length::ZERO, diameter)),
            line_below: shown(eccentric::below_top(throw, diameter)),
            clock_deg: op.feature.and_then(|f| given.feature(f)?.angle_mdeg).map(|a| a as f64 / 1000.0),
            between: shown(found.between),
            outside: shown(found.outside),
        }),
    })
}
