//! What is clocked: how far the work is turned from what was cut before it, and what the dividing head's crank does for that.

use super::given::Given;
use crate::handbook::indexing;
use crate::model::Kind;
use crate::model::plan::{Operation, Setup};
use crate::tell;

/// From one clocked cut to the next in the same mounting.
#[derive(Debug, Clone, PartialEq)]
pub struct Clocked {
    /// Letter of the feature cut before.
    pub from: String,
    /// The work is turned on by this, degrees, clockwise seen from the datum end: what lies counter-clockwise of the cut before then comes up under
    /// the cutter. Always the same way round.
    pub turn_deg: f64,
    /// What the crank does; none without a dividing head in the shop file, or where no circle of it comes to this angle.
    pub crank: Option<indexing::Indexing>,
    /// In words.
    pub says: String,
}

/// A whole turn, thousandths of a degree.
const TURN: i64 = 360_000;

/// Where the head stands when a feature is cut: at its own angle, of several flats at that of the last. None where that is no whole thousandth.
fn left_at(given: &Given, feature: usize) -> Option<i64> {
    let feature = given.feature(feature)?;
    let own = feature.angle_mdeg?;
    let count = match &feature.kind {
        Kind::Flats { count, .. } => i64::from(*count).max(1),
        _ => 1,
    };
    (TURN % count == 0).then(|| own + TURN / count * (count - 1))
}

/// How an operation's work is turned on from the clocked cut before it in this mounting; none for the first, and where both lie in one line.
pub(super) fn clocked(given: &Given, setup: &Setup, op: &Operation) -> Option<Clocked> {
    let own = op.feature.filter(|_| !op.inside)?;
    let to = given.feature(own)?.angle_mdeg?;
    let at = setup.operations.iter().position(|o| o.id == op.id)?;
    let mut before = setup.operations[..at].iter().rev().filter(|o| !o.inside).filter_map(|o| o.feature);
    let from = before.find(|f| given.feature(*f).is_some_and(|f| f.angle_mdeg.is_some()))?;
    let mdeg = (to - left_at(given, from)?).rem_euclid(TURN);
    if from == own || mdeg == 0 {
        return None;
    }
    let head = given.shop.and_then(|s| s.dividing_head.as_ref());
    let crank = head.and_then(|h| indexing::angle(h.ratio, &h.circles, u32::try_from(mdeg).ok()?));
    let turn_deg = mdeg as f64 / 1000.0;
    let letter = given.feature(from).map(|f| f.letter.clone()).unwrap_or_default();
    let by = match (head, crank) {
        (None, _) => String::new(),
        (Some(_), Some(indexing::Indexing { turns, spaces: None })) => {
            tell!(": {turns} turns of the crank", ": {turns} Umdrehungen der Kurbel")
        }
        (Some(_), Some(indexing::Indexing { turns, spaces: Some((spaces, circle)) })) => tell!(
            ": {turns} turns of the crank and {spaces} spaces on the circle of {circle} holes",
            ": {turns} Umdrehungen der Kurbel und {spaces} Teilungen auf dem {circle}er Lochkreis"
        ),
        (Some(h), None) => tell!(
            ": {:.3} turns of the crank, and no circle of the shop file comes to that",
            ": {:.3} Umdrehungen der Kurbel, und kein Lochkreis der Werkstattdatei ergibt das",
            f64::from(h.ratio) * turn_deg / 360.0
        ),
    };
    let several = matches!(given.feature(from).map(|f| &f.kind), Some(Kind::Flats { count: 2.., .. }));
    let what = if several { tell!("the last of {letter}", "der letzten von {letter}") } else { letter.clone() };
    let says = tell!(
        "turn the work on from {what} by {turn_deg}°, clockwise seen from the datum end{by}; never back",
        "Werkstück von {what} um {turn_deg}° weiterdrehen, im Uhrzeigersinn vom Bezugsende gesehen{by}; nie zurück"
    );
    Some(Clocked { from: letter, turn_deg, crank, says })
}
