//! Size of the bar itself: ASTM A108 for inch bars, EN 10278 for metric ones.

use std::sync::LazyLock;

use super::Condition;
use crate::handbook::fit::{self, Deviations};
use crate::handbook::{Source, Table};
use crate::unit::{Length, Unit};

static A108: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/a108.csv")));

/// Carbon class of a steel as bar tolerances divide it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Carbon {
    /// To 0.28 percent.
    Low,
    /// Over 0.28 to 0.55 percent.
    Medium,
    /// Over 0.55 percent.
    High,
}

impl Carbon {
    /// The class of a carbon content.
    pub fn of_percent(percent: f64) -> Self {
        if percent <= 0.28 {
            Self::Low
        } else if percent <= 0.55 {
            Self::Medium
        } else {
            Self::High
        }
    }
}

/// Deviations of a round bar's own diameter as bought, and where they are printed.
///
/// Inch: ASTM A108. Millimetre: EN 10278, drawn h10, ground h8 unless ordered finer (from memory).
/// `None` for a condition the standards do not hold to size (hot rolled, cast) or a diameter beyond them.
pub fn bar_tolerance(
    carbon: Carbon,
    condition: Condition,
    diameter: Length,
    unit: Unit,
) -> Option<(Deviations, Source)> {
    let ground = condition == Condition::Ground;
    let drawn = matches!(condition, Condition::ColdDrawn | Condition::StressRelieved);
    if !ground && !drawn {
        return None;
    }
    match unit {
        Unit::Inch => {
            let row = A108.range(diameter, Unit::Inch)?;
            let column = match (ground, carbon) {
                (true, _) => "ground",
                (false, Carbon::Low) => "c1",
                (false, Carbon::Medium) => "c2",
                (false, Carbon::High) => "c3",
            };
            let under = row.length(column, Unit::Inch)?;
            let confirmed = row.source().confirmed && matches!(column, "c1" | "c2");
            Some((Deviations { upper: Length::ZERO, lower: -under }, Source { confirmed, ..row.source() }))
        }
        Unit::Millimetre => {
            let (code, name) = if ground {
                ("h8", "EN 10278, ground round bars h8 unless ordered finer")
            } else {
                ("h10", "EN 10278, drawn round bars h10")
            };
            fit::shaft(code, diameter).ok().map(|d| (d, Source::from_memory(name)))
        }
    }
}

/// Deviations across the flats of a drawn hexagon or square bar.
///
/// Inch: ASTM A108-03, table A1.1 (as reprinted by a steel maker). Millimetre: EN 10278, h11 to 80 mm and h12 above (from
/// memory). `None` for a condition that is not drawn, or a size or carbon beyond the tables.
pub fn flats_tolerance(
    carbon: Carbon,
    condition: Condition,
    hexagon: bool,
    across: Length,
    unit: Unit,
) -> Option<(Deviations, Source)> {
    if !matches!(condition, Condition::ColdDrawn | Condition::StressRelieved) {
        return None;
    }
    match unit {
        Unit::Inch => {
            let under = match (hexagon, carbon) {
                (true, Carbon::Low) => [2, 3, 4, 5, 5],
                (true, Carbon::Medium) => [3, 4, 5, 6, 6],
                (false, Carbon::Low) => [2, 3, 4, 6, 6],
                (false, Carbon::Medium) => [4, 5, 6, 8, 8],
                (_, Carbon::High) => return None,
            };
            let row = [750, 1500, 2500, 3125, 4000].iter().position(|to| across <= Length::micro_inches(to * 1000))?;
            let under = Length::micro_inches(under[row] * 1000);
            let name = if hexagon { "ASTM A108, cold drawn hexagons" } else { "ASTM A108, cold drawn squares" };
            Some((
                Deviations { upper: Length::ZERO, lower: -under },
                Source { confirmed: true, ..Source::from_memory(name) },
            ))
        }
        Unit::Millimetre => {
            let code = if across <= Length::micrometres(80_000) { "h11" } else { "h12" };
            let name = "EN 10278, drawn hexagons and squares h11, over 80 mm h12";
            fit::shaft(code, across).ok().map(|d| (d, Source::from_memory(name)))
        }
    }
}
