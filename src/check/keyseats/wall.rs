#![doc = include_str!("wall.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::StockShape;

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-wall",
    severity: Severity::Warning,
    group: "keyseats",
    source: "common practice, no source",
    page: include_str!("wall.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(StockShape::Tube { bore }) = facts.part.stock.as_ref().map(|s| s.shape) else { return };
    for key in facts.keyseats() {
        let wall = (key.bottom() - bore).half();
        let wanted = key.width.half().max(facts.limit(CHECK.id, "wall"));
        if wall >= wanted {
            continue;
        }
        let message = format!(
            "under the keyseat {} of wall is left to the bore of {}; it wants {}",
            facts.show(wall),
            facts.show(bore),
            facts.show(wanted)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(key.feature.head)
                .of(key.feature.letter.clone())
                .of(key.seat.letter.clone())
                .length("wall", wall)
                .length("wanted", wanted)
                .help("Take a narrower or lower key, a tube with more wall, or a pin instead"),
        );
    }
}
