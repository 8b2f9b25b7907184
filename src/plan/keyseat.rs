//! What the standard says of the key in a seat: the minutes of its milling are counted with it and the sheet tells it.

use crate::check::Facts;
use crate::check::round::Round;
use crate::handbook::{key_parallel, keyseat, woodruff};
use crate::model::{Kind, Size};
use crate::unit::{Length, Limits, Station, ToleranceText, Unit, show};

/// What the standard gives for the key in this seat.
pub struct Standard {
    /// `Woodruff 606`, `6 × 6 × 25`.
    pub key: String,
    /// Width of seat and cutter.
    pub width: Length,
    /// Diameter of the cutter.
    pub cutter: Length,
    /// Depths in a seat of a given diameter, for a width and a depth where the standard measures it.
    pub depths: fn(Length, Length, Length) -> keyseat::SeatDepths,
    /// Depth of the seat where the standard measures it.
    pub depth: Limits,
    /// Standard.
    pub source: String,
}

/// The round a keyseat lies on, as its depths are worked for it.
pub struct Seat<'a> {
    /// The section, and what its surface is.
    pub(crate) round: Round<'a>,
    /// Its limits.
    pub limits: Limits,
    /// The nominal size, which tables of S and T go by; the larger end where a size was written by its two ends.
    pub worked_for: Length,
}

/// The round under a keyseat; none on a taper, for which the standards give no depth.
pub fn seat<'a>(facts: &Facts<'a>, center: Station) -> Option<Seat<'a>> {
    let round = facts.round_under(center, center)?;
    let limits = round.limits();
    let worked_for = match &round.section.kind {
        Kind::Taper { .. } => return None,
        _ if round.measured => round.diameter,
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Eccentric { diameter, .. } => {
            worked_for(diameter)
        }
        _ => round.diameter,
    };
    Some(Seat { round, limits, worked_for })
}

fn worked_for(seat: &Size) -> Length {
    match seat.tolerance {
        ToleranceText::Ends(_) => seat.max(),
        _ => seat.nominal,
    }
}

/// What the standard gives for a key in a seat of this diameter; none where it has none, or the handbook does not know the key.
pub fn standard(kind: &Kind, diameter: Length) -> Option<Standard> {
    match kind {
        Kind::Woodruff { number, .. } => {
            let key = woodruff::find(number)?;
            key.seat_in(diameter)?;
            Some(Standard {
                key: format!("Woodruff {}", key.number),
                width: key.width,
                cutter: key.cutter_diameter,
                depths: keyseat::from_side,
                depth: key.seat_depth,
                source: key.source.line(),
            })
        }
        Kind::ParallelKeyseat { width, height, length, .. } => {
            let key = key_parallel::with_size(diameter, width.nominal, height.nominal, width.unit).ok()?;
            let size = |s: &Size| show::exact(s.nominal, width.unit, 0, 4);
            Some(Standard {
                key: format!("{} \u{d7} {} \u{d7} {}", size(width), size(height), size(length)),
                width: key.width,
                cutter: key.width,
                depths: if key.unit == Unit::Inch { keyseat::from_side } else { keyseat::from_top },
                depth: key.seat_depth,
                source: key.source.line(),
            })
        }
        _ => None,
    }
}
