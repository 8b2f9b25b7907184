#![doc = include_str!("center_lost.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Plan};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "order-center-lost",
    severity: Severity::Error,
    group: "order",
    source: "an end is faced and centered before work on its center (Machine Shop Work: Turning)",
    page: include_str!("center_lost.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for pair in facts.wished_pairs().into_iter().filter(|p| p.rule == "R1") {
        let message = tell!(
            "{}, but the end is faced and centered before anything runs on its center",
            "{}, aber das Ende wird plangedreht und zentriert, bevor etwas auf seiner Spitze läuft",
            pair.words()
        );
        let mut finding = Finding::new(CHECK.id, Severity::Error, message).help(told!(
            "Face and center the ends first; if the center must go, part or face it off as the last operation",
            "Die Enden zuerst plandrehen und zentrieren; muss die Zentrierung weg, zuletzt abstechen oder abdrehen"
        ));
        finding.place = pair.place();
        finding.features = [pair.first_on, pair.then_on].into_iter().flatten().map(|f| f.letter.clone()).collect();
        finding.compared.push(("first", Compared::Text(pair.first.word().to_owned())));
        finding.compared.push(("then", Compared::Text(pair.then.word().to_owned())));
        out.push(finding);
    }
    if let Some(plan) = facts.plan {
        for end in [End::Datum, End::Far] {
            out.extend(lost(facts, plan, end));
        }
    }
}

/// In the plan: the center hole of an end is faced or drilled away while a later mounting still runs on it.
fn lost(facts: &Facts<'_>, plan: &Plan, end: End) -> Option<Finding> {
    let row: Vec<(&Setup, &Operation)> = plan.operations().collect();
    let centered = row.iter().position(|(_, o)| o.is_true_center() && o.end == Some(end))?;
    let spoils = |o: &Operation| o.end == Some(end) && matches!(o.verb, Verb::Face | Verb::Drill | Verb::PartOff);
    let spoiled = centered + 1 + row[centered + 1..].iter().position(|(_, o)| spoils(o))?;
    let (_, used) = row[spoiled + 1..].iter().find(|(s, _)| s.runs_on_center(end))?;
    let by = row[spoiled].1;
    let message = tell!(
        "operation {} ({}) takes away the center of the {} end, which operation {} still runs on",
        "Arbeitsgang {} ({}) nimmt die Zentrierung im {}ende weg, auf der Arbeitsgang {} noch läuft",
        by.number,
        by.verb.word(),
        end.word(),
        used.number
    );
    Some(
        Finding::new(CHECK.id, Severity::Error, message)
            .at(facts.part.name.place)
            .number("spoiled_by", f64::from(by.number))
            .number("used_by", f64::from(used.number))
            .help(told!(
                "Do it after the last mounting on that center",
                "Nach der letzten Aufspannung auf dieser Spitze tun"
            )),
    )
}
