//! Sections: turn and relief.

use super::features::{Header, Item};
use super::forms::Wants;
use super::reader::Reader;
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::model::feature::{Extent, Kind};
use crate::model::{LimitsFrom, Size};
use crate::unit::{Limits, ToleranceText};

/// `turn: 0.8745 +0/-0.0005`, `turn: stock`.
pub(super) fn turn(r: &mut Reader<'_>, item: &Item<'_>, header: &Header) -> Option<Kind> {
    let written = r.value(&item.main, Wants::Diameter)?;
    if let Some(offset) = item.fields.get("offset") {
        r.not_supported(offset.key_place, "eccentric");
        return None;
    }
    let to = extent(item);
    let first = written.text.split([' ', '+', '\u{b1}', '-']).next().unwrap_or_default();
    if first.eq_ignore_ascii_case("stock") {
        let diameter = kept(r, written, item.main.key_place, header)?;
        return Some(Kind::Turn { diameter, kept: true, to });
    }
    let diameter = r.size_of(written, Role::Diameter, Wants::Diameter)?;
    Some(Kind::Turn { diameter, kept: false, to })
}

/// `relief: 0.545 +0/-0.010`.
pub(super) fn relief(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let corner = r.size(item.fields.get("corner"), Role::Corner);
    let diameter = r.size(Some(item.main), Role::Diameter)?;
    Some(Kind::Relief { diameter, corner, to: extent(item) })
}

/// Where the section ends.
pub(super) fn extent(item: &Item<'_>) -> Extent {
    item.to.clone().unwrap_or(Extent::Open)
}

/// The bar's own surface, with the bar's own limits unless more is asked.
fn kept(r: &mut Reader<'_>, written: Written<'_>, key: Place, header: &Header) -> Option<Size> {
    let Some(bar) = &header.bar else {
        r.missing(key, "stock", "the head of a description", "stock: 1.250 x 7.125");
        return None;
    };
    let rest = written.cut("stock".len()..written.text.len());
    let asked = if rest.text.is_empty() { None } else { Some(r.limits_of(rest)?) };
    let (limits, from, tolerance) = match asked {
        Some((upper, lower)) => (
            Some(Limits::around(bar.nominal, upper, lower)),
            LimitsFrom::Written,
            ToleranceText::Deviations { upper, lower, decimals: 0 },
        ),
        None => (bar.limits, bar.from, ToleranceText::None),
    };
    Some(Size { limits, from, tolerance, place: written.place, text: written.text.to_owned(), ..bar.clone() })
}
