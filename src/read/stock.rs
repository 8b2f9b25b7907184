//! The bar: `1.250 x 7.125`, `hex 1 x 3.5`, `tube 1.5/0.75 x 3`.

use super::forms::Wants;
use super::reader::{Field, Reader};
use super::size::Role;
use super::tree::Written;
use crate::handbook::material::{self, Condition};
use crate::model::part::{Stock, StockShape};
use crate::model::slip::BadSize;
use crate::model::{LimitsFrom, Size, Text};

/// Reads `stock:`; the bar's own limits come from its material and condition.
pub(super) fn read(r: &mut Reader<'_>, field: Option<Field<'_>>, material: Option<&Text>) -> Option<Stock> {
    let written = r.value(&field?, Wants::Stock)?;
    let Some((section, length)) = split(written) else {
        r.bad(written, written.place, BadSize::Form, Wants::Stock);
        return None;
    };
    if section.text.trim_start_matches(|c: char| c.is_ascii_alphabetic()).contains(['x', 'X', '×']) {
        r.bad(written, written.place, BadSize::Form, Wants::Stock);
        return None;
    }
    let length = r.size_of(length, Role::Bare, Wants::Stock);
    let lower = section.text.to_ascii_lowercase();
    let word = lower.split(|c: char| !c.is_ascii_alphabetic()).next().unwrap_or_default();
    let bar = section.cut(word.len()..section.text.len());
    let (shape, size) = match word {
        "hex" | "hexagon" => (StockShape::Hexagon, r.size_of(bar, Role::Bare, Wants::Stock)),
        "square" | "sq" => (StockShape::Square, r.size_of(bar, Role::Bare, Wants::Stock)),
        "tube" => {
            let (outer, inner) = bar.split_at_mark("/")?;
            let bore = r.size_of(inner, Role::Bare, Wants::Stock)?.nominal;
            (StockShape::Tube { bore }, r.size_of(outer, Role::Bare, Wants::Stock))
        }
        "" | "round" | "dia" => (StockShape::Round, r.size_of(bar, Role::Bare, Wants::Stock)),
        _ => {
            r.bad(written, section.place, BadSize::Form, Wants::Stock);
            return None;
        }
    };
    let size = as_bought(size?, shape, material);
    Some(Stock { shape, size, length: length?, place: written.place })
}

/// Section and length: the `x` between them is the last one.
fn split(written: Written<'_>) -> Option<(Written<'_>, Written<'_>)> {
    let (at, mark) = written
        .text
        .char_indices()
        .rfind(|(i, c)| matches!(c, 'x' | 'X' | '×') && !written.text[*i + c.len_utf8()..].trim().is_empty())?;
    let next = at + mark.len_utf8();
    Some((written.cut(0..at), written.cut(next..written.text.len())))
}

/// The limits the bar itself is sold in. A condition that is not stated is taken as cold drawn.
fn as_bought(size: Size, shape: StockShape, material: Option<&Text>) -> Size {
    if size.limits.is_some() {
        return size;
    }
    let named = material.and_then(|m| material::find(&m.text));
    let found = named.and_then(|named| {
        let condition = named.condition.unwrap_or(Condition::ColdDrawn);
        let carbon = named.material.carbon()?;
        if shape.has_corners() {
            return material::flats_tolerance(carbon, condition, shape == StockShape::Hexagon, size.nominal, size.unit);
        }
        material::bar_tolerance(carbon, condition, size.nominal, size.unit)
    });
    match found {
        Some((deviations, _)) => {
            Size { limits: Some(deviations.limits(size.nominal)), from: LimitsFrom::Standard, ..size }
        }
        None => size,
    }
}
