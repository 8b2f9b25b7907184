#![doc = include_str!("work_hardens.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::material::Caution;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-work-hardens",
    severity: Severity::Note,
    group: "stock",
    source: "common practice, no source; the handbook's cautions",
    page: include_str!("work_hardens.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(material) = facts.material() else { return };
    if !facts.material_is(|m| m.cautions.contains(&Caution::WorkHardens), &["austenitic"]) {
        return;
    }
    let mut finding = Finding::new(CHECK.id, Severity::Note, tell!("{} hardens where the tool rubs", "{} verfestigt sich, wo der Stahl reibt", material.text))
        .at(material.place)
        .help(told!("Keep the tool cutting: steady feed, no dwelling, no spring passes thinner than the edge is sharp", "Den Stahl schneiden lassen: gleichmäßiger Vorschub, nicht verweilen, keine Züge dünner, als die Schneide scharf ist"));
    finding.compared.push(("material", Compared::Text(material.text.clone())));
    out.push(finding);
}
