//! `plan` and `marks`: setups, order and numbers, for people and for scripts.

use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use super::args::{BatchFormat, MarksArgs, PlanArgs};
use super::batch::{self, Parts};
use super::job::{Job, Planned, Tally};
use super::replies::Replies;
use super::run::Outcome;
use super::screen::Screen;
use super::{check, plan_json, plan_text};
use crate::finding::{Finding, Severity};
use crate::language::{self, Language};
use crate::model::plan::Why;
use crate::plan::NoPlan;
use crate::plan::rules::rule;
use crate::read::Shops;

/// Plans every part.
pub(super) fn run(args: &PlanArgs, screen: Screen) -> Outcome {
    if args.verify {
        return super::verify::run(&args.parts);
    }
    each(
        (&args.parts, &Shops::of(args.shop.clone())),
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
    each((&args.parts, &Shops::of(args.shop.clone())), 10.0, args.format, false, screen, &views)
}

/// The two faces of a result.
struct Views<'a> {
    json: &'a (dyn Fn(&Job, &Planned, &[Finding]) -> serde_json::Value + Sync),
    text: &'a (dyn Fn(&Job, &Planned) -> String + Sync),
}

fn each(
    (named, shops): (&[PathBuf], &Shops),
    seconds: f64,
    format: BatchFormat,
    strict: bool,
    screen: Screen,
    views: &Views<'_>,
) -> Outcome {
    let parts = Parts::of(named);
    let mut replies = Replies::new(format, parts.many);
    let mut code = if batch::tell(&parts) { 2 } else { 0 };
    let work = |path: &Path| -> Result<Shown, String> {
        let Tried { job, findings, planned } = one(path, shops, seconds)?;
        let tally = Tally::of(&findings);
        let code = tally.code(strict);
        let Some(mut planned) = planned else {
            return Ok(Shown { reply: None, err: why_not(&job, &findings, tally, screen), code: code.max(1) });
        };
        planned.look_for_others();
        let reply = match format {
            BatchFormat::Text => Reply::Text((views.text)(&job, &planned)),
            BatchFormat::Json | BatchFormat::Jsonl => Reply::Json((views.json)(&job, &planned, &findings)),
        };
        Ok(Shown { reply: Some(reply), err: errors(&job, &findings, screen), code })
    };
    let mut none = true;
    parts.each("planning", work, |_, result| {
        let mut err = std::io::stderr().lock();
        let shown = match result {
            Ok(shown) => shown,
            Err(why) => {
                let _ = writeln!(err, "turnwright: {why}");
                code = 2;
                return true;
            }
        };
        code = code.max(shown.code);
        none &= shown.reply.is_none();
        let go_on = match shown.reply {
            Some(Reply::Text(text)) => replies.text(&text),
            Some(Reply::Json(reply)) => replies.json(&reply),
            None => true,
        };
        let _ = err.write_all(shown.err.as_bytes());
        go_on
    });
    // One part without a plan has no reply at all.
    let code = if none && !parts.many { code } else { replies.end(code) };
    Outcome { code, ..Outcome::default() }
}

/// What planning one part came to.
struct Shown {
    reply: Option<Reply>,
    err: String,
    code: u8,
}

/// A plan as it will be written.
enum Reply {
    Text(String),
    Json(serde_json::Value),
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
pub(super) fn one(path: &Path, shops: &Shops, seconds: f64) -> Result<Tried, String> {
    let job = Job::load(path, shops)?;
    let planned = job.plan(seconds);
    Ok(tried(job, planned))
}

/// The same with the numbers worded for a sheet: in this language, or in the one its description asks for.
pub(super) fn one_in(
    path: &Path,
    shops: &Shops,
    seconds: f64,
    asked: Option<Language>,
) -> Result<(Tried, Language), String> {
    let job = Job::load(path, shops)?;
    let language = asked.or_else(|| job.part().and_then(|p| p.language)).unwrap_or_default();
    Ok((
        language::speaking(language, || {
            let planned = job.plan(seconds);
            tried(job, planned)
        }),
        language,
    ))
}

fn tried(job: Job, planned: Option<Result<Planned, NoPlan>>) -> Tried {
    match planned {
        Some(Ok(planned)) => {
            let findings = job.findings(Some(&planned.plan));
            Tried { job, findings, planned: Some(planned) }
        }
        Some(Err(refusal)) => {
            let mut findings = job.findings(None);
            findings.push(refused(&refusal));
            Tried { job, findings, planned: None }
        }
        None => Tried { findings: job.findings(None), job, planned: None },
    }
}

/// A refusal of the planner as a finding.
fn refused(refusal: &NoPlan) -> Finding {
    let (message, reasons): (&str, &[Why]) = match refusal {
        NoPlan::TooMany { features, most } => {
            let message =
                format!("there is no plan: the part has {features} features, and orders are worked for up to {most}");
            return Finding::new("no-plan", Severity::Error, message)
                .source("a limit of this program")
                .help("Check it as it is; for a sheet, give each piece of the part a description of its own");
        }
        NoPlan::NothingToTurn => {
            ("there is no plan: the part has no known length, or no section that can be turned", &[])
        }
        NoPlan::Clash(reasons) => ("there is no plan: no order of operations keeps all of these together", reasons),
        NoPlan::OutOfTime => {
            ("there is no plan yet: the time was over before any order was found; give it more --seconds", &[])
        }
    };
    let finding = Finding::new("no-plan", Severity::Error, message).source("the rules themselves");
    let wished = reasons.iter().any(|w| w.rule == "wish");
    let soft = reasons.iter().find(|w| w.rule != "wish" && rule(w.rule).is_some_and(|r| !r.hard)).map(|w| w.rule);
    let finding = reasons.iter().fold(finding, |f, w| match w.rule {
        "wish" | "" => f.help(w.reason.clone()),
        rule => f.help(format!("{rule}: {} ({})", w.reason, w.source)),
    });
    let finding = if reasons.iter().any(|w| w.rule == "order-center-lost") {
        finding.help(
            "A 60° seat in each mouth that has none keeps the centers: `inside:` `- chamfer: LEG x 30°`, `end: datum` or `far`",
        )
    } else {
        finding
    };
    match (wished, soft) {
        (_, Some(rule)) => finding
            .help(format!("Each of these is needed for the contradiction: `plan: {{off: [{rule}]}}` takes one out")),
        (true, None) => finding.help("Each of these is needed for the contradiction: take one of the wishes out"),
        (false, None) => finding,
    }
}

/// The errors that stand in the way, drawn, and the verdict.
pub(super) fn why_not(job: &Job, findings: &[Finding], tally: Tally, screen: Screen) -> String {
    let mut text = errors(job, findings, screen);
    let _ = writeln!(text, "{}: no plan can be made: {}", job.read.source.name, check::verdict(tally));
    text
}

/// Errors that nobody accepted, drawn.
pub(super) fn errors(job: &Job, findings: &[Finding], screen: Screen) -> String {
    screen.draw_all(findings.iter().filter(|f| f.is_open_error()), job.texts())
}
