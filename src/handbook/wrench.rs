//! Widths across flats and corners: hexagons (ISO 272, ASME B18.2) and squares.

use std::sync::LazyLock;

use super::{Source, Table};
use crate::unit::{Length, Unit};

static SIZES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/wrench.csv")));

/// Standard widths across flats, rising.
pub fn across_flats(unit: Unit) -> impl Iterator<Item = Length> {
    SIZES
        .rows()
        .filter(move |row| row.text("unit") == unit.word())
        .filter_map(move |row| row.length("across_flats", unit))
}

/// The standard width nearest to a measured one, and how far off it is.
pub fn nearest(flats: Length, unit: Unit) -> Option<(Length, Length)> {
    across_flats(unit).min_by_key(|size| (*size - flats).abs()).map(|size| (size, flats - size))
}

/// Across the corners of a hexagon: flats times 2/√3 (1.154701).
pub fn hexagon_corners(flats: Length) -> Length {
    flats.times_ratio(1_154_700_538, 1_000_000_000)
}

/// Across the sharp corners of a square: flats times √2 (1.414214).
pub fn square_corners(flats: Length) -> Length {
    flats.times_ratio(1_414_213_562, 1_000_000_000)
}

/// Width of a flat on a round milled to `flats` across: the chord sqrt(D² - s²); zero when it does not cut.
pub fn flat_width(round: Length, flats: Length) -> Length {
    let (d, s) = (i128::from(round.pm()), i128::from(flats.pm()));
    let square = u128::try_from(d * d - s * s).unwrap_or(0);
    Length::from_pm(i64::try_from(square.isqrt()).unwrap_or(0))
}

/// Where the sizes were printed.
pub fn source() -> Source {
    SIZES.source()
}
