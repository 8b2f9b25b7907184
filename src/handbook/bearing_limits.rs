//! Limits of a rolling bearing's rings: ISO 492, normal class.

use std::sync::LazyLock;

use super::{Source, Table};
use crate::unit::{Length, Limits, Unit};

static OUTER: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/iso492_outer.csv")));

static ISO_492: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/iso492.csv")));

/// Limits of the mean bore of a bearing of this nominal bore, to 250 mm. Inch bearings are taken by the same ranges.
pub fn bore(nominal: Length) -> Option<(Limits, Source)> {
    limits(nominal, nominal, "bore_lower")
}

/// Limits of the mean outside diameter of a bearing of this nominal outside diameter, over 6 to 500 mm. Inch bearings are taken by the same ranges.
pub fn outside(nominal: Length) -> Option<(Limits, Source)> {
    let row = OUTER.range(nominal, Unit::Millimetre)?;
    let lower = row.thousandths("outside_lower", Unit::Millimetre)?;
    Some((Limits::around(nominal, Length::ZERO, lower), row.source()))
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

    /// Normal class of deep groove ball bearings on a dealer's page of tolerances (rajkot.com, rows 18 to 400 mm): outside −9 −11 −13 −15 −18 −25 −30 −35
    /// −40 µm. Another dealer's page of the ABEC 1 limits in inches (consbrgs.com, 6 to 500 mm) prints .0003 .00035 .0004 .0005 .0006 .0007 .0010 .0012
    /// .0014 .0016 .0018: each is ours to half of its last digit.
    #[test]
    fn outer_rings_as_two_pages_print_them() {
        let under = |mm: i64| {
            let nominal = Length::PER_MM.times(mm);
            let (limits, _) = outside(nominal).expect("in the table");
            assert_eq!(limits.max, nominal);
            nominal - limits.min
        };
        for (mm, printed) in
            [(30, 9), (50, 11), (80, 13), (120, 15), (150, 18), (180, 25), (250, 30), (315, 35), (400, 40)]
        {
            assert_eq!(under(mm), Length::micrometres(printed), "{mm}");
        }
        let inches = [
            (18, 0.0003),
            (19, 0.00035),
            (47, 0.0004),
            (52, 0.0005),
            (110, 0.0006),
            (140, 0.0007),
            (160, 0.0010),
            (200, 0.0012),
            (300, 0.0014),
            (380, 0.0016),
            (500, 0.0018),
        ];
        for (mm, printed) in inches {
            assert!((under(mm).inches() - printed).abs() <= 0.000_051, "{mm}: {}", under(mm).inches());
        }
        assert!(outside(Length::PER_MM.times(501)).is_none() && outside(Length::PER_MM.times(6)).is_none());
    }
}
