//! The verdict on a part whose cutting has begun: what the rest of the work can still bring right is no scrap.

use super::saved::{Given, of_rest};
use super::verdict::{Inspection, Judged, Verdict};
use crate::chain::Chain;
use crate::model::Part;
use crate::model::rest::{Outlook, Rest};

impl Inspection {
    /// Judges by the plan for the rest of the work: a face that no cut of its own brings right may be saved by another, the datum face
    /// among them, as long as those beyond it are still to be cut; and what is still to be cut is not yet what it will be.
    pub(super) fn by_rest(&mut self, part: &Part, drawn: &Chain, rest: &Rest) {
        self.void.clone_from(&rest.void);
        self.saved = of_rest(rest, part.units);
        let diameters = rest.gives.iter().filter(|g| g.place.is_none());
        self.gives = diameters.map(|g| Given { what: g.what.clone(), drawn: g.drawn, to: g.to }).collect();
        let again: Vec<String> = rest.again.iter().map(|a| format!("operation {}, {}", a.number, a.what)).collect();
        let saves = rest.outlook < Outlook::Scrap && !rest.again.is_empty();
        for row in self.rows.iter_mut().filter(|r| r.measured.is_some()) {
            let out = matches!(row.verdict, Verdict::Recut | Verdict::Scrap);
            if let Some(number) = still(row, drawn, rest) {
                // A reading proves nothing of a size that is not cut yet; of a diameter that is already too small it does.
                if row.row.faces.is_some() || row.verdict != Verdict::Scrap {
                    row.decision = None;
                    row.verdict = if out { Verdict::Recut } else { row.verdict };
                    row.action = format!("still to be cut: operation {number}");
                }
            } else if row.verdict == Verdict::Scrap && row.row.faces.is_some() && saves {
                row.verdict = Verdict::Recut;
                row.action = format!("cut again, as the plan for the rest says: {}", again.join("; "));
            }
        }
    }
}

/// The operation that still makes a size.
fn still(row: &Judged, drawn: &Chain, rest: &Rest) -> Option<u32> {
    let made = rest.still.iter().filter(|s| match (row.row.faces, s.face) {
        (Some((from, to)), Some(_)) => drawn.at[from] == s.face || drawn.at[to] == s.face,
        (None, None) => s.feature.is_some() && s.feature == row.row.feature,
        _ => false,
    });
    made.map(|s| s.number).max()
}
