//! The verdict on a part whose cutting has begun: what the rest of the work can still bring right is no scrap.

use super::verdict::{Inspection, Verdict};
use crate::model::rest::{Outlook, Rest};

impl Inspection {
    /// Judges lengths by the plan for the rest of the work: a face that no cut of its own brings right may be saved by another, the
    /// datum face among them, as long as those beyond it are still to be cut.
    pub fn with_rest(&mut self, rest: &Rest) {
        if rest.outlook >= Outlook::Scrap || rest.again.is_empty() {
            return;
        }
        let again: Vec<String> = rest.again.iter().map(|a| format!("operation {}, {}", a.number, a.what)).collect();
        for row in self.rows.iter_mut().filter(|r| r.row.faces.is_some() && r.verdict == Verdict::Scrap) {
            row.verdict = Verdict::Recut;
            row.action = format!("cut again, as the plan for the rest says: {}", again.join("; "));
            row.otherwise = String::new();
        }
        self.saved = None;
    }
}
