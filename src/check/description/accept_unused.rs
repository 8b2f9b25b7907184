#![doc = include_str!("accept_unused.md")]

use crate::check::accept;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

/// The check.
pub const CHECK: Check = Check {
    id: "accept-unused",
    severity: Severity::Warning,
    group: "description",
    source: "common practice, no source",
    page: include_str!("accept_unused.md"),
    look,
};

/// Stands last in the register: it looks at what all others have found.
fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let mut unused = Vec::new();
    for entry in &facts.part.accept {
        if facts.slips.iter().any(|s| s.entry == Some(entry.place)) {
            continue;
        }
        let check = &entry.check.text;
        let (message, help) = if crate::check::find(check).is_none() {
            let near = crate::check::ALL.iter().map(|c| (strsim::damerau_levenshtein(c.id, check), c.id)).min();
            let help = match near.filter(|(distance, _)| *distance <= check.len() / 3) {
                Some((_, id)) => format!("Write `{id}`, if that is meant"),
                None => "Write the id that stands beside the finding".to_owned(),
            };
            (format!("there is no check called `{check}`"), help)
        } else if entry.at.is_none() {
            let help = "Add `where:` with a place, a name, or `part`".to_owned();
            (format!("the acceptance of {check} does not say where"), help)
        } else if entry.because.as_ref().is_none_or(|b| b.text.is_empty()) {
            (format!("the acceptance of {check} gives no reason"), "Add `because:` with the reason".to_owned())
        } else if !out.iter().any(|finding| accept::accepts(facts, entry, finding)) {
            let others = out.iter().filter(|f| f.check == check).count();
            let help = match others {
                0 => "Take it out".to_owned(),
                _ => format!("Point `where:` at the line of the finding; {others} of this check are open"),
            };
            (format!("no finding of {check} is there to accept"), help)
        } else {
            continue;
        };
        unused.push(Finding::new(CHECK.id, CHECK.severity, message).at(entry.check.place).help(help));
    }
    out.extend(unused);
}
