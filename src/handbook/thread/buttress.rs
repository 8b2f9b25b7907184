//! 7°/45° buttress threads: ASME B1.9.

use super::limits::{Sides, tenths, times};
use super::{Asked, Designation, External, Form, Internal, Unknown};
use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit};

const B1_9: Source = Source::printed(
    "ASME B1.9-1973 (R1992), buttress inch screw threads 7°/45°, Table 4, as printed in Machinery's Handbook 27th ed.",
);
const CLASS_3: Source = Source::from_memory(
    "ASME B1.9-1973: class 3 tolerances are two thirds of class 2; the allowance of both classes is the class 3 tolerance",
);

/// Ends of the size ranges of the tolerance table, inches; a range has the tolerance of its middle.
const RANGES: [f64; 10] = [0.5, 0.7, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 24.0];

/// Pitch diameter tolerance of class 2, inches: by the table's ranges for the usual engagement of ten pitches, else by its
/// formula.
fn tolerance_2(nominal: f64, pitch: f64, engagement: Option<f64>) -> f64 {
    if let Some(length) = engagement {
        return 0.002 * nominal.cbrt() + 0.002_78 * length.sqrt() + 0.008_54 * pitch.sqrt();
    }
    let middle = RANGES.windows(2).find(|w| nominal <= w[1]).map_or(nominal, |w| f64::midpoint(w[0], w[1]));
    0.002 * middle.cbrt() + 0.017_3 * pitch.sqrt()
}

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
    let class_2 = tolerance_2(nominal, p, asked.engagement.map(Length::inches).filter(|l| *l > 0.0));
    // Table 4: one tolerance for the external major, both pitch and the internal minor diameters.
    let tolerance = tenths(share * class_2);
    let allowance = tenths(2.0 / 3.0 * class_2);
    let down = |at: f64| Limits::new(tenths(at) - allowance - tolerance, tenths(at) - allowance);
    let up = |at: f64| Limits::new(tenths(at), tenths(at) + tolerance);
    let pitch_diameter = down(nominal - 0.6 * p);
    // The root truncation may go down to half of the largest, .0826 P: two times .0413 P deeper.
    let minor_max = tenths(nominal - 1.325_42 * p) - allowance;
    let minor_min = tenths(pitch_diameter.min.inches() - (0.725_42 + 0.082_6) * p);
    Ok(Sides {
        form: Form::Buttress,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - times(d.pitch, 0.6),
        external: Some(External {
            class: format!("{name}A"),
            allowance,
            major: down(nominal),
            pitch_diameter,
            minor: Limits::new(minor_min, minor_max),
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
        source: vec![B1_9, CLASS_3],
        notes,
    })
}
