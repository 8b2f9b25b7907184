//! `inspect`: measured sizes judged.

use std::fmt::Write;

use serde_json::{Value, json};

use super::args::{DecisionRule, Format, InspectArgs};
use super::job::{Job, Located, Tally};
use super::json::{self, number};
use super::plan;
use super::run::Outcome;
use super::screen::Screen;
use crate::chain::{Chain, Profile};
use crate::figures::{Decision, Inspected, Inspection, Rule, SureFrom, Verdict, inspect};
use crate::read::Shops;
use crate::unit::show;

/// Inspects every part.
pub(super) fn run(args: &InspectArgs, screen: Screen) -> Outcome {
    let mut outcome = Outcome::default();
    let mut replies = Vec::new();
    for path in &args.parts {
        match plan::one(path, &Shops::default(), args.seconds) {
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
            }
            Ok(tried) => {
                let (Some(planned), Some(part), Some(located)) =
                    (&tried.planned, tried.job.part(), tried.job.located.as_ref())
                else {
                    outcome.code = outcome.code.max(1);
                    let tally = Tally::of(&tried.findings);
                    outcome.err.push_str(&plan::why_not(&tried.job, &tried.findings, tally, screen));
                    continue;
                };
                let rows = &planned.figures.inspection;
                let (drawn, profile) = drawn(located);
                let inspection = inspect(part, drawn, profile, tried.job.shop(), rows, rule(args));
                let bad = matches!(inspection.overall(), Verdict::Recut | Verdict::Scrap)
                    || inspection.decision() > Some(Decision::Accept)
                    || inspection.suspect.is_some();
                outcome.code = outcome.code.max(u8::from(bad));
                match args.format {
                    Format::Json => replies.push(reply(&tried.job, &inspection)),
                    Format::Text => outcome.out.push_str(&text(&tried.job, &inspection)),
                }
            }
        }
    }
    if args.format == Format::Json && !replies.is_empty() {
        outcome.out = json::reply(replies);
    }
    outcome
}

const fn rule(args: &InspectArgs) -> Rule {
    match args.rule {
        DecisionRule::Simple => Rule::Simple,
        DecisionRule::GuardBands => Rule::GuardBands,
        DecisionRule::FullGuardBands => Rule::FullGuardBands,
    }
}

/// Faces and sections as the drawing has them.
fn drawn(located: &Located) -> (&Chain, &Profile) {
    located.drawn.as_ref().map_or((&located.chain, &located.profile), |(chain, profile)| (chain, profile))
}

/// `turnwright/inspect/1`.
fn reply(job: &Job, inspection: &Inspection) -> Value {
    let unit = job.unit();
    let rows = inspection.rows.iter().map(|r| {
        json!({
            "feature": r.row.letters,
            "size": r.row.what,
            "limits": json::limits(Some(r.row.limits.exact), unit),
            "with": r.row.with,
            "measured": r.measured.map(|m| number(m, unit)),
            "verdict": r.verdict.word(),
            "action": r.action,
            "uncertainty": r.sure.map(|s| number(s.uncertainty, unit)),
            "uncertainty_from": r.sure.map(|s| s.from.word()),
            "decision": r.decision.map(Decision::word),
            "probability": r.probability.map(|p| (p * 1e6).round() / 1e6),
        })
    });
    let face = |face: usize| job.located.as_ref().map(|l| l.chain.graph.faces[face].name.clone());
    let line = |entry: usize| {
        let place = job.part().and_then(|p| p.measured.get(entry)).map(|m| m.place)?;
        let (line, column) = job.texts().part.line_column(place.start);
        Some(json!({"line": line, "column": column}))
    };
    json!({
        "format": "turnwright/inspect/1",
        "part": job.part().map(|p| p.name.text.clone()),
        "units": unit.word(),
        "hash": job.part().map(|p| p.hash.clone()),
        "file": job.read.source.name,
        "overall_verdict": inspection.overall().word(),
        "overall_decision": inspection.decision().map(Decision::word),
        "rule": {"name": inspection.rule.word(), "says": inspection.rule.says(), "coverage_factor": 2},
        "rows": rows.collect::<Vec<_>>(),
        "adjusted": inspection.adjusted.iter().map(|(f, at, deviation)| {
            json!({"face": face(*f), "at": number(*at, unit), "standard_deviation": number(*deviation, unit)})
        }).collect::<Vec<_>>(),
        "suspect": inspection.suspect.and_then(line),
    })
}

/// Which of a feature's sizes, where it is not its diameter.
const fn across(kind: Inspected) -> &'static str {
    match kind {
        Inspected::OverWires => ", over wires",
        Inspected::AcrossBottom => ", across bottom",
        Inspected::AcrossFlats => ", across flats",
        Inspected::Width => ", width",
        _ => "",
    }
}

/// The record, for people.
fn text(job: &Job, inspection: &Inspection) -> String {
    let unit = job.unit();
    let least = show::usual_decimals(unit);
    let show = |l| show::exact(l, unit, least, least + 2);
    let mut out = String::new();
    let name = job.part().map(|p| p.name.text.clone()).unwrap_or_default();
    let _ = writeln!(out, "{name} ({}): inspection\n", unit.word());
    for r in &inspection.rows {
        let limits = format!("{} to {}", r.row.limits.min.text(unit), r.row.limits.max.text(unit));
        let measured = r.measured.map(show).unwrap_or_default();
        let what: String =
            format!("{:<4}{}{}", r.row.letters, r.row.what, across(r.row.kind)).chars().take(44).collect();
        let sure = r.sure.map(|s| format!("±{}", show(s.uncertainty))).unwrap_or_default();
        let line = format!("  {what:<44} {limits:<18} {measured:>9} {sure:<9} {:<12} {}", r.verdict.word(), r.action);
        let _ = writeln!(out, "{}", line.trim_end());
    }
    if !inspection.adjusted.is_empty() {
        let _ = writeln!(out, "\n  more was measured than needed; adjusted (standard deviation):");
        for (face, at, deviation) in &inspection.adjusted {
            let face = job.located.as_ref().map_or("", |l| l.chain.graph.faces[*face].name.as_str());
            let _ = writeln!(out, "  {face:<44} {} ({})", show(*at), show(*deviation));
        }
    }
    if let Some(place) = inspection.suspect.and_then(|i| job.part()?.measured.get(i)).map(|m| m.place) {
        let line = job.texts().part.line_column(place.start).0;
        let _ = writeln!(out, "\n  the reading in line {line} does not fit the others: measure it again");
    }
    if inspection.decision().is_some() {
        let _ = writeln!(out, "\n  rule: {}: {}", inspection.rule.word(), inspection.rule.says());
        let _ =
            writeln!(out, "  ± is the expanded uncertainty (k = 2), as stated with the reading or by the shop file");
    }
    if inspection.rows.iter().any(|r| r.sure.is_some_and(|s| s.from == SureFrom::Assumed)) {
        let _ = writeln!(
            out,
            "  ASSUMED: where neither says it, what is usual for the kind of instrument (common practice, no source)"
        );
    }
    let _ = writeln!(out, "\n{}: {}", job.read.source.name, inspection.overall().word());
    out
}
