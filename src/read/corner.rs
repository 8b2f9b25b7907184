//! Undercuts: which face is the shoulder, and on which side of it the seat lies.

use super::features::{Header, Item};
use super::outside::{Said, follows, of_standard, undercut};
use super::reader::Reader;
use super::taper::{Spans, nominal, station};
use crate::finding::Place;
use crate::handbook::undercut::{Duty, for_shaft};
use crate::model::feature::{Feature, Kind};
use crate::model::{End, FaceSide, PlaceRef};
use crate::unit::Limits;

/// An undercut before its seat is known.
#[derive(Debug)]
pub(super) struct Raw {
    id: usize,
    said: Said,
    at: At,
    key: Place,
}

/// Where it is said to be.
#[derive(Debug)]
enum At {
    /// At a face.
    Face(PlaceRef),
    /// At the shoulder of a section.
    On(usize, Place),
}

/// `undercut: E 0.6x0.3` with `at`, a face, or `on`, the seat.
pub(super) fn read(r: &mut Reader<'_>, item: &Item<'_>, id: usize, later: &mut Vec<Raw>) -> Option<Kind> {
    let said = undercut(r, item);
    let at = if let Some(field) = item.fields.get("on") {
        let place = field.value.place;
        At::On(r.feature(Some(field))?, place)
    } else if item.fields.has("at") {
        At::Face(r.place(item.fields.get("at"))?)
    } else {
        r.missing(item.main.key_place, "at", "an undercut", "at: 3.750");
        return None;
    };
    later.push(Raw { id, said: said?, at, key: item.main.key_place });
    None
}

/// Finds the seat of each: the smaller of the two sections that meet at the face.
pub(super) fn settle(r: &mut Reader<'_>, features: &mut [Feature], raws: Vec<Raw>, spans: &Spans, header: &Header) {
    for raw in raws {
        r.entry = Some(features[raw.id].place);
        match settled(r, features, &raw, spans, header) {
            Some(kind) => features[raw.id].kind = kind,
            None => r.missing(raw.key, "at", "an undercut at a step between two turned sections", "at: 3.750"),
        }
    }
    r.entry = None;
}

fn settled(r: &Reader<'_>, features: &[Feature], raw: &Raw, spans: &Spans, header: &Header) -> Option<Kind> {
    let sections: Vec<&Feature> = features.iter().filter(|f| f.kind.is_section()).collect();
    let size = |i: usize| sections.get(i).and_then(|f| nominal(&f.kind));
    // The face behind section `i`, and whether the seat lies on its datum side.
    let (behind, at) = match &raw.at {
        At::Face(place) => {
            let at = station(place, spans, header)?;
            let i = sections.iter().position(|f| spans[f.id].is_some_and(|(_, to)| to == at))?;
            (i, place.clone())
        }
        At::On(id, place) => {
            let i = sections.iter().position(|f| f.id == *id)?;
            let own = size(i)?;
            let higher = |n: Option<usize>| n.and_then(size).is_some_and(|d| d > own);
            let (before, after) = (higher(i.checked_sub(1)), higher(Some(i + 1)));
            let side = if after {
                FaceSide::End
            } else if before {
                FaceSide::Start
            } else {
                return None;
            };
            let face = PlaceRef::Face { feature: *id, side, place: *place };
            (if after { i } else { i - 1 }, face)
        }
    };
    let (one, other) = (size(behind)?, size(behind + 1)?);
    if one == other {
        return None;
    }
    let (seat, diameter) = if one < other { (End::Datum, one) } else { (End::Far, other) };
    let undercut = match &raw.said {
        Said::Whole(undercut) => undercut.clone(),
        Said::Form(form) => of_standard(for_shaft(*form, diameter, Duty::Usual).first()?),
    };
    let signed = if seat == End::Datum { -undercut.width } else { undercut.width };
    let wide = follows(r.unit, raw.key, signed, Some(Limits::exactly(signed)));
    Some(Kind::Undercut { undercut: Box::new(undercut), at, seat, wide })
}
