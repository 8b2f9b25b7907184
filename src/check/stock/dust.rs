#![doc = include_str!("dust.md")]

use crate::check::shape::says_any;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::material::{Caution, Condition};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-dust",
    severity: Severity::Warning,
    group: "stock",
    source: "the material's safety data sheet; the cautions of the handbook",
    page: include_str!("dust.md"),
    look,
};

/// Cautions about swarf and dust, with the words that tell them where the grade is not known.
const DUSTS: [(Caution, &[&str]); 5] = [
    (Caution::Leaded, &["leaded", "free cutting brass", "free-cutting brass"]),
    (Caution::Beryllium, &["beryllium"]),
    (Caution::Magnesium, &["magnesium"]),
    (Caution::Titanium, &["titanium"]),
    (Caution::IronDust, &["cast iron", "casting"]),
];

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(material) = facts.material() else { return };
    let grade = facts.grade();
    let cast_bar = grade.is_none() && facts.bar_state().condition == Condition::Cast;
    for (caution, words) in DUSTS {
        let graded = grade.as_ref().is_some_and(|g| g.material.cautions.contains(&caution));
        let cast = caution == Caution::IronDust && cast_bar;
        if !graded && !cast && !says_any(&material.text, words) {
            continue;
        }
        let mut finding = Finding::new(
            CHECK.id,
            Severity::Warning,
            tell!(
                "the swarf of {} wants care: {}",
                "die Späne von {} verlangen Vorsicht: {}",
                material.text,
                name(caution)
            ),
        )
        .at(material.place)
        .help(caution.sentence().trim_end_matches('.'));
        finding.compared.push(("caution", Compared::Text(name(caution).to_owned())));
        out.push(finding);
    }
}

fn name(caution: Caution) -> &'static str {
    match caution {
        Caution::Leaded => told!("it holds lead", "enthält Blei"),
        Caution::Beryllium => told!("beryllium dust is poison", "Berylliumstaub ist giftig"),
        Caution::Magnesium => told!("magnesium chips burn", "Magnesiumspäne brennen"),
        Caution::Titanium => told!("fine titanium chips burn", "feine Titanspäne brennen"),
        Caution::IronDust => told!("cast iron dust", "Gussstaub"),
        Caution::WorkHardens => told!("it hardens under the tool", "verfestigt sich unter dem Stahl"),
    }
}
