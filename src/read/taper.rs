//! Tapers: the rate as written, and which end is the large one.

use super::features::{Header, Item};
use super::forms::Wants;
use super::reader::Reader;
use super::sections::extent;
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::handbook::taper as book;
use crate::model::feature::{Extent, Feature, Kind};
use crate::model::slip::BadSize;
use crate::model::{End, FaceSide, LimitsFrom, PlaceRef, Size, Text};
use crate::unit::{Length, NumberForm, ToleranceText, Unit, read_number, show};

/// A half angle from which on it is no taper, degrees.
const STEEPEST: f64 = 80.0;

/// A taper whose ends are settled when its neighbours are known.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    rate: Rate,
    text: Text,
    large: Option<Size>,
    small: Option<Size>,
    gauge: Option<(Size, PlaceRef)>,
    toward: Option<End>,
    key: Place,
}

/// How fast a taper grows.
#[derive(Debug, Clone, Copy)]
pub(super) enum Rate {
    /// On the diameter: so much over so long.
    Ratio(Length, Length),
    /// Half of the included angle, degrees.
    Half(f64),
    /// Of a taper known by its number.
    Named(book::Rate),
    /// By the two diameters and the length between them.
    Ends,
}

impl Rate {
    pub(super) fn half_angle(self) -> f64 {
        match self {
            Self::Ratio(grows, over) => (grows.pm() as f64 / over.pm() as f64 / 2.0).atan().to_degrees(),
            Self::Half(degrees) => degrees,
            Self::Named(rate) => rate.half_angle(),
            Self::Ends => 0.0,
        }
    }

    /// Difference of the diameters over a length.
    pub(super) fn over(self, long: Length) -> Length {
        match self {
            Self::Ratio(grows, over) => long.times_ratio(grows.pm(), over.pm()),
            Self::Half(degrees) => {
                Length::from_pm((2.0 * long.pm() as f64 * degrees.to_radians().tan()).round() as i64)
            }
            Self::Named(rate) => rate.over(long),
            Self::Ends => Length::ZERO,
        }
    }
}

/// `taper: 1:10`, `MT3`, `1.250 to 1.000`, with `large`, `small` or `gauge line`.
pub(super) fn read(r: &mut Reader<'_>, item: &Item<'_>, id: usize, later: &mut Vec<Raw>) -> Option<Kind> {
    let mut large = r.size(item.fields.get("large"), Role::Diameter);
    let mut small = r.size(item.fields.get("small"), Role::Diameter);
    let mut toward = r.end(item.fields.get("tapers to"));
    let written = r.value(&item.main, Wants::Taper)?;
    let text = Text { text: written.text.to_owned(), place: written.place };
    let named = named(r, written).ok()?;
    let rate = match &named {
        Some(found) => Rate::Named(found.rate),
        None => match written.split_at_mark(" to ") {
            Some((start, end)) => {
                let start = r.size_of(start, Role::Diameter, Wants::Diameter)?;
                let end = r.size_of(end, Role::Diameter, Wants::Diameter)?;
                toward = Some(if start.nominal > end.nominal { End::Far } else { End::Datum });
                let (one, other) = if start.nominal > end.nominal { (start, end) } else { (end, start) };
                (large, small) = (Some(one), Some(other));
                Rate::Ends
            }
            None => rate_of(r, written)?,
        },
    };
    let found = named;
    let gauge = gauge_line(r, item, found.as_ref());
    if let (Some(found), None, None, None) = (&found, &large, &small, &gauge) {
        // A taper known by its number has its gauge line at the large end unless more is said.
        let known = |at: Option<Length>| at.map(|d| super::outside::follows(r.unit, written.place, d, None));
        (large, small) = (known(found.large), if found.large.is_some() { None } else { known(found.small) });
    }
    if large.is_none() && small.is_none() && gauge.is_none() {
        if !["large", "small", "gauge line"].iter().any(|k| item.fields.has(k)) {
            r.missing(item.main.key_place, "large", "a taper", "large: 0.750");
        }
        return None;
    }
    later.push(Raw { id, rate, text, large, small, gauge, toward, key: item.main.key_place });
    // Until its neighbours are known it only keeps its length.
    Some(Kind::NotYet { word: "taper".to_owned(), to: Some(extent(item)) })
}

/// A taper known by its number; none for one that is written otherwise.
///
/// # Errors
/// Where no taper has the number: it is told.
pub(super) fn named(r: &mut Reader<'_>, written: Written<'_>) -> Result<Option<book::Taper>, ()> {
    if !is_socket(written.text) {
        return Ok(None);
    }
    if let Ok(found) = book::find(written.text) {
        return Ok(Some(found));
    }
    let why = "no taper has this number; known are Morse 0 to 7, Brown & Sharpe 1 to 18, Jarno 2 to 20, Jacobs 0 to 33";
    r.bad(written, written.place, BadSize::Designation(why.to_owned()), Wants::Taper);
    Err(())
}

/// `gauge line: 0.938 at 3.250`; a taper known by its number has the diameter itself, so that the place alone will do.
fn gauge_line(r: &mut Reader<'_>, item: &Item<'_>, named: Option<&book::Taper>) -> Option<(Size, PlaceRef)> {
    let field = item.fields.get("gauge line")?;
    let written = r.value(&field, Wants::Place)?;
    if let Some((size, at)) = written.split_at_mark(" at ") {
        let size = r.size_of(size, Role::Diameter, Wants::Diameter);
        return Some((size?, r.place_of(at)?));
    }
    let Some(diameter) = named.and_then(|n| n.large) else {
        let why = "the diameter of the gauge line and its place belong here: `0.938 at 3.250`";
        r.bad(written, written.place, BadSize::Designation(why.to_owned()), Wants::Place);
        return None;
    };
    let size = super::outside::follows(r.unit, written.place, diameter, None);
    Some((size, r.place_of(written)?))
}

/// `MT3`, `Morse 2`, `B&S 7`, `Jarno 5`: a series of sockets.
fn is_socket(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    ["mt", "mk", "morse", "b&s", "b & s", "brown", "jarno", "jt", "jacobs"].iter().any(|s| lower.starts_with(s))
}

/// Reads how fast a taper grows.
pub(super) fn rate_of(r: &mut Reader<'_>, written: Written<'_>) -> Option<Rate> {
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
            .filter(|rate| matches!(rate, Rate::Half(h) if *h > 0.0 && *h < STEEPEST))
    };
    let Some(found) = found else {
        r.bad(written, written.place, BadSize::Form, Wants::Taper);
        return None;
    };
    // A ratio of anything to next to nothing would carry a diameter past all measure.
    if !matches!(found, Rate::Half(_)) && found.half_angle() >= STEEPEST {
        let why = format!("steeper than {STEEPEST:.0}\u{b0} a side, that is a face and no taper");
        r.bad(written, written.place, BadSize::Designation(why), Wants::Taper);
        return None;
    }
    Some(found)
}

/// Settles which end of each taper is the large one, and works the diameter that is not stated.
pub(super) fn settle(r: &mut Reader<'_>, features: &mut [Feature], tapers: Vec<Raw>, header: &Header) {
    if tapers.is_empty() {
        return;
    }
    let spans = spans(features, header);
    for raw in tapers {
        r.entry = Some(features[raw.id].place);
        if let Some(kind) = settled(r, features, &spans, header, raw) {
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
    header: &Header,
    raw: Raw,
) -> Option<(usize, Kind)> {
    let to = features[raw.id].kind.extent()?.clone();
    let Some(toward) = raw.toward.or_else(|| toward(features, raw.id)) else {
        r.missing(raw.key, "tapers to", "a taper", "tapers to: far");
        return None;
    };
    let span = spans[raw.id].filter(|(from, to)| from < to);
    if let (Some((size, at)), None, None) = (&raw.gauge, &raw.large, &raw.small) {
        let ((from, end), at) = span.zip(station(at, spans, header))?;
        if at < Length::ZERO || header.overall.is_some_and(|long| at > long) {
            let why = "the gauge line does not lie on the part: its place counts from the datum face";
            let written = Written { text: &size.text, place: size.place, exact: false };
            r.bad(written, size.place, BadSize::Designation(why.to_owned()), Wants::Place);
            return None;
        }
        // Falling toward the far end: the start is larger than the gauge line by what lies between them.
        let (at_start, at_end) = (raw.rate.over(at - from), raw.rate.over(end - at));
        let (start, end) = match toward {
            End::Far => (size.nominal + at_start, size.nominal - at_end),
            End::Datum => (size.nominal - at_start, size.nominal + at_end),
        };
        let (start, end) = (worked(r, start, raw.text.place), worked(r, end, raw.text.place));
        let half_angle_deg = raw.rate.half_angle();
        return Some((raw.id, Kind::Taper { start, end, half_angle_deg, rate: raw.text, to }));
    }
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
    let half_angle_deg = match raw.rate {
        Rate::Ends => {
            let (from, end_at) = span?;
            Rate::Ratio((start.nominal - end.nominal).abs(), end_at - from).half_angle()
        }
        rate => rate.half_angle(),
    };
    Some((raw.id, Kind::Taper { start, end, half_angle_deg, rate: raw.text, to }))
}

/// A diameter that follows from the others; for reference only.
pub(super) fn worked(r: &Reader<'_>, nominal: Length, place: Place) -> Size {
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
    let size = |f: Option<&&Feature>| f.map_or(Some(Length::ZERO), |f| nominal(&f.kind));
    let before = size(i.checked_sub(1).and_then(|i| sections.get(i)))?;
    let behind = size(sections.get(i + 1))?;
    match before.cmp(&behind) {
        std::cmp::Ordering::Greater => Some(End::Far),
        std::cmp::Ordering::Less => Some(End::Datum),
        std::cmp::Ordering::Equal => None,
    }
}

/// Nominal ends of the sections, by feature.
pub(super) type Spans = Vec<Option<(Length, Length)>>;

/// Nominal diameter of a section; none of what is no plain one.
pub(super) fn nominal(kind: &Kind) -> Option<Length> {
    match kind {
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => Some(diameter.nominal),
        Kind::Thread { thread, .. } => Some(thread.nominal),
        Kind::Knurl { knurl, .. } => Some(knurl.expected),
        _ => None,
    }
}

/// Nominal ends of the sections as far as they can be told without a chain.
pub(super) fn spans(features: &[Feature], header: &Header) -> Spans {
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

pub(super) fn station(place: &PlaceRef, spans: &[Option<(Length, Length)>], header: &Header) -> Option<Length> {
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

    fn ends(entry: &str) -> (f64, f64, f64) {
        let text = format!(
            "part: p\nunits: in\ndatum: a\noverall: 5\nfeatures:\n  - turn: 1.5\n    to: 1\n{entry}    to: 4\n  - turn: 0.5\n    to: 5\n"
        );
        let read = crate::read::part("p", text.as_bytes());
        assert_eq!(read.slips, [], "{entry}");
        let part = read.part.expect("a part");
        let Kind::Taper { start, end, half_angle_deg, .. } = &part.features[1].kind else { panic!("{entry}") };
        (start.nominal.inches(), end.nominal.inches(), *half_angle_deg)
    }

    /// One taper in every way it is said. Morse 3: .938 at the gauge line, .60235 to the foot (ASME B5.10), so .7874 three inches on.
    #[test]
    fn a_taper_in_every_way_it_is_said() {
        let near = |a: (f64, f64, f64), b: (f64, f64)| (a.0 - b.0).abs() < 1e-4 && (a.1 - b.1).abs() < 1e-4;
        for (entry, want) in [
            ("  - taper: MT3\n", (0.938, 0.787_41)),
            ("  - taper: Morse 3\n    gauge line: 1.000\n", (0.938, 0.787_41)),
            ("  - taper: MT3\n    gauge line: 2\n", (0.988_2, 0.837_6)),
            ("  - taper: Jarno 8\n", (1.0, 0.85)),
            ("  - taper: 0.600 per foot\n    small: 0.85\n", (1.0, 0.85)),
            ("  - taper: 1:20\n    gauge line: 0.95 at 2\n", (1.0, 0.85)),
            ("  - taper: 1.000 to 0.850\n", (1.0, 0.85)),
            ("  - taper: 1.432° a side\n    large: 1\n", (1.0, 0.85)),
        ] {
            let got = ends(entry);
            assert!(near(got, want), "{entry}: {got:?}");
            assert!(got.2 > 1.4 && got.2 < 1.5);
        }
    }
}
