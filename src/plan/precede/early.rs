//! A keyseat milled between the roughing and the finish of its seat (R13): the slot lets the stress of drawn bar go, and what that bends is
//! still to be finished. R12 stays the rule; this is where a wish asks for it on such bar.

use crate::handbook::material::Condition;
use crate::model::plan::{Operation, Verb};
use crate::model::{Kind, Part};
use crate::plan::derive::{Layout, bar_of};
use crate::plan::wishes::asked_before;

use super::Switches;
use super::table::{Table, covers, is_last_cut, meet, stretch};
use crate::tell;

/// Whether a keyseat is milled before its seat is finished: asked for, on cold-drawn bar, in a seat that is roughed and not polished (a strip
/// catches in a slot).
pub(in crate::plan) fn milled_early(part: &Part, layout: &Layout, operations: &[Operation], slot: &Operation) -> bool {
    let bows = bar_of(part).is_some_and(Condition::bows) && Switches::of(part).on("R13");
    let keyseat = slot
        .feature
        .and_then(|f| part.features.get(f))
        .is_some_and(|f| matches!(f.kind, Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. }));
    if !bows || !keyseat || slot.verb != Verb::Mill || layout.parted.is_some() {
        return false;
    }
    let Some(host) = stretch(slot).and_then(|(from, to)| layout.under(from, to)).filter(|s| !s.thrown) else {
        return false;
    };
    let on_it = |o: &&Operation| !o.inside && o.throw.is_none() && covers(o, host.feature) && meet(o, slot);
    let on_host = || operations.iter().filter(on_it);
    on_host().any(|o| o.verb == Verb::Rough)
        && !on_host().any(|o| matches!(o.verb, Verb::Polish | Verb::File))
        && on_host().any(|o| is_last_cut(layout, o) && asked_before(part, slot, o))
}

impl Table<'_> {
    /// Whether this slot is such a keyseat.
    pub(super) fn is_early(&self, slot: usize) -> bool {
        milled_early(self.part, self.layout, self.operations(), self.op(slot))
    }

    /// What is roughed comes before such a keyseat, what is brought to size behind it.
    pub(super) fn early(&mut self, a: usize, slot: usize, host: bool) {
        let (turned, cut) = (self.call(a), self.call(slot));
        if self.op(a).verb == Verb::Rough {
            let reason = tell!(
                "{turned} is roughed before {cut} lets the stress of the drawn bar go",
                "{turned} wird geschruppt, bevor {cut} die Spannung der gezogenen Stange löst"
            );
            self.before(if host { "R2" } else { "R13" }, a, slot, reason);
        } else if self.last(self.op(a)) {
            let reason = if host {
                tell!(
                    "{cut} is milled before {turned} is finished: what bends is still to be turned; light, slow cuts, the slot interrupts them",
                    "{cut} wird vor dem Schlichten von {turned} gefräst: was sich krümmt, wird noch gedreht; leichte, langsame Schnitte, die Nut unterbricht sie"
                )
            } else {
                tell!(
                    "{turned} is finished once {cut} has let the bar move",
                    "{turned} wird geschlichtet, wenn {cut} die Stange hat arbeiten lassen"
                )
            };
            self.before("R13", slot, a, reason);
        }
    }
}
