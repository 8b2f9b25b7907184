//! Pipe threads by size, and the parallel one that does not seal in the thread: G, ISO 228-1.

use std::sync::LazyLock;

use super::limits::{Sides, above, below};
use super::series::tpi;
use super::{Designation, External, Family, Form, Internal, Pitch, Unknown};
use crate::handbook::{Row, Table};
use crate::unit::{Length, Unit};

static PARALLEL: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("pipe_parallel.csv")));
static TAPER_R: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("pipe_taper_r.csv")));
static NPT: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("pipe_taper_npt.csv")));
const MM: Unit = Unit::Millimetre;

fn table(family: Family) -> &'static Table {
    match family {
        Family::PipeTaperNpt => &NPT,
        Family::PipeTaperR { .. } => &TAPER_R,
        _ => &PARALLEL,
    }
}

/// The row of a size in its family's own table.
pub(super) fn row(family: Family, size: Length) -> Option<Row<'static>> {
    table(family).rows().find(|r| r.length("size", Unit::Inch) == Some(size))
}

/// Sizes by name and their pitch.
pub(super) fn sizes(family: Family) -> impl Iterator<Item = (Length, Pitch)> {
    table(family).rows().filter_map(move |r| {
        let size = r.length("size", Unit::Inch)?;
        Some((size, pitch(family, size)?))
    })
}

/// The pitch of a size; the R series has that of G.
pub(super) fn pitch(family: Family, size: Length) -> Option<Pitch> {
    let of = if matches!(family, Family::PipeTaperR { .. }) {
        row(family, size)?;
        row(Family::PipeParallel, size)?
    } else {
        row(family, size)?
    };
    tpi(of.text("tpi"))
}

/// Basic diameters of the ISO 228-1 size: major, pitch, minor.
pub(super) fn basic(size: Length) -> Option<(Length, Length, Length)> {
    let row = row(Family::PipeParallel, size)?;
    let (major, height) = (row.length("major", MM)?, row.length("height", MM)?);
    Some((major, major - height, major - height.times(2)))
}

pub(super) fn sides(d: &Designation) -> Result<Sides, Unknown> {
    let range = Unknown::Range("G 1/16 to G 6");
    let (Some(row), Some((major, pitch, minor))) = (row(d.family, d.nominal), basic(d.nominal)) else {
        return Err(range);
    };
    if Some(d.pitch) != self::pitch(d.family, d.nominal) {
        return Err(Unknown::Pair { nearest: super::series::nearest(d, 1) });
    }
    let tolerance = |column| row.length(column, MM).unwrap_or_default();
    let mut notes = Vec::new();
    let class = d.class.as_deref().unwrap_or_else(|| {
        notes.push("no class given: A assumed".to_owned());
        "A"
    });
    let pitch_tolerance = tolerance("pitch_tolerance");
    let external_tolerance = if class == "B" { pitch_tolerance.times(2) } else { pitch_tolerance };
    notes.push("crests may be flat or rounded within the limits; the minor diameter is basic".to_owned());
    Ok(Sides {
        form: Form::Whitworth,
        nominal: major,
        basic_pitch_diameter: pitch,
        external: Some(External {
            class: class.to_owned(),
            allowance: Length::ZERO,
            major: below(major, tolerance("major_tolerance")),
            pitch_diameter: below(pitch, external_tolerance),
            minor: below(minor, external_tolerance),
        }),
        internal: Some(Internal {
            class: String::new(),
            minor: above(minor, tolerance("minor_tolerance")),
            pitch_diameter: above(pitch, pitch_tolerance),
            major_min: major,
        }),
        depth: row.length("height", MM).unwrap_or_default(),
        tool_flat: super::limits::times(d.pitch, 0.137_329),
        taper: None,
        source: vec![PARALLEL.source()],
        notes,
    })
}
