//! What stands over the part's ends, and the part cut from the bar in one holding.

use super::layout::{Layout, Shape};
use crate::model::plan::Operation;
use crate::model::{End, Part, Shop};
use crate::plan::holding::{Lengths, bar_for_one_holding};
use crate::unit::{Length, Unit};

impl Layout {
    /// The same part cut from a bar of which this end stands out; what is left of the bar is in the jaws.
    pub(in crate::plan) fn parted_from(&self, out: End) -> Self {
        let mut layout = self.clone();
        layout.parted = Some(out);
        layout.assign_ends();
        layout.settle_necks();
        let faces = (layout.face(End::Datum), layout.face(End::Far));
        for hollow in &mut layout.hollows {
            let straight = hollow.start == hollow.stop && !hollow.recess;
            // What runs through in one size is cut where the outside is: they run true to each other.
            if straight && hollow.through && (hollow.from, hollow.to) == faces {
                hollow.end = out;
            }
        }
        layout
    }

    /// What the bar has over at an end. The datum end is cleaned up; the rest is at the far end, where the work is held by it or
    /// it is sawn or faced away. Parted off, all of it is behind the part.
    pub(in crate::plan) fn over(&self, end: End) -> Length {
        let over = self.sawn - self.overall;
        let (first, clean) = match self.parted {
            Some(out) => (out, self.allow.face.min(over)),
            None => (End::Datum, over.half().min(self.clean_up())),
        };
        if end == first { clean } else { over - clean }
    }

    /// What is faced off an end: all that is over, or what parting leaves.
    pub(in crate::plan) fn faced(&self, end: End) -> Length {
        if self.parted == Some(end.other()) { self.allow.face } else { self.over(end) }
    }

    /// How much of the work a chuck can hold or let stand out, seen from the end that is out: more bar than is faced is held too.
    pub(in crate::plan) fn held_by(&self, out: End) -> Length {
        let behind = self.over(out.other());
        let spare = self.parted == Some(out) || behind > self.clean_up();
        if spare { self.overall + behind } else { self.overall }
    }

    /// Bar it takes for the whole part to be cut in one holding and parted off: what stands out, and what is held.
    pub(in crate::plan) fn bar_wanted(&self, out_of_jaws: Length, grip: Length) -> Length {
        self.allow.face + out_of_jaws + grip
    }

    /// At most so much is left on the datum end to clean it up: 1/8 in, 3.2 mm (common practice, no source).
    fn clean_up(&self) -> Length {
        self.pick(125_000, 3_200)
    }

    /// What facing takes off beyond what cleans an end up.
    pub(in crate::plan) fn faced_beyond_cleaning(&self, face: &Operation) -> Length {
        let off = face.from.zip(face.to).map_or(Length::ZERO, |(from, to)| (to - from).abs());
        (off - self.clean_up()).max(Length::ZERO)
    }

    fn pick(&self, micro_inches: i64, micrometres: i64) -> Length {
        match self.allow.unit {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        }
    }

    /// Cut from the bar, the largest sections are turned with everything outboard of them.
    pub(super) fn cut_from_the_bar(&mut self, largest: Length) {
        let Some(out) = self.parted else { return };
        for section in &mut self.sections {
            let top = section.aim == largest || section.shape == Shape::Kept && self.bar == largest;
            if section.end.is_none() || top {
                section.end = Some(out);
            }
        }
    }
}

/// The part cut from the bar in one holding, each end out of the chuck, where the bar is long enough and nothing is wished against it.
pub(in crate::plan) fn from_the_bar(part: &Part, layout: &Layout, shop: Option<&Shop>) -> Vec<Layout> {
    let wished = part.wishes.holding.is_some() || !part.wishes.holding_by_end.is_empty();
    // On bar with an eccentric the surface that it is thrown over on is found first.
    let thrown = layout.sections.iter().any(|s| s.thrown);
    let wanted = bar_for_one_holding(layout, &Lengths::of(layout, shop));
    // Where parting off is asked for, the other end out may leave less to turn afterwards, with a center too.
    let long_enough = part.wishes.part_off || wanted.is_some_and(|bar| bar <= layout.sawn);
    if part.stock.is_none() || wished || thrown || !long_enough {
        return Vec::new();
    }
    let ends = [End::Datum, End::Far].into_iter().filter(|e| Some(*e) != layout.parted);
    ends.filter(|e| part.wishes.first_end.is_none_or(|f| f == *e)).map(|end| layout.parted_from(end)).collect()
}
