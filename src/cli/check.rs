//! `check`: the foreman's look.

use std::fmt::Write;

use serde_json::{Value, json};

use super::args::{CheckArgs, Format};
use super::job::{Job, Tally};
use super::json;
use super::run::Outcome;
use super::screen::Screen;
use crate::check::ALL;
use crate::finding::Finding;

/// Checks every part; a part that cannot be read does not stop the others.
pub(super) fn run(args: &CheckArgs, screen: Screen) -> Outcome {
    if args.list {
        return Outcome::fine(list(args.format));
    }
    if let Some(unknown) = args.check.iter().find(|id| crate::check::find(id).is_none()) {
        return Outcome::could_not(&format!("there is no check called {unknown} (turnwright check --list shows all)"));
    }
    let mut outcome = Outcome::default();
    let mut replies = Vec::new();
    for path in &args.parts {
        let job = match Job::load(path) {
            Ok(job) => job,
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
                continue;
            }
        };
        let mut findings = job.findings(None);
        if !args.check.is_empty() {
            findings.retain(|f| args.check.iter().any(|id| id == f.check));
        }
        let tally = Tally::of(&findings);
        outcome.code = outcome.code.max(tally.code(args.strict));
        match args.format {
            Format::Json => replies.push(reply(&job, &findings, tally)),
            Format::Text => outcome.out.push_str(&text(&job, findings, tally, screen)),
        }
    }
    if args.format == Format::Json {
        outcome.out = json::reply(replies);
    }
    outcome
}

/// Worst first, the verdict last.
fn text(job: &Job, mut findings: Vec<Finding>, tally: Tally, screen: Screen) -> String {
    findings.sort_by_key(|f| (f.accepted.is_some(), std::cmp::Reverse(f.severity)));
    let mut out = String::new();
    for finding in &findings {
        out.push_str(&screen.draw(finding, job.texts()));
        out.push_str("\n\n");
    }
    let name = &job.read.source.name;
    let _ = writeln!(out, "{name}: {}", verdict(tally));
    out
}

/// One line for the whole part.
pub(super) fn verdict(tally: Tally) -> String {
    let count = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
    let mut said: Vec<String> = [(tally.errors, "error"), (tally.warnings, "warning"), (tally.notes, "note")]
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, word)| count(n, word))
        .collect();
    if tally.accepted > 0 {
        said.push(format!("{} accepted", tally.accepted));
    }
    let what = if said.is_empty() { "nothing found".to_owned() } else { said.join(", ") };
    let head = if tally.errors > 0 {
        "DO NOT CUT"
    } else if tally.warnings > 0 {
        "think before you cut"
    } else {
        "good to cut"
    };
    format!("{head}: {what}")
}

/// `turnwright/check/1`.
fn reply(job: &Job, findings: &[Finding], tally: Tally) -> Value {
    let unit = job.unit();
    let mut out = json!({
        "format": "turnwright/check/1",
        "part": job.part().map(|p| p.name.text.clone()),
        "units": job.part().map(|p| p.units.word()),
        "hash": job.part().map(|p| p.hash.clone()),
        "file": job.read.source.name,
        "errors": tally.errors,
        "warnings": tally.warnings,
        "notes": tally.notes,
        "accepted": tally.accepted,
        "findings": findings.iter().map(|f| json::finding(f, job.texts(), unit)).collect::<Vec<_>>(),
    });
    let chain = job.located.as_ref().map(|l| &l.chain);
    out["faces"] = chain.map_or(json!([]), |c| json::faces(c, unit));
    out["distances"] = chain.map_or(json!([]), |c| json::distances(c, unit));
    out
}

fn list(format: Format) -> String {
    if format == Format::Json {
        let rows = ALL.iter().map(|c| json!({"check": c.id, "severity": c.severity.word(), "group": c.group}));
        return json::reply(vec![json!({"format": "turnwright/check/1", "checks": rows.collect::<Vec<_>>()})]);
    }
    let mut out = String::new();
    for check in ALL {
        let _ = writeln!(out, "{:<24}{:<9}{}", check.id, check.severity.word(), check.group);
    }
    out
}
