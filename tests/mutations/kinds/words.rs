//! Slips of the pen: units, limits, keys, and what YAML makes of them.

use turnwright::model::{Kind, LimitsFrom};
use turnwright::read;
use turnwright::unit::{Length, Unit};

use super::Mutant;
use crate::mutations::sample::Sample;
use crate::mutations::shape::{sections, share};

/// Replaces one line, counted from 0.
fn line_changed(s: &Sample, at: usize, new: &str) -> String {
    let lines: Vec<&str> = s.text.lines().enumerate().map(|(i, l)| if i == at { new } else { l }).collect();
    lines.join("\n") + "\n"
}

/// Lines that begin with a key: number, indent with the dash of a list, key, the rest. Notes and comments are left out.
fn keyed_lines(s: &Sample) -> Vec<(usize, &str, &str, &str)> {
    let mut out = Vec::new();
    let mut notes = false;
    for (i, line) in s.text.lines().enumerate() {
        let top = !line.starts_with([' ', '#', '-']) && !line.is_empty();
        if top {
            notes = line.starts_with("notes");
        }
        if notes && !top {
            continue;
        }
        let body = line.trim_start_matches([' ', '-']);
        let indent = &line[..line.len() - body.len()];
        let Some((key, rest)) = body.split_once(':') else { continue };
        if key.len() > 1
            && !body.starts_with('#')
            && key.chars().all(|c| c.is_ascii_lowercase() || c == ' ' || c == '-')
            && !key.is_empty()
        {
            out.push((i, indent, key, rest));
        }
    }
    out
}

/// `units: in` for millimetres and the reverse.
pub(crate) fn other_units(s: &Sample) -> Vec<Mutant> {
    let other = if s.part.units == Unit::Inch { "mm" } else { "in" };
    let Some((i, ..)) = keyed_lines(s).into_iter().find(|l| l.2 == "units") else { return Vec::new() };
    vec![Mutant::new(
        line_changed(s, i, &format!("units: {other}")),
        format!("units: {other}"),
        "every length is 25.4 times off",
    )]
}

/// Each turned diameter written in the other unit, without saying so.
pub(crate) fn diameter_in_other_unit(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for section in sections(s) {
        let Some(size) = section.size().filter(|d| d.unit == s.part.units) else { continue };
        let new = match s.part.units {
            Unit::Inch => size.nominal.times_ratio(254, 10),
            Unit::Millimetre => size.nominal.times_ratio(10, 254),
        };
        let text = s.with(&[(size.place, s.moved(size, new))]);
        out.push(Mutant::new(text, format!("{} is {}", section.feature.called(), s.written(new)), "25.4 times off"));
    }
    out
}

/// Limits written from the larger to the smaller, where that is not merely another way to write the same.
pub(crate) fn limits_swapped(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for feature in &s.part.features {
        let (Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. }) =
            &feature.kind
        else {
            continue;
        };
        let Some(limits) = diameter.limits.filter(|l| l.band().is_positive() && diameter.from == LimitsFrom::Written)
        else {
            continue;
        };
        let (high, low) = (s.written(limits.max), s.written(limits.min));
        let signed = |d: Length| format!("{}{}", if d < Length::ZERO { "-" } else { "+" }, s.written(d.abs()));
        let (up, down) = (limits.max - diameter.nominal, limits.min - diameter.nominal);
        let mut texts = vec![format!("{high}..{low}")];
        if up != down {
            texts.push(format!("{} {}/{}", s.written(diameter.nominal), signed(down), signed(up)));
        }
        for new in texts {
            let text = s.with(&[(diameter.place, new.clone())]);
            let again =
                read::part("part.yaml", text.as_bytes()).part.and_then(|p| match &p.features.get(feature.id)?.kind {
                    Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => {
                        diameter.limits
                    }
                    _ => None,
                });
            if again != Some(limits) {
                out.push(Mutant::new(
                    text,
                    format!("{}: {new}", feature.called()),
                    "the lower limit is above the upper",
                ));
            }
        }
    }
    out
}

/// `units`, `datum` or `overall` left out.
pub(crate) fn header_missing(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for (i, indent, key, _) in keyed_lines(s) {
        if indent.is_empty() && ["units", "datum", "overall", "part"].contains(&key) {
            out.push(Mutant::new(line_changed(s, i, ""), format!("no `{key}`"), "it is never assumed"));
        }
    }
    out
}

/// A letter of each key lost, doubled, or swapped with the next.
pub(crate) fn key_misspelt(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for (i, indent, key, rest) in keyed_lines(s) {
        let letters: Vec<char> = key.chars().collect();
        let mut wrong: Vec<String> = Vec::new();
        let mut lost = letters.clone();
        lost.remove(letters.len() / 2);
        let mut doubled = letters.clone();
        doubled.push(letters[letters.len() - 1]);
        let mut swapped = letters.clone();
        swapped.swap(0, 1);
        wrong.extend([lost, doubled, swapped].into_iter().map(|l| l.into_iter().collect::<String>()));
        wrong.sort();
        wrong.dedup();
        // `at` misspelt as `t` or `to` as `o`; a spelling that only moves a space is the same word.
        let plain = |k: &str| k.replace([' ', '-', '_'], "");
        for new in wrong.into_iter().filter(|w| plain(w) != plain(key) && !w.trim().is_empty()) {
            let text = line_changed(s, i, &format!("{indent}{new}:{rest}"));
            out.push(Mutant::new(text, format!("line {}: `{new}` for `{key}`", i + 1), "no such key"));
        }
    }
    out
}

/// Each key of a mapping written twice.
pub(crate) fn key_twice(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for (i, indent, key, rest) in keyed_lines(s) {
        if indent.contains('-') || rest.trim().is_empty() || key == "notes" {
            continue;
        }
        let line = format!("{indent}{key}:{rest}");
        out.push(Mutant::new(
            line_changed(s, i, &format!("{line}\n{line}")),
            format!("line {} twice", i + 1),
            "only one can hold",
        ));
    }
    out
}

/// A tab for the indent, a colon without its space, a comma for the point, a number with a gap, a value lost to a comment.
pub(crate) fn yaml_slip(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for (i, indent, key, rest) in keyed_lines(s) {
        let mut push = |line: String, what: &str| {
            out.push(Mutant::new(
                line_changed(s, i, &line),
                format!("line {}: {what}", i + 1),
                "it reads as something else",
            ));
        };
        let value = rest.split(" #").next().unwrap_or("").trim();
        if value.is_empty() || key == "notes" {
            continue;
        }
        if indent.len() > 2 && !indent.contains('-') {
            push(format!("\t{key}:{rest}"), "a tab");
        }
        if !value.starts_with('{') {
            push(format!("{indent}{key}:{value}"), "no space after the colon");
        }
        let number = value.split([' ', '+', '±']).next().unwrap_or("");
        let sized = ["turn", "relief", "groove", "to", "from", "at", "overall", "wide", "fillet"].contains(&key);
        if sized
            && number.contains('.')
            && number.chars().all(|c| c.is_ascii_digit() || c == '.')
            && !value.contains("..")
        {
            push(format!("{indent}{key}: {}", value.replacen('.', ",", 1)), "a comma");
            let point = number.find('.').unwrap_or(0);
            if number.len() > point + 2 {
                push(format!("{indent}{key}: {} {}", &value[..point + 2], &value[point + 2..]), "a gap in the number");
            }
            push(format!("{indent}{key}: #{value}"), "a # before the value");
        }
    }
    out
}

/// Each acceptance pointed at a check that finds nothing there.
pub(crate) fn accept_other(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for accept in &s.part.accept {
        for other in ["groove-deep", "stock-scale", "thread-index"] {
            let text = s.with(&[(accept.check.place, other.to_owned())]);
            out.push(Mutant::new(text, format!("accept {other}"), "no finding of that check is there"));
        }
    }
    out
}

/// Changes of writing that leave the part as it is.
pub(crate) fn harmless(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for (i, indent, key, rest) in keyed_lines(s) {
        if rest.trim() == "|" {
            continue;
        }
        let mut push = |line: String, what: &str| {
            out.push(Mutant::new(line_changed(s, i, &line), format!("line {}: {what}", i + 1), ""));
        };
        push(format!("{indent}{key}:{rest}\n# a remark"), "a remark behind it");
        if key.contains(' ') {
            push(format!("{indent}{}:{rest}", key.replace(' ', "_")), "an underscore in the key");
        }
    }
    for section in sections(s) {
        let Some(size) = section.size().filter(|d| d.from == LimitsFrom::Written) else { continue };
        let Some(limits) = size.limits else { continue };
        let exact = [limits.max, limits.min].iter().all(|l| share(*l, 1000) == *l);
        let text = s.with(&[(size.place, format!("{}..{}", s.written(limits.min), s.written(limits.max)))]);
        let same =
            read::part("part.yaml", text.as_bytes()).part.is_some_and(|p| match &p.features[section.feature.id].kind {
                Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => diameter.limits == Some(limits),
                _ => false,
            });
        if exact && same && !s.at(size.place).contains('±') {
            out.push(Mutant::new(text, format!("{} by its two limits", section.feature.called()), ""));
        }
    }
    out
}
