//! Threads read over wires, of whatever size: the pitch diameter that was read, and what the sheet's wires would read.

use super::InspectionRow;
use super::thread_cut::data;
use crate::handbook::thread::{ThreadData, pitch_diameter_of};
use crate::model::measured::{Measured, MeasuredWhat, Reads};
use crate::model::{Kind, Part};
use crate::unit::Length;

fn data_of(part: &Part, feature: usize) -> Option<ThreadData> {
    match &part.features.get(feature)?.kind {
        Kind::Thread { thread, .. } => data(thread),
        _ => None,
    }
}

/// What the sheet's wires would read where another was used: the same pitch diameter over them. A row's limits are those of the pitch
/// diameter and a constant of its wire.
pub(super) fn over_row_wire(part: &Part, row: &InspectionRow, measured: &Measured, read: Length) -> Option<Length> {
    let data = data_of(part, row.feature?)?;
    let pitch = pitch_diameter_of(&data, measured.wire.as_ref()?.nominal, read)?;
    Some(row.limits.exact.min + (pitch - data.external.as_ref()?.pitch_diameter.min))
}

/// The pitch diameter that was read last, in words; the wire too where it is not the sheet's.
pub(super) fn pitch_diameter(
    part: &Part,
    id: usize,
    row: &InspectionRow,
    said: &dyn Fn(Length) -> String,
) -> Option<String> {
    let data = data_of(part, id)?;
    let least = data.external.as_ref()?.pitch_diameter.min;
    part.measured.iter().rev().find_map(|m| match &m.what {
        MeasuredWhat::Other { feature, of: Reads::OverWires, size } if *feature == id => {
            let wire = m.wire.as_ref().map(|w| w.nominal);
            let pitch = match wire {
                Some(wire) => pitch_diameter_of(&data, wire, size.nominal)?,
                None => size.nominal - row.limits.exact.min + least,
            };
            let over =
                wire.map_or_else(String::new, |w| format!(", read {} over {} wires", said(size.nominal), said(w)));
            Some(format!("pitch diameter {}{over}", said(pitch.round_to(Length::micrometres(1)))))
        }
        _ => None,
    })
}
