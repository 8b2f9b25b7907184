#![doc = include_str!("tool_reach.md")]

use super::tool_missing::{needed, operations, serves};
use crate::chain::Hollow;
use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::{Tool, ToolKind};
use crate::model::{End, Feature};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "tool-reach",
    severity: Severity::Error,
    group: "holding",
    source: "the reach of the tools in the shop file; a boring bar's overhang as tool makers print it for steel shanks",
    page: include_str!("tool_reach.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let tools = facts.shop.map_or(&[][..], |s| &s.tools);
    let mut said: Vec<(ToolKind, Option<usize>)> = Vec::new();
    for operation in operations(facts) {
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let Some(deep) = deep(facts, operation).filter(|d| d.is_positive()) else { continue };
        let Some(needed) = needed(operation, feature, facts.part.units) else { continue };
        let fitting: Vec<&Tool> = tools.iter().filter(|t| serves(t, &needed)).collect();
        let known = (operation.tool, operation.feature);
        if said.contains(&known) {
            continue;
        }
        if let Some(found) = short(facts, operation, feature, &fitting, deep) {
            out.push(found);
            said.push(known);
        } else if let Some(found) =
            slender(facts, feature, &fitting, deep).filter(|_| operation.tool == ToolKind::Boring)
        {
            out.push(found);
            said.push(known);
        }
    }
}

/// How far a tool must reach: into a hole from its mouth, or to the middle of what is parted off. None of other cuts.
fn deep(facts: &Facts<'_>, operation: &Operation) -> Option<Length> {
    if operation.verb == Verb::PartOff {
        return parting(facts);
    }
    let into = matches!(operation.tool, ToolKind::Drill | ToolKind::Boring | ToolKind::Reamer | ToolKind::Tap);
    let (from, to) = operation.from.zip(operation.to).filter(|_| operation.inside && into)?;
    match operation.end? {
        End::Datum => Some(from.max(to).0),
        End::Far => Some(facts.chain.overall(facts.part)? - from.min(to).0),
    }
}

/// To the middle of the bar, or through the wall of what is bored through by then.
fn parting(facts: &Facts<'_>) -> Option<Length> {
    let through = facts.profile.hollows.iter().filter(|h| h.through).map(Hollow::smallest).max().unwrap_or_default();
    Some((facts.bar()? - through).half())
}

/// None of the tools that would do reaches so far.
fn short(
    facts: &Facts<'_>,
    operation: &Operation,
    feature: Option<&Feature>,
    fitting: &[&Tool],
    deep: Length,
) -> Option<Finding> {
    // A tool whose reach is not told may be long enough.
    let longest = fitting.iter().map(|t| t.reach).collect::<Option<Vec<Length>>>()?.into_iter().max()?;
    (longest < deep).then(|| {
        let what = feature.map_or_else(|| operation.verb.word().to_owned(), Feature::called);
        let message = tell!(
            "{what} is {} deep for its tool ({}), and the longest one listed reaches {}",
            "{what} ist für sein Werkzeug ({}) {} tief, und das längste der Liste reicht {}",
            facts.show(deep),
            operation.tool.word(),
            facts.show(longest)
        );
        at(facts, Finding::new(CHECK.id, Severity::Error, message), feature)
            .length("deep", deep)
            .length("reach", longest)
            .help(told!(
                "Get a longer one, or cut it from both ends; with parting, saw the rest",
                "Ein längeres besorgen oder von beiden Enden schneiden; beim Abstechen den Rest sägen"
            ))
    })
}

/// The stoutest boring bar listed would hang out too far to cut quietly.
fn slender(facts: &Facts<'_>, feature: Option<&Feature>, fitting: &[&Tool], deep: Length) -> Option<Finding> {
    let most = facts.limit_number(CHECK.id, "bar diameters");
    let stoutest = fitting.iter().map(|t| t.diameter).collect::<Option<Vec<Length>>>()?.into_iter().max()?;
    let allowed = times(stoutest, most);
    (stoutest.is_positive() && deep > allowed).then(|| {
        let message = tell!(
            "{} is {} deep, and a boring bar of {} is let hang out {} ({} times its diameter)",
            "{} ist {} tief, und eine Bohrstange von {} lässt man {} überstehen ({} mal ihr Durchmesser)",
            feature.map_or_else(String::new, Feature::called),
            facts.show(deep),
            facts.show(stoutest),
            facts.show(allowed),
            number(most)
        );
        at(facts, Finding::new(CHECK.id, Severity::Warning, message), feature)
            .length("deep", deep)
            .length("bar", stoutest)
            .by_limit("bar diameters")
            .help(told!(
                "A stouter bar or one of carbide, light cuts at a slow speed, several passes without infeed, or ream it",
                "Eine dickere Stange oder eine aus Hartmetall, leichte Schnitte bei langsamer Drehzahl, mehrere Züge ohne Zustellung, oder reiben"
            ))
    })
}

fn at(facts: &Facts<'_>, mut finding: Finding, feature: Option<&Feature>) -> Finding {
    finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
    finding.at(feature.map_or(facts.part.name.place, |f| f.head))
}
