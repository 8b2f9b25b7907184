//! Threads, the necks they run out into, and the lathe that cuts them.

use turnwright::model::Kind;
use turnwright::model::feature::{End, Hand, Thread};
use turnwright::read;
use turnwright::unit::Length;

use super::Mutant;
use crate::mutations::sample::Sample;
use crate::mutations::shape::{Section, bar, beside, end_place, ends_at, root, sections, share};

/// Threads with a relief beside them: index of the thread, index of the relief, the thread.
fn relieved(row: &[Section<'_>]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    for i in 0..row.len() {
        if row[i].thread().is_none() {
            continue;
        }
        let relief = |j: usize| row.get(j).is_some_and(|x| matches!(x.feature.kind, Kind::Relief { .. }));
        out.extend(i.checked_sub(1).filter(|j| relief(*j)).map(|j| (i, j)));
        out.extend(Some(i + 1).filter(|j| relief(*j)).map(|j| (i, j)));
    }
    out
}

/// Each relief of a thread at its root and above.
pub(crate) fn relief_above_root(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (thread, relief) in relieved(&row) {
        let (Some(t), Some(size)) = (row[thread].thread(), row[relief].size()) else { continue };
        // A general tolerance may go by the places written, which a changed size has others of.
        let written = matches!(size.from, turnwright::model::LimitsFrom::Written | turnwright::model::LimitsFrom::Fit);
        let over = if written { size.max() - size.nominal } else { Length::ZERO };
        for thousandths in [1002, 1005, 1020, 1060] {
            let new = share(root(t), thousandths) - over;
            let text = s.with(&[(size.place, s.moved(size, new))]);
            let why = format!("the root of {} is {}", t.designation, s.written(root(t)));
            out.push(Mutant::new(
                text,
                format!("{} may be {}", row[relief].feature.called(), s.written(new + over)),
                why,
            ));
        }
    }
    out
}

/// Each relief between a thread and something larger made narrower than one and a half pitches (the check's own limit, practice).
pub(crate) fn relief_narrow(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (thread, relief) in relieved(&row) {
        let Some(t) = row[thread].thread() else { continue };
        let beyond = if relief > thread { row.get(relief + 1) } else { relief.checked_sub(1).and_then(|i| row.get(i)) };
        if beyond.is_none_or(|x| x.start.min(x.end) <= t.pitch_diameter.max) {
            continue;
        }
        for thousandths in [1400, 1000, 500] {
            let wide = share(t.pitch, thousandths);
            // The wall away from the thread comes nearer.
            let (moved, at) = if relief > thread {
                (&row[relief], row[relief].from + wide)
            } else {
                let Some(before) = relief.checked_sub(1).and_then(|i| row.get(i)) else { continue };
                (before, row[relief].to - wide)
            };
            let Some(size) = ends_at(moved) else { continue };
            if wide >= row[relief].to - row[relief].from {
                continue;
            }
            let text = s.with(&[(size.place, s.moved(size, at.0))]);
            let why = format!("{} has a pitch of {}", t.designation, s.written(t.pitch));
            out.push(Mutant::new(text, format!("{} is {} wide", row[relief].feature.called(), s.written(wide)), why));
        }
    }
    out
}

/// A relief taken out: the thread then runs up to what is larger, or the larger one is lengthened over it.
pub(crate) fn relief_left_out(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (thread, relief) in relieved(&row) {
        let Some(t) = row[thread].thread() else { continue };
        let other = if relief > thread { row.get(relief + 1) } else { relief.checked_sub(1).and_then(|i| row.get(i)) };
        let Some(other) = other.filter(|x| x.start.min(x.end) >= t.pitch_diameter.max) else { continue };
        if end_place(&row[relief]).is_none() || t.run_out.is_some() || t.full.is_some() {
            continue;
        }
        let entry = row[relief].feature.place;
        let start = s.text[..entry.start as usize].rfind('\n').map_or(0, |n| n + 1);
        let mut text = s.text.clone();
        let end = s.text[entry.end as usize..].find('\n').map_or(s.text.len(), |n| entry.end as usize + n + 1);
        text.replace_range(start..end, "");
        let why = format!("{} would run into {}", t.designation, other.feature.called());
        out.push(Mutant::new(text, format!("without {}", row[relief].feature.called()), why));
    }
    out
}

/// What is wrong with a changed thread, by the geometry around it.
fn wrong(s: &Sample, row: &[Section<'_>], i: usize, text: &str) -> Option<String> {
    let changed = read::part("part.yaml", text.as_bytes()).part?;
    let feature = changed.features.iter().find(|f| f.id == row[i].feature.id)?;
    let Kind::Thread { thread, .. } = &feature.kind else { return Some("it is no thread any more".to_owned()) };
    if !thread.standard {
        return Some("no series of its standard has it".to_owned());
    }
    if bar(s).is_some_and(|b| thread.nominal > b.nominal) {
        return Some("over the bar".to_owned());
    }
    let (near, far) = beside(row, i);
    for (end, x) in [(End::Far, near), (End::Datum, far)] {
        let Some(x) = x else { continue };
        let Kind::Relief { diameter, .. } = &x.feature.kind else { continue };
        if diameter.max() >= root(thread) {
            return Some(format!(
                "the relief may be {}, the root is {}",
                s.written(diameter.max()),
                s.written(root(thread))
            ));
        }
        let wide = x.to - x.from;
        if wide < share(thread.pitch, 1500) && x.face(end.other()) < x.start.max(x.end) + Length::PER_MM {
            return Some("the relief is narrower than one and a half pitches".to_owned());
        }
    }
    None
}

fn changed(s: &Sample, make: impl Fn(&Thread) -> Vec<String>) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (i, section) in row.iter().enumerate() {
        let Some(t) = section.thread() else { continue };
        for new in make(t) {
            let text = s.with(&[(t.place, new.clone())]);
            if new != s.at(t.place)
                && let Some(why) = wrong(s, &row, i, &text)
            {
                out.push(Mutant::new(text, format!("{} is {new}", t.designation), why));
            }
        }
    }
    out
}

/// Each pitch one thread coarser and finer, and far off.
pub(crate) fn pitch_changed(s: &Sample) -> Vec<Mutant> {
    changed(s, |t| {
        if let Some((n, 1)) = t.tpi {
            let with = |to: i64| t.designation.replacen(&format!("-{n} "), &format!("-{to} "), 1);
            let (coarse, fine) = (with(n - 1), with(n + 1));
            return vec![coarse, fine, with(n / 2 + 1), with(n + 7)];
        }
        let old = t.designation.split(['-', ' ']).next().unwrap_or("");
        let Some((name, pitch)) = old.split_once('x') else { return Vec::new() };
        ["0.9", "1.1", "1.6", "2.5", "4.5"]
            .into_iter()
            .filter(|p| *p != pitch)
            .map(|p| t.designation.replacen(old, &format!("{name}x{p}"), 1))
            .collect()
    })
}

/// Each thread with another nominal diameter of the same pitch.
pub(crate) fn diameter_changed(s: &Sample) -> Vec<Mutant> {
    changed(s, |t| {
        let (from, to): (&str, &[&str]) = match t.designation.as_str() {
            d if d.starts_with("1/2-") => ("1/2", &["17/32", "9/16", "7/16", "3/8"]),
            d if d.starts_with("5/8-") => ("5/8", &["19/32", "9/16", "1/2", "3/4"]),
            d if d.starts_with("M16") => ("M16", &["M15", "M13", "M14"]),
            d if d.starts_with("M18") => ("M18", &["M19", "M17", "M16"]),
            d if d.starts_with("1 1/8-") => ("1 1/8", &["1 3/16", "1 1/16", "1"]),
            d if d.starts_with("1 1/4-") => ("1 1/4", &["1 5/16", "1 3/16", "1 1/8"]),
            _ => return Vec::new(),
        };
        to.iter().map(|new| t.designation.replacen(from, new, 1)).collect()
    })
}

/// Each right-hand thread made left-hand, where the tool then has no room of three pitches to start in (the check's own limit,
/// practice), and each hand turned round whose rotation in service is stated: it held before.
pub(crate) fn wrong_hand(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (i, section) in row.iter().enumerate() {
        let Some(t) = section.thread() else { continue };
        let new = match t.hand {
            Hand::Right => format!("{} LH", t.designation),
            Hand::Left => t.designation.replace(" LH", ""),
        };
        let text = s.with(&[(t.place, new.clone())]);
        let (near, far) = beside(&row, i);
        let room = [near, far].into_iter().flatten().any(|x| {
            let reaches = x.start.max(x.end) < root(t) && x.to - x.from >= t.pitch.times(3);
            reaches || (t.starts > 1 && x.start.max(x.end) < root(t))
        });
        let why = if t.rotation.is_some() {
            "the nut is dragged loose in service"
        } else if t.hand == Hand::Right && !room && t.designation == s.at(t.place) {
            "nothing beside it gives the tool three pitches of room to start in"
        } else {
            continue;
        };
        out.push(Mutant::new(text, format!("{} is {new}", t.designation), why));
    }
    out
}

/// A lathe that cannot: other pitches, less swing, a shorter bed, wider grooving tools.
pub(crate) fn poorer_lathe(s: &Sample) -> Vec<Mutant> {
    let Some(shop) = &s.shop else { return Vec::new() };
    let mut out = Vec::new();
    let mut push = |key: &str, value: String, why: String| {
        let Some(line) = shop.lines().find(|l| l.starts_with(&format!("{key}:"))) else { return };
        let changed = shop.replacen(line, &format!("{key}: {value}"), 1);
        out.push(Mutant { text: s.text.clone(), shop: Some(changed), said: format!("{key}: {value}"), why });
    };
    let row = sections(s);
    let unit =
        if shop.contains("units: mm") { turnwright::unit::Unit::Millimetre } else { turnwright::unit::Unit::Inch };
    let written = |l: Length| turnwright::unit::show::plain(l, unit, 3);
    if row.iter().any(|x| x.thread().is_some()) && !shop.contains("change gears") {
        push("threads", "{tpi: [4 3/4]}".to_owned(), "a thread needs its pitch".to_owned());
    }
    if let Some(bar) = s.part.stock.as_ref().map(|b| b.size.nominal) {
        push("swing over cross slide", written(share(bar, 900)), "the bar is thicker".to_owned());
    }
    let between = row.iter().find_map(|x| match &x.feature.kind {
        Kind::Relief { .. } => Some((x.to - x.from).min(Length::PER_INCH)),
        _ => None,
    });
    if between.is_some() || s.part.features.iter().any(|f| matches!(f.kind, Kind::Groove { .. })) {
        let wide: String = shop
            .lines()
            .map(|l| {
                if l.contains("tool: grooving") {
                    format!("  - {{tool: grooving, width: {}}}\n", written(Length::PER_INCH.times(3)))
                } else {
                    format!("{l}\n")
                }
            })
            .collect();
        out.push(Mutant {
            text: s.text.clone(),
            shop: Some(wide),
            said: "grooving tools three inches wide".into(),
            why: "the reliefs are narrower".into(),
        });
        let kept: Vec<&str> = shop.lines().filter(|l| !l.contains("tool: grooving")).collect();
        let none = kept.join("\n") + "\n";
        out.push(Mutant {
            text: s.text.clone(),
            shop: Some(none),
            said: "no grooving tool".into(),
            why: "there are reliefs to cut".into(),
        });
    }
    out
}
