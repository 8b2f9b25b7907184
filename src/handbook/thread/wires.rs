//! Measuring the pitch diameter over three wires.

use super::{Form, OverWires, ThreadData, Wire};
use crate::unit::{Length, Unit};

/// Flank geometry that wires touch.
struct Flanks {
    /// Half angle, radians.
    half: f64,
    /// Groove width at the pitch diameter as a share of the pitch.
    gap: f64,
}

fn flanks(data: &ThreadData) -> Option<Flanks> {
    match data.form {
        Form::Sixty | Form::Whitworth | Form::Acme | Form::StubAcme | Form::Trapezoidal => {
            Some(Flanks { half: data.form.half_angle()?.to_radians(), gap: 0.5 })
        }
        Form::TaperSixty | Form::TaperWhitworth | Form::Square | Form::Buttress => None,
    }
}

/// The best wire touches at the pitch diameter; the range is the trade's.
///
/// 60°: .57735 P, .56 to .90 P; Acme: .51645 P, .4873 to .6500 P (Machinery's Handbook); Whitworth .5637 P, .54 to .76 P;
/// trapezoidal .5176 P, the range in proportion to Acme's.
pub(super) fn wire(data: &ThreadData) -> Option<Wire> {
    let flanks = flanks(data)?;
    let best = flanks.gap / flanks.half.cos();
    let (least, most) = match data.form {
        Form::Sixty => (0.56, 0.90),
        Form::Whitworth => (0.54, 0.76),
        Form::Trapezoidal => (0.4884, 0.6515),
        _ => (0.487_263, 0.650_013),
    };
    let step = match data.unit {
        Unit::Inch => Length::inch_tenths(1),
        Unit::Millimetre => Length::micrometres(1),
    };
    let at = |factor: f64| Length::from_f64(data.pitch.to_f64(data.unit) * factor, data.unit).round_to(step);
    Some(Wire { best: at(best), smallest: at(least), largest: at(most) })
}

/// Whether the lead angle is taken into the reading: Acme, stub Acme and trapezoidal always, the others when they have
/// several starts. For single 60° and 55° threads trade and tables leave it out.
fn lead_counts(data: &ThreadData) -> bool {
    matches!(data.form, Form::Acme | Form::StubAcme | Form::Trapezoidal) || data.starts > 1
}

/// What a wire adds to the pitch diameter, `unit`s: w (1 + √(cosec² α + cot² α tan² λ)) − gap·cot α, with the lead angle λ
/// at the basic pitch diameter (National Bureau of Standards Handbook H28; without the lead angle w (1 + cosec α) − P/2·cot α).
fn constant(data: &ThreadData, wire: Length) -> Option<Length> {
    let flanks = flanks(data)?;
    let (cosec, cot) = (1.0 / flanks.half.sin(), 1.0 / flanks.half.tan());
    let slope = if lead_counts(data) { data.lead_angle.to_radians().tan() } else { 0.0 };
    let p = data.pitch.to_f64(Unit::Millimetre);
    let over = wire.mm() * (1.0 + (cosec * cosec + cot * cot * slope * slope).sqrt()) - flanks.gap * p * cot;
    Some(Length::from_f64(over, Unit::Millimetre))
}

/// Readings over three wires of one diameter; `None` where three wires are not used.
///
/// The wire's constant is added to the pitch diameter's limits, never to the major diameter's.
pub fn over_wires(data: &ThreadData, wire: Length) -> Option<OverWires> {
    let constant = constant(data, wire)?;
    let limits = data.external.as_ref()?.pitch_diameter;
    Some(OverWires {
        wire,
        basic: data.basic_pitch_diameter + constant,
        max: limits.max + constant,
        min: limits.min + constant,
    })
}

/// The pitch diameter that a reading over wires means; `None` where three wires are not used.
pub fn pitch_diameter_of(data: &ThreadData, wire: Length, reading: Length) -> Option<Length> {
    Some(reading - constant(data, wire)?)
}
