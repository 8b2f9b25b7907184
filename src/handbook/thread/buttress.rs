//! 7°/45° buttress threads: ASME B1.9.

use super::limits::{Sides, tenths, times};
use super::{Asked, Designation, External, Form, Internal, Unknown};
use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit};

const B1_9: Source = Source::from_memory("ASME B1.9-1973, buttress inch screw threads 7°/45°");

pub(super) fn sides(d: &Designation, asked: &Asked) -> Result<Sides, Unknown> {
    let (nominal, p) = (d.nominal.inches(), d.pitch.to_f64(Unit::Inch));
    if !(0.5..=24.0).contains(&nominal) || p > nominal * 0.5 {
        return Err(Unknown::Range("buttress diameters of 1/2 to 24 in, pitch not over half the diameter"));
    }
    let mut notes = Vec::new();
    let class = d.class.as_deref().unwrap_or_else(|| {
        notes.push("no class given: 2 assumed".to_owned());
        "2"
    });
    let (name, share) = match class {
        "2" | "2A" | "2B" => ("2", 1.0),
        "3" | "3A" | "3B" => ("3", 2.0 / 3.0),
        _ => return Err(Unknown::Class { known: vec!["2A", "3A", "2B", "3B"] }),
    };
    let engagement = asked.engagement.map_or(10.0 * p, Length::inches);
    let class_2 = 0.002 * nominal.cbrt() + 0.002_78 * engagement.sqrt() + 0.008_54 * p.sqrt();
    let tolerance = tenths(share * class_2);
    // The allowance is the pitch diameter tolerance of class 3, for both classes.
    let allowance = tenths(2.0 / 3.0 * class_2);
    let down = |at: f64| Limits::new(tenths(at) - allowance - tolerance, tenths(at) - allowance);
    let up = |at: f64| Limits::new(tenths(at), tenths(at) + tolerance);
    notes.push(
        "crest limits are taken as wide as the pitch diameter's: the standard's own table was not at hand".to_owned(),
    );
    Ok(Sides {
        form: Form::Buttress,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - times(d.pitch, 0.6),
        external: Some(External {
            class: format!("{name}A"),
            allowance,
            major: down(nominal),
            pitch_diameter: down(nominal - 0.6 * p),
            minor: down(nominal - 1.325_42 * p),
        }),
        internal: Some(Internal {
            class: format!("{name}B"),
            minor: up(nominal - 1.2 * p),
            pitch_diameter: up(nominal - 0.6 * p),
            major_min: tenths(nominal + 0.125_42 * p),
        }),
        depth: times(d.pitch, 0.662_71),
        tool_flat: times(d.pitch, 0.082_6),
        taper: None,
        source: vec![B1_9],
        notes,
    })
}
