//! Grooves given by the ring that goes in: retaining rings by the shaft, O-rings by their size.

use super::features::{Header, Item};
use super::forms::Wants;
use super::outside::follows;
use super::reader::Reader;
use super::size::Role;
use super::taper::{Spans, station};
use crate::handbook::o_ring::{self, Motion};
use crate::handbook::retaining_ring;
use crate::model::feature::{Feature, Kind};
use crate::model::slip::BadSize;
use crate::model::{PlaceRef, Size, Text};
use crate::unit::{Length, Unit, read_number, show};

/// An O-ring groove whose bottom follows from the bore that closes it.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    section: Length,
    motion: Motion,
    bore: Option<Size>,
    from: PlaceRef,
    text: Text,
}

/// `ring groove: DIN 471 25`, `ring groove: B18.27 1`, `ring groove: 25`: everything by the shaft.
pub(super) fn ring(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    if item.fields.has("wide") {
        return super::lying::groove(r, item);
    }
    let from = from(r, item);
    let written = r.value(&item.main, Wants::RingGroove)?;
    let lower = written.text.to_lowercase();
    let named = [
        ("din 471", Unit::Millimetre),
        ("din471", Unit::Millimetre),
        ("asme b18.27", Unit::Inch),
        ("b18.27", Unit::Inch),
    ];
    let standard = named.iter().find_map(|(word, unit)| lower.strip_prefix(word).map(|rest| (rest, *unit)));
    let (rest, unit) = standard.unwrap_or((&lower, r.unit));
    let bare = rest.trim().trim_start_matches(['-', ':']).trim();
    let bare = bare.split(" x ").next().unwrap_or(bare).trim_end_matches("shaft").trim();
    let shaft = read_number(bare, unit).ok().map(|n| n.value);
    let Some(groove) = shaft.and_then(|s| retaining_ring::for_shaft(s, unit)) else {
        let near = shaft.and_then(|s| retaining_ring::shafts(unit).min_by_key(|o| (*o - s).abs()));
        let why = match near {
            Some(near) => BadSize::Designation(format!(
                "no ring for this shaft; the nearest is {}",
                show::exact(near, unit, 0, 4)
            )),
            None => BadSize::Form,
        };
        r.bad(written, written.place, why, Wants::RingGroove);
        return None;
    };
    let place = written.place;
    let name = if unit == Unit::Millimetre { "ring DIN 471" } else { "ring B18.27" };
    let text = format!("{name} {}", show::exact(groove.shaft, unit, 0, 4));
    let middle = |l: crate::unit::Limits, nominal| follows(r.unit, place, nominal, Some(l));
    Some(Kind::Groove {
        diameter: middle(groove.diameter, groove.diameter.max.min(groove.shaft)),
        from: from?,
        wide: middle(groove.width, groove.width.min),
        ring: Some(Size { reference: false, ..follows(r.unit, place, groove.ring, None) }),
        fits: Some(Text { text, place }),
    })
}

/// `o-ring groove: 2-214`, `3.53`, `3.53 x 25`: width from the table now, the bottom when its section is known.
pub(super) fn o_ring(r: &mut Reader<'_>, item: &Item<'_>, id: usize, later: &mut Vec<Raw>) -> Option<Kind> {
    if item.fields.has("wide") {
        return super::lying::groove(r, item);
    }
    let from = from(r, item);
    let bore = r.size(item.fields.get("bore"), Role::Bore);
    let sliding = r.yes_no(item.fields.get("sliding"));
    let written = r.value(&item.main, Wants::ORing)?;
    let motion = if sliding == Some(true) { Motion::Sliding } else { Motion::Static };
    let lower = written.text.to_lowercase().replace("as568", "").replace("o-ring", "");
    let Some(section) = section(lower.trim().trim_start_matches('-').trim(), r.unit) else {
        let known: Vec<String> = o_ring::sections().map(|s| show::exact(s, r.unit, 0, 3)).collect();
        let why = format!("no O-ring section of the series; they are {}", known.join(", "));
        r.bad(written, written.place, BadSize::Designation(why), Wants::ORing);
        return None;
    };
    let text = Text { text: format!("O-ring {}", written.text), place: written.place };
    later.push(Raw { id, section, motion, bore, from: from?, text });
    None
}

/// The cross-section: by the hundreds of an AS568 number, or as written.
fn section(text: &str, unit: Unit) -> Option<Length> {
    let dash = text.strip_prefix("2-").unwrap_or(text);
    if dash.len() == 3 && dash.chars().all(|c| c.is_ascii_digit()) {
        // AS568: -0xx .070, -1xx .103, -2xx .139, -3xx .210, -4xx .275.
        let series = [70, 103, 139, 210, 275];
        let hundreds = usize::try_from(dash.chars().next()?.to_digit(10)?).ok()?;
        return series.get(hundreds).map(|m| Length::micro_inches(m * 1000));
    }
    let first = text.split(['x', '×']).next().unwrap_or_default().trim();
    let size = read_number(first, unit).ok().map(|n| n.value)?;
    o_ring::gland(size, Motion::Static).map(|g| g.section.middle())
}

fn from(r: &mut Reader<'_>, item: &Item<'_>) -> Option<PlaceRef> {
    if !item.fields.has("from") {
        r.missing(item.main.key_place, "from", "a groove", "from: 0.254");
    }
    r.place(item.fields.get("from"))
}

/// Works the bottoms out: the bore less twice the depth; without a stated bore the section's own nominal size is taken for it.
pub(super) fn settle(r: &mut Reader<'_>, features: &mut [Feature], raws: Vec<Raw>, spans: &Spans, header: &Header) {
    for raw in raws {
        r.entry = Some(features[raw.id].place);
        let Some(gland) = o_ring::gland(raw.section, raw.motion) else { continue };
        let at = station(&raw.from, spans, header);
        let host = at.and_then(|at| {
            let there = |f: &&Feature| spans[f.id].is_some_and(|(from, to)| from <= at && at < to);
            features.iter().find(there).and_then(|f| super::taper::nominal(&f.kind))
        });
        let Some(bore) = raw.bore.as_ref().map(|b| b.nominal).or(host) else {
            r.missing(features[raw.id].head, "bore", "an O-ring groove", "bore: 1.250");
            continue;
        };
        let place = raw.text.place;
        let bottom = gland.groove_in(bore);
        let nominal = bottom.middle();
        features[raw.id].kind = Kind::Groove {
            diameter: follows(r.unit, place, nominal, Some(bottom)),
            from: raw.from,
            wide: follows(r.unit, place, gland.width.min, Some(gland.width)),
            ring: None,
            fits: Some(raw.text),
        };
    }
    r.entry = None;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_by_number_and_size() {
        let inch = |t: &str| section(t, Unit::Inch).map(|l| (l.inches() * 1000.0).round() as i64);
        // AS568 dash numbers: 2-214 is .139 thick (any O-ring handbook; from memory).
        assert_eq!(
            (inch("2-214"), inch("012"), inch("425"), inch("0.139")),
            (Some(139), Some(70), Some(275), Some(139))
        );
        assert_eq!(section("3.53 x 25", Unit::Millimetre).map(Length::inches), Some(0.139));
        assert_eq!(section("9", Unit::Millimetre), None);
    }
}
