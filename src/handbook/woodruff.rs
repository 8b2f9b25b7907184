//! Woodruff keys and keyseats: ASME B17.2-1967 (R2013), all numbers.
//!
//! The number tells the nominal size: the last two digits are the cutter's diameter in eighths of an inch, those before
//! them the width in thirty-seconds. 606 is 3/16 wide and 3/4 in diameter.

use std::sync::LazyLock;

use super::keyseat::{self, SeatDepths};
use super::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit};

static KEYS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/b172.csv")));
static SHAFTS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/woodruff_shafts.csv")));

/// A Woodruff key with its keyseat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WoodruffKey {
    /// Key number as the standard writes it.
    pub number: &'static str,
    /// Width, nominal.
    pub width: Length,
    /// Height of the key with full radius (C), smallest and largest.
    pub height: Limits,
    /// Largest height of the key with flat bottom (D).
    pub flat_height: Length,
    /// Distance of the key's top below the centre of its arc (E of the key).
    pub below_center: Length,
    /// Cutter's nominal diameter.
    pub cutter_diameter: Length,
    /// Limits of the seat's diameter.
    pub seat_diameter: Limits,
    /// Limits of the seat's width.
    pub seat_width: Limits,
    /// Depth of the seat at its side (B).
    pub seat_depth: Limits,
    /// Width of the keyway in the hub.
    pub hub_width: Limits,
    /// Depth of the keyway in the hub (E).
    pub hub_depth: Limits,
    /// Table of key and depths.
    pub source: Source,
    /// Table of the widths and of the largest seat diameter.
    pub width_source: Source,
}

/// A Woodruff keyseat in a shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WoodruffSeat {
    /// Depths, worked from the smallest seat depth.
    pub depths: SeatDepths,
    /// Length of the slot at the top of the round.
    pub slot_length: Length,
}

impl WoodruffKey {
    /// The key's seat in a shaft; `None` when the key is as wide as the shaft.
    pub fn seat_in(&self, shaft: Length) -> Option<WoodruffSeat> {
        if self.width >= shaft {
            return None;
        }
        let depths = keyseat::from_side(shaft, self.width, self.seat_depth.min);
        Some(WoodruffSeat { depths, slot_length: keyseat::slot_length(depths.from_top, self.cutter_diameter) })
    }
}

/// The key of a number: `606`, `No. 606`, `Woodruff 606`, `617-1`.
pub fn find(text: &str) -> Option<WoodruffKey> {
    let lower = text.to_ascii_lowercase();
    let plain =
        lower.trim().trim_start_matches("woodruff").trim().trim_start_matches("no.").trim_start_matches('#').trim();
    KEYS.find("number", plain).and_then(key)
}

/// Every key of the standard.
pub fn all() -> impl Iterator<Item = WoodruffKey> {
    KEYS.rows().filter_map(key)
}

/// The numbers nearest to one that is not in the standard: same width first, then same diameter, at most six.
pub fn nearest(text: &str) -> Vec<&'static str> {
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    let wanted: i64 = digits.parse().unwrap_or(0);
    let (width, diameter) = (wanted / 100, wanted % 100);
    let mut by_distance: Vec<(i64, &'static str)> = all()
        .map(|key| {
            let (w, d) = (thirty_seconds(key.width), thirty_seconds(key.cutter_diameter) / 4);
            ((w - width).abs() * 2 + (d - diameter).abs() * 3, key.number)
        })
        .collect();
    by_distance.sort_unstable();
    by_distance.into_iter().take(6).map(|(_, number)| number).collect()
}

fn thirty_seconds(length: Length) -> i64 {
    length.pm() * 32 / Length::PER_INCH.pm()
}

fn key(row: Row<'_>) -> Option<WoodruffKey> {
    let inch = |column| row.length(column, Unit::Inch);
    let up = |from: Length, thou: i64| Limits::new(from, from + Length::micro_inches(thou * 1000));
    Some(WoodruffKey {
        number: row.text("number"),
        width: inch("width")?,
        height: Limits::new(inch("height_min")?, inch("height_max")?),
        flat_height: inch("flat_height_max")?,
        below_center: inch("below_center")?,
        cutter_diameter: inch("diameter")?,
        seat_diameter: Limits::new(inch("cutter_min")?, inch("cutter_max")?),
        seat_width: Limits::new(inch("seat_width_min")?, inch("seat_width_max")?),
        seat_depth: up(inch("seat_depth")?, 5),
        hub_width: up(inch("hub_width")?, 2),
        hub_depth: up(inch("hub_depth")?, 5),
        source: row.source(),
        width_source: Source::from_memory("ASME B17.2-1967 (R2013) Tables 3 and 4, seat and hub widths"),
    })
}

/// The shafts a Woodruff key of this width is usual in, both ends included (practice).
pub fn usual_shafts(width: Length) -> Option<(Limits, Source)> {
    let row = SHAFTS.rows().find(|row| row.length("width", Unit::Inch) == Some(width))?;
    let (from, to) = row.length("from", Unit::Inch).zip(row.length("to", Unit::Inch))?;
    Some((Limits::new(from, to), row.source()))
}
