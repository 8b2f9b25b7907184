//! Lengths of thread engagement: the groups short, normal and long of ISO 965-1 and ISO 2903.

use std::sync::LazyLock;

use crate::handbook::{Source, Table};
use crate::unit::{Length, Unit};

static GROUPS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("metric_engagement.csv")));

const FORMULA: Source =
    Source::from_memory("ISO 965-1 and ISO 2903, formulas for the length groups: normal is 2.24 to 6.7 times P d^0.2");

/// Group of lengths of thread engagement. Metric classes are recommended by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum EngagementGroup {
    /// `S`.
    Short,
    /// `N`, which need not be written.
    #[default]
    Normal,
    /// `L`.
    Long,
}

impl EngagementGroup {
    /// Its letter in a designation.
    pub const fn letter(self) -> char {
        match self {
            Self::Short => 'S',
            Self::Normal => 'N',
            Self::Long => 'L',
        }
    }

    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Normal => "normal",
            Self::Long => "long",
        }
    }
}

/// The lengths that are normal for a thread: over `above`, up to and including `to`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NormalEngagement {
    /// Up to here it is short.
    pub above: Length,
    /// Over this it is long.
    pub to: Length,
    /// Where that is printed.
    pub source: Source,
}

impl NormalEngagement {
    /// The group a length belongs to.
    pub fn group(&self, length: Length) -> EngagementGroup {
        if length <= self.above {
            EngagementGroup::Short
        } else if length <= self.to {
            EngagementGroup::Normal
        } else {
            EngagementGroup::Long
        }
    }
}

/// The normal lengths of engagement of a metric thread: from ISO 965-1 where its table has the pitch at that diameter,
/// else by the formula, to 0.1 mm. `nominal` and `pitch` above zero.
pub fn normal_engagement(nominal: Length, pitch: Length) -> NormalEngagement {
    let mm = Unit::Millimetre;
    let row = GROUPS.rows().find(|r| r.length("pitch", mm) == Some(pitch) && r.ranges_over(nominal, mm));
    if let Some((row, above, to)) = row.and_then(|r| Some((r, r.length("short", mm)?, r.length("normal", mm)?))) {
        return NormalEngagement { above, to, source: row.source() };
    }
    by_formula(nominal, pitch)
}

/// The same by the formula alone, as ISO 2903 has it for trapezoidal threads.
pub(super) fn by_formula(nominal: Length, pitch: Length) -> NormalEngagement {
    let unit = pitch.mm() * nominal.mm().powf(0.2);
    let tenth = |factor: f64| Length::from_f64(factor * unit, Unit::Millimetre).round_to(Length::micrometres(100));
    NormalEngagement { above: tenth(2.24), to: tenth(6.7), source: FORMULA }
}
