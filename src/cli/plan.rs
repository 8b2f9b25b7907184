//! `plan` and `marks`: setups, order and numbers, for people and for scripts.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use super::args::{Format, MarksArgs, PlanArgs};
use super::job::{Job, Planned, Tally};
use super::run::Outcome;
use super::screen::Screen;
use super::{check, json, plan_json, plan_text};
use crate::finding::{Finding, Severity};
use crate::model::plan::Why;
use crate::plan::{self, NoPlan};

/// Plans every part.
pub(super) fn run(args: &PlanArgs, screen: Screen) -> Outcome {
    if args.verify {
        return super::verify::run(&args.parts);
    }
    each(
        &args.parts,
        args.seconds,
        args.format,
        args.strict,
        screen,
        &Views { json: &plan_json::plan, text: &plan_text::plan },
    )
}

/// Lists the marks of every part.
pub(super) fn marks(args: &MarksArgs, screen: Screen) -> Outcome {
    let views = Views {
        json: &|job: &Job, planned: &Planned, _: &[Finding]| plan_json::marks(job, planned),
        text: &|job: &Job, planned: &Planned| plan_text::marks(job, planned),
    };
    each(&args.parts, 10.0, args.format, false, screen, &views)
}

/// The two faces of a result.
struct Views<'a> {
    json: &'a dyn Fn(&Job, &Planned, &[Finding]) -> serde_json::Value,
    text: &'a dyn Fn(&Job, &Planned) -> String,
}

fn each(parts: &[PathBuf], seconds: f64, format: Format, strict: bool, screen: Screen, views: &Views<'_>) -> Outcome {
    let mut outcome = Outcome::default();
    let mut replies = Vec::new();
    for path in parts {
        match one(path, seconds) {
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
            }
            Ok(Tried { job, findings, planned }) => {
                let tally = Tally::of(&findings);
                outcome.code = outcome.code.max(tally.code(strict));
                let Some(mut planned) = planned else {
                    outcome.code = outcome.code.max(1);
                    outcome.err.push_str(&why_not(&job, &findings, tally, screen));
                    continue;
                };
                planned.plan.others = plan::without_each_holding(&planned.certificate, &planned.plan);
                match format {
                    Format::Json => replies.push((views.json)(&job, &planned, &findings)),
                    Format::Text => outcome.out.push_str(&(views.text)(&job, &planned)),
                }
                outcome.err.push_str(&errors(&job, &findings, screen));
            }
        }
    }
    if format == Format::Json && !replies.is_empty() {
        outcome.out = json::reply(replies);
    }
    outcome
}

/// A part that was read, with its plan if one can be made.
pub(super) struct Tried {
    /// The part.
    pub(super) job: Job,
    /// What there is to say about it.
    pub(super) findings: Vec<Finding>,
    /// The plan with its figures.
    pub(super) planned: Option<Planned>,
}

/// Reads and plans one part.
pub(super) fn one(path: &Path, seconds: f64) -> Result<Tried, String> {
    let job = Job::load(path)?;
    match job.plan(seconds) {
        Some(Ok(planned)) => {
            let findings = job.findings(Some(&planned.plan));
            Ok(Tried { job, findings, planned: Some(planned) })
        }
        Some(Err(refusal)) => {
            let mut findings = job.findings(None);
            findings.push(refused(&refusal));
            Ok(Tried { job, findings, planned: None })
        }
        None => Ok(Tried { findings: job.findings(None), job, planned: None }),
    }
}

/// A refusal of the planner as a finding.
fn refused(refusal: &NoPlan) -> Finding {
    let (message, reasons): (&str, &[Why]) = match refusal {
        NoPlan::NothingToTurn => {
            ("there is no plan: the part has no known length, or no section that can be turned", &[])
        }
        NoPlan::Clash(reasons) => ("there is no plan: these rules and wishes leave no order of operations", reasons),
        NoPlan::OutOfTime => {
            ("there is no plan yet: the time was over before any order was found; give it more --seconds", &[])
        }
    };
    let finding = Finding::new("no-plan", Severity::Error, message).source("the rules themselves");
    reasons.iter().fold(finding, |f, w| f.help(format!("{}: {} ({})", w.rule, w.reason, w.source)))
}

/// The errors that stand in the way, drawn, and the verdict.
pub(super) fn why_not(job: &Job, findings: &[Finding], tally: Tally, screen: Screen) -> String {
    let mut text = errors(job, findings, screen);
    let _ = writeln!(text, "{}: no plan can be made: {}", job.read.source.name, check::verdict(tally));
    text
}

/// Errors that nobody accepted, drawn.
pub(super) fn errors(job: &Job, findings: &[Finding], screen: Screen) -> String {
    let mut text = String::new();
    for finding in findings.iter().filter(|f| f.is_open_error()) {
        text.push_str(&screen.draw(finding, job.texts()));
        text.push_str("\n\n");
    }
    text
}
