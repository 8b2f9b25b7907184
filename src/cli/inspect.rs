//! `inspect`: measured sizes judged.

use std::fmt::Write;
use std::path::Path;

use serde_json::{Value, json};

use super::args::{DecisionRule, Format, InspectArgs, Paper};
use super::job::{Job, Located, Planned, Tally};
use super::json::{self, number};
use super::plan;
use super::run::Outcome;
use super::screen::Screen;
use super::{batch, inspect_table, outside_json, write};
use crate::chain::{Chain, Profile};
use crate::figures::{Decision, Given, Inspection, Rule, SureFrom, Verdict, inspect_begun};
use crate::language;
use crate::read::Shops;
use crate::sheet::build::{Sources, record_view};
use crate::sheet::{html, pdf, view};
use crate::unit::{Length, Unit, show};

/// Inspects every part.
pub(super) fn run(args: &InspectArgs, screen: Screen) -> Outcome {
    if args.output.is_some() && args.parts.len() > 1 {
        return Outcome::could_not("several parts cannot go into one record: inspect them one by one");
    }
    let mut outcome = Outcome::default();
    let mut replies = Vec::new();
    for path in &args.parts {
        match plan::one(path, &Shops::of(args.shop.clone()), args.seconds) {
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
            }
            Ok(tried) => {
                // A lathe that is not the one named would take other errors for the instruments.
                let refused = tried.findings.iter().filter(|f| f.check == "shop-file" && f.is_open_error());
                let refused = screen.draw_all(refused, tried.job.texts());
                outcome.code = outcome.code.max(u8::from(!refused.is_empty()));
                outcome.err.push_str(&refused);
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
                let rest = planned.plan.rest.as_ref();
                let inspection = inspect_begun(part, (drawn, profile), tried.job.shop(), rows, rule(args), rest);
                let bad = matches!(inspection.overall(), Verdict::Recut | Verdict::Scrap)
                    || inspection.decision() > Some(Decision::Accept)
                    || inspection.suspect.is_some();
                outcome.code = outcome.code.max(u8::from(bad));
                match (&args.output, args.format) {
                    (Some(out), _) => {
                        let asked = Asked { job: &tried.job, planned, located, inspection: &inspection };
                        if let Err(why) = record(args, path, out, &asked) {
                            return Outcome::could_not(&why);
                        }
                        let _ = writeln!(outcome.err, "{}: {}", out.display(), inspection.overall().word());
                    }
                    (None, Format::Json) => replies.push(reply(&tried.job, planned, &inspection)),
                    (None, Format::Text) => outcome.out.push_str(&text(&tried.job, planned, &inspection)),
                }
            }
        }
    }
    if args.format == Format::Json && !replies.is_empty() {
        outcome.out = json::reply(replies);
    }
    outcome
}

/// A part with its verdicts.
struct Asked<'a> {
    job: &'a Job,
    planned: &'a Planned,
    located: &'a Located,
    inspection: &'a Inspection,
}

/// Writes the record, by the ending of its name.
fn record(args: &InspectArgs, part: &Path, out: &Path, asked: &Asked) -> Result<(), String> {
    let ending = out.extension().map(|e| e.to_string_lossy().to_ascii_lowercase());
    if std::fs::canonicalize(out).ok().zip(std::fs::canonicalize(part).ok()).is_some_and(|(a, b)| a == b) {
        return Err(format!("{} is the description itself: choose another name", out.display()));
    }
    batch::refuse_description(out)?;
    let bytes = match ending.as_deref() {
        Some("json") => json::reply(vec![reply(asked.job, asked.planned, asked.inspection)]).into_bytes(),
        Some("csv") => inspect_table::csv(asked.job, asked.inspection)?,
        Some("html" | "htm") => html::html(&pages(args, asked)?).map_err(|e| e.to_string())?.into_bytes(),
        Some("pdf") => pdf::pdf(&pages(args, asked)?).map_err(|e| e.to_string())?,
        _ => return Err(format!("{}: the ending says what is made: .html, .pdf, .csv or .json", out.display())),
    };
    write::whole(out, &bytes)
}

fn pages(args: &InspectArgs, asked: &Asked) -> Result<view::View, String> {
    let part = asked.job.part().ok_or("there is no part")?;
    let paper = match args.paper {
        Paper::Letter => view::Paper::LETTER,
        Paper::A4 => view::Paper::A4,
    };
    let (chain, _) = drawn(asked.located);
    let sources = Sources {
        part,
        chain,
        plan: &asked.planned.plan,
        figures: &asked.planned.figures,
        findings: &[],
        shop: asked.job.shop(),
    };
    let language = part.language.unwrap_or_default();
    Ok(language::speaking(language, || record_view(&sources, asked.inspection, paper)))
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
fn reply(job: &Job, planned: &Planned, inspection: &Inspection) -> Value {
    let unit = job.unit();
    let names = inspection.names();
    let rows = inspection.rows.iter().zip(&names).map(|(r, name)| {
        json!({
            "feature": r.row.letters,
            "size": r.row.what,
            "name": name,
            "limits": json::limits(Some(r.row.limits.exact), unit),
            "with": r.row.with,
            "measured": r.measured.map(|m| number(m, unit)),
            "verdict": r.verdict.word(),
            "action": r.action,
            "otherwise": r.otherwise,
            "note": r.note,
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
    let text = |t: Option<&crate::model::Text>| t.map(|t| t.text.clone());
    json!({
        "format": "turnwright/inspect/1",
        "part": job.part().map(|p| p.name.text.clone()),
        "drawing": text(job.part().and_then(|p| p.drawing.as_ref())),
        "revision": text(job.part().and_then(|p| p.revision.as_ref())),
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
        "saved": inspection.saved.as_ref().map(|s| json!({
            "can_be_saved": s.can_be_saved(),
            "recuts": s.recuts.iter().map(|r| json!({
                "face": r.name, "off": number(r.off, unit), "to": number(r.to, unit), "window": json::limits(r.window, unit),
            })).collect::<Vec<_>>(),
            "fewest": s.fewest, "clash": s.clash, "misses": number(s.misses, unit), "doubtful": s.doubtful,
            "gives": s.gives.iter().map(|g| g.says(&|l| shown(l, unit))).collect::<Vec<_>>(),
            "concession": s.gives.iter().map(|g| given(g, unit)).collect::<Vec<_>>(),
            "instead": s.instead, "measure_first": s.measure, "rest": s.rest, "taken_as_drawn": s.unmeasured,
        })),
        "diameters_give": inspection.gives.iter().map(|g| given(g, unit)).collect::<Vec<_>>(),
        "void": inspection.void,
        "fits": planned.figures.mates.iter().map(|m| outside_json::fit(m, unit)).collect::<Vec<_>>(),
        "temperatures": job.part().map(|p| p.measured.iter().enumerate().filter_map(|(i, m)| {
            let w = m.warm?;
            Some(json!({
                "entry": i, "place": line(i), "as_read": number(w.as_read, unit), "part_celsius": w.part, "gauge_celsius": w.gauge,
                "gauge_stated": w.gauge_stated, "part_per_kelvin": w.per_kelvin * 1e-6, "gauge_per_kelvin": w.gauge_per_kelvin * 1e-6,
            }))
        }).collect::<Vec<_>>()),
    })
}

/// A limit that would have to give.
fn given(g: &Given, unit: Unit) -> Value {
    json!({"what": g.what, "drawn": json::limits(Some(g.drawn), unit), "to": json::limits(Some(g.to), unit)})
}

fn shown(l: Length, unit: Unit) -> String {
    show::exact(l, unit, show::usual_decimals(unit), show::usual_decimals(unit) + 2)
}

/// The record, for people.
fn text(job: &Job, planned: &Planned, inspection: &Inspection) -> String {
    let unit = job.unit();
    let show = |l| shown(l, unit);
    let mut out = String::new();
    let name = job.part().map(|p| p.name.text.clone()).unwrap_or_default();
    let _ = writeln!(out, "{name} ({}): inspection\n", unit.word());
    for r in &inspection.rows {
        let limits = format!("{} to {}", r.row.limits.min.text(unit), r.row.limits.max.text(unit));
        let measured = r.measured.map(show).unwrap_or_default();
        let what: String =
            format!("{:<4}{}{}", r.row.letters, r.row.what, r.row.kind.across()).chars().take(44).collect();
        let sure = r.sure.map(|s| format!("±{}", show(s.uncertainty))).unwrap_or_default();
        let says: Vec<&str> =
            [&r.action, &r.otherwise, &r.note].into_iter().map(String::as_str).filter(|t| !t.is_empty()).collect();
        let line =
            format!("  {what:<44} {limits:<18} {measured:>9} {sure:<9} {:<12} {}", r.verdict.word(), says.join("; "));
        let _ = writeln!(out, "{}", line.trim_end());
    }
    if let Some(saved) = &inspection.saved {
        let _ = writeln!(out);
        for said in saved.says(&show) {
            let _ = writeln!(out, "  {said}");
        }
    }
    // The plan of the rest has them among its sentences.
    let told = inspection.saved.as_ref().is_some_and(|s| !s.rest.is_empty());
    let others = inspection.gives.iter().map(|g| g.says(&show)).chain(inspection.void.iter().cloned());
    for said in others.filter(|_| !told) {
        let _ = writeln!(out, "\n  {said}");
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
    let real = planned.figures.mates.iter().filter(|m| m.bore_measured || m.seat_measured);
    let seat = |m: &crate::figures::Mate| {
        let (min, max) = (m.seat.min.text(unit), m.seat.max.text(unit));
        if min == max { max } else { format!("{min} to {max}") }
    };
    for (i, m) in real.enumerate() {
        let by = match (m.seat_measured, m.bore_measured) {
            (true, true) => "both as measured",
            (true, false) => "the seat as measured",
            _ => "the mate as measured",
        };
        let _ = writeln!(
            out,
            "{}  {} {} on {}: {} ({by})",
            if i == 0 { "\n" } else { "" },
            m.letter,
            m.part,
            seat(m),
            m.says(unit)
        );
    }
    let warm = job.part().into_iter().flat_map(|p| &p.measured).filter_map(|m| Some((m, m.warm?)));
    for (i, (m, w)) in warm.enumerate() {
        let line = job.texts().part.line_column(m.place.start).0;
        let gauge = if w.gauge_stated { "" } else { " (ASSUMED)" };
        let _ = writeln!(
            out,
            "{}  the reading in line {line}, {} with the part at {:.1} °C and the instrument at {:.1} °C{gauge}, is {} at 20 °C",
            if i == 0 { "\n" } else { "" },
            show(w.as_read),
            w.part,
            w.gauge,
            show(m.what.size().nominal)
        );
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
