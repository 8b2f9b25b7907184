//! `explain`: the page of a check, or a rule of the plan.

use std::fmt::Write;

use serde_json::{Value, json};

use super::args::{ExplainArgs, Format};
use super::json;
use crate::check::{ALL, Check, LIMITS, LimitDefault};
use crate::plan::rules::{Rule, rule};
use crate::unit::{Unit, show};

/// The pages asked for.
pub(super) fn run(args: &ExplainArgs) -> Result<String, String> {
    // Some rules bear the id of the check that judges the same: its page says more.
    if let Some(rule) =
        args.id.as_deref().and_then(rule).filter(|r| ALL.iter().all(|c| c.id != r.id && c.group != r.id))
    {
        return Ok(match args.format {
            Format::Json => json::reply(vec![rule_json(rule)]),
            Format::Text => rule_text(rule),
        });
    }
    let wanted: Vec<&Check> = match &args.id {
        None => ALL.to_vec(),
        Some(id) => ALL.iter().copied().filter(|c| c.id == id || c.group == id).collect(),
    };
    if wanted.is_empty() {
        return Err(unknown(args.id.as_deref().unwrap_or_default()));
    }
    Ok(match args.format {
        Format::Json => json::reply(wanted.into_iter().map(page_json).collect()),
        Format::Text => wanted.into_iter().map(page_text).collect::<Vec<_>>().join("\n"),
    })
}

/// The sections of a page, without its cases.
pub(super) fn sections(page: &str) -> Vec<(String, String)> {
    let mut out: Vec<(String, String)> = Vec::new();
    for line in page.lines() {
        if let Some(heading) = line.strip_prefix("## ") {
            out.push((heading.to_owned(), String::new()));
        } else if let Some((_, text)) = out.last_mut() {
            text.push_str(line);
            text.push('\n');
        }
    }
    out.retain(|(heading, _)| heading != "Cases");
    for (_, text) in &mut out {
        *text = text.trim().to_owned();
    }
    out
}

/// Markdown of a page as plain words on one line.
pub(super) fn plain(text: &str) -> String {
    text.replace(['`', '*'], "").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn rule_text(rule: &Rule) -> String {
    let (kind, off) = if rule.hard {
        ("hard", "It cannot be switched off.".to_owned())
    } else {
        ("soft", format!("`plan: {{off: [{}]}}` switches it off; the plan then says what that is worth.", rule.id))
    };
    format!(
        "{}: a {kind} rule of the plan ({})\n\n  {}\n\nSource\n  {}\n\n{off}\n",
        rule.id,
        rule.used.word(),
        rule.text,
        rule.source
    )
}

fn rule_json(rule: &Rule) -> Value {
    json!({
        "format": "turnwright/explain/1",
        "rule": rule.id,
        "hard": rule.hard,
        "used": rule.used.word(),
        "says": rule.text,
        "source": rule.source,
    })
}

fn page_text(check: &Check) -> String {
    let mut text = format!("{}: {}, {} check\n", check.id, check.severity.word(), check.group);
    for (heading, body) in sections(check.page) {
        let _ = write!(text, "\n{heading}\n  {}\n", body.replace('\n', "\n  "));
    }
    for limit in LIMITS.iter().filter(|l| l.check == check.id) {
        let value = match limit.value {
            LimitDefault::Number(n) => format!("{n}"),
            LimitDefault::Length { inch, mm } => {
                let (inch, mm) = (show::exact(inch, Unit::Inch, 3, 5), show::exact(mm, Unit::Millimetre, 1, 3));
                format!("{inch} in, {mm} mm")
            }
        };
        let _ = write!(text, "\nDefault limit `{}`: {value} ({}; {})\n", limit.name, limit.what, limit.source);
    }
    text
}

fn page_json(check: &Check) -> Value {
    let pages: serde_json::Map<String, Value> =
        sections(check.page).into_iter().map(|(h, b)| (h.to_lowercase().replace(' ', "_"), json!(b))).collect();
    let limits: Vec<Value> = LIMITS
        .iter()
        .filter(|l| l.check == check.id)
        .map(|l| {
            let value = match l.value {
                LimitDefault::Number(n) => json!(n),
                LimitDefault::Length { inch, mm } => {
                    json!({"in": json::number(inch, Unit::Inch), "mm": json::number(mm, Unit::Millimetre)})
                }
            };
            json!({"name": l.name, "default": value, "what": l.what, "source": l.source})
        })
        .collect();
    json!({
        "format": "turnwright/explain/1",
        "check": check.id,
        "severity": check.severity.word(),
        "group": check.group,
        "source": check.source,
        "explanation": pages,
        "limits": limits,
    })
}

fn unknown(id: &str) -> String {
    let nearest = ALL
        .iter()
        .flat_map(|c| [c.id, c.group])
        .max_by(|a, b| strsim::jaro_winkler(a, id).total_cmp(&strsim::jaro_winkler(b, id)));
    let hint = nearest.map(|n| format!("; the nearest is {n}")).unwrap_or_default();
    format!("there is no check, group or rule called {id}{hint} (turnwright check --list shows all)")
}
