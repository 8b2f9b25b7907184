//! From a designation to everything the handbook tells of the thread.

use crate::handbook::{Source, drill};
use crate::unit::{Length, Limits, Unit};

use super::{
    Asked, Designation, External, Family, Form, Internal, Taper, ThreadData, Unknown, acme, buttress, feed, metric,
    pipe, relief, series, square, tap, taper, trapezoidal, unified, whitworth, wires,
};

/// What each standard's module works out; the rest follows alike for all.
pub(super) struct Sides {
    pub(super) form: Form,
    pub(super) nominal: Length,
    pub(super) basic_pitch_diameter: Length,
    pub(super) external: Option<External>,
    pub(super) internal: Option<Internal>,
    pub(super) depth: Length,
    pub(super) tool_flat: Length,
    pub(super) taper: Option<Taper>,
    pub(super) source: Vec<Source>,
    pub(super) notes: Vec<String>,
}

/// Everything about the thread `d`.
///
/// Without a class the usual one is taken (2A/2B, 6g/6H, 2G, 7e/7H, medium) and `notes` says so. Both the external and the
/// internal thread are given; the class asked for decides one, its usual mate the other.
///
/// # Errors
/// [`Unknown`]: a pair in no series (unless [`Asked::special`]), a class the standard does not have, a size beyond it.
pub fn limits(d: &Designation, asked: &Asked) -> Result<ThreadData, Unknown> {
    let standard = series::is_standard(d);
    let sides = match d.family {
        Family::UnifiedInch { .. } => unified::sides(d, asked, standard)?,
        Family::IsoMetric => metric::sides(d, asked)?,
        Family::Acme { stub } => acme::sides(d, stub)?,
        Family::IsoTrapezoidal => trapezoidal::sides(d, asked, standard)?,
        Family::Whitworth { .. } => whitworth::sides(d, asked, standard)?,
        Family::PipeParallel => pipe::sides(d)?,
        Family::PipeTaperNpt | Family::PipeTaperR { .. } => taper::sides(d)?,
        Family::Square => square::sides(d)?,
        Family::Buttress { .. } => buttress::sides(d, asked)?,
    };
    Ok(assemble(d, asked, standard, sides))
}

fn assemble(d: &Designation, asked: &Asked, standard: bool, sides: Sides) -> ThreadData {
    let unit = d.unit();
    let mut data = ThreadData {
        designation: d.clone(),
        unit,
        form: sides.form,
        standard,
        nominal: sides.nominal,
        basic_pitch_diameter: sides.basic_pitch_diameter,
        pitch: d.pitch,
        lead: d.lead(),
        starts: d.starts,
        hand: d.hand,
        blank: sides.external.as_ref().map(|e| e.major),
        external: sides.external,
        internal: sides.internal,
        depth: sides.depth,
        compound: Vec::new(),
        wire: None,
        over_wires: None,
        lead_angle: lead_angle(d.lead().to_f64(Unit::Millimetre), sides.basic_pitch_diameter.mm()),
        tap_drill: None,
        relief: None,
        start_chamfer: sides.depth,
        tool_flat: sides.tool_flat,
        taper: sides.taper,
        source: sides.source,
        notes: sides.notes,
    };
    data.compound = feed::feeds(&data);
    data.wire = wires::wire(&data);
    data.over_wires = asked.wire.or(data.wire.map(|w| w.best)).and_then(|w| wires::over_wires(&data, w));
    data.tap_drill = tap::tap_drill(&data);
    data.relief = relief::relief(&data);
    if data.tap_drill.is_some() && data.unit == Unit::Inch {
        data.source.push(drill::source());
    }
    if data.relief.is_some() {
        data.source.push(relief::relief_source(&data));
    }
    data
}

/// Lead angle in degrees at a diameter.
pub(super) fn lead_angle(lead: f64, diameter: f64) -> f64 {
    (lead / (std::f64::consts::PI * diameter)).atan().to_degrees()
}

/// The diameter a single-point tool leaves at the smallest pitch diameter, which a relief must clear: PD min − 0.64952 P for
/// 60° threads, the least minor diameter for the others. `None` without an external thread.
pub fn single_point_root(data: &ThreadData) -> Option<Length> {
    let external = data.external.as_ref()?;
    Some(match data.form {
        Form::Sixty => external.pitch_diameter.min - times(data.pitch, 0.649_519_05),
        _ => external.minor.min,
    })
}

/// The diameter whatever slides over the thread must pass: its largest crest. `None` without an external thread.
pub fn crest(data: &ThreadData) -> Option<Length> {
    data.external.as_ref().map(|e| e.major.max)
}

/// `factor` pitches, to the nearest picometre.
pub(super) fn times(pitch: super::Pitch, factor: f64) -> Length {
    let unit = pitch.unit();
    Length::from_f64(pitch.to_f64(unit) * factor, unit)
}

/// To .0001 in, as inch standards round.
pub(super) fn tenths(value: f64) -> Length {
    Length::from_f64(value, Unit::Inch).round_to(Length::inch_tenths(1))
}

/// To .001 mm, as metric standards round.
pub(super) fn microns(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre).round_to(Length::micrometres(1))
}

/// `max` and what is `tolerance` below it.
pub(super) fn below(max: Length, tolerance: Length) -> Limits {
    Limits::new(max - tolerance, max)
}

/// `min` and what is `tolerance` above it.
pub(super) fn above(min: Length, tolerance: Length) -> Limits {
    Limits::new(min, min + tolerance)
}
