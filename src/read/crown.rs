//! Crowned ends: `crown: 0.750 radius` or `crown: 0.060 high`, with `end`.

use super::features::{Header, Item};
use super::forms::Wants;
use super::reader::Reader;
use super::size::Role;
use super::taper::Spans;
use super::tree::Written;
use crate::finding::Place;
use crate::model::feature::{Crown, Ends, Feature, Kind};
use crate::model::slip::BadSize;
use crate::model::{End, Size};
use crate::unit::{Length, Unit, show};

/// A crown whose end is known and whose section is not yet.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    size: Size,
    high: bool,
    end: End,
    text: String,
    place: Place,
}

/// What the size is: a bare number could be either and is refused.
fn words(written: Written<'_>) -> Option<(Written<'_>, bool)> {
    let text = written.text;
    let lower = text.to_ascii_lowercase();
    for (word, high) in [("high", true), ("height", true), ("deep", true), ("radius", false), ("rad", false)] {
        if let Some(rest) = lower.strip_suffix(word) {
            return Some((written.cut(0..rest.len()), high));
        }
    }
    for (word, high) in [("height", true), ("radius", false), ("r", false)] {
        if lower.starts_with(word) {
            return Some((written.cut(word.len()..text.len()), high));
        }
    }
    None
}

/// Reads one; its shape is settled when the section at its end is known.
pub(super) fn read(
    r: &mut Reader<'_>,
    item: &Item<'_>,
    id: usize,
    later: &mut Vec<Raw>,
    both: &mut Vec<usize>,
) -> Option<Kind> {
    let Some(field) = item.fields.get("end") else {
        r.missing(item.main.key_place, "end", "a crown", "end: far");
        return None;
    };
    let end = match r.ends(Some(field))? {
        Ends::One(end) => end,
        Ends::Both => {
            both.push(id);
            End::Datum
        }
    };
    let written = r.value(&item.main, Wants::Crown)?;
    let Some((size, high)) = words(written) else {
        let why = "it says not whether this is the radius of the crown or its height".to_owned();
        r.bad(written, written.place, BadSize::Designation(why), Wants::Crown);
        return None;
    };
    let size = r.size_of(size, Role::Bare, Wants::Crown)?;
    later.push(Raw { id, size, high, end, text: written.text.to_owned(), place: written.place });
    None
}

/// Works radius and height of each from the diameter at its end. Plain geometry: h = R − √(R² − r²), R = (r² + h²) / 2h.
pub(super) fn settle(
    r: &mut Reader<'_>,
    features: &mut Vec<Feature>,
    raws: Vec<Raw>,
    spans: &Spans,
    header: &Header,
    both: &[usize],
) {
    for raw in raws {
        r.entry = Some(features[raw.id].place);
        let ends: &[End] = if both.contains(&raw.id) { &[End::Datum, End::Far] } else { &[raw.end] };
        for (i, end) in ends.iter().enumerate() {
            let Some(crown) = settled(r, features, &raw, *end, spans, header) else { break };
            let kind = Kind::Crown { crown: Box::new(crown) };
            if i == 0 {
                features[raw.id].kind = kind;
            } else {
                let mut second = features[raw.id].clone();
                (second.id, second.name, second.kind) = (features.len(), None, kind);
                features.push(second);
            }
        }
    }
    r.entry = None;
}

fn settled(
    r: &mut Reader<'_>,
    features: &[Feature],
    raw: &Raw,
    end: End,
    spans: &Spans,
    header: &Header,
) -> Option<Crown> {
    let mut sections = features.iter().filter(|f| f.kind.is_section());
    let section = if end == End::Datum { sections.next() } else { sections.next_back() }?;
    let over = end_diameter(section, end, header)?;
    let long = spans.get(section.id).copied().flatten().map(|(from, to)| to - from);
    let refuse = |r: &mut Reader<'_>, why: String| {
        let written = Written { text: &raw.text, place: raw.place, exact: false };
        r.bad(written, raw.place, BadSize::Designation(why), Wants::Crown);
        None
    };
    let shown = |l: Length| show::exact(l, raw.size.unit, show::usual_decimals(raw.size.unit), 4);
    let (half, own) = (over.half().mm(), raw.size.nominal.mm());
    let mm = |v: f64| Length::from_f64(v, Unit::Millimetre);
    let (radius, height) = if raw.high {
        if own > half {
            return refuse(
                r,
                format!("a crown over \u{d8} {} is at most {} high, half of it", shown(over), shown(over.half())),
            );
        }
        (mm((half * half + own * own) / (2.0 * own)), raw.size.nominal)
    } else {
        if raw.size.nominal < over.half() {
            let least = shown(over.half());
            return refuse(
                r,
                format!("a crown over \u{d8} {} has a radius of at least {least}, half of it", shown(over)),
            );
        }
        (raw.size.nominal, mm(own - (own * own - half * half).max(0.0).sqrt()))
    };
    if long.is_some_and(|long| height > long) {
        return refuse(r, format!("the crown is {} high and the section at this end is shorter", shown(height)));
    }
    Some(Crown { size: raw.size.clone(), high: raw.high, radius, height, over, end, section: section.id })
}

/// Nominal diameter at an end of the part.
fn end_diameter(section: &Feature, end: End, header: &Header) -> Option<Length> {
    match &section.kind {
        Kind::Turn { diameter, kept: true, .. } => {
            header.shape.map(|s| s.across_corners(diameter.nominal)).or(Some(diameter.nominal))
        }
        Kind::Taper { start, end: stop, .. } => Some(if end == End::Datum { start.nominal } else { stop.nominal }),
        other => super::taper::nominal(other),
    }
    .filter(|d| d.is_positive())
}
