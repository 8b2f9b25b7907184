//! Steel pipe by its nominal size (ASME B36.10M), up to 4 in: the name is no diameter of it.

use std::sync::LazyLock;

use super::{Source, Table};
use crate::unit::{Length, Unit};

static SIZES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/pipe.csv")));

/// How thick the wall is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// Standard weight, schedule 40.
    Standard,
    /// Extra strong, schedule 80.
    Strong,
}

/// Outside diameter and bore of a pipe by its nominal size as it is written (`1/2`, `1 1/4`, `1-1/4`); none for a size that is not in the table.
pub fn find(size: &str, weight: Weight) -> Option<(Length, Length)> {
    let name = size.trim().trim_end_matches(['"', '\u{2033}']).trim_end_matches("in").trim().replace('-', " ");
    let row = SIZES.find("size", &name)?;
    let column = match weight {
        Weight::Standard => "standard",
        Weight::Strong => "strong",
    };
    let (outside, wall) = (row.length("outside", Unit::Inch)?, row.length(column, Unit::Inch)?);
    Some((outside, outside - wall.times(2)))
}

/// Its sizes, rising.
pub fn sizes() -> impl Iterator<Item = &'static str> {
    SIZES.rows().map(|row| row.text("size"))
}

/// How far the outside may be off: 1/64 in either way up to 1 1/2, 1 % above (ASTM A53, from memory).
pub fn outside_tolerance(outside: Length) -> Length {
    if outside <= Length::micro_inches(1_900_000) { Length::micro_inches(15_625) } else { outside.times_ratio(1, 100) }
}

/// Where the sizes were printed.
pub fn source() -> Source {
    SIZES.source()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bores (inside diameters) as another printing has them, a pipe chart of a supplier of fittings: they are not in our table. Schedule 40 and 80.
    #[test]
    fn bores_of_another_printing() {
        for (size, forty, eighty) in [
            ("1/8", 269, 215),
            ("1/4", 364, 302),
            ("3/8", 493, 423),
            ("1/2", 622, 546),
            ("3/4", 824, 742),
            ("1", 1_049, 957),
            ("1 1/4", 1_380, 1_278),
            ("1-1/2", 1_610, 1_500),
            ("2", 2_067, 1_939),
            ("2 1/2", 2_469, 2_323),
            ("3\"", 3_068, 2_900),
            ("3 1/2", 3_548, 3_364),
            ("4", 4_026, 3_826),
        ] {
            for (weight, bore) in [(Weight::Standard, forty), (Weight::Strong, eighty)] {
                let found = find(size, weight).map(|(_, bore)| bore);
                assert_eq!(found, Some(Length::micro_inches(bore * 1_000)), "{size} {weight:?}");
            }
        }
        assert_eq!(sizes().count(), 13);
        assert_eq!(find("5/8", Weight::Standard), None);
    }

    /// A pipe's outside is the major diameter of its thread: ASME B1.20.1 table 2, column D.
    #[test]
    fn outside_diameters_of_the_pipe_thread_standard() {
        for (size, outside) in
            [("1/8", 405), ("1/4", 540), ("3/8", 675), ("1/2", 840), ("3/4", 1_050), ("1", 1_315), ("2", 2_375)]
        {
            assert_eq!(find(size, Weight::Strong).map(|f| f.0), Some(Length::micro_inches(outside * 1_000)), "{size}");
        }
    }
}
