//! A hole that runs through: drilled once, right through, before anything wider is opened from the other end; and what each
//! tool inside finds before it.

use super::layout::Layout;
use crate::chain::Hollow;
use crate::model::plan::{Operation, Verb};
use crate::model::{End, Part};
use crate::unit::Length;

/// The hole from the other end that runs through before anything is cut inside this one: larger cuts only wait for it here.
/// Where the person wishes this end first, what is cut here is solid, and the hole comes out into it later.
pub(in crate::plan) fn led_from_other<'a>(part: &Part, layout: &'a Layout, end: End) -> Option<&'a Hollow> {
    if layout.parted.or(part.wishes.first_end) == Some(end) {
        return None;
    }
    let through = layout.hollows.iter().find(|h| h.through && h.end != end)?;
    let mut here = layout.hollows.iter().filter(|h| h.end == end && !h.recess).peekable();
    (here.peek().is_some() && here.all(|h| h.smallest() >= through.outermost)).then_some(through)
}

/// A hole cut to the other face, through what will be opened wider from there.
pub(super) fn right_through(layout: &Layout, hollow: &Hollow) -> Hollow {
    match hollow.end {
        End::Datum => Hollow { to: layout.face(End::Far), ..*hollow },
        End::Far => Hollow { from: layout.face(End::Datum), ..*hollow },
    }
}

/// How wide a hole stands when the finish cuts of its end begin: drilled and rough bored.
pub(super) fn opened_to(made: &[Operation]) -> Option<Length> {
    let before_finish = |o: &&Operation| o.verb == Verb::Drill || o.verb == Verb::Bore && !o.close;
    made.iter().filter(before_finish).filter_map(|o| o.to_diameter).max()
}

/// A drill follows the drills before it: nothing at this end is to size yet.
pub(super) fn follow(operations: &mut [Operation], led: Length) {
    let mut there = led;
    for drill in operations.iter_mut().filter(|o| o.verb == Verb::Drill) {
        drill.from_diameter = Some(there).filter(|d| d.is_positive());
        there = there.max(drill.to_diameter.unwrap_or_default());
    }
}
