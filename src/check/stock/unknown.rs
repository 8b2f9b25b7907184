#![doc = include_str!("unknown.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::material;
use crate::tell;

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
    let message = tell!(
        "the material `{}` is not known here: speeds are set slow, mass and growth are those of steel",
        "der Werkstoff `{}` ist hier nicht bekannt: Drehzahlen sind langsam gewählt, Masse und Wachsen die von Stahl",
        said.text
    );
    let near = material::nearest(&said.text, NEAR).join(", ");
    let help = tell!(
        "Write a grade that is known, if it is one of them (near it: {near}); else set the speed by the maker's figure and watch the first cut",
        "Einen bekannten Werkstoff schreiben, wenn es einer ist (ähnlich: {near}); sonst die Geschwindigkeit nach dem Hersteller wählen und den ersten Schnitt beobachten"
    );
    let mut finding = Finding::new(CHECK.id, CHECK.severity, message).at(said.place).help(help);
    finding.compared.push(("material", Compared::Text(said.text.clone())));
    out.push(finding);
}
