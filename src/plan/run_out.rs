//! What a thread runs out into, and so how long there is to open the half-nuts.

use crate::chain::{Hollow, Piece};
use crate::check::Facts;
use crate::handbook::thread_dial::{self, Engagement, Lead, ThreadDial};
use crate::model::feature::{Hand, Thread};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Kind, Shop};
use crate::unit::{Length, Station};

use super::holding::usual_center;

/// What a thread runs out into, for the time it gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Relief {
    /// How far the tool may go before it meets something.
    pub width: Length,
    /// Of the thread, in one turn.
    pub lead: Length,
    /// The half-nuts stay closed: the tool is drawn out and the spindle stopped.
    pub reverses: bool,
}

/// Seconds wished in the relief. No text on screw cutting prints any; those on reaction do: 1.5 s from seeing to the hand's (or foot's) work being done (Packman,
/// CEEJ article 0023; R. Limpert as ARCCA quotes him), .7 s where it is known beforehand what to do (Seluga). The check `thread-runout-time` asks 1 s at least.
const SECONDS_WISHED: f64 = 1.5;
/// The same where the half-nuts stay closed: two acts, one hand on the cross slide and one on the switch, and the chuck runs on (common practice, no source).
pub const SECONDS_TO_REVERSE: f64 = 3.0;

impl Relief {
    /// Turns a minute that leave the time wished; none where it has no width.
    pub(super) fn rpm(&self) -> Option<f64> {
        let turns = self.width.mm() / self.lead.mm();
        let wished = if self.reverses { SECONDS_TO_REVERSE } else { SECONDS_WISHED };
        (turns.is_finite() && turns > 0.0).then(|| turns * 60.0 / wished)
    }
}

/// The lead that a lathe's screw gives in one turn; none where the shop file does not tell of it.
pub fn leadscrew(shop: &Shop) -> Option<Lead> {
    let inch =
        shop.leadscrew_tpi.filter(|(over, _)| *over > 0).map(|(over, under)| Lead::threads_per_inch(over, under, 1));
    inch.or_else(|| shop.leadscrew_pitch.map(Lead::of))
}

/// Where the half-nuts may be closed for a lead, by the lathe's thread dial; without one, whether they may be closed anywhere. None
/// where the shop file does not tell of a leadscrew.
pub fn engagement(shop: &Shop, lead: Lead) -> Option<Engagement> {
    let screw = leadscrew(shop)?;
    let asked = |teeth, marks| thread_dial::engage(ThreadDial { leadscrew: screw.length(), teeth, marks }, screw, lead);
    match &shop.thread_dial {
        Some(own) => asked(own.teeth, own.marks),
        None => asked(1, 1).map(|e| Engagement { never_open: !e.anywhere, ..e }),
    }
}

/// The exact lead of a thread: of an inch thread from its threads to the inch.
pub fn exact_lead(tpi: Option<(i64, i64)>, starts: u8, lead: Length) -> Lead {
    match tpi {
        Some((over, under)) if over > 0 => Lead::threads_per_inch(over, under, u32::from(starts)),
        _ => Lead::of(lead),
    }
}

fn reverses(facts: &Facts<'_>, lead: Lead) -> bool {
    facts.shop.and_then(|s| engagement(s, lead)).is_some_and(|e| e.never_open)
}

/// Whether the tool of a thread comes back under power, the spindle reversed, because the half-nuts stay closed.
pub fn comes_back_under_power(facts: &Facts<'_>, op: &Operation) -> bool {
    let Some(feature) = op.feature.and_then(|f| facts.part.features.get(f)) else { return false };
    let lead = match (&feature.kind, feature.tapped()) {
        (Kind::Thread { thread, .. }, _) => exact_lead(thread.tpi, thread.starts, thread.lead),
        (_, Some(thread)) => exact_lead(thread.tpi, thread.starts, thread.lead),
        _ => return false,
    };
    reverses(facts, lead)
}

/// What limits the speed of a thread: what it runs out into.
pub fn of_thread(facts: &Facts<'_>, setup: &Setup, op: &Operation) -> Option<Relief> {
    match &facts.part.features.get(op.feature?)?.kind {
        Kind::Thread { thread, .. } if !op.inside => outside(facts, setup, op, thread),
        Kind::Inside(_) => inside(facts, op),
        _ => None,
    }
}

/// A left-hand thread begins in its relief and runs off the end: the center there limits it. One without a relief is cut toward its shoulder.
fn outside(facts: &Facts<'_>, setup: &Setup, op: &Operation, thread: &Thread) -> Option<Relief> {
    let width = match (thread.hand, relief(facts, setup, op, thread)?) {
        (Hand::Left, (_, Some(_))) => before_the_center(facts, setup, op, thread)?.time_over,
        (_, (width, _)) => width,
    };
    Some(Relief {
        width,
        lead: thread.lead,
        reverses: reverses(facts, exact_lead(thread.tpi, thread.starts, thread.lead)),
    })
}

/// The relief it runs out into. A left-hand thread begins there.
fn inside(facts: &Facts<'_>, op: &Operation) -> Option<Relief> {
    let thread = facts.part.features.get(op.feature?)?.tapped()?;
    let width = behind(facts, op)?.long();
    let reverses = reverses(facts, exact_lead(thread.tpi, thread.starts, thread.lead));
    (thread.hand == Hand::Right).then_some(Relief { width, lead: thread.lead, reverses })
}

/// The relief behind an internal thread.
pub fn behind<'a>(facts: &Facts<'a>, op: &Operation) -> Option<&'a Hollow> {
    let hollows = &facts.profile.hollows;
    let own = hollows.iter().find(|h| Some(h.feature) == op.feature)?;
    hollows.iter().find(|h| h.recess && h.end == own.end && h.outer() == own.inner() && h.smallest() >= own.outermost)
}

/// The section beside a section, toward an end of the part.
pub fn beside<'a>(facts: &Facts<'a>, piece: &Piece, toward: End) -> Option<&'a Piece> {
    let pieces = &facts.profile.pieces;
    let i = pieces.iter().position(|p| p.feature == piece.feature)?;
    match toward {
        End::Datum => i.checked_sub(1).and_then(|i| pieces.get(i)),
        End::Far => pieces.get(i + 1),
    }
}

/// The relief or run-out at the headstock side of a thread: what it is, and the section that is one.
pub fn relief(facts: &Facts<'_>, setup: &Setup, op: &Operation, thread: &Thread) -> Option<(Length, Option<usize>)> {
    let piece = facts.profile.piece(op.feature?)?;
    let toward = setup.at_tailstock()?.other();
    let beside = beside(facts, piece, toward);
    if let Some(neck) = beside.filter(|n| n.largest() < thread.pitch_diameter.min) {
        return Some((neck.long(), Some(neck.feature)));
    }
    let run_out = thread.run_out.as_ref().map(|s| s.nominal);
    let left = thread.full.as_ref().map(|full| piece.long() - full.nominal);
    run_out.or(left).filter(|l| l.is_positive()).map(|l| (l, None))
}

/// The room before a center that stands where a thread runs off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    /// How far past the face the tool may go.
    pub past_face: Length,
    /// From the thread's end to there.
    pub time_over: Length,
}

/// The room before a 60° center: its cone fills the hole to the mouth and meets a tool at the root (root − mouth) / (2 tan 30°) past the face.
/// None without a center there, or for a thread that does not begin in a relief and run off.
pub fn before_the_center(facts: &Facts<'_>, setup: &Setup, op: &Operation, thread: &Thread) -> Option<Room> {
    let centered = matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters);
    let end = setup.at_tailstock().filter(|_| centered && thread.hand == Hand::Left)?;
    relief(facts, setup, op, thread)?.1?;
    let mouth = mouth(facts, end)?;
    // 1 / (2 tan 30°) = .866025.
    let past_face = (thread.root - mouth).times_ratio(866_025, 1_000_000).max(Length::ZERO);
    let overall = facts.chain.overall(facts.part).unwrap_or_default();
    let depth = |at: Station| if end == End::Datum { at - Station::DATUM } else { at.from_far_end(overall) };
    let to_face = depth(op.from?).min(depth(op.to?)).max(Length::ZERO);
    Some(Room { past_face, time_over: to_face + past_face })
}

/// Mouth of the center hole at an end: the drawing's, or the usual where it shows none.
fn mouth(facts: &Facts<'_>, end: End) -> Option<Length> {
    let drawn = facts.part.features.iter().find_map(|f| match &f.kind {
        Kind::CenterHole { size: Some(size), ends } if ends.at(end) => Some(size.mouth),
        _ => None,
    });
    drawn.or_else(|| usual_center(facts.part, facts.shop, end).map(|(_, hole)| hole.mouth_diameter))
}
