#![doc = include_str!("coating_allowance.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "coating-allowance",
    severity: Severity::Warning,
    group: "process",
    source: "geometry: a diameter grows by two thicknesses, a 60° pitch diameter by four (ASME B1.1, coated threads)",
    page: include_str!("coating_allowance.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(coating) = facts.part.coating.as_ref().filter(|c| c.nominal.is_positive()) else { return };
    let grows = coating.nominal.times(2);
    let threads = facts.part.sections().any(|s| matches!(s.kind, Kind::Thread { .. }));
    let on_threads = if threads {
        tell!(
            " (a 60° pitch diameter by {})",
            " (Flankendurchmesser bei 60° um {})",
            facts.show(coating.nominal.times(4))
        )
    } else {
        String::new()
    };
    let (thick, both) = (facts.show(coating.nominal), facts.show(grows));
    let (severity, message) = match facts.part.sizes_after_coating {
        Some(true) => (
            Severity::Note,
            tell!(
                "the sizes here count after a coating of {thick} a side: the sheet's outside diameters are {both} smaller{on_threads}",
                "die Maße hier gelten nach einer Beschichtung von {thick} je Seite: die Außendurchmesser des Blatts sind {both} kleiner{on_threads}"
            ),
        ),
        Some(false) => return,
        None => (
            Severity::Warning,
            tell!(
                "a coating of {thick} a side makes every diameter grow by {both}{on_threads}, and nobody says whether the sizes here count before it or after",
                "eine Beschichtung von {thick} je Seite lässt jeden Durchmesser um {both} wachsen{on_threads}, und niemand sagt, ob die Maße hier davor oder danach gelten"
            ),
        ),
    };
    let mut finding = Finding::new(CHECK.id, severity, message)
        .at(coating.place)
        .length("coating", coating.nominal)
        .length("growth", grows);
    finding = match severity {
        Severity::Note => finding.help(told!("Lengths are left as drawn; mask what must not be coated", "Längen bleiben wie gezeichnet; abdecken, was nicht beschichtet werden darf")),
        _ => finding
            .help(tell!("Write `coating: {thick} a side, sizes after` where the drawing's sizes count after it: the sheet then takes it off", "`coating: {thick} a side, sizes after` schreiben, wo die Maße der Zeichnung danach gelten: dann zieht das Blatt sie ab"))
            .help(told!("Or `sizes before`, where they are the sizes to cut already", "Oder `sizes before`, wo es schon die zu drehenden Maße sind")),
    };
    out.push(finding);
}
