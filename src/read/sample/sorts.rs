//! How a row's size is suggested, and how it is told.

use super::super::keys::{self, Scope, Takes};
use super::write::flow;
use super::{Cell, Plain, SampleFeature, SampleRow};
use crate::handbook::identify::SeatUse;

/// How a row's size is suggested.
#[derive(Debug, Clone, Copy)]
pub(super) enum Sort {
    Seat(SeatUse),
    Outside,
    Hole,
    Length,
    /// By nothing but words and the sketch.
    Words,
}

/// A size without its limits.
pub(super) fn bare(text: &str) -> String {
    text.split(['±', '+']).next().unwrap_or(text).trim().to_owned()
}

/// What stands behind the number: words such as `across`, or the angle of a chamfer.
pub(super) fn behind(sketch: &str) -> String {
    let rest = sketch.trim_start_matches(|c: char| c.is_ascii_digit() || "./ -".contains(c));
    let rest = rest.trim();
    let words =
        rest.starts_with(['x', '×']) || ["across", "to far side", "deep", "max"].iter().any(|w| rest.starts_with(w));
    if words { format!(" {rest}") } else { String::new() }
}

/// `worn .8731, unworn .8744`.
pub(super) fn readings(row: &SampleRow) -> String {
    let of = |word: &str, text: &str| (!text.is_empty()).then(|| format!("{word} {text}"));
    [of("worn", &row.worn), of("unworn", &row.unworn)].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How a key's size is suggested.
pub(super) fn sort(f: &SampleFeature, key: &str) -> Sort {
    let Some(kind) = f.kind else { return Sort::Words };
    let inside = matches!(
        kind.scope,
        Scope::InsideBore | Scope::InsideRelief | Scope::InsideGroove | Scope::Hole | Scope::CrossHole
    );
    if key == kind.word {
        return match kind.word {
            "turn" | "bore" | "relief" | "groove" | "hole" | "cross hole" if inside => Sort::Hole,
            "turn" => match f.entries.iter().find(|e| e.key == "carries").map(|e| &e.cell) {
                Some(Cell::Kept(on)) => Sort::Seat(seat_of(on)),
                _ => Sort::Outside,
            },
            "relief" | "groove" | "square" | "hexagon" | "flat" => Sort::Outside,
            "fillet" | "chamfer" => Sort::Length,
            _ => Sort::Words,
        };
    }
    match keys::find(kind.scope, key).map(|k| k.takes) {
        Some(Takes::Diameter) if inside => Sort::Hole,
        Some(Takes::Diameter) => Sort::Outside,
        Some(Takes::Size | Takes::Place) => Sort::Length,
        _ => Sort::Words,
    }
}

/// What sits on a seat, by the words of `carries`.
pub(super) fn seat_of(on: &Plain) -> SeatUse {
    let text = flow(on).to_ascii_lowercase();
    let rolling = text.contains("bearing") && !["plain bearing", "sleeve", "bush"].iter().any(|w| text.contains(w));
    if rolling { SeatUse::BearingShaftTurns } else { SeatUse::Slides }
}
