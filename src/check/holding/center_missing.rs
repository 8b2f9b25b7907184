#![doc = include_str!("center_missing.md")]

use crate::chain::Mouth;
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Verb, Zero};
use crate::model::{End, Kind};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "center-missing",
    severity: Severity::Error,
    group: "holding",
    source: "a center needs its hole",
    page: include_str!("center_missing.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let refused = facts.derived.into_iter().flat_map(|d| &d.unheeded).filter(|u| u.why.rule == CHECK.id);
    let mut said = false;
    for unheeded in refused {
        said = true;
        out.push(finding(facts, &unheeded.wish, &unheeded.why.reason));
    }
    if !said {
        for end in [End::Datum, End::Far] {
            if let Some(holding) = wished_on(facts, end)
                && one_end_only(facts, end)
            {
                let wish = format!("holding: {}", holding.word());
                let reason = tell!(
                    "the {} end has no center hole, only the other one",
                    "das {}ende hat keine Zentrierung, nur das andere",
                    end.word()
                );
                out.push(finding(facts, &wish, &reason));
            }
        }
    }
    out.extend(in_plan(facts));
}

/// The holding the description wants that puts a center into this end.
fn wished_on(facts: &Facts<'_>, end: End) -> Option<Holding> {
    let wishes = &facts.part.wishes;
    let each = wishes.holding.into_iter().chain(wishes.holding_by_end.values().copied());
    let between = each.into_iter().find(|h| *h == Holding::BetweenCenters);
    let own = wishes.holding_by_end.get(&end).copied().or(wishes.holding).filter(|h| *h == Holding::ChuckAndCenter);
    between.or(own)
}

/// Center holes are stated, but none for this end.
fn one_end_only(facts: &Facts<'_>, end: End) -> bool {
    let stated =
        |at: End| facts.part.features.iter().any(|f| matches!(&f.kind, Kind::CenterHole { ends, .. } if ends.at(at)));
    stated(end.other()) && !stated(end)
}

fn finding(facts: &Facts<'_>, wish: &str, reason: &str) -> Finding {
    let place = facts.part.wishes.place.unwrap_or(facts.part.name.place);
    let mut finding = Finding::new(CHECK.id, Severity::Error, format!("`{wish}`: {reason}")).at(place).help(told!(
        "State the hole (`center hole: A 1/8` with its `end`), or ask for another holding",
        "Die Zentrierung angeben (`center hole: A 1/8` mit `end`), oder eine andere Aufspannung verlangen"
    ));
    finding.compared.push(("wish", Compared::Text(wish.to_owned())));
    finding
}

/// In the plan: a mounting on the center of an end that nobody has centered.
fn in_plan(facts: &Facts<'_>) -> Vec<Finding> {
    let Some(plan) = facts.plan else { return Vec::new() };
    let mut found = Vec::new();
    let mut centered: Vec<End> = plan.rest.as_ref().map_or_else(Vec::new, |r| r.centered.clone());
    // Of work that has begun it is not known where it stands.
    let mut rough: Vec<End> = if plan.done.is_empty() { Vec::new() } else { vec![End::Datum, End::Far] };
    for setup in &plan.setups {
        // The spot for a steady rest runs on a rough center, and nothing else does.
        let spot = setup.zero == Zero::SawnEnd && setup.operations.iter().all(Operation::is_spot);
        let on_rough = spot && setup.works.is_some_and(|end| rough.contains(&end));
        let uses: Vec<End> = match setup.holding {
            Holding::BetweenCenters => vec![End::Datum, End::Far],
            Holding::ChuckAndCenter if !on_rough => setup.works.into_iter().collect(),
            _ => Vec::new(),
        };
        for end in uses.into_iter().filter(|e| !centered.contains(e)) {
            let message = tell!(
                "setup {} runs on a center in the {} end, which has no center hole yet",
                "Aufspannung {} läuft auf einer Spitze im {}ende, das noch keine Zentrierung hat",
                setup.number,
                end.word()
            );
            let finding = Finding::new(CHECK.id, Severity::Error, message)
                .at(facts.setup_place(setup))
                .number("setup", f64::from(setup.number))
                .help(told!("Face and center that end first", "Dieses Ende zuerst plandrehen und zentrieren"));
            found.push(finding);
        }
        rough.extend(setup.operations.iter().filter(|o| o.is_rough_center()).filter_map(|o| o.end));
        let drilled = |o: &&Operation| o.verb == Verb::Center && !o.is_rough_center();
        centered.extend(setup.operations.iter().filter(drilled).filter_map(|o| o.end));
        // The 60 degree mouth of a bore is what a center bears on there.
        let seated = |end: &End| match facts.profile.mouth(*end) {
            Mouth::Seat { feature, .. } => setup.operations.iter().any(|o| o.inside && o.feature == Some(feature)),
            Mouth::Whole | Mouth::Open { .. } => false,
        };
        centered.extend([End::Datum, End::Far].into_iter().filter(seated));
    }
    found
}
