//! O-ring cross-sections (SAE AS568, ISO 3601-1) and grooves on a shaft for radial seals.

use std::sync::LazyLock;

use super::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit};

static GLANDS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/o_ring.csv")));

/// Whether the sealed parts move on each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Motion {
    /// They stand still.
    Static,
    /// They slide to and fro.
    Sliding,
}

/// A groove for an O-ring of one cross-section, without backup rings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gland {
    /// Cross-section, with its tolerance.
    pub section: Limits,
    /// From the bottom of the groove to the bore that closes it, a side.
    pub depth: Limits,
    /// Width of the groove.
    pub width: Limits,
    /// Radius in its corners.
    pub radius: Limits,
    /// Table.
    pub source: Source,
}

impl Gland {
    /// Groove diameter on a shaft in a bore of this diameter.
    pub fn groove_in(&self, bore: Length) -> Limits {
        Limits::new(bore - self.depth.max.times(2), bore - self.depth.min.times(2))
    }

    /// Smallest and largest squeeze in thousandths of the cross-section, at nominal section.
    pub fn squeeze_permille(&self) -> (i64, i64) {
        let section = self.section.middle();
        let squeeze = |depth: Length| (section - depth).pm() * 1000 / section.pm().max(1);
        (squeeze(self.depth.max), squeeze(self.depth.min))
    }
}

/// The groove for a cross-section given in inches (`.139`) or millimetres (3.53), within .002 in.
pub fn gland(section: Length, motion: Motion) -> Option<Gland> {
    let near = |row: &Row<'_>| {
        row.length("section", Unit::Inch).is_some_and(|s| (s - section).abs() <= Length::micro_inches(2_000))
    };
    glands(motion).find(near).and_then(of)
}

/// All cross-sections of the series.
pub fn sections() -> impl Iterator<Item = Length> {
    glands(Motion::Static).filter_map(|row| row.length("section", Unit::Inch))
}

fn glands(motion: Motion) -> impl Iterator<Item = Row<'static>> {
    let word = if motion == Motion::Static { "static" } else { "dynamic" };
    GLANDS.rows().filter(move |row| row.text("use") == word)
}

fn of(row: Row<'_>) -> Option<Gland> {
    let inch = |column| row.length(column, Unit::Inch);
    let (section, tolerance) = (inch("section")?, inch("tolerance")?);
    Some(Gland {
        section: Limits::around(section, tolerance, -tolerance),
        depth: Limits::new(inch("depth_min")?, inch("depth_max")?),
        width: Limits::new(inch("width_min")?, inch("width_max")?),
        radius: Limits::new(inch("radius_min")?, inch("radius_max")?),
        source: row.source(),
    })
}
