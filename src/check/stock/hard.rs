#![doc = include_str!("hard.md")]

use crate::check::shape::says_any;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::material::is_beyond_steel;
use crate::model::Text;
use crate::model::plan::Verb;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-hard",
    severity: Severity::Warning,
    group: "stock",
    source: "common practice, no source",
    page: include_str!("hard.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    if let Some(material) = facts.material().filter(|m| is_beyond_steel(&m.text)) {
        out.push(finding(
            Severity::Error,
            material,
            &tell!("{} is harder than a steel tool can cut: a file skates on it", "{} ist härter, als ein Stahl schneidet: eine Feile gleitet ab", material.text),
            told!("Anneal what is cut, or grind through the skin first; or carbide or boron nitride in a stiff setup, by the tool maker's speeds: those of this sheet are not for it", "Weichglühen, was gedreht wird, oder erst durch die Haut schleifen; oder Hartmetall oder Bornitrid in steifer Aufspannung, mit den Werten des Werkzeugherstellers: die dieses Blatts gelten dafür nicht"),
        ));
    } else if let Some(material) = facts.material()
        && (facts.bar_state().condition.is_hard() || says_any(&material.text, &["hrc", "hardened"]))
    {
        out.push(finding(
            Severity::Warning,
            material,
            &tell!("{} is cut in its hard state", "{} wird im harten Zustand gedreht", material.text),
            told!("Carbide or cobalt tools, about half the usual speed, no dies: single-point the threads, drill with a split point", "Hartmetall oder Kobaltstahl, etwa halbe Geschwindigkeit, keine Schneideisen: Gewinde mit dem Stahl, bohren mit ausgespitztem Bohrer"),
        ));
    }
    if let Some(treatment) = &facts.part.heat_treatment
        && !facts.part.wishes.is_off("R27")
        // Decided already, by wishes that name it.
        && !facts.derived.is_some_and(|d| d.operations.iter().any(|(o, _)| o.verb == Verb::HeatTreat))
        && says_any(&treatment.text, &["harden", "temper", "hrc", "nitrid", "carburi", "quench"])
    {
        out.push(finding(
            Severity::Warning,
            treatment,
            &tell!("heat treatment asked: {}", "Wärmebehandlung verlangt: {}", treatment.text),
            told!("Decide what is cut before it and what after: leave stock on the seats, and cut threads and center holes true again", "Entscheiden, was davor und was danach gedreht wird: an Sitzen Zugabe lassen, Gewinde und Zentrierungen nacharbeiten"),
        ));
    }
}

fn finding(severity: Severity, said: &Text, message: &str, help: &str) -> Finding {
    let mut finding = Finding::new(CHECK.id, severity, message).at(said.place).help(help);
    finding.compared.push(("condition", Compared::Text(said.text.clone())));
    finding
}
