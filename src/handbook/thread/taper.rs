//! Taper pipe threads: NPT (ASME B1.20.1) and R, Rc, Rp (ISO 7-1).

use super::limits::{Sides, microns, times};
use super::{Designation, External, Family, Form, Internal, Taper, TaperPipe, Unknown, pipe};
use crate::unit::{Length, Limits, Unit};

const MM: Unit = Unit::Millimetre;

pub(super) fn sides(d: &Designation) -> Result<Sides, Unknown> {
    if Some(d.pitch) != pipe::pitch(d.family, d.nominal) {
        return Err(Unknown::Pair { nearest: super::series::nearest(d, 2) });
    }
    match d.family {
        Family::PipeTaperR { kind } => iso_7(d, kind),
        _ => npt(d),
    }
}

fn around(at: Length, by: Length) -> Limits {
    Limits::new(at - by, at + by)
}

/// NPT: external limits at the small end, internal ones at the large end, plus or minus one turn of the gauge.
fn npt(d: &Designation) -> Result<Sides, Unknown> {
    let range = || Unknown::Range("NPT 1/16 to 12");
    let row = pipe::row(d.family, d.nominal).ok_or_else(range)?;
    let cell = |c| row.length(c, Unit::Inch).ok_or_else(range);
    let (outside, small_end, l1, l2) = (cell("outside")?, cell("e0")?, cell("l1")?, cell("l2")?);
    let gauge_plane = small_end + l1.times_ratio(1, 16);
    let height = times(d.pitch, 0.8);
    let turn = d.pitch.nearest();
    let by = turn.times_ratio(1, 16);
    Ok(Sides {
        form: Form::TaperSixty,
        nominal: outside,
        basic_pitch_diameter: gauge_plane,
        external: Some(External {
            class: String::new(),
            allowance: Length::ZERO,
            major: around(small_end + height, by),
            pitch_diameter: around(small_end, by),
            minor: around(small_end - height, by),
        }),
        internal: Some(Internal {
            class: String::new(),
            minor: around(gauge_plane - height, by),
            pitch_diameter: around(gauge_plane, by),
            major_min: gauge_plane + height - by,
        }),
        depth: height,
        tool_flat: times(d.pitch, 0.038),
        taper: Some(Taper {
            one_in: 16,
            gauge_length: l1,
            gauge_tolerance: turn,
            useful_length: l2,
            small_end,
            gauge_plane,
        }),
        source: vec![row.source()],
        notes: vec![
            "external diameters are at the small end, internal ones at the large end (gauge plane); tolerance one turn either way"
                .to_owned(),
        ],
    })
}

/// R external taper, Rc internal taper, Rp internal parallel; diameters at the gauge plane are those of G.
fn iso_7(d: &Designation, kind: TaperPipe) -> Result<Sides, Unknown> {
    let range = || Unknown::Range("R 1/16 to R 6");
    let row = pipe::row(d.family, d.nominal).ok_or_else(range)?;
    let (major, pitch, minor) = pipe::basic(d.nominal).ok_or_else(range)?;
    let cell = |c| row.length(c, MM).ok_or_else(range);
    let (gauge_length, gauge_tolerance, useful_length) =
        (cell("gauge_length")?, cell("gauge_tolerance")?, cell("useful_length")?);
    let rise = gauge_length.times_ratio(1, 16);
    let by = microns(gauge_tolerance.mm() / 16.0);
    let small = |x: Length| around((x - rise).round_to(Length::micrometres(1)), by);
    Ok(Sides {
        form: Form::TaperWhitworth,
        nominal: major,
        basic_pitch_diameter: pitch,
        external: (kind == TaperPipe::R).then(|| External {
            class: String::new(),
            allowance: Length::ZERO,
            major: small(major),
            pitch_diameter: small(pitch),
            minor: small(minor),
        }),
        internal: Some(Internal {
            class: String::new(),
            minor: around(minor, by),
            pitch_diameter: around(pitch, by),
            major_min: major - by,
        }),
        depth: (major - minor).half(),
        tool_flat: times(d.pitch, 0.137_329),
        taper: (kind != TaperPipe::Rp).then_some(Taper {
            one_in: 16,
            gauge_length,
            gauge_tolerance,
            useful_length,
            small_end: pitch - rise,
            gauge_plane: pitch,
        }),
        source: vec![row.source()],
        notes: vec!["external diameters are at the small end, internal ones at the gauge plane".to_owned()],
    })
}
