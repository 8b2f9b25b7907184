//! Knurls, flats and undercuts.

use super::features::Item;
use super::forms::Wants;
use super::reader::Reader;
use super::sections::extent;
use super::size::Role;
use super::tree::Written;
use crate::handbook::{knurl, undercut};
use crate::model::feature::{Extent, FlatMeasure, Kind, Knurl, KnurlPattern, Undercut};
use crate::model::slip::BadSize;
use crate::model::{FaceSide, LimitsFrom, PlaceRef, Size};
use crate::unit::{Length, Limits, NumberForm, ToleranceText, Unit, read_number, show};

/// A size that follows from something else that is written.
pub(super) fn follows(unit: Unit, place: crate::finding::Place, nominal: Length, limits: Option<Limits>) -> Size {
    let decimals = show::usual_decimals(unit);
    Size {
        nominal,
        limits,
        from: if limits.is_some() { LimitsFrom::Standard } else { LimitsFrom::Nothing },
        tolerance: ToleranceText::None,
        unit,
        form: NumberForm::Decimal(show::decimals_needed(nominal, unit, 0, 6)),
        reference: limits.is_none(),
        place,
        text: show::exact(nominal, unit, decimals, 6),
    }
}

/// `knurl: diamond 0.8 mm` with `diameter` or `blank`; `knurl: 0.990` with `pitch`.
pub(super) fn knurl(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let stated = item.fields.get("pitch");
    let said = r.value(&item.main, Wants::Knurl)?;
    let (pitch, over) = match stated {
        Some(field) => {
            let diameter = r.size_of(said, Role::Diameter, Wants::Diameter);
            (r.value(&field, Wants::Knurl), diameter)
        }
        None => (Some(said), r.size(item.fields.get("diameter"), Role::Diameter)),
    };
    let blank = r.size(item.fields.get("blank"), Role::Diameter);
    let pitch = pitch?;
    let Some((length, pattern, pitch_text)) = pitch_and_pattern(pitch.text, r.unit) else {
        r.bad(pitch, pitch.place, BadSize::Form, Wants::Knurl);
        return None;
    };
    let growth = knurl::growth(pattern.din_82(), length)?.0;
    let wanted = match (&blank, &over) {
        (Some(blank), _) => blank.nominal,
        (None, Some(over)) => over.nominal - growth,
        (None, None) => {
            if stated.is_none() && !item.fields.has("diameter") {
                r.missing(item.main.key_place, "diameter", "a knurl", "diameter: 1.000");
            }
            return None;
        }
    };
    let Some(around) = knurl::around(wanted, length) else {
        r.bad(pitch, pitch.place, BadSize::Form, Wants::Knurl);
        return None;
    };
    let step = if r.unit == Unit::Inch { Length::inch_tenths(5) } else { Length::micrometres(10) };
    let turn_to = if blank.is_some() { wanted } else { around.blank.round_to(step) };
    let expected = turn_to + growth;
    let diameter = over.unwrap_or_else(|| follows(r.unit, item.main.value.place, expected, None));
    let teeth = around.teeth;
    let knurl = Knurl { diameter, pitch: length, pitch_text, pattern, blank, growth, turn_to, teeth, expected };
    Some(Kind::Knurl { knurl: Box::new(knurl), to: extent(item) })
}

/// Pitch, pattern, and the pitch as it was written. Without a word the pattern is diamond, what a knurling tool mostly holds.
fn pitch_and_pattern(text: &str, unit: Unit) -> Option<(Length, KnurlPattern, String)> {
    let lower = text.to_lowercase();
    let mut pattern = KnurlPattern::Diamond;
    let mut rest: Vec<&str> = Vec::new();
    for word in lower.split_whitespace() {
        match word {
            "straight" | "parallel" => pattern = KnurlPattern::Straight,
            "diamond" | "cross" | "crossed" => pattern = KnurlPattern::Diamond,
            "diagonal" | "spiral" => pattern = KnurlPattern::Diagonal,
            "pitch" | "knurl" => {}
            word => rest.push(word),
        }
    }
    let said = rest.join(" ");
    // Teeth to an inch of knurl makers' coarse, medium and fine: common practice, no source.
    let per_inch = match said.as_str() {
        "coarse" => Some(14),
        "medium" => Some(21),
        "fine" => Some(33),
        _ => said.strip_suffix("tpi").and_then(|n| n.trim().parse::<i64>().ok()),
    };
    let positive = |n: &i64| (1..=1000).contains(n);
    if let Some(n) = per_inch {
        return Some(n).filter(positive).map(|n| (Length::PER_INCH.times_ratio(1, n), pattern, said));
    }
    if let Some(n) = said.strip_suffix("dp").and_then(|n| n.trim().parse::<i64>().ok()) {
        // Teeth to an inch of diameter: π/DP from tooth to tooth.
        let pitch = |n: i64| Length::from_f64(std::f64::consts::PI / n as f64, Unit::Inch);
        return Some(n).filter(positive).map(|n| (pitch(n), pattern, said.to_uppercase()));
    }
    let pitch = read_number(&said, unit).ok().map(|n| n.value)?;
    let sane = pitch >= Length::micrometres(100) && pitch <= Length::micrometres(10_000);
    sane.then_some((pitch, pattern, said))
}

/// `flat: 14 across`, `flat: 0.220 to far side`, `flat: 0.030 deep`, `square: 14 h11`, `hexagon: 22`, with `on`, or `from` and `to`.
pub(super) fn flats(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let counted = item.fields.get("count").and_then(|f| r.value(&f, Wants::Number)).and_then(|w| r.count_of(w));
    let written = r.value(&item.main, Wants::Flat)?;
    let (size, measure) = measured(written);
    let role = if measure == FlatMeasure::Across { Role::Diameter } else { Role::Length };
    let size = r.size_of(size, role, Wants::Flat);
    let (from, to) = stretch(r, item)?;
    let count = match (item.main.word, counted, measure) {
        ("square", None | Some(4), FlatMeasure::Across) => 4,
        ("hexagon", None | Some(6), FlatMeasure::Across) => 6,
        ("flat", None, FlatMeasure::Across) => 2,
        ("flat", None, _) | ("flat", Some(1), FlatMeasure::ToFarSide | FlatMeasure::Deep) => 1,
        ("flat", Some(n), FlatMeasure::Across) if n % 2 == 0 && n <= 12 => u8::try_from(n).ok()?,
        ("flat", Some(n), FlatMeasure::Deep) if n <= 12 => u8::try_from(n).ok()?,
        _ => {
            let says =
                "an odd number of flats has no size across: write the depth of each, or the size to the far side";
            r.bad(written, written.place, BadSize::Designation(says.to_owned()), Wants::Flat);
            return None;
        }
    };
    Some(Kind::Flats { size: size?, measure, count, from, to })
}

/// The size, and what it is by the words behind it.
fn measured(written: Written<'_>) -> (Written<'_>, FlatMeasure) {
    let lower = written.text.to_lowercase();
    let ends = [
        ("to far side", FlatMeasure::ToFarSide),
        ("to the far side", FlatMeasure::ToFarSide),
        ("to opposite side", FlatMeasure::ToFarSide),
        ("deep", FlatMeasure::Deep),
        ("across the flats", FlatMeasure::Across),
        ("across flats", FlatMeasure::Across),
        ("across", FlatMeasure::Across),
        ("a/f", FlatMeasure::Across),
        ("af", FlatMeasure::Across),
    ];
    let found = ends.iter().find(|(word, _)| lower.ends_with(word) && lower.len() == written.text.len());
    match found {
        Some((word, measure)) => (written.cut(0..written.text.len() - word.len()), *measure),
        None => (written, FlatMeasure::Across),
    }
}

/// The whole of a named section, or from one place to another.
fn stretch(r: &mut Reader<'_>, item: &Item<'_>) -> Option<(PlaceRef, Extent)> {
    if let Some(field) = item.fields.get("on") {
        let place = field.value.place;
        let feature = r.feature(Some(field))?;
        let face = |side| PlaceRef::Face { feature, side, place };
        return Some((face(FaceSide::Start), Extent::To(face(FaceSide::End))));
    }
    let from = r.place(item.fields.get("from"));
    let to = r.place(item.fields.get("to"));
    let long = r.size(item.fields.get("long"), Role::Length);
    if !item.fields.has("from") {
        r.missing(item.main.key_place, "on", "a flat", "on: square end");
    } else if !item.fields.has("to") && !item.fields.has("long") {
        r.missing(item.main.key_place, "to", "a flat", "to: 0.750");
    }
    let to = match (to, long) {
        (Some(to), Some(long)) => Extent::Both(to, long),
        (Some(to), None) => Extent::To(to),
        (None, Some(long)) => Extent::Long(long),
        (None, None) => return None,
    };
    Some((from?, to))
}

/// What an undercut says of itself, before its seat is known.
#[derive(Debug, Clone)]
pub(super) enum Said {
    /// Everything.
    Whole(Undercut),
    /// A form of DIN 509; the size follows from the seat.
    Form(char),
}

/// `undercut: DIN 509 E 0.6x0.3`, `undercut: F`, `undercut: 0.010 x 0.060` (depth a side x width) with `corner`.
pub(super) fn undercut(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Said> {
    let corner = r.size(item.fields.get("corner"), Role::Corner);
    let written = r.value(&item.main, Wants::Undercut)?;
    let upper = written.text.to_uppercase();
    let bare = upper.trim_start_matches("DIN").trim_start().trim_start_matches("509").trim_start_matches([' ', '-']);
    let bare = bare.trim_start_matches("FORM").trim_start();
    let mut letters = bare.chars();
    let form = letters.next().filter(|c| matches!(c, 'E' | 'F' | 'G' | 'H'));
    if let Some(form) = form {
        let rest = letters.as_str().trim();
        if rest.is_empty() {
            return Some(Said::Form(form));
        }
        let named = format!("{form} {rest}");
        if let Some(found) = undercut::by_designation(&named) {
            return Some(Said::Whole(of_standard(&found)));
        }
        let near = undercut::all().filter(|u| u.form == form).map(|u| u.designation()).take(4).collect::<Vec<_>>();
        let why = format!("the standard has no such size; it has {} …", near.join(", "));
        r.bad(written, written.place, BadSize::Designation(why), Wants::Undercut);
        return None;
    }
    let parts = written.split_by(|c| matches!(c, 'x' | '×' | 'X'));
    let [depth, width] = parts[..] else {
        r.bad(written, written.place, BadSize::Form, Wants::Undercut);
        return None;
    };
    let depth = r.size_of(depth, Role::Bare, Wants::Undercut);
    let width = r.size_of(width, Role::Bare, Wants::Undercut);
    let (depth, width) = (depth?, width?);
    let radius = corner.map_or(depth.nominal, |c| c.nominal);
    Some(Said::Whole(Undercut {
        designation: String::new(),
        form: None,
        radius,
        depth: depth.limits_or_nominal(),
        width: width.nominal,
        face_depth: None,
        face_height: None,
        source: "as described".to_owned(),
    }))
}

/// A row of the standard in plain numbers.
pub(super) fn of_standard(found: &undercut::Undercut) -> Undercut {
    Undercut {
        designation: found.designation(),
        form: Some(found.form),
        radius: found.radius,
        depth: found.depth,
        width: found.width,
        face_depth: found.face_depth,
        face_height: found.face_height,
        source: found.source.line(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pitches_in_every_way() {
        let of = |t: &str| pitch_and_pattern(t, Unit::Inch);
        let (pitch, pattern, _) = of("diamond 0.8 mm").expect("a pitch");
        assert_eq!((pitch, pattern), (Length::micrometres(800), KnurlPattern::Diamond));
        // 96 DP is .0327 from tooth to tooth: π/96 (ASME B94.6).
        let (pitch, pattern, _) = of("96 DP straight").expect("a pitch");
        assert!((pitch.inches() - 0.032_725).abs() < 1e-6 && pattern == KnurlPattern::Straight);
        assert_eq!(of("medium").map(|p| p.0), Some(Length::PER_INCH.times_ratio(1, 21)));
        assert!(of("rough").is_none() && of("0").is_none());
    }
}
