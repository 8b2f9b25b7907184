//! Tapers: the rate as written, and which end is the large one.

use super::features::{Header, Item};
use super::forms::Wants;
use super::reader::Reader;
use super::sections::extent;
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::model::feature::{Extent, Feature, Kind};
use crate::model::slip::BadSize;
use crate::model::{End, FaceSide, LimitsFrom, PlaceRef, Size, Text};
use crate::unit::{Length, NumberForm, ToleranceText, Unit, read_number, show};

/// A taper whose ends are settled when its neighbours are known.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    rate: Rate,
    text: Text,
    large: Option<Size>,
    small: Option<Size>,
    toward: Option<End>,
    key: Place,
}

/// How fast a taper grows.
#[derive(Debug, Clone, Copy)]
enum Rate {
    /// On the diameter: so much over so long.
    Ratio(Length, Length),
    /// Half of the included angle, degrees.
    Half(f64),
}

impl Rate {
    fn half_angle(self) -> f64 {
        match self {
            Self::Ratio(grows, over) => (grows.pm() as f64 / over.pm() as f64 / 2.0).atan().to_degrees(),
            Self::Half(degrees) => degrees,
        }
    }

    /// Difference of the diameters over a length.
    fn over(self, long: Length) -> Length {
        match self {
            Self::Ratio(grows, over) => long.times_ratio(grows.pm(), over.pm()),
            Self::Half(degrees) => {
                Length::from_pm((2.0 * long.pm() as f64 * degrees.to_radians().tan()).round() as i64)
            }
        }
    }
}

/// `taper: 1:10`, with `large` and/or `small`.
pub(super) fn read(r: &mut Reader<'_>, item: &Item<'_>, id: usize, later: &mut Vec<Raw>) -> Option<Kind> {
    if let Some(field) = item.fields.get("gauge line") {
        r.not_supported(field.key_place, "gauge line");
    }
    let large = r.size(item.fields.get("large"), Role::Diameter);
    let small = r.size(item.fields.get("small"), Role::Diameter);
    let toward = r.end(item.fields.get("tapers to"));
    let written = r.value(&item.main, Wants::Taper)?;
    if is_socket(written.text) {
        r.not_supported(written.place, "taper by its number");
        return None;
    }
    let rate = rate(r, written)?;
    if large.is_none() && small.is_none() {
        let said = item.fields.has("large") || item.fields.has("small");
        if !said {
            r.missing(item.main.key_place, "large", "a taper", "large: 0.750");
        }
        return None;
    }
    let text = Text { text: written.text.to_owned(), place: written.place };
    later.push(Raw { id, rate, text, large, small, toward, key: item.main.key_place });
    // Until its neighbours are known it only keeps its length.
    Some(Kind::NotYet { word: "taper".to_owned(), to: Some(extent(item)) })
}

/// `MT3`, `Morse 2`, `B&S 7`, `Jarno 5`: a series of sockets.
fn is_socket(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    ["mt", "morse", "b&s", "brown", "jarno", "jt", "jacobs", "metric"].iter().any(|s| lower.starts_with(s))
}

fn rate(r: &mut Reader<'_>, written: Written<'_>) -> Option<Rate> {
    let lower = written.text.to_lowercase();
    let found = if let Some((one, long)) = lower.split_once(':') {
        let size = |t: &str| read_number(t.trim(), Unit::Millimetre).ok().map(|n| n.value).filter(|v| v.is_positive());
        size(one).zip(size(long)).map(|(grows, over)| Rate::Ratio(grows, over))
    } else if let Some(grows) = lower.strip_suffix("per foot").or_else(|| lower.strip_suffix("/ft")) {
        let grows = read_number(grows.trim(), Unit::Inch).ok().map(|n| n.value).filter(|v| v.is_positive());
        grows.map(|grows| Rate::Ratio(grows, Length::PER_INCH.times(12)))
    } else {
        let a_side = lower.strip_suffix("a side").or_else(|| lower.strip_suffix("per side"));
        let half = super::angle::angle_text(a_side.unwrap_or(&lower)).map(|m| m as f64 / 1000.0);
        half.map(|h| Rate::Half(if a_side.is_some() { h } else { h / 2.0 }))
            .filter(|rate| matches!(rate, Rate::Half(h) if *h > 0.0 && *h < 80.0))
    };
    if found.is_none() {
        r.bad(written, written.place, BadSize::Form, Wants::Taper);
    }
    found
}

/// Settles which end of each taper is the large one, and works the diameter that is not stated.
pub(super) fn settle(r: &mut Reader<'_>, features: &mut [Feature], tapers: Vec<Raw>, header: &Header) {
    if tapers.is_empty() {
        return;
    }
    let spans = spans(features, header);
    for raw in tapers {
        r.entry = Some(features[raw.id].place);
        if let Some(kind) = settled(r, features, &spans, raw) {
            let (id, kind) = kind;
            features[id].kind = kind;
        }
    }
    r.entry = None;
}

fn settled(
    r: &mut Reader<'_>,
    features: &[Feature],
    spans: &[Option<(Length, Length)>],
    raw: Raw,
) -> Option<(usize, Kind)> {
    let to = features[raw.id].kind.extent()?.clone();
    let Some(toward) = raw.toward.or_else(|| toward(features, raw.id)) else {
        r.missing(raw.key, "tapers to", "a taper", "tapers to: far");
        return None;
    };
    let (large, small) = match (raw.large, raw.small) {
        (Some(large), Some(small)) => (large, small),
        (large, small) => {
            let long = spans[raw.id].map(|(from, to)| to - from).filter(|l| l.is_positive());
            let Some(long) = long else {
                let key = if large.is_some() { "small" } else { "large" };
                r.missing(raw.key, key, "a taper", if key == "small" { "small: 0.500" } else { "large: 0.750" });
                return None;
            };
            let step = raw.rate.over(long);
            match (large, small) {
                (Some(large), _) => {
                    let small = worked(r, large.nominal - step, raw.text.place);
                    (large, small)
                }
                (None, Some(small)) => (worked(r, small.nominal + step, raw.text.place), small),
                (None, None) => return None,
            }
        }
    };
    let (start, end) = if toward == End::Far { (large, small) } else { (small, large) };
    let half_angle_deg = raw.rate.half_angle();
    Some((raw.id, Kind::Taper { start, end, half_angle_deg, rate: raw.text, to }))
}

/// A diameter that follows from the others; for reference only.
fn worked(r: &Reader<'_>, nominal: Length, place: Place) -> Size {
    Size {
        nominal,
        limits: None,
        from: LimitsFrom::Nothing,
        tolerance: ToleranceText::None,
        unit: r.unit,
        form: NumberForm::Decimal(show::decimals_needed(nominal, r.unit, 0, 6)),
        reference: true,
        place,
        text: show::exact(nominal, r.unit, show::usual_decimals(r.unit), 6),
    }
}

/// The end a taper gets smaller toward: the side of its smaller neighbour; the part's end counts as nothing.
fn toward(features: &[Feature], id: usize) -> Option<End> {
    let sections: Vec<&Feature> = features.iter().filter(|f| f.kind.is_section()).collect();
    let i = sections.iter().position(|f| f.id == id)?;
    let size = |f: Option<&&Feature>| match f.map(|f| &f.kind) {
        None => Some(Length::ZERO),
        Some(Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. }) => Some(diameter.nominal),
        Some(Kind::Thread { thread, .. }) => Some(thread.nominal),
        Some(_) => None,
    };
    let before = size(i.checked_sub(1).and_then(|i| sections.get(i)))?;
    let behind = size(sections.get(i + 1))?;
    match before.cmp(&behind) {
        std::cmp::Ordering::Greater => Some(End::Far),
        std::cmp::Ordering::Less => Some(End::Datum),
        std::cmp::Ordering::Equal => None,
    }
}

/// Nominal ends of the sections as far as they can be told without a chain.
fn spans(features: &[Feature], header: &Header) -> Vec<Option<(Length, Length)>> {
    let mut spans: Vec<Option<(Length, Length)>> = vec![None; features.len()];
    let mut so_far = Some(Length::ZERO);
    let last = features.iter().rfind(|f| f.kind.is_section()).map(|f| f.id);
    for feature in features {
        let Some(extent) = feature.kind.extent() else { continue };
        let end = match extent {
            Extent::To(place) | Extent::Both(place, _) => station(place, &spans, header),
            Extent::Long(size) => so_far.map(|s| s + size.nominal),
            Extent::Open if Some(feature.id) == last => header.overall,
            Extent::Open => None,
        };
        spans[feature.id] = so_far.zip(end);
        so_far = end;
    }
    spans
}

fn station(place: &PlaceRef, spans: &[Option<(Length, Length)>], header: &Header) -> Option<Length> {
    match place {
        PlaceRef::FromDatum(size) => Some(size.nominal),
        PlaceRef::FarEnd(_) => header.overall,
        PlaceRef::Face { feature, side, .. } => spans.get(*feature).copied().flatten().map(|(from, to)| match side {
            FaceSide::Start => from,
            FaceSide::End => to,
        }),
        PlaceRef::Relative { size, of } => station(of, spans, header).map(|s| s + size.nominal),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rates_agree() {
        // TRADE P6: 1:10 over 30 mm takes 3 mm off the diameter, half-angle 2.8624 degrees.
        let ratio = Rate::Ratio(Length::PER_MM, Length::PER_MM.times(10));
        assert_eq!(ratio.over(Length::PER_MM.times(30)), Length::PER_MM.times(3));
        assert!((ratio.half_angle() - 2.8624).abs() < 5e-5);
        let off = Rate::Half(2.8624).over(Length::PER_MM.times(30)) - Length::PER_MM.times(3);
        assert!(off.abs() < Length::micrometres(1));
    }
}
