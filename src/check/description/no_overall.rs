#![doc = include_str!("no_overall.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::feature::Extent;
use crate::model::slip::Fault;
use crate::model::{PlaceRef, Size};

use super::of_slip;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "no-overall",
    severity: Severity::Error,
    group: "description",
    source: "ISO 129-1: the overall length is given",
    page: include_str!("no_overall.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips.iter().filter(|s| matches!(s.fault, Fault::Missing { key: "overall", .. })) {
        let message = told!("no overall length is stated", "es ist keine Gesamtlänge angegeben").to_owned();
        let mut finding = of_slip::finding(facts, &CHECK, slip, message);
        let end = facts.part.sections().next_back().and(facts.chain.at.get(facts.chain.far).copied().flatten());
        finding = match end {
            Some(end) => finding.help(tell!(
                "Write `overall: {}` with its limits, if the sections are right",
                "`overall: {}` mit Grenzen schreiben, wenn die Abschnitte stimmen",
                facts.show(end.0)
            )),
            None => finding.help(told!(
                "Write `overall:` with the length over all and its limits",
                "`overall:` mit der Gesamtlänge und ihren Grenzen schreiben"
            )),
        };
        out.push(finding);
    }
    if let Some((last, overall)) = ends_elsewhere(facts) {
        let (to, all) = (facts.show(last.nominal), facts.show(overall.nominal));
        let side = if last.nominal < overall.nominal { "before" } else { "after" };
        out.push(
            Finding::new(
                CHECK.id,
                CHECK.severity,
                tell!(
                    "the sections end at {to}, {side} the overall length {all}",
                    "die Abschnitte enden bei {to}, {side} der Gesamtlänge {all}"
                ),
            )
            .at(last.place)
            .also(overall.place, "the overall")
            .length("sections_end", last.nominal)
            .length("overall", overall.nominal)
            .help(tell!(
                "Let the last section end at {all}, or change the overall to {to}",
                "Den letzten Abschnitt bei {all} enden lassen, oder die Gesamtlänge auf {to} ändern"
            )),
        );
    }
}

/// The last section's own place, when it is not the overall. Lengths that close elsewhere are `chain-disagrees`.
pub(in crate::check) fn ends_elsewhere<'p>(facts: &Facts<'p>) -> Option<(&'p Size, &'p Size)> {
    let overall = facts.part.overall.as_ref()?;
    let last = facts.part.sections().next_back()?;
    let broken = of_slip::text_is_broken(facts) || facts.slips.iter().any(|s| s.entry == Some(last.place));
    let (Extent::To(PlaceRef::FromDatum(to)) | Extent::Both(PlaceRef::FromDatum(to), _)) = last.kind.extent()? else {
        return None;
    };
    let differs = (to.nominal - overall.nominal).abs() > crate::unit::Length::from_pm(1_000);
    (differs && !broken && overall.nominal.is_positive()).then_some((to, overall))
}
