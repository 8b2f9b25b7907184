//! The bar: `1.250 x 7.125`, `hex 1 x 3.5`, `tube 1.5/0.75 x 3`, `pipe 1/2 x 6`.

use super::forms::Wants;
use super::outside::follows;
use super::reader::{Field, Reader};
use super::size::Role;
use super::tree::Written;
use crate::handbook::material::{self, Condition};
use crate::handbook::pipe_size::{self, Weight};
use crate::model::part::{Stock, StockShape};
use crate::model::slip::BadSize;
use crate::model::{LimitsFrom, Size, Text};
use crate::unit::{Length, Limits};

/// Reads `stock:`; the bar's own limits come from its material and condition.
pub(super) fn read(r: &mut Reader<'_>, field: Option<Field<'_>>, material: Option<&Text>) -> Option<Stock> {
    let written = r.value(&field?, Wants::Stock)?;
    let Some((section, length)) = split(written) else {
        r.bad(written, written.place, BadSize::Form, Wants::Stock);
        return None;
    };
    let length = r.size_of(length, Role::Bare, Wants::Stock);
    if let Some(pipe) = by_pipe_size(section.text) {
        let Some((outside, bore)) = pipe else {
            let why = format!(
                "no pipe of this nominal size; sizes are {}",
                pipe_size::sizes().collect::<Vec<_>>().join(", ")
            );
            r.bad(written, section.place, BadSize::Designation(why), Wants::Stock);
            return None;
        };
        let by = pipe_size::outside_tolerance(outside);
        let size = follows(r.unit, section.place, outside, Some(Limits::new(outside - by, outside + by)));
        return Some(Stock { shape: StockShape::Tube { bore }, size, length: length?, place: written.place });
    }
    if section.text.trim_start_matches(|c: char| c.is_ascii_alphabetic()).contains(['x', 'X', '×']) {
        r.bad(written, written.place, BadSize::Form, Wants::Stock);
        return None;
    }
    let lower = section.text.to_ascii_lowercase();
    let word = lower.split(|c: char| !c.is_ascii_alphabetic()).next().unwrap_or_default();
    let bar = section.cut(word.len()..section.text.len());
    let (shape, size) = match word {
        "hex" | "hexagon" => (StockShape::Hexagon, r.size_of(bar, Role::Bare, Wants::Stock)),
        "square" | "sq" => (StockShape::Square, r.size_of(bar, Role::Bare, Wants::Stock)),
        "tube" | "pipe" => {
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

/// `pipe 1/2`, `1/2 pipe`, `pipe 1/2 sch 80`, `1/2 in pipe xs`: outside diameter and bore; the inner none where no pipe has that size. The outer is none
/// for what is not told by a nominal size, as `pipe 0.840/0.622`.
#[expect(clippy::option_option, reason = "no pipe, and a pipe of no known size, are two answers")]
fn by_pipe_size(section: &str) -> Option<Option<(Length, Length)>> {
    let lower = section.to_ascii_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    let at = words.iter().position(|w| *w == "pipe" || *w == "nps")?;
    let strong = words.iter().any(|w| ["80", "sch80", "xs", "xh"].contains(w));
    let weight = if strong { Weight::Strong } else { Weight::Standard };
    let named = ["pipe", "nps", "sch", "sch40", "sch80", "schedule", "40", "80", "std", "xs", "xh", "in"];
    let size = words.iter().filter(|w| !named.contains(w)).copied().collect::<Vec<_>>().join(" ");
    // `pipe 40/30` is outside diameter and bore; `pipe 5/8` a nominal size that no pipe has.
    let parts: Vec<Option<u32>> = size.split('/').map(|n| n.trim().parse().ok()).collect();
    let by_diameters = size.contains('.') || matches!(parts[..], [Some(a), Some(b)] if at == 0 && a > b);
    (!by_diameters).then(|| pipe_size::find(&size, weight))
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
