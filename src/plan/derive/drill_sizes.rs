//! Which drill: from the shop's drawer where it lists its drills, else of the usual series.

use super::inside::Maker;
use crate::handbook::drill::{self, Series};
use crate::model::shop::ToolKind;
use crate::unit::{Length, Limits, Unit};

impl Maker<'_> {
    /// What a reamer takes off: 0.4 mm or 1/64 in on the diameter (common practice), half of it up to 6 mm / 1/4 in.
    pub(super) fn under_reamer(&self) -> Length {
        self.pick(15_625, 400)
    }

    /// The least hole that the shop's smallest boring bar goes into: 1/64 in, 0.4 mm larger (common practice, no source). None where a boring
    /// tool is listed without its size, or none is.
    pub(super) fn bar_goes_in(&self) -> Option<Length> {
        let bars = self.shop.into_iter().flat_map(|s| s.tools_of(ToolKind::Boring)).map(|t| t.diameter);
        Some(bars.collect::<Option<Vec<Length>>>()?.into_iter().min()? + self.pick(15_625, 400))
    }

    /// The drill before a boring tool: as large as leaves 2 mm / 1/16 in for it, at most 25 mm / 1 in, from the drawer where
    /// the shop lists its drills; never smaller than the smallest bar goes into, where any so large fits.
    pub(super) fn pilot(&self, below: Length) -> Length {
        let most = (below - self.pick(62_500, 2_000)).min(self.pick(1_000_000, 25_000));
        let bar = self.bar_goes_in().filter(|bar| *bar <= most).unwrap_or_default();
        let own = self.shop.into_iter().flat_map(|s| s.tools_of(ToolKind::Drill)).filter_map(|t| t.diameter);
        let listed = own.filter(|d| bar <= *d && *d <= most).max();
        let series = if self.unit() == Unit::Inch { Series::Fraction } else { Series::Millimetre };
        let step = self.pick(31_250, 500).pm();
        let all = || drill::drills().iter().filter(|d| d.series == series).map(|d| d.diameter);
        let usual = all().filter(|d| d.pm() % step == 0 && bar <= *d && *d <= most).max();
        let any = || all().filter(|d| bar <= *d && *d <= most).max();
        listed.or(usual).or_else(any).unwrap_or(Length::ZERO)
    }

    /// Of the shop's drills that leave a thread's minor diameter within its limits, the one nearest to the usual; else the usual.
    pub(super) fn own_drill(&self, minor: Limits, usual: Length) -> Length {
        let own = self.shop.into_iter().flat_map(|s| s.tools_of(ToolKind::Drill)).filter_map(|t| t.diameter);
        let fits = own.filter(|d| minor.min <= *d && *d <= minor.max);
        fits.min_by_key(|d| (*d - usual).abs()).unwrap_or(usual)
    }

    /// The drill nearest to a size, not above it.
    pub(super) fn nearest_drill(&self, size: Length) -> Length {
        let inch = self.unit() == Unit::Inch;
        let fits = |d: &&drill::Drill| (d.series == Series::Millimetre) != inch && d.diameter <= size;
        drill::drills().iter().filter(fits).map(|d| d.diameter).max().unwrap_or(size)
    }
}

/// The smallest hole a boring tool goes into: 1/4 in, 6 mm (common practice, no source).
pub(crate) const fn least_bored(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::micro_inches(250_000),
        Unit::Millimetre => Length::micrometres(6_000),
    }
}
