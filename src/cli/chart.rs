//! `chart`: a tolerance chart worked by hand, found or audited.

use std::fmt::Write;
use std::path::Path;

use serde_json::{Value, json};

use super::args::{ChartArgs, Format};
use super::job::Tally;
use super::json::{self, Texts, number};
use super::run::Outcome;
use super::screen::Screen;
use super::{chart_text, check};
use crate::chain::chart::{self, Worked};
use crate::finding::Finding;
use crate::model::chart::{Chart, MeasuredBy};
use crate::read::{self, ReadChart};
use crate::unit::Unit;

/// Works every chart; one that cannot be read does not stop the others.
pub(super) fn run(args: &ChartArgs, screen: Screen) -> Outcome {
    let mut outcome = Outcome::default();
    let mut replies = Vec::new();
    for path in &args.charts {
        let read = match load(path) {
            Ok(read) => read,
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
                continue;
            }
        };
        let worked = read.chart.as_ref().map(chart::work);
        let findings = findings(&read, worked.as_ref());
        let tally = Tally::of(&findings);
        outcome.code = outcome.code.max(tally.code(args.strict));
        match args.format {
            Format::Json => replies.push(reply(&read, worked.as_ref(), &findings, tally)),
            Format::Text => {
                if let (Some(chart), Some(worked)) = (&read.chart, &worked) {
                    outcome.out.push_str(&chart_text::chart(chart, worked));
                    outcome.out.push('\n');
                }
                let texts = Texts { part: &read.source, shop: None };
                outcome.out.push_str(&screen.draw_all(findings.iter(), texts));
                let _ = writeln!(outcome.out, "{}: {}", read.source.name, check::verdict(tally));
            }
        }
    }
    if args.format == Format::Json && !replies.is_empty() {
        outcome.out = json::reply(replies);
    }
    outcome
}

fn load(path: &Path) -> Result<ReadChart, String> {
    read::load_chart(&path.to_string_lossy()).map_err(|e| e.to_string())
}

/// Slips of reading first, then what the chart shows.
fn findings(read: &ReadChart, worked: Option<&Worked>) -> Vec<Finding> {
    let mut findings = crate::check::slips_alone(&read.slips);
    if let (Some(chart), Some(worked)) = (&read.chart, worked) {
        let mut shown = crate::check::charted(chart, worked);
        if !read.slips.is_empty() {
            // What could not be read may be what is missing.
            shown.retain(|f| f.check != crate::check::chain::loose::CHECK.id);
        }
        findings.extend(shown);
    }
    findings
}

/// `turnwright/chart/1`.
fn reply(read: &ReadChart, worked: Option<&Worked>, findings: &[Finding], tally: Tally) -> Value {
    let unit = read.chart.as_ref().map_or(Unit::Inch, |c| c.units);
    let texts = Texts { part: &read.source, shop: None };
    let mut out = json!({
        "format": "turnwright/chart/1",
        "part": read.chart.as_ref().map(|c| c.name.text.clone()),
        "units": read.chart.as_ref().map(|c| c.units.word()),
        "hash": read.chart.as_ref().map(|c| c.hash.clone()),
        "file": read.source.name,
        "errors": tally.errors,
        "warnings": tally.warnings,
        "notes": tally.notes,
        "cuts": [], "results": [], "stock": [], "factor": null, "binding": [],
        "findings": findings.iter().map(|f| json::finding(f, texts, unit)).collect::<Vec<_>>(),
    });
    if let (Some(chart), Some(worked)) = (&read.chart, worked)
        && let Value::Object(fields) = body(chart, worked)
    {
        for (key, value) in fields {
            out[key] = value;
        }
    }
    out
}

/// Cuts, results, stock, factor and what binds it.
pub(super) fn body(chart: &Chart, worked: &Worked) -> Value {
    let unit = chart.units;
    let name = |face: usize| chart.faces[face].name.clone();
    let length = |l: Option<crate::unit::Length>| l.map(|l| number(l, unit));
    let cuts = chart.cuts.iter().zip(&worked.cuts).map(|(cut, made)| {
        json!({
            "op": cut.op,
            "cut": name(cut.face),
            "from": match cut.by { MeasuredBy::From(face) => Some(name(face)), MeasuredBy::Stock => None },
            "mean": length(made.mean),
            "tolerance": length(made.tolerance),
            "by_stock": cut.by == MeasuredBy::Stock,
            "set_here": made.set_here,
            "can_hold": length(cut.can_hold),
        })
    });
    let path = |path: &[(usize, i64)]| -> Vec<Value> {
        path.iter()
            .map(|(cut, sign)| {
                let c = &chart.cuts[*cut];
                json!({"op": c.op, "cut": name(c.face), "sign": sign, "share": length(worked.cuts[*cut].tolerance)})
            })
            .collect()
    };
    let results = worked.results.iter().map(|r| {
        let dim = &chart.dims[r.dim];
        json!({
            "from": name(dim.from), "to": name(dim.to),
            "mean": length(r.mean), "plus_minus": length(r.plus_minus), "rss": length(r.rss),
            "wanted": json::limits(dim.limits, unit),
            "guaranteed": r.guaranteed,
            "path": path(&r.path),
            "worth": worked.worth.get(&r.dim).map(|w| (w * 1e6).round() / 1e6),
            "price": worked.prices.get(&r.dim).map(|w| (w * 1e6).round() / 1e6),
        })
    });
    let stock = worked.stock.iter().map(|s| {
        let cut = &chart.cuts[s.cut];
        let limits = s.limits();
        json!({
            "face": name(cut.face), "op": cut.op,
            "min": length(limits.map(|l| l.min)), "mean": length(s.mean), "max": length(limits.map(|l| l.max)),
            "least": length(s.least), "enough": s.enough, "path": path(&s.path),
        })
    });
    let binding =
        worked.binding.iter().map(|d| json!({"from": name(chart.dims[*d].from), "to": name(chart.dims[*d].to)}));
    json!({
        "faces": chart.faces.iter().map(|f| json!({"face": f.name, "looks": f.looks.word()})).collect::<Vec<_>>(),
        "cuts": cuts.collect::<Vec<_>>(),
        "results": results.collect::<Vec<_>>(),
        "stock": stock.collect::<Vec<_>>(),
        "factor": worked.factor.map(|f| (f * 1e6).round() / 1e6),
        "factor_proof": worked.proof.as_ref().map(|p| json!({"reached": p.reached.to_string(), "at_most": p.at_most.to_string()})),
        "binding": binding.collect::<Vec<_>>(),
    })
}
