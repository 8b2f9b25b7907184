//! `check`: the foreman's look.

use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;

use serde_json::{Value, json};

use super::args::{BatchFormat, CheckArgs, CheckFormat};
use super::batch::{self, Parts};
use super::job::{Job, Tally};
use super::replies::Replies;
use super::run::Outcome;
use super::sarif::{self, Log};
use super::screen::Screen;
use super::summary::Summary;
use super::{json, pair};
use crate::check::ALL;
use crate::finding::Finding;
use crate::read::Shops;

/// What the search for the rest of begun work may take, seconds.
const SECONDS: f64 = 10.0;

/// What checking one part came to.
struct Checked {
    tally: Tally,
    shown: Shown,
}

/// A part's findings as they will be written.
enum Shown {
    Text(String),
    Json(Value),
    Sarif(Vec<String>),
}

/// Checks every part; a part that cannot be read does not stop the others. Results are written as they come.
pub(super) fn run(args: &CheckArgs, screen: Screen) -> Outcome {
    if args.list {
        return Outcome::fine(list(args.format));
    }
    if let Some(unknown) = args.check.iter().find(|id| crate::check::find(id).is_none()) {
        let near = ALL
            .iter()
            .map(|c| c.id)
            .max_by(|a, b| strsim::jaro_winkler(a, unknown).total_cmp(&strsim::jaro_winkler(b, unknown)));
        let near = near.map_or(String::new(), |n| format!("; the nearest is {n}"));
        return Outcome::could_not(&format!(
            "there is no check called {unknown}{near} (turnwright check --list shows all)"
        ));
    }
    let parts = Parts::of(&args.parts);
    let format = match args.format {
        CheckFormat::Text | CheckFormat::Sarif => BatchFormat::Text,
        CheckFormat::Json => BatchFormat::Json,
        CheckFormat::Jsonl => BatchFormat::Jsonl,
    };
    let mut replies = Replies::new(format, parts.many);
    let mut log = (args.format == CheckFormat::Sarif).then(Log::default);
    if log.is_some() {
        replies.text(&Log::head());
    }
    let mut summary = Summary::default();
    let mut code = if batch::tell(&parts) { 2 } else { 0 };
    let shops = Shops::of(args.shop.clone());
    let work = |path: &Path| one(args, path, &shops, screen);
    parts.each("checking", work, |path, result| match result {
        Ok(checked) => {
            code = code.max(checked.tally.code(args.strict));
            summary.part(path, checked.tally);
            match (checked.shown, &mut log) {
                (Shown::Text(text), _) => replies.text(&text),
                (Shown::Json(reply), _) => replies.json(&reply),
                (Shown::Sarif(results), Some(log)) => replies.text(&log.add(&results)),
                (Shown::Sarif(_), None) => true,
            }
        }
        Err(why) => {
            let _ = writeln!(std::io::stderr().lock(), "turnwright: {why}");
            code = 2;
            summary.unread(path);
            if let Some(log) = &mut log {
                log.unread(&why);
            }
            let reply = json!({"format": "turnwright/check/1", "file": path.to_string_lossy(), "error": why});
            format != BatchFormat::Jsonl || replies.json(&reply)
        }
    });
    if let Some(log) = log {
        replies.text(&log.end());
    } else if args.format == CheckFormat::Text && parts.many && !parts.paths.is_empty() {
        replies.text(&format!("\n{}", summary.text()));
    }
    Outcome { code: replies.end(code), ..Outcome::default() }
}

/// Checks one part.
fn one(args: &CheckArgs, path: &Path, shops: &Shops, screen: Screen) -> Result<Checked, String> {
    let job = Job::load(path, shops)?;
    // What begun work can still save is for the plan of the rest to tell; without it good parts are called scrap.
    let begun = job.part().is_some_and(|p| !p.done.is_empty());
    let planned = begun.then(|| job.plan(SECONDS).and_then(Result::ok)).flatten();
    let mut findings = job.findings(planned.as_ref().map(|p| &p.plan));
    if !args.check.is_empty() {
        findings.retain(|f| args.check.iter().any(|id| id == f.check));
    }
    let tally = Tally::of(&findings);
    let pairs = pair::compare(&job, &args.pair)?;
    let shown = match args.format {
        CheckFormat::Json | CheckFormat::Jsonl => {
            let mut reply = reply(&job, &findings, tally);
            if let (false, Some(located)) = (pairs.is_empty(), &job.located) {
                reply["pairs"] = pairs.iter().map(|s| json::schemes(&located.chain, s, job.unit())).collect();
            }
            Shown::Json(reply)
        }
        CheckFormat::Sarif => Shown::Sarif(sarif::results(&job, &findings)),
        CheckFormat::Text => {
            let pairs = job.located.as_ref().map(|l| pair::text(&l.chain, job.unit(), &pairs)).unwrap_or_default();
            Shown::Text(pairs + &text(&job, findings, tally, screen, &args.check))
        }
    };
    Ok(Checked { tally, shown })
}

/// Worst first, the verdict last.
fn text(job: &Job, mut findings: Vec<Finding>, tally: Tally, screen: Screen, only: &[String]) -> String {
    findings.sort_by_key(|f| (f.accepted.is_some(), std::cmp::Reverse(f.severity)));
    let mut out = String::new();
    out.push_str(&screen.draw_all(findings.iter(), job.texts()));
    let name = &job.read.source.name;
    if only.is_empty() {
        let _ = writeln!(out, "{name}: {}", so_far(tally));
    } else {
        // A few checks alone say nothing about the part as a whole.
        let which = if only.len() > 4 { format!("{} checks", only.len()) } else { only.join(", ") };
        let _ = writeln!(out, "{name}: {} (only {which} looked at)", counted(tally));
    }
    out
}

/// One line for a part of which holding and order are still to be judged: `check` does not search for them.
fn so_far(tally: Tally) -> String {
    match head(tally) {
        DO_NOT_CUT => verdict(tally),
        GOOD => format!("good so far: {}; `plan` and `sheet` judge holding and order too", counted(tally)),
        head => format!("{head}: {}; `plan` and `sheet` judge holding and order too", counted(tally)),
    }
}

/// One line for the whole part.
pub(super) fn verdict(tally: Tally) -> String {
    format!("{}: {}", head(tally), counted(tally))
}

/// `2 errors, 1 warning`.
fn counted(tally: Tally) -> String {
    let count = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
    let mut said: Vec<String> = [(tally.errors, "error"), (tally.warnings, "warning"), (tally.notes, "note")]
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, word)| count(n, word))
        .collect();
    if tally.accepted > 0 {
        said.push(format!("{} accepted", tally.accepted));
    }
    if said.is_empty() { "nothing found".to_owned() } else { said.join(", ") }
}

const DO_NOT_CUT: &str = "DO NOT CUT";
const GOOD: &str = "good to cut";

/// The verdict in a few words.
pub(super) const fn head(tally: Tally) -> &'static str {
    if tally.errors > 0 {
        DO_NOT_CUT
    } else if tally.warnings > 0 {
        "think before you cut"
    } else {
        GOOD
    }
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

fn list(format: CheckFormat) -> String {
    if format != CheckFormat::Text {
        let rows = ALL.iter().map(
            |c| json!({"check": c.id, "severity": c.severity.word(), "group": c.group, "finds": one_line(c.page)}),
        );
        return json::reply(vec![json!({"format": "turnwright/check/1", "checks": rows.collect::<Vec<_>>()})]);
    }
    let mut out = String::new();
    let mut group = "";
    for check in ALL {
        if check.group != group {
            group = check.group;
            let _ = writeln!(out, "{}{group}", if out.is_empty() { "" } else { "\n" });
        }
        let _ = writeln!(out, "  {:<23}{:<9}{}", check.id, check.severity.word(), one_line(check.page));
    }
    out
}

/// The first sentence of a check's page.
fn one_line(page: &str) -> &str {
    let text = page.lines().skip_while(|l| *l != "## What it finds").nth(1).unwrap_or_default();
    let end = text.find(". ").map_or(text.len(), |i| i + 1);
    text[..end].trim_end_matches('.')
}
