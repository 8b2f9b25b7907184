//! A fit as people ask for it: `25 k6`, `1.000 RC3`, `25 mm H7/k6`.

use super::{Deviations, NoFit, hole, inch, inch_fit, is_code, is_hole_code, shaft, source};
use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit, read_number};

/// The answer to a question about a fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fit {
    /// Nominal size.
    pub size: Length,
    /// Unit the size was asked in.
    pub unit: Unit,
    /// Code as asked.
    pub code: String,
    /// Deviations of the hole, where the code names one.
    pub hole: Option<Deviations>,
    /// Deviations of the shaft, where the code names one.
    pub shaft: Option<Deviations>,
    /// Limits of the shaft; of the hole where the code names no shaft.
    pub limits: Limits,
    /// Smallest and largest clearance of a pair; below zero is interference.
    pub clearance: Option<Limits>,
    /// Table.
    pub source: Source,
}

/// Reads a size and a fit code, in `unit` unless the size carries its own.
///
/// # Errors
/// [`NoFit`]: unreadable size, unknown code, a pair with both codes of one side, or no unit at all.
pub fn parse(text: &str, unit: Option<Unit>) -> Result<Fit, NoFit> {
    let text = text.trim();
    let at = code_start(text).ok_or_else(|| NoFit::Unknown(text.to_owned()))?;
    let (size_text, code) = (text[..at].trim(), text[at..].trim());
    let size = read_number(size_text, unit.unwrap_or(Unit::Millimetre)).map_err(|_| NoFit::Size(size_text.into()))?;
    if !size.own_unit && unit.is_none() {
        return Err(NoFit::NoUnit(size_text.to_owned()));
    }
    if !size.value.is_positive() {
        return Err(NoFit::Size(size_text.to_owned()));
    }
    let d = size.value;
    let mut source = source(code.split('/').next().unwrap_or(code));
    let (of_hole, of_shaft) = if let Some((first, second)) = code.split_once('/') {
        (Some(hole(first.trim(), d)?), Some(shaft(second.trim(), d)?))
    } else if inch::class_name(code).is_some() {
        let pair = inch_fit(code, d)?;
        source = pair.source;
        (Some(pair.hole), Some(pair.shaft))
    } else if is_hole_code(code) {
        (Some(hole(code, d)?), None)
    } else {
        (None, Some(shaft(code, d)?))
    };
    let one = of_shaft.or(of_hole).ok_or_else(|| NoFit::Unknown(code.to_owned()))?;
    let clearance =
        of_hole.zip(of_shaft).map(|(hole, shaft)| Limits::new(hole.lower - shaft.upper, hole.upper - shaft.lower));
    Ok(Fit {
        size: d,
        unit: size.unit,
        code: code.to_owned(),
        hole: of_hole,
        shaft: of_shaft,
        limits: one.limits(d),
        clearance,
        source,
    })
}

/// Where the fit code begins: the longest tail that is a code or a pair of codes.
fn code_start(text: &str) -> Option<usize> {
    let starts = text.char_indices().filter(|(_, c)| c.is_ascii_alphabetic()).map(|(i, _)| i);
    let mut found = None;
    for at in starts {
        let tail = text[at..].trim();
        let is_pair = tail.split_once('/').is_some_and(|(a, b)| is_code(a.trim()) && is_code(b.trim()));
        if is_code(tail) || is_pair {
            found = Some(at);
            break;
        }
    }
    // An unknown word behind a number is still a code, to be named in the answer.
    found.or_else(|| text.rfind(' ').map(|i| i + 1).filter(|i| *i < text.len()))
}
