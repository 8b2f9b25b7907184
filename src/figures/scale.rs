//! Sizes on the scale of the instrument that reads them, where its unit is not the part's.
//!
//! Limits are rounded inward: a part within those shown is within those drawn.

use super::given::Given;
use super::{Figure, SizeLimits, instrument};
use crate::unit::{Limits, Unit, show};

/// A size as the instrument shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnScale {
    /// Unit of the instrument.
    pub unit: Unit,
    /// The size, rounded to the digits shown, within the limits where there are any.
    pub size: Option<Figure>,
    /// Its limits, rounded inward.
    pub limits: Option<SizeLimits>,
}

/// Decimals on a scale in `to` that stand for so many in `from`: two of a millimetre are three of an inch.
fn decimals(shown: u8, from: Unit, to: Unit) -> u8 {
    show::usual_decimals(to) + shown.saturating_sub(show::usual_decimals(from)).min(1)
}

/// Limits on a scale with at least so many decimals: one more where rounding inward would take half of the band.
fn inward(exact: Limits, unit: Unit, least: u8) -> SizeLimits {
    let shown = SizeLimits::with(exact, unit, least);
    let left = shown.max.value - shown.min.value;
    if left.times(2) >= exact.band() && exact.holds(shown.max.value) && exact.holds(shown.min.value) {
        return shown;
    }
    SizeLimits::with(exact, unit, least + 1)
}

/// `size` and `limits` on the instrument of this kind that would read them; none where it reads in the part's unit, or the shop lists none.
pub(super) fn on_scale(given: &Given, kind: &str, size: Option<Figure>, limits: Option<SizeLimits>) -> Option<OnScale> {
    let largest = limits.map(|l| l.exact.max).or(size.map(|s| s.value))?;
    let unit = instrument::unit(given, kind, largest).filter(|u| *u != given.unit)?;
    let places = size.map_or(0, |s| s.decimals).max(limits.map_or(0, |l| l.max.decimals));
    let least = decimals(places, given.unit, unit);
    let limits = limits.map(|l| inward(l.exact, unit, least));
    let size = size.map(|s| {
        let digits = limits.map_or(least, |l| l.max.decimals);
        let near = Figure::new(s.value, digits).rounded(unit);
        let kept = limits.map_or(near.value, |l| near.value.max(l.min.value).min(l.max.value));
        Figure { value: kept, ..near }
    });
    Some(OnScale { unit, size, limits })
}

/// A size as a micrometer reads it, with its unit where it is not the part's.
pub(super) fn read_as(given: &Given, size: Figure) -> String {
    on_scale(given, "micrometer", Some(size), None)
        .map_or_else(|| size.text(given.unit), |read| format!("{} {}", read.size_text(), read.unit.word()))
}

impl OnScale {
    /// The size as printed, without its unit; empty without one.
    pub fn size_text(&self) -> String {
        self.size.map_or(String::new(), |s| s.text(self.unit))
    }

    /// The size with its unit: `.9830 in`.
    pub fn one(&self) -> Option<String> {
        self.size.map(|s| format!("{} {}", s.text(self.unit), self.unit.word()))
    }

    /// Upper and lower limit as printed, without their unit.
    pub fn limits_text(&self) -> Option<(String, String)> {
        self.limits.map(|l| (l.max.text(self.unit), l.min.text(self.unit)))
    }

    /// `.9834 / .9827 in`.
    pub fn both(&self) -> Option<String> {
        self.limits_text().map(|(max, min)| format!("{max} / {min} {}", self.unit.word()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Length;

    /// ISO 286: 25 f7 is 24.959 to 24.980 mm. 24.980 / 25.4 = .98346 and 24.959 / 25.4 = .98264: within them lie .9834 and .9827.
    #[test]
    fn limits_shown_lie_within_those_drawn() {
        let f7 = Limits::new(Length::micrometres(24_959), Length::micrometres(24_980));
        let shown = inward(f7, Unit::Inch, 4);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), (".9834".into(), ".9827".into()));
        // ISO 286: 17 k5 is 17.001 to 17.009 mm: .66933 to .66964, of which four decimals keep .6694 to .6696.
        let k5 = Limits::new(Length::micrometres(17_001), Length::micrometres(17_009));
        let shown = inward(k5, Unit::Inch, 4);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), (".6696".into(), ".6694".into()));
        // .5000 +0/-.0002 in is 12.69492 to 12.700 mm.
        let inch = Limits::new(Length::inch_tenths(4_998), Length::inch_tenths(5_000));
        let shown = inward(inch, Unit::Millimetre, 3);
        assert_eq!(
            (shown.max.text(Unit::Millimetre), shown.min.text(Unit::Millimetre)),
            ("12.700".into(), "12.695".into())
        );
    }

    #[test]
    fn digits_of_one_scale_for_those_of_the_other() {
        assert_eq!(decimals(2, Unit::Millimetre, Unit::Inch), 3);
        assert_eq!(decimals(3, Unit::Millimetre, Unit::Inch), 4);
        assert_eq!(decimals(3, Unit::Inch, Unit::Millimetre), 2);
        assert_eq!(decimals(4, Unit::Inch, Unit::Millimetre), 3);
    }
}
