//! Square threads: no standard; the proportions usual in the trade.

use super::limits::{Sides, above, below};
use super::{Designation, External, Form, Internal, Unknown};
use crate::handbook::Source;
use crate::unit::{Length, Unit};

const PRACTICE: Source =
    Source::from_memory("common practice, no source: depth P/2 and clearance, groove a little wider than P/2");

pub(super) fn sides(d: &Designation) -> Result<Sides, Unknown> {
    let pitch = d.pitch.nearest();
    if pitch.times(2) > d.nominal || !d.nominal.is_positive() {
        return Err(Unknown::Range("pitch not over half the diameter"));
    }
    let (step, clearance, groove) = match d.unit() {
        Unit::Inch => (Length::inch_tenths(1), Length::inch_tenths(100), Length::inch_tenths(20)),
        Unit::Millimetre => (Length::micrometres(1), Length::micrometres(250), Length::micrometres(50)),
    };
    let play = clearance.half();
    let pitch_diameter = (d.nominal - pitch.half()).round_to(step);
    let minor = (d.nominal - pitch).round_to(step);
    Ok(Sides {
        form: Form::Square,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - pitch.half(),
        external: Some(External {
            class: String::new(),
            allowance: Length::ZERO,
            major: below(d.nominal, play),
            pitch_diameter: below(pitch_diameter, play),
            minor: below(minor - clearance, play),
        }),
        internal: Some(Internal {
            class: String::new(),
            minor: above(minor, play),
            pitch_diameter: above(pitch_diameter, play),
            major_min: d.nominal + clearance,
        }),
        depth: pitch.half() + play,
        tool_flat: pitch.half() + groove,
        taper: None,
        source: vec![PRACTICE],
        notes: vec!["square threads have no standard: fit the screw to its nut".to_owned()],
    })
}
