#![doc = include_str!("tool_missing.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::drill;
use crate::model::plan::{Operation, Verb};
use crate::model::shop::{Tool, ToolKind};
use crate::model::slip::Fault;
use crate::model::{Feature, InsideCut, Kind};
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "tool-missing",
    severity: Severity::Error,
    group: "holding",
    source: "the tools of the shop file",
    page: include_str!("tool_missing.md"),
    look,
};

/// A tool the plan needs, of a size where that matters.
#[derive(PartialEq)]
pub(super) struct Needed {
    kind: ToolKind,
    words: String,
    diameter: Option<Length>,
    number: Option<String>,
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let operations = operations(facts);
    if operations.is_empty() {
        return;
    }
    let tools = facts.shop.map_or(&[][..], |s| &s.tools);
    if tools.is_empty() {
        out.push(nothing_known(facts));
        return;
    }
    let mut said: Vec<Needed> = Vec::new();
    for operation in operations {
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let Some(needed) = needed(operation, feature, facts.part.units) else { continue };
        if said.contains(&needed) || tools.iter().any(|t| serves(t, &needed)) {
            continue;
        }
        out.push(missing(facts, &needed, operation, feature));
        said.push(needed);
    }
    leading(facts, tools, out);
    too_stout(facts, tools, out);
}

/// The diameters of all tools of a kind; none where one is listed without its own.
fn diameters(tools: &[Tool], kind: ToolKind) -> Option<Vec<Length>> {
    let list: Vec<Length> = tools.iter().filter(|t| t.kind == kind).map(|t| t.diameter).collect::<Option<_>>()?;
    (!list.is_empty()).then_some(list)
}

/// Drills that lead a larger one and that nothing in the drawer comes near.
fn leading(facts: &Facts<'_>, tools: &[Tool], out: &mut Vec<Finding>) {
    let Some(own) = diameters(tools, ToolKind::Drill) else { return };
    let mut said: Vec<Length> = Vec::new();
    for operation in operations(facts).into_iter().filter(|o| o.verb == Verb::Drill && o.inside) {
        let Some(size) = operation.to_diameter.filter(|_| operation.from_diameter.is_none()) else { continue };
        let feature = operation.feature.and_then(|f| facts.feature(f));
        for lead in drill::steps(facts.part.units, size).into_iter().filter(|l| *l != size) {
            if own.iter().any(|d| drill::leads(*d, lead)) || said.contains(&lead) {
                continue;
            }
            said.push(lead);
            let called = feature.map_or_else(|| operation.verb.word().to_owned(), Feature::called);
            let drill = written(lead, facts.part.units);
            let message = tell!(
                "{called} is drilled {} first, and the shop file lists no drill near it",
                "{called} wird mit {} vorgebohrt, und die Werkstattdatei nennt keinen Bohrer in der Nähe",
                drill
            );
            let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
                .at(feature.map_or(facts.part.name.place, |f| f.head))
                .length("drill", lead)
                .help(told!(
                    "Any drill a little wider than the web of the larger one leads it; list what is in the drawer",
                    "Jeder Bohrer, der etwas breiter ist als die Seele des größeren, führt ihn; eintragen, was in der Schublade liegt"
                ));
            finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
            out.push(finding);
        }
    }
}

/// A hole that the smallest boring bar listed does not go into.
fn too_stout(facts: &Facts<'_>, tools: &[Tool], out: &mut Vec<Finding>) {
    let Some(smallest) = diameters(tools, ToolKind::Boring).and_then(|list| list.into_iter().min()) else { return };
    let enters = |o: &&Operation| o.tool == ToolKind::Boring && o.inside && o.verb != Verb::Chamfer;
    let mut said: Vec<Option<usize>> = Vec::new();
    for operation in operations(facts).into_iter().filter(enters) {
        let Some(hole) = operation.from_diameter.filter(|d| d.is_positive() && *d <= smallest) else { continue };
        if said.contains(&operation.feature) {
            continue;
        }
        said.push(operation.feature);
        let feature = operation.feature.and_then(|f| facts.feature(f));
        let message = tell!(
            "{} is bored from a hole of {}, and the smallest boring bar listed is {}: it does not go in",
            "{} wird aus einem Loch von {} ausgedreht, und die kleinste Bohrstange der Liste hat {}: sie geht nicht hinein",
            feature.map_or_else(|| operation.verb.word().to_owned(), Feature::called),
            facts.show(hole),
            facts.show(smallest)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Error, message)
            .at(feature.map_or(facts.part.name.place, |f| f.head))
            .length("hole", hole)
            .length("bar", smallest)
            .help(told!(
                "Get or grind a smaller one and list it, or ream the hole",
                "Eine kleinere besorgen oder schleifen und eintragen, oder die Bohrung reiben"
            ));
        finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
        out.push(finding);
    }
}

/// What will be done: the plan's operations, or those derived from the features.
pub(super) fn operations<'a>(facts: &Facts<'a>) -> Vec<&'a Operation> {
    match (facts.plan, facts.derived) {
        (Some(plan), _) => plan.operations().map(|(_, o)| o).collect(),
        (None, Some(derived)) => derived.operations.iter().map(|(o, _)| o).collect(),
        (None, None) => Vec::new(),
    }
}

/// The thread a tap cuts.
fn thread_of(kind: &Kind) -> Option<&str> {
    match kind {
        Kind::Inside(inside) => match &inside.cut {
            InsideCut::Thread { thread, .. } => Some(&thread.designation),
            _ => None,
        },
        Kind::CrossHole { tapped, .. } => tapped.as_ref().map(|t| t.designation.as_str()),
        Kind::CenterHole { size: Some(size), .. } => size.tapped.as_ref().map(|t| t.0.designation.as_str()),
        _ => None,
    }
}

pub(super) fn needed(operation: &Operation, feature: Option<&Feature>, units: Unit) -> Option<Needed> {
    let kind = operation.tool;
    let plain = |words: String| Needed { kind, words, diameter: None, number: None };
    Some(match (kind, feature.map(|f| &f.kind)) {
        // Hands, gauges and deburring tools are not listed; a file and a strip are at every bench.
        (ToolKind::None | ToolKind::File, _) => return None,
        (ToolKind::WoodruffCutter, Some(Kind::Woodruff { number, .. })) => {
            Needed { number: Some(number.clone()), ..plain(format!("{} {number}", kind.word())) }
        }
        (ToolKind::EndMill, Some(Kind::ParallelKeyseat { width, .. })) => {
            Needed { diameter: Some(width.nominal), ..plain(format!("{} {}", kind.word(), width.text)) }
        }
        (ToolKind::Drill, Some(Kind::CrossHole { diameter, .. })) => {
            Needed { diameter: Some(diameter.nominal), ..plain(format!("{} {}", kind.word(), diameter.text)) }
        }
        (ToolKind::Drill | ToolKind::Reamer, _) if operation.inside && operation.to_diameter.is_some() => {
            let shown = operation.to_diameter.map_or_else(String::new, |d| written(d, units));
            Needed { diameter: operation.to_diameter, ..plain(format!("{} {shown}", kind.word())) }
        }
        (ToolKind::Tap, Some(kind_of)) => match thread_of(kind_of) {
            Some(thread) => {
                Needed { number: Some(thread.to_owned()), ..plain(tell!("tap {thread}", "Gewindebohrer {thread}")) }
            }
            None => plain(called(kind)),
        },
        (ToolKind::CenterDrill, Some(Kind::CenterHole { size: Some(size), .. })) => {
            Needed { diameter: Some(size.drill), ..plain(format!("{} {}", kind.word(), size.text)) }
        }
        _ => plain(called(kind)),
    })
}

/// `facing tool`, but `center drill`.
fn called(kind: ToolKind) -> String {
    let named_alone = matches!(
        kind,
        ToolKind::CenterDrill
            | ToolKind::Drill
            | ToolKind::Reamer
            | ToolKind::Tap
            | ToolKind::WoodruffCutter
            | ToolKind::EndMill
            | ToolKind::AbrasiveStrip
    );
    if named_alone { kind.word().to_owned() } else { tell!("{} tool", "Werkzeug: {}", kind.word()) }
}

/// Whether a listed tool does it; what the list does not say of its size is not held against it.
pub(super) fn serves(tool: &Tool, needed: &Needed) -> bool {
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    if needed.kind == ToolKind::Tap {
        // `M8` serves M8x1.25-6H, `1/4-20` serves 1/4-20 UNC-2B; a tap without a size is held to serve.
        let bare = |t: &str| t.to_ascii_lowercase().replace([' ', 'x'], "");
        let size = tool.size.as_deref().map(bare);
        let fits = |size: &String| needed.number.as_deref().is_none_or(|n| bare(n).starts_with(size.as_str()));
        return tool.kind == ToolKind::Tap && size.as_ref().is_none_or(fits);
    }
    if tool.kind != needed.kind {
        return false;
    }
    let number = match (&tool.number, &needed.number) {
        (Some(have), Some(want)) => digits(have) == digits(want),
        _ => true,
    };
    let listed = tool.diameter.or_else(|| {
        let text = tool.size.as_ref()?;
        crate::handbook::center::find(text).ok().map(|c| c.drill_diameter)
    });
    let diameter = match (listed, needed.diameter) {
        (Some(have), Some(want)) => have == want,
        _ => true,
    };
    number && diameter
}

fn missing(facts: &Facts<'_>, needed: &Needed, operation: &Operation, feature: Option<&Feature>) -> Finding {
    let called = feature.map_or_else(|| operation.verb.word().to_owned(), Feature::called);
    let article = if needed.words.starts_with(['a', 'e']) { "an" } else { "a" };
    let message = tell!(
        "{called} needs {} {}, which the shop file does not list",
        "{called} braucht {} {}, in der Werkstattdatei steht keins",
        article,
        needed.words
    );
    let place = feature.map_or(facts.part.name.place, |f| f.head);
    let mut finding = Finding::new(CHECK.id, Severity::Error, message).at(place).help(tell!(
        "Get or grind one before you begin, and list it: `{}`",
        "Vor dem Beginn besorgen oder schleifen, und eintragen: `{}`",
        listing(facts, needed)
    ));
    finding.features = feature.into_iter().map(|f| f.letter.clone()).collect();
    finding.compared.push(("needed", Compared::Text(needed.words.clone())));
    finding
}

/// The line that lists it in the shop file, with its size in that file's unit, or with its own.
fn listing(facts: &Facts<'_>, needed: &Needed) -> String {
    let size = needed.words.strip_prefix(needed.kind.word()).unwrap_or("").trim();
    let key = match needed.kind {
        ToolKind::Drill | ToolKind::Reamer | ToolKind::EndMill => "diameter",
        ToolKind::WoodruffCutter => "number",
        ToolKind::CenterDrill | ToolKind::Tap => "size",
        _ => "",
    };
    let unit = facts.shop.and_then(|s| s.units).unwrap_or(facts.part.units);
    let diameter = needed.diameter.filter(|_| key == "diameter").map(|d| written(d, unit));
    let has_size = !key.is_empty() && size.contains(|c: char| c.is_ascii_digit());
    let size = match diameter {
        Some(diameter) => format!(", {key}: {diameter}"),
        None if has_size => format!(", {key}: {size}"),
        None => String::new(),
    };
    format!("- {{tool: {}{size}}}", needed.kind.word())
}

/// A diameter as it would be written: in `unit` where it is round there, else in the other one with its name (`8 mm`).
fn written(diameter: Length, unit: Unit) -> String {
    let round = |u: Unit| match u {
        Unit::Inch => [10_000, 64].iter().any(|n| diameter.pm() % (Length::PER_INCH.pm() / n) == 0),
        Unit::Millimetre => diameter.pm() % (Length::PER_MM.pm() / 100) == 0,
    };
    let other = if unit == Unit::Inch { Unit::Millimetre } else { Unit::Inch };
    if round(unit) || !round(other) {
        return show::exact(diameter, unit, 0, 6);
    }
    format!("{} {}", show::exact(diameter, other, 0, 6), other.word())
}

fn nothing_known(facts: &Facts<'_>) -> Finding {
    let refused = facts.slips.iter().any(|s| matches!(s.fault, Fault::Stray { .. }));
    let message = match facts.shop {
        None if refused => told!(
            "no shop file was read: tools, gears, dials and instruments are not judged",
            "es wurde keine Werkstattdatei gelesen: Werkzeuge, Gänge, Skalen und Messzeuge werden nicht beurteilt"
        ),
        None => told!(
            "no shop file is named: tools, gears, dials and instruments are not judged",
            "es ist keine Werkstattdatei genannt: Werkzeuge, Gänge, Skalen und Messzeuge werden nicht beurteilt"
        ),
        Some(_) => told!(
            "the shop file lists no tools: they are not judged",
            "die Werkstattdatei nennt keine Werkzeuge: sie werden nicht beurteilt"
        ),
    };
    let mut finding = Finding::new(CHECK.id, Severity::Note, message).at(facts.part.name.place).help(told!(
        "Name one under `lathe:`; `schema` and the samples show what it may hold",
        "Eine unter `lathe:` nennen; `schema` und die Beispiele zeigen, was darin stehen kann"
    ));
    finding.compared.push(("tools", Compared::Number(0.0)));
    finding
}
