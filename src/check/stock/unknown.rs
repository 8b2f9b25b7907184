#![doc = include_str!("unknown.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::material;

/// The check.
pub const CHECK: Check = Check {
    id: "stock-unknown",
    severity: Severity::Warning,
    group: "stock",
    source: "the handbook's table of materials",
    page: include_str!("unknown.md"),
    look,
};

/// Near names that are told.
const NEAR: usize = 3;

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(said) = facts.material().filter(|m| !m.text.trim().is_empty()) else { return };
    if facts.grade().is_some() {
        return;
    }
    let message = format!(
        "the material `{}` is not known here: speeds are set slow, mass and growth are those of steel",
        said.text
    );
    let near = material::nearest(&said.text, NEAR).join(", ");
    let help = format!(
        "Write a grade that is known, if it is one of them (near it: {near}); else set the speed by the maker's figure and watch the first cut"
    );
    let mut finding = Finding::new(CHECK.id, CHECK.severity, message).at(said.place).help(help);
    finding.compared.push(("material", Compared::Text(said.text.clone())));
    out.push(finding);
}
