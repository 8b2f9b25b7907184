#![doc = include_str!("length.md")]

use crate::check::shape::{smallest_written, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::shop::ToolKind;
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-length",
    severity: Severity::Error,
    group: "stock",
    source: "common practice, no source",
    page: include_str!("length.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(stock), Some(parts)) = (&facts.part.stock, needs(facts)) else { return };
    let saw = smallest_written(&stock.length);
    let wanted: Length = parts.iter().map(|(l, _)| *l).sum();
    if saw >= wanted {
        out.extend(short_by_the_saw(facts, saw, wanted));
        return;
    }
    let sum: Vec<String> = parts.iter().map(|(l, words)| format!("{} {words}", facts.show(*l))).collect();
    let message = tell!(
        "sawn {} long, but the part needs {}: {}",
        "{} lang gesägt, aber das Teil braucht {}: {}",
        facts.show(saw),
        facts.show(wanted),
        sum.join(", ")
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .at(stock.length.place)
        .length("saw_length", saw)
        .length("wanted", wanted)
        .by_limit("facing")
        .help(tell!("Saw {} or longer", "{} oder länger sägen", facts.show(wanted)));
    if facts.part.wishes.part_off {
        let told = facts.shop.is_some_and(|s| s.tools_of(ToolKind::Parting).any(|t| t.width.is_some()));
        finding.by_limits.extend(Some("parting").filter(|_| !told));
        finding = finding.by_limit("grip-short/diameters");
    }
    out.push(finding);
}

/// What a bar must be long for: the part, both faces, and where it is parted off the tool and what holds the bar then.
pub fn needs(facts: &Facts<'_>) -> Option<Vec<(Length, &'static str)>> {
    let facing = facts.limit(CHECK.id, "facing");
    let mut parts = vec![
        (overall(facts)?, told!("overall", "über alles")),
        (facing.times(2), told!("to face both ends", "zum Plandrehen beider Enden")),
    ];
    if facts.part.wishes.part_off {
        parts.push((parting(facts), told!("to part off", "zum Abstechen")));
        parts.push((grip(facts), told!("to hold it by", "zum Spannen")));
    }
    Some(parts)
}

/// A saw length without limits is no better than the saw: the shortest bar must still be faced on both ends.
fn short_by_the_saw(facts: &Facts<'_>, saw: Length, wanted: Length) -> Option<Finding> {
    let stock = facts.part.stock.as_ref()?;
    let cut = facts.limit(CHECK.id, "saw");
    if stock.length.limits.is_some_and(|l| l.band().is_positive()) || facts.part.wishes.part_off || saw - cut >= wanted
    {
        return None;
    }
    let message = tell!(
        "sawn {}, by a saw that is good to ±{}: the shortest bar is {}, and the part needs {} with both ends faced",
        "{} gesägt, mit einer Säge auf ±{}: die kürzeste Stange hat {}, und das Teil braucht {} mit beiden Enden plangedreht",
        facts.show(saw),
        facts.show(cut),
        facts.show(saw - cut),
        facts.show(wanted)
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(stock.length.place)
            .length("saw_length", saw)
            .length("wanted", wanted + cut)
            .by_limit("facing")
            .by_limit("saw")
            .help(tell!(
                "Saw {} or longer, measure the bar, or write what the saw holds",
                "{} oder länger sägen, die Stange messen, oder schreiben, was die Säge hält",
                facts.show(wanted + cut)
            )),
    )
}

/// The largest the part may be.
fn overall(facts: &Facts<'_>) -> Option<Length> {
    match &facts.part.overall {
        Some(overall) => Some(overall.max()),
        None => facts.chain.overall(facts.part),
    }
}

/// Width of the parting tool: the narrowest of the shop, else the usual.
pub fn parting(facts: &Facts<'_>) -> Length {
    let widths = facts.shop.into_iter().flat_map(|s| s.tools_of(ToolKind::Parting)).filter_map(|t| t.width);
    widths.min().unwrap_or_else(|| facts.limit(CHECK.id, "parting"))
}

/// What `grip-short` wants of the bar.
pub fn grip(facts: &Facts<'_>) -> Length {
    let bar = facts.bar().or(facts.profile.largest()).unwrap_or_default();
    times(bar, facts.limit_number("grip-short", "diameters")).min(facts.limit("grip-short", "long"))
}
