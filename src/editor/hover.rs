//! What a word or a size means: Markdown, every number in the description's unit and from the stages that work it.

use std::fmt::Write;

use super::cursor::{Cursor, On, Word};
use super::document::Analysis;
use super::names;
use crate::chain::Chain;
use crate::handbook::{material, thread};
use crate::model::LimitsFrom;
use crate::model::{Feature, Kind, Part, PlaceRef, Size};
use crate::read::keys;
use crate::unit::{Length, Limits, Unit, show};

/// What there is to say about byte `at`, and the bytes it is about.
pub(super) fn hover(analysis: &Analysis, at: usize) -> Option<(String, std::ops::Range<usize>)> {
    let text = &analysis.source.text;
    let cursor = Cursor::at(analysis.which, text, &analysis.lines, at)?;
    let word = cursor.word(text)?;
    match &cursor.on {
        On::Key { range, .. } => Some((key(word), range.clone())),
        On::Value { range, .. } => {
            let value = text.get(range.clone())?.trim_end();
            let said = analysis.part.as_ref().and_then(|(part, chain)| of_value(part, chain, word, value, range.start));
            let said = said.or_else(|| plain_value(word, value)).unwrap_or_else(|| key(word));
            Some((said, range.clone()))
        }
    }
}

/// What a key or kind means.
fn key(word: Word) -> String {
    let (name, about, also, wants, examples) = match word {
        Word::Kind(kind) => (kind.word, kind.about, kind.also, kind.wants, keys::kind_examples(kind)),
        Word::Key(_, key) => (key.word, key.about, key.also, key.takes.called(), keys::examples(key)),
    };
    let mut out = format!("**{name}**: {about}\n\nTakes {wants}.");
    if let Word::Key(scope, key) = word {
        let words = keys::words(scope, key);
        if !words.is_empty() {
            let _ = write!(out, " One of: {}.", words.join(", "));
        }
    }
    if !examples.is_empty() {
        let _ = write!(out, " For example `{}`.", examples.join("`, `"));
    }
    if !also.is_empty() {
        let _ = write!(out, "\n\nAlso written: {}.", also.join(", "));
    }
    out
}

/// What a value means in this part.
fn of_value(part: &Part, chain: &Chain, word: Word, value: &str, at: usize) -> Option<String> {
    let feature = names::feature_at(part, at);
    match word {
        Word::Kind(_) => {
            let feature = feature?;
            let mut out = head(part, chain, feature);
            if let Some(more) = main_size(part, feature) {
                let _ = write!(out, "\n\n{more}");
            }
            Some(out)
        }
        Word::Key(_, key) => match key.word {
            "to" | "from" | "at" | "where" => place(part, chain, feature, key.word, value, at),
            "material" => grade(value),
            "overall" => part.overall.as_ref().map(|s| size("overall", s, part.units)),
            "name" => feature.map(|f| head(part, chain, f)),
            "stock" => part.stock.as_ref().map(|s| {
                format!("{}\n\n{}", size("bar", &s.size, part.units), size("saw length", &s.length, part.units))
            }),
            _ => carried(part, feature, key.word, at),
        },
    }
}

/// What a value says without a part.
fn plain_value(word: Word, value: &str) -> Option<String> {
    match word {
        Word::Kind(kind) if kind.wants == "a thread" => thread_words(value),
        Word::Key(_, key) if key.word == "material" => grade(value),
        Word::Key(_, key) if key.word == "check" => check(value),
        _ => None,
    }
}

/// The feature by letter, name and place.
fn head(part: &Part, chain: &Chain, feature: &Feature) -> String {
    let name = feature.name.as_ref().map(|n| format!(", {}", n.text)).unwrap_or_default();
    let letter = if feature.letter.is_empty() { String::new() } else { format!("{} ", feature.letter) };
    let span = span_words(part, chain, feature.id).map(|s| format!(": {s}")).unwrap_or_default();
    format!("**{letter}{}{name}**{span}", feature.kind.word())
}

/// `.850 to 1.000 from the datum end, .150 long`.
pub(super) fn span_words(part: &Part, chain: &Chain, feature: usize) -> Option<String> {
    let (from, to) = chain.span(feature)?;
    let shown = |l: Length| shown(l, part.units);
    Some(if from == to {
        format!("at {} from the datum end", shown(from.0))
    } else {
        format!("{} to {} from the datum end, {} long", shown(from.0), shown(to.0), shown(to - from))
    })
}

/// Limits of a feature's main size.
fn main_size(part: &Part, feature: &Feature) -> Option<String> {
    let unit = part.units;
    match &feature.kind {
        Kind::Turn { diameter, .. } | Kind::CrossHole { diameter, .. } => Some(size("diameter", diameter, unit)),
        Kind::Eccentric { diameter, .. } => {
            let throw = feature.offset.as_ref().map(|o| size("throw", o, unit)).unwrap_or_default();
            Some(format!("{}\n\n{throw}", size("diameter", diameter, unit)))
        }
        Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => Some(size("bottom diameter", diameter, unit)),
        Kind::Fillet { radius, .. } => Some(size("radius", radius, unit)),
        Kind::Crown { crown } => {
            let shown = |l: Length| shown(l, unit);
            let (radius, high, over) = (shown(crown.radius), shown(crown.height), shown(crown.over));
            Some(format!("radius {radius}, {high} high over \u{d8} {over}"))
        }
        Kind::Chamfer { leg, .. } => Some(size("leg along the axis", leg, unit)),
        Kind::Taper { start, end, half_angle_deg, .. } => Some(format!(
            "{}\n\n{}\n\n{half_angle_deg:.4}° a side",
            size("toward the datum end", start, unit),
            size("toward the far end", end, unit)
        )),
        Kind::Thread { thread, .. } => thread_words(&thread.designation),
        Kind::ParallelKeyseat { width, height, length, .. } => Some(format!(
            "{}\n\n{}\n\n{}",
            size("width", width, unit),
            size("height", height, unit),
            size("length", length, unit)
        )),
        _ => None,
    }
}

/// A thread's limits, wires and tap drill, in its own unit.
fn thread_words(designation: &str) -> Option<String> {
    let read = thread::read(designation).ok()?;
    let data = thread::limits(&read, &thread::Asked::default()).ok()?;
    let decimals = if data.unit == Unit::Inch { 4 } else { 3 };
    let band = |l: Limits| {
        let (max, min) = show::limits(l, data.unit, decimals);
        format!("{min} … {max}")
    };
    let mut out = format!("**{}**, {}\n\n", data.designation.show(), data.form.name());
    if let Some(e) = &data.external {
        let _ = writeln!(out, "- external {}: major {}", e.class, band(e.major));
        let _ = writeln!(out, "- pitch diameter {}", band(e.pitch_diameter));
        let _ = writeln!(out, "- minor at most {}", show::length(e.minor.max, data.unit, decimals));
    }
    if let Some(i) = &data.internal {
        let _ = writeln!(out, "- internal {}: minor {}", i.class, band(i.minor));
        let _ = writeln!(out, "- pitch diameter {}", band(i.pitch_diameter));
    }
    let sources: Vec<String> = data.source.iter().map(|s| s.name.to_owned()).collect();
    let _ = write!(out, "\n{} ({})", unit_word(data.unit), sources.join("; "));
    Some(out)
}

/// A face: where it is, and what the lengths guarantee.
fn place(part: &Part, chain: &Chain, feature: Option<&Feature>, key: &str, value: &str, at: usize) -> Option<String> {
    let unit = part.units;
    let node = feature.and_then(|f| chain.ends.get(f.id).copied().flatten()).map(|(start, end)| match key {
        "to" => end,
        _ => start,
    });
    if let Some(node) = node {
        let station = chain.at[node]?;
        let mut out = format!("**{}**: {} from the datum end", chain.graph.faces[node].name, shown(station.0, unit));
        if let (Some(at), Some(far)) = (chain.at[node], chain.at[chain.far]) {
            let _ = write!(out, ", {} from the far end", shown(far - at, unit));
        }
        if let Some(worst) = chain.guaranteed(0, node) {
            let (max, min) = show::limits(worst, unit, decimals(unit));
            let _ = write!(out, "\n\nWorst case by the lengths it is made from: {min} … {max}");
        }
        return Some(out);
    }
    // An entry of `dims` or `accept`.
    let dim = part.dims.iter().position(|d| (d.place.start as usize..=d.place.end as usize).contains(&at));
    if let Some(index) = dim {
        let dim = &part.dims[index];
        let reference: &PlaceRef = if key == "from" { &dim.from } else { &dim.to };
        let station = chain.station(reference)?;
        let mut out = format!("**{value}**: {} from the datum end", shown(station.0, unit));
        if let Some((_, distance)) = chain.distances.iter().find(|(of, _)| *of == Some(index))
            && let Some(worst) = distance.worst_case
        {
            let (max, min) = show::limits(worst, unit, decimals(unit));
            let _ = write!(out, "\n\nThe distance: worst case {min} … {max}");
        }
        return Some(out);
    }
    None
}

/// The sizes of what a section carries.
fn carried(part: &Part, feature: Option<&Feature>, key: &str, at: usize) -> Option<String> {
    let carried = feature?.carries.iter().find(|c| (c.place.start as usize..=c.place.end as usize).contains(&at))?;
    let size_of = match key {
        "bore" => carried.bore.as_ref(),
        "wide" => carried.wide.as_ref(),
        "corner" => carried.corner.as_ref(),
        "land" => carried.land.as_ref(),
        _ => None,
    };
    size_of.map(|s| size(key, s, part.units))
}

/// A size with its limits and where they come from.
fn size(what: &str, size: &Size, unit: Unit) -> String {
    let Some(limits) = size.limits else {
        return format!("{what} {}, no limits known", shown(size.nominal, unit));
    };
    let from = match size.from {
        LimitsFrom::Written => "as written",
        LimitsFrom::General => "by the general tolerances",
        LimitsFrom::Fit => "by the fit",
        LimitsFrom::Standard => "by the standard",
        LimitsFrom::OneEnd => "one end only",
        LimitsFrom::Nothing => "no limits known",
    };
    let (max, min) = show::limits(limits, unit, decimals(unit));
    let mut out = format!("{what} {}: {min} … {max} {} ({from})", shown(size.nominal, unit), unit_word(unit));
    if size.unit != unit {
        let (max, min) = show::limits(limits, size.unit, decimals(size.unit));
        let _ = write!(out, "; {min} … {max} {}", unit_word(size.unit));
    }
    out
}

/// What the handbook knows of a material.
fn grade(value: &str) -> Option<String> {
    let found = material::find(value)?;
    let m = &found.material;
    let mut out = format!("**{}**, {}", m.name, m.family);
    if let Some(condition) = found.condition {
        let _ = write!(out, ", {}", condition.words());
    }
    let also: Vec<&str> = m.also.iter().copied().filter(|a| *a != m.name).collect();
    if !also.is_empty() {
        let _ = write!(out, "\n\nNear it in other standards: {}", also.join(", "));
    }
    let _ = write!(out, "\n\nHardness {} in the usual condition", m.hardness);
    for caution in &m.cautions {
        let _ = write!(out, "\n\n{}", caution.sentence());
    }
    Some(out)
}

/// What a check looks for.
fn check(id: &str) -> Option<String> {
    let check = crate::check::find(id.trim())?;
    let page = check.page.split("## Cases").next().unwrap_or_default();
    Some(page.trim().to_owned())
}

/// Digits that tell all a size has, within reason.
const fn decimals(unit: Unit) -> u8 {
    match unit {
        Unit::Inch => 4,
        Unit::Millimetre => 3,
    }
}

fn shown(length: Length, unit: Unit) -> String {
    show::exact(length, unit, show::usual_decimals(unit), decimals(unit) + 1)
}

const fn unit_word(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "in",
        Unit::Millimetre => "mm",
    }
}
