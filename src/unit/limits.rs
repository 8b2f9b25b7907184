//! The two ends between which a size must lie.

use super::Length;

/// A closed interval of lengths. `min <= max` is checked where limits are read, not here, so that
/// reversed limits can be reported.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Limits {
    /// Smallest.
    pub min: Length,
    /// Largest.
    pub max: Length,
}

impl Limits {
    /// Both ends.
    pub const fn new(min: Length, max: Length) -> Self {
        Self { min, max }
    }

    /// `nominal` with signed deviations.
    pub fn around(nominal: Length, upper: Length, lower: Length) -> Self {
        Self { min: nominal + lower, max: nominal + upper }
    }

    /// Both ends the same.
    pub const fn exactly(at: Length) -> Self {
        Self { min: at, max: at }
    }

    /// Width of the tolerance band.
    pub fn band(self) -> Length {
        self.max - self.min
    }

    /// Middle of the band (to a picometre).
    pub fn middle(self) -> Length {
        self.min + self.band().half()
    }

    /// Whether `at` lies between the ends, ends included.
    pub fn holds(self, at: Length) -> bool {
        self.min <= at && at <= self.max
    }

    /// Whether a size that is meant may be told as `shown`: within the limits, and no farther off than a quarter of the band, so that the digits
    /// shown never bring it to one end.
    pub fn tells(self, meant: Length, shown: Length) -> bool {
        self.holds(shown) && (shown - meant).abs().times(4) <= self.band()
    }

    /// Whether `other` lies wholly inside.
    pub fn covers(self, other: Self) -> bool {
        self.min <= other.min && other.max <= self.max
    }

    /// What both allow, if anything.
    pub fn both(self, other: Self) -> Option<Self> {
        let (min, max) = (self.min.max(other.min), self.max.min(other.max));
        (min <= max).then_some(Self { min, max })
    }

    /// Sum of two independent sizes.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { min: self.min + other.min, max: self.max + other.max }
    }

    /// Difference of two independent sizes.
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        Self { min: self.min - other.max, max: self.max - other.min }
    }

    /// The same distance counted the other way.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self { min: -self.max, max: -self.min }
    }

    /// Lower end above upper end.
    pub fn reversed(self) -> bool {
        self.min > self.max
    }

    /// Rounded to multiples of `step` so that the band never grows. A band that would vanish is left as it is.
    #[must_use]
    pub fn inward(self, step: Length) -> Self {
        let inner = Self { min: self.min.ceil_to(step), max: self.max.floor_to(step) };
        if inner.reversed() { self } else { inner }
    }
}
