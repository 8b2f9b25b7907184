//! A number as it is shown: its exact value, and the digits its method can hold.

use crate::plan::cutting::shown_size;
use crate::unit::{Length, Limits, Unit, show};

/// A length with the digits it is shown with.
///
/// `value` is exact unless a field says it is rounded; [`Figure::text`] is the only place that cuts digits off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// The length.
    pub value: Length,
    /// Digits behind the point on paper.
    pub decimals: u8,
}

impl Figure {
    /// With so many decimals.
    pub const fn new(value: Length, decimals: u8) -> Self {
        Self { value, decimals }
    }

    /// With the usual decimals of the unit: three for inches, two for millimetres.
    pub const fn usual(value: Length, unit: Unit) -> Self {
        Self { value, decimals: show::usual_decimals(unit) }
    }

    /// With one decimal more than usual: close sizes.
    pub const fn fine(value: Length, unit: Unit) -> Self {
        Self { value, decimals: show::usual_decimals(unit) + 1 }
    }

    /// Rounded to the digits it is shown with, halves away from zero.
    #[must_use]
    pub fn rounded(self, unit: Unit) -> Self {
        Self { value: self.value.round_to(show::step(unit, self.decimals)), ..self }
    }

    /// The same on dials in another unit: digits that stand for as much.
    #[must_use]
    pub(super) fn on_dials(self, from: Unit, to: Unit) -> Self {
        let more = self.decimals.saturating_sub(show::usual_decimals(from));
        Self { decimals: show::usual_decimals(to) + more, ..self }
    }

    /// As it is printed.
    pub fn text(self, unit: Unit) -> String {
        show::length(self.value, unit, self.decimals)
    }
}

/// Limits of a size: what is meant, and what is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SizeLimits {
    /// What is meant.
    pub exact: Limits,
    /// Largest as printed; a limit worked from the other unit is rounded inward.
    pub max: Figure,
    /// Smallest as printed.
    pub min: Figure,
}

impl SizeLimits {
    /// With the usual decimals, or one more where a limit needs it.
    pub fn of(exact: Limits, unit: Unit) -> Self {
        let least = show::usual_decimals(unit);
        let needed = |at| show::decimals_needed(at, unit, least, least + 1);
        Self::with(exact, unit, needed(exact.min).max(needed(exact.max)))
    }

    /// Limits of something that comes from elsewhere and may be anywhere within them, rounded outward: what it can be is never more than shown.
    pub fn outward(exact: Limits, unit: Unit) -> Self {
        let decimals = Self::of(exact, unit).max.decimals;
        let step = show::step(unit, decimals);
        let (min, max) = (exact.min.floor_to(step), exact.max.ceil_to(step));
        Self { exact, max: Figure::new(max, decimals), min: Figure::new(min, decimals) }
    }

    /// With so many decimals, or more where these would print wider limits.
    pub fn with(exact: Limits, unit: Unit, decimals: u8) -> Self {
        // Where no number of so many digits lies within them, more are printed: never a band that is wider than drawn.
        let narrow = |d: &u8| exact.min.ceil_to(show::step(unit, *d)) <= exact.max.floor_to(show::step(unit, *d));
        let decimals = if exact.band().is_positive() {
            (decimals..decimals + 3).find(narrow).unwrap_or(decimals + 3)
        } else {
            decimals
        };
        let inner = exact.inward(show::step(unit, decimals));
        Self { exact, max: Figure::new(inner.max, decimals), min: Figure::new(inner.min, decimals) }
    }
}

/// The size to aim at: `wanted` in full display digits (four for inches, three for millimetres), or as it is where rounding would
/// leave the limits. Close sizes show all of those digits; the others only as many as they need.
pub fn aim(wanted: Length, limits: Option<Limits>, close: bool, unit: Unit) -> Figure {
    let usual = show::usual_decimals(unit);
    let shown = shown_size(wanted, limits, unit);
    let fine = Figure::fine(shown, unit);
    if fine.rounded(unit) != fine {
        return Figure::new(wanted, show::decimals_needed(wanted, unit, usual + 1, usual + 3));
    }
    if close { fine } else { Figure::new(fine.value, show::decimals_needed(fine.value, unit, usual, usual + 1)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_in_full_display_digits() {
        let seat = Limits::new(Length::inch_tenths(8740), Length::inch_tenths(8745));
        assert_eq!(aim(seat.middle(), Some(seat), true, Unit::Inch).text(Unit::Inch), ".8743");
        let k5 = Limits::new(Length::micrometres(17_001), Length::micrometres(17_009));
        assert_eq!(aim(k5.middle(), Some(k5), true, Unit::Inch).text(Unit::Inch), ".6695");
        assert_eq!(aim(k5.middle(), Some(k5), true, Unit::Millimetre).text(Unit::Millimetre), "17.005");
        let open = Limits::new(Length::inch_tenths(7680), Length::inch_tenths(7720));
        assert_eq!(aim(open.middle(), Some(open), false, Unit::Inch).text(Unit::Inch), ".770");
    }

    /// A band of .00008 holds no number of four decimals but at one end; one of .0001 holds two, its ends. Neither may be aimed at its end, nor printed
    /// wider than drawn. By hand: the middles are .87455 and .87455.
    #[test]
    fn a_narrow_band_is_printed_in_its_own_digits() {
        let band = Limits::new(Length::micro_inches(874_510), Length::micro_inches(874_590));
        let shown = SizeLimits::of(band, Unit::Inch);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), (".87459".into(), ".87451".into()));
        assert_eq!(aim(band.middle(), Some(band), true, Unit::Inch).text(Unit::Inch), ".87455");
        let tenth = Limits::new(Length::inch_tenths(8_745), Length::inch_tenths(8_746));
        assert_eq!(aim(tenth.middle(), Some(tenth), true, Unit::Inch).text(Unit::Inch), ".87455");
        let shown = SizeLimits::of(tenth, Unit::Inch);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), (".8746".into(), ".8745".into()));
    }

    /// ISO 492: the bore of a 25.4 mm bearing, class normal, is 25.390 to 25.400 mm (0 / −10 µm): .99961 to 1.00000 in. One may come that
    /// measures .9996.
    #[test]
    fn what_comes_from_elsewhere_rounds_outward() {
        let bore = Limits::new(Length::micrometres(25_390), Length::micrometres(25_400));
        let shown = SizeLimits::outward(bore, Unit::Inch);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), ("1.0000".into(), ".9996".into()));
        assert_eq!(SizeLimits::of(bore, Unit::Inch).min.text(Unit::Inch), ".9997");
    }

    #[test]
    fn limits_from_the_other_unit_round_inward() {
        let k5 = Limits::new(Length::micrometres(17_001), Length::micrometres(17_009));
        let shown = SizeLimits::of(k5, Unit::Inch);
        assert_eq!((shown.max.text(Unit::Inch), shown.min.text(Unit::Inch)), (".6696".into(), ".6694".into()));
        let usual = SizeLimits::of(Limits::new(Length::inch_tenths(10_580), Length::inch_tenths(10_620)), Unit::Inch);
        assert_eq!((usual.max.text(Unit::Inch), usual.min.text(Unit::Inch)), ("1.062".into(), "1.058".into()));
    }
}
