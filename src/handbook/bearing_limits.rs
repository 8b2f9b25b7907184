//! Limits of a rolling bearing's inner ring: ISO 492, normal class.

use std::sync::LazyLock;

use super::{Source, Table};
use crate::unit::{Length, Limits, Unit};

static ISO_492: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/iso492.csv")));

/// Limits of the mean bore of a bearing of this nominal bore, to 250 mm. Inch bearings are taken by the same ranges.
pub fn bore(nominal: Length) -> Option<(Limits, Source)> {
    limits(nominal, nominal, "bore_lower")
}

/// Limits of the inner ring's width, by the nominal bore, to 250 mm.
pub fn width(nominal_bore: Length, nominal_width: Length) -> Option<(Limits, Source)> {
    limits(nominal_bore, nominal_width, "width_lower")
}

fn limits(bore: Length, size: Length, column: &str) -> Option<(Limits, Source)> {
    let row = ISO_492.range(bore, Unit::Millimetre)?;
    let lower = row.thousandths(column, Unit::Millimetre)?;
    Some((Limits::around(size, Length::ZERO, lower), row.source()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 492 normal class as printed in a bearing maker's web page (rows 10 to 250 mm): bore −8 −10 −12 −15 −20 −25 −30 µm,
    /// width −120 −120 −120 −150 −200 −250 −300 µm; a second catalogue prints the rows to 18 mm with −8 µm.
    #[test]
    fn normal_class_as_printed() {
        let printed = [
            (2, 8, 40),
            (8, 8, 120),
            (17, 8, 120),
            (30, 10, 120),
            (50, 12, 120),
            (80, 15, 150),
            (120, 20, 200),
            (180, 25, 250),
            (250, 30, 300),
        ];
        for (mm, bore_under, width_under) in printed {
            let nominal = Length::PER_MM.times(mm);
            let (limits, _) = bore(nominal).expect("in the table");
            assert_eq!(limits, Limits::new(nominal - Length::micrometres(bore_under), nominal), "bore {mm}");
            let wide = Length::PER_MM.times(10);
            let (limits, _) = width(nominal, wide).expect("in the table");
            assert_eq!(limits, Limits::new(wide - Length::micrometres(width_under), wide), "width at bore {mm}");
        }
        assert!(bore(Length::PER_MM.times(251)).is_none());
    }
}
