//! Grooves for retaining rings on shafts: DIN 471 and ASME B18.27 (basic external rings).

use std::sync::LazyLock;

use super::fit;
use super::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit};

static METRIC: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/din471.csv")));
static INCH: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/b1827.csv")));

/// A ring groove on a shaft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RingGroove {
    /// Shaft it is for.
    pub shaft: Length,
    /// Diameter of the groove.
    pub diameter: Limits,
    /// Width of the groove.
    pub width: Limits,
    /// Thickness of the ring.
    pub ring: Length,
    /// Least length of shaft beyond the groove, for the ring's full load.
    pub edge: Length,
    /// Table of the nominal sizes.
    pub source: Source,
    /// Table of the tolerances.
    pub tolerance_source: Source,
}

impl RingGroove {
    /// Depth a side at the groove's nominal diameter: half of what the diameters differ, the trap of a depth "on diameter".
    pub fn depth_a_side(&self) -> Length {
        (self.shaft - self.diameter.max).half()
    }
}

/// The groove for a shaft of the standard.
pub fn for_shaft(shaft: Length, unit: Unit) -> Option<RingGroove> {
    let row = table(unit).rows().find(|row| row.length("shaft", unit) == Some(shaft))?;
    match unit {
        Unit::Millimetre => metric(row),
        Unit::Inch => inch(row),
    }
}

/// The shafts of the standard, rising.
pub fn shafts(unit: Unit) -> impl Iterator<Item = Length> {
    table(unit).rows().filter_map(move |row| row.length("shaft", unit))
}

fn table(unit: Unit) -> &'static Table {
    match unit {
        Unit::Millimetre => &METRIC,
        Unit::Inch => &INCH,
    }
}

fn metric(row: Row<'_>) -> Option<RingGroove> {
    let mm = |column| row.length(column, Unit::Millimetre);
    let (shaft, groove, width) = (mm("shaft")?, mm("groove")?, mm("width")?);
    let grade = match shaft {
        s if s <= Length::PER_MM.times(10) => "h10",
        s if s <= Length::PER_MM.times(22) => "h11",
        _ => "h12",
    };
    Some(RingGroove {
        shaft,
        diameter: fit::shaft(grade, groove).ok()?.limits(groove),
        width: fit::hole("H13", width).ok()?.limits(width),
        ring: mm("ring")?,
        edge: mm("edge")?,
        source: row.source(),
        tolerance_source: Source::from_memory("DIN 471: groove h10 to 10 mm, h11 to 22 mm, h12 beyond; width H13"),
    })
}

fn inch(row: Row<'_>) -> Option<RingGroove> {
    let inch = |column| row.length(column, Unit::Inch);
    let (shaft, groove, width) = (inch("shaft")?, inch("groove")?, inch("width")?);
    let thou = |n: i64| Length::micro_inches(n * 1000);
    Some(RingGroove {
        shaft,
        diameter: Limits::around(groove, thou(3), thou(-3)),
        width: Limits::around(width, thou(3), Length::ZERO),
        ring: inch("ring")?,
        // Three times the groove's depth: the rule behind the printed edge margins (practice).
        edge: (shaft - groove).half().times(3),
        source: row.source(),
        tolerance_source: row.source(),
    })
}
