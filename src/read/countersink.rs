//! A countersink as a drawing gives it: the diameter of its mouth by its included angle, `Ø0.500 x 82°`. How deep it goes follows from the hole under it.

use super::features::Header;
use super::forms::Wants;
use super::inside::Opening;
use super::lying;
use super::reader::Reader;
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::model::feature::{Feature, Kind};
use crate::model::inside::{Inside, InsideCut, Reach};
use crate::model::slip::BadSize;
use crate::model::{End, PlaceRef, Size};
use crate::unit::{Length, Limits, Unit};

/// A countersink whose hole is not known yet.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    end: End,
    mouth: Size,
    half_mdeg: i64,
    text: String,
    place: Place,
}

/// The steepest angle to the axis that a countersink's leg is taken with; a larger angle is an included one, and its size the mouth.
const STEEPEST_MDEG: i64 = 45_000;

/// Whether the size of `Ø0.500 x 82°` carries the sign of a diameter.
pub(super) fn is_by_diameter(text: &str) -> bool {
    let lower = text.trim_start().to_lowercase();
    ["ø", "⌀", "∅", "dia"].iter().any(|sign| lower.starts_with(sign))
}

/// An inside chamfer by its leg, or by its mouth: that one is settled when the hole is known, and is none until then.
pub(super) fn read(
    r: &mut Reader<'_>,
    written: Written<'_>,
    countersink: bool,
    opening: Opening,
    id: usize,
    later: &mut Vec<Raw>,
) -> Option<InsideCut> {
    let parts = written.split_by(|c| matches!(c, 'x' | '×' | 'X'));
    // The angle may stand first.
    if !parts.iter().any(|p| is_by_diameter(p.text)) {
        let (leg, angle_mdeg) = lying::leg_and_angle(r, written)?;
        if countersink && angle_mdeg > STEEPEST_MDEG {
            let why = "of a countersink so wide the size is its mouth: put Ø before it, `Ø0.500 x 82°`; a leg along the axis goes with the angle to the axis, 45° at most";
            r.bad(written, written.place, BadSize::Designation(why.to_owned()), Wants::Chamfer);
            return None;
        }
        return Some(InsideCut::Chamfer { leg, angle_mdeg, mouth: None });
    }
    let [one, other] = parts[..] else {
        r.bad(written, written.place, BadSize::Form, Wants::Chamfer);
        return None;
    };
    let (mouth, angle) = if is_by_diameter(one.text) { (one, other) } else { (other, one) };
    let mouth = r.size_of(mouth, Role::Inner, Wants::Chamfer)?;
    let included = r.angle_of(angle, Wants::Chamfer)?;
    if !(2..180_000).contains(&included) {
        r.bad(angle, angle.place, BadSize::Form, Wants::Chamfer);
        return None;
    }
    let Opening::End(end) = opening else { return None };
    later.push(Raw { id, end, mouth, half_mdeg: included / 2, text: written.text.to_owned(), place: written.place });
    None
}

/// Works the legs of the countersinks out.
pub(super) fn settle(r: &mut Reader<'_>, features: &mut [Feature], raws: Vec<Raw>, header: &Header) {
    for raw in raws {
        r.entry = Some(features[raw.id].place);
        let written = Written { text: &raw.text, place: raw.place, exact: false };
        let refuse = |r: &mut Reader<'_>, why: &str| {
            r.bad(written, raw.place, BadSize::Designation(why.to_owned()), Wants::Chamfer);
        };
        let Some(hole) = hole_at(features, raw.end, header) else {
            refuse(
                r,
                "no hole opens at this end: a countersink by its mouth needs one under it, or its leg along the axis",
            );
            continue;
        };
        if raw.mouth.nominal <= hole {
            refuse(r, "the mouth is no larger than the hole under it");
            continue;
        }
        let slope = (raw.half_mdeg as f64 / 1000.0).to_radians().tan();
        let leg_of = |mouth: Length| Length::from_f64((mouth - hole).half().mm() / slope, Unit::Millimetre);
        let limits = raw.mouth.limits.map(|l| Limits::new(leg_of(l.min), leg_of(l.max)));
        let leg = Size { nominal: leg_of(raw.mouth.nominal), limits, ..raw.mouth.clone() };
        let cut = InsideCut::Chamfer { leg, angle_mdeg: raw.half_mdeg, mouth: Some(raw.mouth) };
        features[raw.id].kind = Kind::Inside(Box::new(Inside { end: raw.end, reach: Reach::Own, cut }));
    }
    r.entry = None;
}

/// Diameter of what opens at an end before any countersink: of the cuts of that end the shallowest, else what goes through from the other.
fn hole_at(features: &[Feature], end: End, header: &Header) -> Option<Length> {
    let cuts = features.iter().filter_map(|f| if let Kind::Inside(inside) = &f.kind { Some(inside) } else { None });
    let opens = cuts.filter(|i| matches!(i.reach, Reach::Through) || i.end == end && !matches!(i.reach, Reach::Own));
    let deep = |i: &&std::boxed::Box<Inside>| match &i.reach {
        Reach::Deep(size) => size.nominal,
        Reach::To(PlaceRef::FromDatum(size)) if end == End::Datum => size.nominal,
        Reach::To(PlaceRef::FromDatum(size)) => header.overall.map_or(size.nominal, |o| o - size.nominal),
        _ => Length::from_pm(i64::MAX),
    };
    opens.min_by_key(deep).and_then(|i| match &i.cut {
        InsideCut::Bore { diameter, .. } | InsideCut::Relief { diameter, .. } => Some(diameter.nominal),
        InsideCut::Thread { thread, drill, .. } => Some(drill.as_ref().map_or(thread.minor.middle(), |d| d.nominal)),
        InsideCut::Taper { start, end: stop, .. } => Some(if end == End::Datum { start.nominal } else { stop.nominal }),
        InsideCut::Groove { .. } | InsideCut::Chamfer { .. } => None,
    })
}
