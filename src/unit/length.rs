//! [`Length`], and the two kinds of length that must not be mixed up: a place and a diameter.

use std::ops::{Add, AddAssign, Neg, Sub};

/// The unit a description, or one size in it, is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Unit {
    /// Inches.
    Inch,
    /// Millimetres.
    Millimetre,
}

impl Unit {
    /// One of this unit.
    pub const fn one(self) -> Length {
        match self {
            Self::Inch => Length::PER_INCH,
            Self::Millimetre => Length::PER_MM,
        }
    }

    /// `in` or `mm`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

/// An exact distance in picometres. One inch is 25 400 000 000, one millimetre 1 000 000 000.
///
/// Sizes that are read are held below [`Length::GREATEST`], so that sums of a whole description's
/// sizes cannot overflow; release builds check arithmetic all the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Length(i64);

impl Length {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// One inch.
    pub const PER_INCH: Self = Self(25_400_000_000);
    /// One millimetre.
    pub const PER_MM: Self = Self(1_000_000_000);
    /// The largest size that is read: 100 m.
    pub const GREATEST: Self = Self(100_000_000_000_000);

    /// From picometres.
    pub const fn from_pm(pm: i64) -> Self {
        Self(pm)
    }

    /// In picometres.
    pub const fn pm(self) -> i64 {
        self.0
    }

    /// So many millionths of an inch.
    pub const fn micro_inches(n: i64) -> Self {
        Self(n * 25_400)
    }

    /// So many ten-thousandths of an inch ("tenths" in an inch shop).
    pub const fn inch_tenths(n: i64) -> Self {
        Self(n * 2_540_000)
    }

    /// So many micrometres.
    pub const fn micrometres(n: i64) -> Self {
        Self(n * 1_000_000)
    }

    /// The nearest length to a value worked in floating point, in `unit`. For tables and physics; never for a dimension chain.
    pub fn from_f64(value: f64, unit: Unit) -> Self {
        Self((value * unit.one().0 as f64).round() as i64)
    }

    /// The value in `unit`, for physics, pictures and JSON; never for a dimension chain.
    pub fn to_f64(self, unit: Unit) -> f64 {
        self.0 as f64 / unit.one().0 as f64
    }

    /// In millimetres, for physics and pictures.
    pub fn mm(self) -> f64 {
        self.to_f64(Unit::Millimetre)
    }

    /// In inches, for physics and pictures.
    pub fn inches(self) -> f64 {
        self.to_f64(Unit::Inch)
    }

    /// Magnitude.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// `n` times as long.
    #[must_use]
    pub const fn times(self, n: i64) -> Self {
        Self(self.0 * n)
    }

    /// `num / den` of it, rounded half up in magnitude to a picometre; `den` of zero counts as one.
    #[must_use]
    pub fn times_ratio(self, num: i64, den: i64) -> Self {
        let den = if den == 0 { 1 } else { den };
        let p = i128::from(self.0) * i128::from(num);
        let d = i128::from(den);
        let (p, d) = if d < 0 { (-p, -d) } else { (p, d) };
        let q = if p >= 0 { (p + d / 2) / d } else { -((-p + d / 2) / d) };
        Self(i64::try_from(q).unwrap_or(if q > 0 { i64::MAX } else { i64::MIN }))
    }

    /// Half of it; exact for every size that can be read with up to seven decimals.
    #[must_use]
    pub fn half(self) -> Self {
        self.times_ratio(1, 2)
    }

    /// How often `part` goes into it, rounded up; zero for a part of zero or less.
    pub fn divided_up(self, part: Self) -> u32 {
        if part.0 <= 0 || self.0 <= 0 {
            return 0;
        }
        u32::try_from((self.0 + part.0 - 1) / part.0).unwrap_or(u32::MAX)
    }

    /// Rounded to the nearest multiple of `step`, halves away from zero.
    #[must_use]
    pub fn round_to(self, step: Self) -> Self {
        let s = step.0.max(1);
        let (q, r) = (self.0.abs() / s, self.0.abs() % s);
        let n = if r * 2 >= s { q + 1 } else { q };
        Self(n * s * self.0.signum())
    }

    /// Rounded down (toward smaller values) to a multiple of `step`.
    #[must_use]
    pub fn floor_to(self, step: Self) -> Self {
        let s = step.0.max(1);
        Self(self.0.div_euclid(s) * s)
    }

    /// Rounded up (toward larger values) to a multiple of `step`.
    #[must_use]
    pub fn ceil_to(self, step: Self) -> Self {
        let s = step.0.max(1);
        Self(-((-self.0).div_euclid(s)) * s)
    }

    /// Sum, if it does not overflow.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// Above zero.
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl std::iter::Sum for Length {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, Add::add)
    }
}

/// A place along the part: its distance from the datum end, positive toward the far end.
///
/// Places subtract to a [`Length`]; two places cannot be added.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Station(pub Length);

impl Station {
    /// The datum face.
    pub const DATUM: Self = Self(Length::ZERO);

    /// The same place counted from the far end of a part `overall` long, positive toward the datum end.
    pub fn from_far_end(self, overall: Length) -> Length {
        overall - self.0
    }
}

impl Sub for Station {
    type Output = Length;
    fn sub(self, other: Self) -> Length {
        self.0 - other.0
    }
}

impl Add<Length> for Station {
    type Output = Self;
    fn add(self, other: Length) -> Self {
        Self(self.0 + other)
    }
}

impl Sub<Length> for Station {
    type Output = Self;
    fn sub(self, other: Length) -> Self {
        Self(self.0 - other)
    }
}

/// A diameter. It turns into a radius, or a depth a side, only by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Diameter(pub Length);

impl Diameter {
    /// Half of it.
    pub fn radius(self) -> Length {
        self.0.half()
    }

    /// What comes off a side on the way to the smaller diameter `to`.
    pub fn a_side_to(self, to: Self) -> Length {
        (self.0 - to.0).half()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inch_fractions_and_millimetres_are_whole() {
        assert_eq!(Length::PER_INCH.times_ratio(1, 512).times(512), Length::PER_INCH);
        assert_eq!(Length::micro_inches(39_370_078).pm() / 1_000_000, 999_999, "39.370078 in is just under a metre");
        assert_eq!(Length::PER_MM.times(254), Length::PER_INCH.times(10));
    }

    #[test]
    fn rounding_is_named() {
        let thou = Length::micro_inches(1000);
        assert_eq!(Length::micro_inches(1500).round_to(thou), Length::micro_inches(2000));
        assert_eq!(Length::micro_inches(-1500).round_to(thou), Length::micro_inches(-2000));
        assert_eq!(Length::micro_inches(-1500).floor_to(thou), Length::micro_inches(-2000));
        assert_eq!(Length::micro_inches(-1500).ceil_to(thou), Length::micro_inches(-1000));
        assert_eq!(Length::micro_inches(1001).divided_up(thou), 2);
    }
}
