//! Sections: turn and relief.

use super::features::{Header, Item};
use super::forms::Wants;
use super::reader::Reader;
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::model::feature::{Extent, Kind};
use crate::model::slip::BadSize;
use crate::model::{LimitsFrom, Size};
use crate::unit::{Limits, ToleranceText};

/// `turn: 0.8745 +0/-0.0005`, `turn: stock`; with `offset` an eccentric.
pub(super) fn turn(r: &mut Reader<'_>, item: &Item<'_>, header: &Header, offset: Option<&Size>) -> Option<Kind> {
    let written = r.value(&item.main, Wants::Diameter)?;
    let to = extent(item);
    let first = written.text.split([' ', '+', '\u{b1}', '-']).next().unwrap_or_default();
    let stock = first.eq_ignore_ascii_case("stock");
    if item.fields.has("offset") {
        return eccentric(r, item, written, stock, offset?);
    }
    if stock {
        let diameter = kept(r, written, item.main.key_place, header)?;
        return Some(Kind::Turn { diameter, kept: true, to });
    }
    let diameter = r.size_of(written, Role::Diameter, Wants::Diameter)?;
    Some(Kind::Turn { diameter, kept: false, to })
}

/// A cylinder thrown off the part's axis, which still lies in it: what is thrown farther is a crank.
fn eccentric(r: &mut Reader<'_>, item: &Item<'_>, written: Written<'_>, stock: bool, offset: &Size) -> Option<Kind> {
    if stock {
        let why = "the bar's own surface lies on the part's axis: give the diameter to turn".to_owned();
        r.bad(written, written.place, BadSize::Designation(why), Wants::Diameter);
        return None;
    }
    let diameter = r.size_of(written, Role::Diameter, Wants::Diameter)?;
    if offset.nominal >= diameter.nominal.half() {
        let why = "half of the diameter or more: the part's axis would not lie in it, which is a crank. `offset` is the throw, the distance between the two axes: half of a stroke or of what an indicator reads".to_owned();
        let throw = item.fields.get("offset").and_then(|f| f.value.written())?;
        r.bad(throw, throw.place, BadSize::Designation(why), Wants::Size);
        return None;
    }
    Some(Kind::Eccentric { diameter, to: extent(item) })
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
