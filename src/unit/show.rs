//! The one place that rounds a length and writes it: inches without a leading zero, millimetres with one.

use super::{Length, Limits, Unit};

/// `value` in `unit` to `decimals` places, halves away from zero: `.750` in inches, `0.75` in millimetres. A minus is `−`.
pub fn length(value: Length, unit: Unit, decimals: u8) -> String {
    let text = plain(value, unit, decimals);
    let (sign, digits) = text.strip_prefix('-').map_or(("", text.as_str()), |d| ("\u{2212}", d));
    let digits = if unit == Unit::Inch && digits.starts_with("0.") { &digits[1..] } else { digits };
    format!("{sign}{digits}")
}

/// Digits with an ASCII minus and a leading zero, for machines and for YAML.
pub fn plain(value: Length, unit: Unit, decimals: u8) -> String {
    let scale = 10_i128.pow(u32::from(decimals.min(12)));
    let one = i128::from(unit.one().pm());
    let scaled = i128::from(value.pm().abs()) * scale;
    let rounded = (scaled + one / 2) / one;
    let sign = if value.pm() < 0 && rounded != 0 { "-" } else { "" };
    if decimals == 0 {
        return format!("{sign}{rounded}");
    }
    format!("{sign}{}.{:0width$}", rounded / scale, rounded % scale, width = usize::from(decimals.min(12)))
}

/// With at least `least` decimals and as many more (to `most`) as the exact value needs.
pub fn exact(value: Length, unit: Unit, least: u8, most: u8) -> String {
    length(value, unit, decimals_needed(value, unit, least, most))
}

/// Decimals the exact value needs in `unit`, between `least` and `most`.
pub fn decimals_needed(value: Length, unit: Unit, least: u8, most: u8) -> u8 {
    let one = i128::from(unit.one().pm());
    (least..most).find(|d| i128::from(value.pm()) * 10_i128.pow(u32::from(*d)) % one == 0).unwrap_or(most.max(least))
}

/// The smallest step shown with so many decimals.
pub fn step(unit: Unit, decimals: u8) -> Length {
    Length::from_pm(unit.one().pm() / 10_i64.pow(u32::from(decimals.min(9))))
}

/// Usual decimals: three for inches, two for millimetres.
pub const fn usual_decimals(unit: Unit) -> u8 {
    match unit {
        Unit::Inch => 3,
        Unit::Millimetre => 2,
    }
}

/// Both limits with the same decimals, rounded inward so that what is shown never allows more than what is meant.
/// Values that are exact at `decimals` are shown as they are.
pub fn limits(band: Limits, unit: Unit, decimals: u8) -> (String, String) {
    let inner = band.inward(step(unit, decimals));
    (length(inner.max, unit, decimals), length(inner.min, unit, decimals))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leading_zeros_follow_the_unit() {
        assert_eq!(length(Length::micro_inches(750_000), Unit::Inch, 3), ".750");
        assert_eq!(length(Length::micrometres(750), Unit::Millimetre, 2), "0.75");
        assert_eq!(length(Length::micro_inches(-3_000), Unit::Inch, 3), "\u{2212}.003");
        assert_eq!(length(Length::micro_inches(-300), Unit::Inch, 3), ".000");
        assert_eq!(length(Length::PER_INCH.times(7), Unit::Inch, 3), "7.000");
    }

    #[test]
    fn limits_from_the_other_unit_round_inward() {
        // 17 mm k5 is 17.001 to 17.009 mm = .669331 to .669646 in: .6694 is the least that k5 allows.
        let k5 = Limits::new(Length::micrometres(17_001), Length::micrometres(17_009));
        assert_eq!(limits(k5, Unit::Inch, 4), (".6696".to_owned(), ".6694".to_owned()));
    }
}
