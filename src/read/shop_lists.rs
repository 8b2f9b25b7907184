//! The lists of a shop file: gears, gearbox, chucks, tools, wires, instruments.

use super::forms::Wants;
use super::keys::{self, Scope};
use super::reader::{Field, Fields, Reader, items};
use super::shop::{half_width, positive};
use super::size::Role;
use super::tree::{Body, Written};
use crate::handbook::drill;
use crate::model::Shop;
use crate::model::shop::{Chuck, DividingHead, Dog, Instrument, Tool, ToolKind};
use crate::model::slip::{BadSize, Fault};
use crate::unit::{Length, Unit, read_number};

/// Reads every list.
pub(super) fn read(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    shop.speeds = counts(r, f.get("speeds"));
    shop.speeds.sort_unstable();
    shop.change_gears = counts(r, f.get("change gears"));
    shop.feeds = lengths(r, f.get("feeds"));
    shop.feeds.sort_unstable();
    shop.collets = lengths(r, f.get("collets"));
    shop.mandrels = lengths(r, f.get("mandrels"));
    if let Some(fields) = f.get("dividing head").and_then(|d| r.fields("dividing head", d.value, Scope::DividingHead)) {
        let ratio = fields.get("ratio").and_then(|f| r.value(&f, Wants::Number)).and_then(|w| r.count_of(w));
        let circles = counts(r, fields.get("circles"));
        // Forty to one is what nearly all have.
        shop.dividing_head = Some(DividingHead { ratio: ratio.unwrap_or(40).max(1), circles });
    }
    shop.wires = lengths(r, f.get("wires"));
    shop.thread_rings = texts(r, f.get("thread rings"));
    shop.centers = texts(r, f.get("centers"));
    if let Some(fields) = f.get("threads").and_then(|g| r.fields("threads", g.value, Scope::Gearbox)) {
        shop.tpi = gearbox(r, fields.get("tpi"));
        shop.pitches = metric(r, fields.get("pitches"));
    }
    shop.chucks = items(f.get("chucks")).into_iter().filter_map(|i| chuck(r, i)).collect();
    shop.dogs = items(f.get("dogs")).into_iter().filter_map(|i| dog(r, i)).collect();
    shop.rests = items(f.get("rests")).into_iter().filter_map(|i| rest(r, i)).collect();
    shop.tools = items(f.get("tools")).into_iter().filter_map(|i| tool(r, i)).collect();
    shop.instruments = items(f.get("instruments")).into_iter().filter_map(|i| instrument(r, i)).collect();
}

fn counts(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<u32> {
    let items = items(field);
    items.iter().filter_map(|i| r.value(i, Wants::Number).and_then(|w| r.count_of(w))).collect()
}

fn lengths(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Length> {
    items(field).into_iter().filter_map(|i| positive(r, Some(i))).collect()
}

fn texts(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<String> {
    items(field).into_iter().filter_map(|i| r.text(Some(i))).map(|t| t.text).collect()
}

fn gearbox(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<(i64, i64)> {
    let mut all = Vec::new();
    for item in items(field) {
        let Some(written) = r.value(&item, Wants::Number) else { continue };
        match threads_per_inch(written.text) {
            Some(tpi) => all.push(tpi),
            None => r.bad(written, written.place, BadSize::Form, Wants::Number),
        }
    }
    all
}

/// Pitches are millimetres, whatever the file's unit.
fn metric(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Length> {
    let unit = std::mem::replace(&mut r.unit, Unit::Millimetre);
    let pitches = lengths(r, field);
    r.unit = unit;
    pitches
}

/// `8`, `11.5`, `4 1/2` threads per inch as a fraction in lowest terms.
pub(super) fn threads_per_inch(text: &str) -> Option<(i64, i64)> {
    let number = read_number(text, Unit::Inch).ok().filter(|n| !n.own_unit && n.value.is_positive())?;
    let (n, d) = (number.value.pm(), Length::PER_INCH.pm());
    let g = gcd(n, d);
    Some((n / g, d / g))
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

fn chuck(r: &mut Reader<'_>, item: Field<'_>) -> Option<Chuck> {
    let fields = r.fields("chucks", item.value, Scope::Chuck)?;
    if !fields.has("jaws") {
        r.missing(fields.place, "jaws", "an entry of chucks", "jaws: 3");
    }
    let jaws = fields.get("jaws").and_then(|f| r.value(&f, Wants::Number)).and_then(|w| r.count_of(w));
    Some(Chuck {
        largest: positive(r, fields.get("largest")),
        jaw_length: positive(r, fields.get("jaw length")),
        runout: r.size(fields.get("runout"), Role::Bare).map(|s| s.nominal.abs()),
        jaws: jaws?,
    })
}

fn dog(r: &mut Reader<'_>, item: Field<'_>) -> Option<Dog> {
    if item.value.written().is_some() {
        return positive(r, Some(item)).map(|largest| Dog { largest, long: None });
    }
    let fields = r.fields("dogs", item.value, Scope::Dog)?;
    if !fields.has("largest") {
        r.missing(fields.place, "largest", "an entry of dogs", "largest: 1.500");
    }
    let long = positive(r, fields.get("long"));
    Some(Dog { largest: positive(r, fields.get("largest"))?, long })
}

fn rest(r: &mut Reader<'_>, item: Field<'_>) -> Option<(String, Option<(Length, Length)>)> {
    const KNOWN: &[&str] = &["steady", "follow", "steady rest", "follow rest", "fixed steady", "travelling steady"];
    let kind =
        |word: &str| if matches!(word, "follow" | "follow rest" | "travelling steady") { "follow" } else { "steady" };
    if !matches!(item.value.body, Body::Keys(_)) {
        let written = r.value(&item, Wants::Words)?;
        return r.word(written, KNOWN, "rests").map(|w| (kind(w).to_owned(), None));
    }
    let fields = r.fields("rests", item.value, Scope::Rest)?;
    if !fields.has("rest") {
        r.missing(fields.place, "rest", "an entry of rests", "rest: steady");
    }
    let smallest = r.size(fields.get("smallest"), Role::Bare).map_or(Length::ZERO, |s| s.nominal);
    let range = positive(r, fields.get("largest")).map(|largest| (smallest, largest));
    let written = fields.get("rest").and_then(|f| r.value(&f, Wants::Words))?;
    r.word(written, KNOWN, "rest").map(|w| (kind(w).to_owned(), range))
}

/// Kinds of tool with their other names.
const TOOLS: &[(&str, ToolKind)] = &[
    ("facing", ToolKind::Facing),
    ("roughing", ToolKind::Roughing),
    ("turning", ToolKind::Roughing),
    ("finishing", ToolKind::Finishing),
    ("grooving", ToolKind::Grooving),
    ("recessing", ToolKind::Grooving),
    ("parting", ToolKind::Parting),
    ("cut off", ToolKind::Parting),
    ("threading 60°", ToolKind::Threading60),
    ("threading 60", ToolKind::Threading60),
    ("threading", ToolKind::Threading60),
    ("screw cutting", ToolKind::Threading60),
    ("threading to the form", ToolKind::ThreadingForm),
    ("threading, to the form", ToolKind::ThreadingForm),
    ("acme 29°", ToolKind::Acme29),
    ("acme 29", ToolKind::Acme29),
    ("acme", ToolKind::Acme29),
    ("chamfer", ToolKind::Chamfer),
    ("chamfering", ToolKind::Chamfer),
    ("center drill", ToolKind::CenterDrill),
    ("drill", ToolKind::Drill),
    ("reamer", ToolKind::Reamer),
    ("tap", ToolKind::Tap),
    ("boring", ToolKind::Boring),
    ("boring bar", ToolKind::Boring),
    ("knurl", ToolKind::Knurl),
    ("knurling", ToolKind::Knurl),
    ("woodruff cutter", ToolKind::WoodruffCutter),
    ("woodruff", ToolKind::WoodruffCutter),
    ("end mill", ToolKind::EndMill),
    ("slot drill", ToolKind::EndMill),
    ("file", ToolKind::File),
    ("abrasive strip", ToolKind::AbrasiveStrip),
    ("emery strip", ToolKind::AbrasiveStrip),
    ("emery cloth", ToolKind::AbrasiveStrip),
];

fn tool(r: &mut Reader<'_>, item: Field<'_>) -> Option<Tool> {
    if !matches!(item.value.body, Body::Keys(_)) {
        let written = r.value(&item, Wants::Words)?;
        let kind = tool_kind(r, written)?;
        let place = item.value.place;
        return Some(Tool {
            kind,
            width: None,
            nose: None,
            reach: None,
            diameter: None,
            number: None,
            size: None,
            place,
        });
    }
    let fields = r.fields("tools", item.value, Scope::Tool)?;
    if !fields.has("tool") {
        r.missing(fields.place, "tool", "an entry of tools", "tool: grooving");
    }
    let (width, nose) =
        (positive(r, fields.get("width")), r.size(fields.get("nose"), Role::Bare).map(|s| s.nominal.abs()));
    let (reach, diameter) = (positive(r, fields.get("reach")), positive(r, fields.get("diameter")));
    let (number, size) = (r.text(fields.get("number")).map(|t| t.text), r.text(fields.get("size")).map(|t| t.text));
    let written = fields.get("tool").and_then(|f| r.value(&f, Wants::Words))?;
    let kind = tool_kind(r, written)?;
    let diameter = diameter.or_else(|| cutting_diameter(r, &fields, kind));
    told_otherwise(r, &fields, kind);
    Some(Tool { kind, width, nose, reach, diameter, number, size, place: fields.place })
}

/// The diameter of what is bought by it, where it stands as its size: `5/8`, `16 mm`; a drill's also as its number or letter.
fn cutting_diameter(r: &mut Reader<'_>, fields: &Fields<'_>, kind: ToolKind) -> Option<Length> {
    if !matches!(kind, ToolKind::Drill | ToolKind::Reamer | ToolKind::EndMill | ToolKind::Boring) {
        return None;
    }
    let named = |key: &str| {
        let text = fields.get(key)?.value.written()?.text.to_owned();
        (kind == ToolKind::Drill).then(|| drill::find(&text)).flatten().map(|d| d.diameter)
    };
    if let Some(found) = named("number").or_else(|| named("size")) {
        return Some(found);
    }
    positive(r, fields.get("size"))
}

/// Keys that say nothing of such a tool, with the one that would.
fn told_otherwise(r: &mut Reader<'_>, fields: &Fields<'_>, kind: ToolKind) {
    let pairs: &[(&'static str, &'static str)] = match kind {
        ToolKind::Tap => &[("diameter", "size: M8"), ("number", "size: 10-32"), ("width", "size: M8")],
        ToolKind::CenterDrill => &[("diameter", "size: A 2.5"), ("width", "size: A 2.5")],
        ToolKind::Drill | ToolKind::Reamer | ToolKind::EndMill => &[("width", "diameter")],
        ToolKind::Grooving | ToolKind::Parting => &[("diameter", "width"), ("size", "width")],
        ToolKind::WoodruffCutter => &[("size", "number: 606")],
        _ => &[],
    };
    let has = |key: &str| fields.has(key.split(':').next().unwrap_or(key));
    for (key, instead) in pairs.iter().filter(|(_, instead)| !has(instead)) {
        if let Some(field) = fields.get(key) {
            let word = (*key).to_owned();
            r.slip(field.value.place, Fault::WrittenElse { word, within: "such a tool", instead });
        }
    }
}

fn tool_kind(r: &mut Reader<'_>, written: Written<'_>) -> Option<ToolKind> {
    let folded = keys::fold(written.text);
    let word = folded.strip_suffix(" tool").unwrap_or(&folded);
    if let Some((_, kind)) = TOOLS.iter().find(|(w, _)| *w == word) {
        return Some(*kind);
    }
    let nearest = keys::nearest_of(word, TOOLS.iter().map(|(w, kind)| (*w, kind.word())));
    r.unknown_value(written, "tools", nearest, tool_words().into_iter().map(str::to_owned).collect());
    None
}

/// The kinds of tool by their words, each once.
pub(super) fn tool_words() -> Vec<&'static str> {
    let mut known: Vec<&'static str> = TOOLS.iter().map(|(_, kind)| kind.word()).collect();
    known.dedup();
    known
}

/// Kinds of instrument.
pub(super) const INSTRUMENTS: &[&str] =
    &["micrometer", "caliper", "depth micrometer", "dial indicator", "height gauge", "thread ring"];

fn instrument(r: &mut Reader<'_>, item: Field<'_>) -> Option<Instrument> {
    let fields = r.fields("instruments", item.value, Scope::Instrument)?;
    if !fields.has("instrument") {
        r.missing(fields.place, "instrument", "an entry of instruments", "instrument: micrometer");
    }
    let range = fields.get("range").and_then(|f| r.value(&f, Wants::Range)).and_then(|w| range(r, w));
    let error = fields.get("error").and_then(|f| half_width(r, f));
    let written = fields.get("instrument").and_then(|f| r.value(&f, Wants::Words))?;
    let kind = r.word(written, INSTRUMENTS, "instruments")?.to_owned();
    let (range, unit) = range.map_or((None, r.unit), |(range, unit)| (Some(range), unit));
    Some(Instrument { kind, range, error, unit })
}

/// `0..1`, `0-1`, `0 to 25 mm`: a unit behind the second number is the first one's too.
fn range(r: &mut Reader<'_>, written: Written<'_>) -> Option<((Length, Length), Unit)> {
    let text = written.text;
    let cut = [" to ", "..", "-", "\u{2013}"].iter().find_map(|mark| text.split_once(mark));
    let ends = cut.and_then(|(from, to)| {
        let to = read_number(to.trim_matches(['.', ' ']), r.unit).ok()?;
        let from = read_number(from.trim(), to.unit).ok()?;
        Some(((from.value, to.value), to.unit)).filter(|((from, to), _)| from <= to)
    });
    if ends.is_none() {
        r.bad(written, written.place, BadSize::Form, Wants::Range);
    }
    ends
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn threads_per_inch_are_fractions() {
        assert_eq!(threads_per_inch("8"), Some((8, 1)));
        assert_eq!(threads_per_inch("4 1/2"), Some((9, 2)));
        assert_eq!(threads_per_inch("11.5"), Some((23, 2)));
        assert_eq!(threads_per_inch("0"), None);
        assert_eq!(threads_per_inch("3 mm"), None);
    }
}
