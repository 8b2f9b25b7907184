//! Sizes on the command line.

use super::args::Show;
use crate::unit::{Length, Number, Unit, read_number};

/// A size with the unit it is meant in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sized {
    /// The length.
    pub(super) value: Length,
    /// Its own unit, else the one asked for, else the topic's.
    pub(super) unit: Unit,
}

/// Reads a size above zero. A bare number is in the unit of `--units`, else in `fixed`; where neither is given it is refused.
pub(super) fn read(text: &str, what: &str, show: Show, fixed: Option<Unit>) -> Result<Sized, String> {
    let number = number(text, what, show, fixed)?;
    if !number.value.is_positive() {
        return Err(format!("{what}: \"{text}\" must be above zero"));
    }
    Ok(Sized { value: number.value, unit: number.unit })
}

/// Reads a size that may be zero.
pub(super) fn read_from_zero(text: &str, what: &str, show: Show, fixed: Option<Unit>) -> Result<Sized, String> {
    let number = number(text, what, show, fixed)?;
    if number.value < Length::ZERO {
        return Err(format!("{what}: \"{text}\" must not be below zero"));
    }
    Ok(Sized { value: number.value, unit: number.unit })
}

fn number(text: &str, what: &str, show: Show, fixed: Option<Unit>) -> Result<Number, String> {
    let unit = show.unit().or(fixed);
    let number = read_number(text.trim(), unit.unwrap_or(Unit::Millimetre))
        .map_err(|_| format!("{what}: \"{text}\" is no size; write 1.250, 1 1/4 or 31.75 mm"))?;
    if !number.own_unit && unit.is_none() {
        return Err(format!(
            "{what}: \"{text}\" has no unit; write \"{text} in\" or \"{text} mm\", or say --units in or --units mm"
        ));
    }
    Ok(number)
}
