//! `diff OLD NEW`: what changed on the part, and what of the sheet on paper is no longer true.

pub(super) mod args;
mod pages;
mod pairs;

use std::fmt::Write;

use serde_json::{Value, json};

use super::args::{DiffArgs, Format};
use super::json;
use super::run::Outcome;
use crate::read::compare::{self, Change, Entry, Said};
use crate::read::{self};
use crate::unit::Unit;
use pages::{Replace, Sheet};

/// What happened to one thing.
struct Changed {
    /// `feature`, `head`, `dims` …
    of: String,
    /// `changed`, `moved`, `renamed`, `added`, `removed`.
    how: &'static str,
    /// What a sentence calls it.
    called: String,
    /// Lines in the old and in the new file.
    lines: (Option<usize>, Option<usize>),
    /// Path, old text, new text.
    says: Vec<Change>,
}

/// Compares two descriptions.
pub(super) fn run(args: &DiffArgs) -> Outcome {
    match work(args) {
        Ok(outcome) => outcome,
        Err(why) => Outcome::could_not(&why),
    }
}

fn work(args: &DiffArgs) -> Result<Outcome, String> {
    let load = |path: &std::path::Path| -> Result<(Said, Unit, String), String> {
        let name = path.to_string_lossy();
        if name == "-" {
            return Err("diff compares two files: name both".to_owned());
        }
        let bytes = read::file(&name).map_err(|e| e.to_string())?;
        let said = compare::said(&name, &bytes)
            .ok_or_else(|| format!("{name}: cannot be read; turnwright check {name} says why"))?;
        let part = read::part(&name, &bytes)
            .part
            .ok_or_else(|| format!("{name}: cannot be read; turnwright check {name} says why"))?;
        Ok((said, part.units, part.hash))
    };
    let (old, old_unit, old_hash) = load(&args.old)?;
    let (new, unit, new_hash) = load(&args.new)?;
    let mut changed = changes(&old, &new, unit);
    if old_unit != unit {
        changed.insert(0, head(("units".to_owned(), Some(old_unit.word().to_owned()), Some(unit.word().to_owned()))));
        changed.dedup_by(|a, b| a.of == "head" && a.called == b.called);
    }
    let sheets = if args.no_sheet {
        None
    } else {
        let (a, b) = (pages::sheet(&args.old, args.seconds)?, pages::sheet(&args.new, args.seconds)?);
        let replace = (a.made && b.made).then(|| pages::compare(&a, &b));
        Some((a, b, replace))
    };
    let code = sheets.as_ref().map_or(0, |(_, new, _)| u8::from(!new.made || new.tally.errors > 0));
    let out = match args.format {
        Format::Json => json::reply(vec![reply(&changed, sheets.as_ref(), unit, (&old_hash, &new_hash))]),
        Format::Text => text(args, &changed, sheets.as_ref()),
    };
    Ok(Outcome { out, code, ..Outcome::default() })
}

fn head(change: Change) -> Changed {
    let how = match (&change.1, &change.2) {
        (None, _) => "added",
        (_, None) => "removed",
        _ => "changed",
    };
    Changed { of: "head".to_owned(), how, called: change.0.clone(), lines: (None, None), says: vec![change] }
}

fn changes(old: &Said, new: &Said, unit: Unit) -> Vec<Changed> {
    let mut out: Vec<Changed> = compare::changes(&old.head, &new.head, unit).into_iter().map(head).collect();
    let mut keys: Vec<&String> = old.lists.iter().chain(&new.lists).map(|(k, _)| k).collect();
    let mut seen = Vec::new();
    keys.retain(|k| {
        let first = !seen.contains(k);
        seen.push(*k);
        first
    });
    for key in keys {
        let (a, b) = (old.list(key), new.list(key));
        for (i, j) in pairs::pairs(a, b, unit) {
            out.extend(entry(key, i.map(|i| &a[i]), j.map(|j| &b[j]), unit));
        }
    }
    out
}

/// What a sentence calls an entry: its name, else kind and size, else its first word.
fn called(e: &Entry) -> String {
    let first = e.says.first().map(|(k, t)| format!("{k} {t}")).unwrap_or_default();
    e.get("name").map_or(first.clone(), |name| format!("{name} ({first})"))
}

fn entry(key: &str, old: Option<&Entry>, new: Option<&Entry>, unit: Unit) -> Option<Changed> {
    let of = if key == "features" { "feature".to_owned() } else { key.to_owned() };
    let lines = (old.map(|e| e.line), new.map(|e| e.line));
    match (old, new) {
        (Some(a), Some(b)) => {
            let says = compare::changes(&a.says, &b.says, unit);
            let places = ["to", "from", "at", "end", "long"];
            let how = match says.as_slice() {
                [] => return None,
                [(path, ..)] if path == "name" => "renamed",
                all if all.iter().all(|(p, ..)| places.contains(&p.as_str())) => "moved",
                _ => "changed",
            };
            Some(Changed { of, how, called: called(a), lines, says })
        }
        (Some(a), None) => Some(Changed { of, how: "removed", called: called(a), lines, says: Vec::new() }),
        (None, Some(b)) => Some(Changed { of, how: "added", called: called(b), lines, says: Vec::new() }),
        (None, None) => None,
    }
}

/// What a key is about, where its word alone does not say it.
fn about(path: &str) -> &str {
    match path {
        "to" => "its end",
        "from" => "its start",
        "at" => "its place",
        "long" => "its length",
        "name" => "its name",
        "carries > part" => "what it carries",
        "carries > bore" => "bore of what it carries",
        "carries > wide" => "width of what it carries",
        other => other,
    }
}

fn arrow(change: &Change) -> String {
    match (&change.1, &change.2) {
        (Some(old), Some(new)) => format!("{}: {old} -> {new}", about(&change.0)),
        (Some(old), None) => format!("{}: {old} -> no longer said", about(&change.0)),
        (None, Some(new)) => format!("{}: new, {new}", about(&change.0)),
        (None, None) => about(&change.0).to_owned(),
    }
}

fn text(args: &DiffArgs, changed: &[Changed], sheets: Option<&(Sheet, Sheet, Option<Replace>)>) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{} -> {}\n", args.old.display(), args.new.display());
    if changed.is_empty() {
        let _ = writeln!(out, "  nothing of the part is said otherwise");
    }
    for c in changed {
        let line = c.lines.1.or(c.lines.0).map_or(String::new(), |l| format!(" (line {l})"));
        if c.of == "head" {
            let _ = writeln!(out, "  {}", c.says.first().map(arrow).unwrap_or_default());
        } else {
            let _ = writeln!(out, "  {} {}: {}{line}", c.of, c.how, c.called);
            for change in &c.says {
                let _ = writeln!(out, "      {}", arrow(change));
            }
        }
    }
    let Some((old, new, replace)) = sheets else { return out };
    if let Some(r) = replace {
        sheet_text(&mut out, r);
    } else {
        let which = if old.made { "the new description" } else { "the old description" };
        let _ = writeln!(out, "\n  {which} has no sheet: turnwright check says why");
    }
    if new.tally.errors > 0 {
        let _ = writeln!(out, "\n  DO NOT CUT by the new one: {} error(s) that nobody accepted", new.tally.errors);
    }
    out
}

fn sheet_text(out: &mut String, r: &Replace) {
    if r.anew.is_empty() && r.take_out.is_empty() {
        let _ = writeln!(out, "\nSheet: every page says the same");
        return;
    }
    let _ = writeln!(out, "\nSheet: {} page(s) to replace, {} still true", r.anew.len(), r.keep.len());
    for (page, name) in &r.anew {
        let _ = writeln!(out, "  replace  {page:>2}  {name}");
    }
    for (page, name) in &r.take_out {
        let _ = writeln!(out, "  take out {page:>2}  {name} (of the old sheet)");
    }
    for (old, new, name) in &r.keep {
        let at = if old == new { String::new() } else { format!("  (page {old} of the old sheet)") };
        let _ = writeln!(out, "  keep     {new:>2}  {name}{at}");
    }
    let list = |out: &mut String, head: &str, ops: &[(String, String, String)]| {
        if !ops.is_empty() {
            let _ = writeln!(out, "{head}");
        }
        for (setup, number, what) in ops {
            let _ = writeln!(out, "  setup {setup}, {number}: {what}");
        }
    };
    list(out, "Operations that are new or read otherwise", &r.operations);
    list(out, "Operations of the old sheet that stand so no more", &r.gone);
    let _ = writeln!(out, "A kept page still carries the old hash at its foot.");
}

/// `turnwright/diff/1`.
fn reply(
    changed: &[Changed],
    sheets: Option<&(Sheet, Sheet, Option<Replace>)>,
    unit: Unit,
    hash: (&str, &str),
) -> Value {
    let rows = changed.iter().map(|c| {
        json!({
            "of": c.of,
            "how": c.how,
            "called": c.called,
            "line": {"old": c.lines.0, "new": c.lines.1},
            "says": c.says.iter().map(|(path, old, new)| json!({"key": path, "old": old, "new": new})).collect::<Vec<_>>(),
        })
    });
    let page = |(n, name): &(usize, String)| json!({"page": n, "name": name});
    let op = |(setup, number, what): &(String, String, String)| json!({"setup": setup, "number": number, "what": what});
    let sheet = sheets.and_then(|s| s.2.as_ref()).map(|r| {
        json!({
            "replace": r.anew.iter().map(page).collect::<Vec<_>>(),
            "take_out": r.take_out.iter().map(page).collect::<Vec<_>>(),
            "keep": r.keep.iter().map(|(old, new, name)| json!({"old_page": old, "page": new, "name": name})).collect::<Vec<_>>(),
            "operations": r.operations.iter().map(op).collect::<Vec<_>>(),
            "operations_gone": r.gone.iter().map(op).collect::<Vec<_>>(),
        })
    });
    json!({
        "format": "turnwright/diff/1",
        "units": unit.word(),
        "hash": {"old": hash.0, "new": hash.1},
        "changed": rows.collect::<Vec<_>>(),
        "sheet": sheet,
        "errors": sheets.map(|s| s.1.tally.errors),
    })
}
