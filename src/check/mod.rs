//! What an experienced foreman sees before the first chip. One check, one file; this page is the register.
//!
//! A check reads [`Facts`] and adds [`Finding`]s. Its page (`name.md` beside `name.rs`) is what `explain` prints,
//! and holds the cases that the tests run.
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! # let chain = turnwright::chain::locate(part);
//! # let profile = turnwright::chain::Profile::of(part, &chain);
//! let facts = turnwright::check::Facts {
//!     part,
//!     slips: &read.slips,
//!     chain: &chain,
//!     profile: &profile,
//!     shop: None,
//!     derived: None,
//!     plan: None,
//! };
//! let findings = turnwright::check::check(&facts);
//! assert!(!findings.iter().any(turnwright::finding::Finding::is_open_error));
//! ```

mod accept;
mod asked;
mod bar;
mod charted;
mod facts;
mod fold;
mod gears;
mod keyed;
mod lengths_read;
mod limits;
mod passing;
mod register;
mod rings;
pub(crate) mod round;
pub(crate) mod shape;
mod sizes;
mod slots;

pub mod assembly;
pub mod chain;
pub mod description;
pub mod holding;
pub mod keyseats;
pub mod order;
pub mod process;
pub mod shoulders;
pub mod stock;
pub mod threads;

pub use accept::apply as apply_accepts;
pub use charted::charted;
pub use facts::Facts;
pub use lengths_read::{face_called, length_called, measure_first};
pub use limits::{LIMITS, Limit, LimitDefault};
pub(crate) use passing::{bore_limits, is_bearing, outside_limits};
pub use register::ALL;

use crate::chain::Profile;
use crate::finding::{Finding, Severity};
use crate::model::{Part, Slip};

/// One check.
#[derive(Debug)]
pub struct Check {
    /// Id, fixed: scripts and `accept:` use it.
    pub id: &'static str,
    /// Usual weight; some findings of a check may weigh more or less, as its page says.
    pub severity: Severity,
    /// Group, as in `explain GROUP`.
    pub group: &'static str,
    /// Source of the rule, or `common practice, no source`.
    pub source: &'static str,
    /// Explanation and cases, in Markdown.
    pub page: &'static str,
    /// Looks, and adds what it finds.
    pub look: fn(&Facts<'_>, &mut Vec<Finding>),
}

/// Runs every check, applies what the description accepts, and puts the findings in the order of the text.
pub fn check(facts: &Facts<'_>) -> Vec<Finding> {
    if let Some(finding) = fold::shop_given_as_part(facts) {
        return vec![finding.source(description::shop_file::CHECK.source)];
    }
    let mut findings = Vec::new();
    for check in ALL {
        let from = findings.len();
        (check.look)(facts, &mut findings);
        for finding in &mut findings[from..] {
            if finding.source.is_empty() {
                check.source.clone_into(&mut finding.source);
            }
            finding.assumed = finding.by_limits.iter().filter_map(|name| facts.assumed(check.id, name)).collect();
        }
    }
    fold::fold(facts, &mut findings);
    findings.sort_by_key(|f| f.place.map_or((1, 0), |p| (u8::from(p.file != crate::finding::FileId::Part), p.start)));
    apply_accepts(facts, &mut findings);
    findings
}

/// The findings of a text that gave no part at all: what reading could not take.
pub fn slips_alone(slips: &[Slip]) -> Vec<Finding> {
    let part = Part::nothing();
    let chain = crate::chain::locate(&part);
    let profile = Profile::default();
    let facts = Facts { part: &part, slips, chain: &chain, profile: &profile, shop: None, derived: None, plan: None };
    let mut findings = check(&facts);
    // Nothing is known of the part: only what points into the text is true of it.
    findings.retain(|f| f.place.is_some());
    findings
}

/// The check with this id.
pub fn find(id: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|c| c.id == id)
}
