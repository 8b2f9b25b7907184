//! The form as a text to fill.

use std::fmt::Write as _;

use super::super::start::scalar;
use super::{Cell, Plain, SampleEntry, SampleFeature, SampleForm, SampleRow};

/// How to fill it, at its head.
const HOW: &str = "\
# Form for measuring a worn sample; its rows are those of `turnwright sheet --measure` on paper. For each size:
#   sketch        what the rough description said; leave it
#   worn reads    what the worn place reads
#   unworn reads  what it reads where nothing ran on it; leave it empty where there is no such place
#   taken as      what you make of it, as a description says it (20 mm k5, 0.8745 +0/-0.0005); empty: it is suggested from the readings
#   why           a few words
# A thread's pitch: 0.278 over 5 (a length over so many pitches), 18 tpi (a leaf), or 1.5 mm; its starts: how many begin at
# its end. A keyseat reads its width; its slot the length on top of the round; its bottom the distance to the far side.
# Then: turnwright start --from-sample THIS-FILE -o part.yaml
";

/// The empty form of a description. `look` says where a feature's unworn metal is (by its number in the file, those inside last).
pub fn form_text(form: &SampleForm, look: &dyn Fn(usize) -> String) -> String {
    let mut out = HOW.to_owned();
    let _ = writeln!(out, "sample: {}", scalar(&form.name));
    let _ = writeln!(out, "units: {}", form.unit.word());
    let below = |key: &str| matches!(key, "dims" | "plan" | "notes");
    for e in form.head.iter().filter(|e| !below(&e.key)) {
        entry(&mut out, "", e);
    }
    for (list, features, first) in [("features", &form.features, 0), ("inside", &form.inside, form.features.len())] {
        if features.is_empty() {
            continue;
        }
        let _ = writeln!(out, "\n{list}:");
        for (i, f) in features.iter().enumerate() {
            feature(&mut out, f, &look(first + i));
        }
    }
    for e in form.head.iter().filter(|e| below(&e.key)) {
        entry(&mut out, "", e);
    }
    out
}

fn feature(out: &mut String, f: &SampleFeature, look: &str) {
    if !look.is_empty() {
        let _ = writeln!(out, "  # {look}");
    }
    for (i, e) in f.entries.iter().enumerate() {
        entry(out, if i == 0 { "  - " } else { "    " }, e);
    }
}

fn entry(out: &mut String, indent: &str, e: &SampleEntry) {
    let _ = match &e.cell {
        Cell::Row(row) => writeln!(out, "{indent}{}: {}", e.key, cells(row)),
        Cell::Kept(plain) => {
            kept(out, indent, &e.key, plain);
            Ok(())
        }
    };
}

fn cells(row: &SampleRow) -> String {
    let mut out = format!("{{sketch: {}, ", quoted(&row.sketch));
    if !row.counted.is_empty() {
        let _ = write!(out, "counted: {}, ", quoted(&row.counted));
    }
    let _ = write!(
        out,
        "worn reads: {}, unworn reads: {}, taken as: {}, why: {}}}",
        quoted(&row.worn),
        quoted(&row.unworn),
        quoted(&row.taken),
        quoted(&row.why)
    );
    out
}

/// A value that is carried over, under its key.
pub(super) fn kept(out: &mut String, indent: &str, key: &str, plain: &Plain) {
    let _ = match plain {
        Plain::Text(text) if text.contains('\n') => {
            let _ = writeln!(out, "{indent}{key}: |");
            let under = " ".repeat(indent.len() + 2);
            for line in text.trim_end().lines() {
                let _ = if line.is_empty() { writeln!(out) } else { writeln!(out, "{under}{line}") };
            }
            Ok(())
        }
        Plain::Text(text) => writeln!(out, "{indent}{key}: {}", scalar(text)),
        Plain::List(list) if list.iter().any(|p| matches!(p, Plain::Keys(_))) => {
            let _ = writeln!(out, "{indent}{key}:");
            let under = " ".repeat(indent.len() + 2);
            for item in list {
                let _ = writeln!(out, "{under}- {}", flow(item));
            }
            Ok(())
        }
        other => writeln!(out, "{indent}{key}: {}", flow(other)),
    };
}

/// In one line.
pub(super) fn flow(plain: &Plain) -> String {
    match plain {
        Plain::Text(text) => {
            let safe = !text.is_empty()
                && text.chars().all(|c| c.is_alphanumeric() || " ./_±°+;µ-".contains(c))
                && text.starts_with(|c: char| c.is_alphanumeric())
                && !text.ends_with(' ');
            if safe { text.clone() } else { quoted(text) }
        }
        Plain::List(list) => format!("[{}]", list.iter().map(flow).collect::<Vec<_>>().join(", ")),
        Plain::Keys(keys) => {
            let pairs: Vec<String> = keys.iter().map(|(k, v)| format!("{k}: {}", flow(v))).collect();
            format!("{{{}}}", pairs.join(", "))
        }
    }
}

/// In double quotes.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
