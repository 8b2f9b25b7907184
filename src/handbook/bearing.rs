//! Deep-groove ball bearings of series 60, 62 and 63: bore, outside diameter, width and corner (ISO 15, ISO 582), and what the
//! shaft must leave room for. Limits of bore and width are in [`super::bearing_limits`].

use std::sync::LazyLock;

use super::{Row, Source, Table};
use crate::unit::{Length, Unit};

static BEARINGS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/bearing.csv")));
static CORNERS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/iso582.csv")));

/// A deep-groove ball bearing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bearing {
    /// Basic number: `6204`.
    pub number: &'static str,
    /// Bore.
    pub bore: Length,
    /// Outside diameter.
    pub outside: Length,
    /// Width.
    pub width: Length,
    /// Smallest corner chamfer of the ring.
    pub corner: Length,
    /// Table.
    pub source: Source,
}

fn of(row: Row<'_>) -> Option<Bearing> {
    let mm = |column| row.length(column, Unit::Millimetre);
    Some(Bearing {
        number: row.text("number"),
        bore: mm("bore")?,
        outside: mm("outside")?,
        width: mm("width")?,
        corner: mm("corner")?,
        source: row.source(),
    })
}

/// Every bearing of the table.
pub fn all() -> impl Iterator<Item = Bearing> {
    BEARINGS.rows().filter_map(of)
}

/// The bearing of a number; letters behind it (seals, shields, clearance) are left aside: `6204-2RS`, `6305 ZZ`.
pub fn find(number: &str) -> Option<Bearing> {
    let digits: String = number.trim().chars().take_while(char::is_ascii_digit).collect();
    BEARINGS.find("number", &digits).and_then(of)
}

/// The bearings with this bore; where `width` is given, of this width too.
pub fn with_bore(bore: Length, width: Option<Length>) -> Vec<Bearing> {
    all().filter(|b| b.bore == bore && width.is_none_or(|w| w == b.width)).collect()
}

/// Largest fillet in the shaft's corner, and least height of its shoulder a side, for a ring with this corner.
pub fn shoulder(corner: Length) -> Option<(Length, Length, Source)> {
    let row = CORNERS.rows().find(|row| row.length("corner", Unit::Millimetre) == Some(corner))?;
    let mm = |column| row.length(column, Unit::Millimetre);
    Some((mm("fillet")?, mm("height")?, row.source()))
}

/// Which ring turns against the load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Turns {
    /// The shaft turns, the load stands: the inner ring must not creep.
    Shaft,
    /// The housing turns, the load stands on the shaft: the inner ring may slide on.
    Housing,
}

/// The tolerance class usual for a bearing's seat on a solid shaft, medium load.
pub fn usual_seat(bore: Length, turns: Turns) -> (&'static str, Source) {
    let practice = Source::from_memory("bearing makers' fitting practice; common practice");
    let code = match (turns, bore) {
        (Turns::Housing, _) => "g6",
        (Turns::Shaft, d) if d <= Length::PER_MM.times(17) => "j5",
        (Turns::Shaft, d) if d <= Length::PER_MM.times(100) => "k5",
        (Turns::Shaft, _) => "m5",
    };
    (code, practice)
}
