//! Where a section says that it begins, beside where the one before it ends.

use crate::check::Facts;
use crate::finding::Place;
use crate::model::Feature;
use crate::model::feature::Extent;
use crate::unit::Station;

/// A section with two words about its start.
pub(super) struct Meeting<'p> {
    /// The section.
    pub section: &'p Feature,
    /// Where it says that it begins.
    pub begins: Station,
    /// Where the one before it ends.
    pub ends: Station,
    /// How a sentence speaks of the one before it.
    pub before: String,
    /// Where it says so.
    pub place: Place,
    /// Where the one before says that it ends.
    pub before_place: Option<Place>,
}

/// Every section that says where it begins.
pub(super) fn all<'p>(facts: &Facts<'p>) -> Vec<Meeting<'p>> {
    let mut before: Option<&Feature> = None;
    let mut out = Vec::new();
    for section in facts.part.sections() {
        let called = before.map_or_else(|| "the datum face".to_owned(), Feature::called);
        let before_place = before.and_then(|f| f.kind.extent()).and_then(|extent| match extent {
            Extent::To(to) | Extent::Both(to, _) => Some(to.place()),
            Extent::Long(long) => Some(long.place),
            Extent::Open => None,
        });
        before = Some(section);
        let Some(starts) = &section.starts else { continue };
        let Some((ends, _)) = facts.chain.span(section.id) else { continue };
        let Some(begins) = facts.chain.station(starts) else { continue };
        out.push(Meeting { section, begins, ends, before: called, place: starts.place(), before_place });
    }
    out
}
