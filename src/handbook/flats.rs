//! Flats milled around a round: how deep, how wide, what becomes of the corners. Geometry.

use super::wrench;
use crate::unit::{Length, Unit};

/// Flats on a round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnRound {
    /// From flat to opposite flat; from the flat to the far side of the round where none stands opposite.
    pub across: Length,
    /// Depth of each below the round.
    pub depth: Length,
    /// Width of a flat.
    pub width: Length,
    /// Width it would have with sharp corners; for one or two flats the size across.
    pub full_width: Length,
    /// Across the corners as they come out.
    pub corners: Length,
    /// Whether the round cuts the corners short.
    pub truncated: bool,
}

/// `count` flats, each `depth` below the round, evenly around; none where they do not cut, or meet in the middle.
pub fn on_round(round: Length, depth: Length, count: u8) -> Option<OnRound> {
    if !depth.is_positive() || depth >= round.half() {
        return None;
    }
    // The chord of a flat that lies `depth` below the round, whatever stands opposite.
    let flats = round - depth.times(2);
    let chord = wrench::flat_width(round, flats);
    let across = if count > 1 && count.is_multiple_of(2) { flats } else { round - depth };
    if count < 3 {
        return Some(OnRound { across, depth, width: chord, full_width: across, corners: round, truncated: false });
    }
    let half_turn = std::f64::consts::PI / f64::from(count);
    let side = Length::from_f64(flats.mm() * half_turn.tan(), Unit::Millimetre);
    let sharp = match count {
        4 => wrench::square_corners(flats),
        6 => wrench::hexagon_corners(flats),
        _ => Length::from_f64(flats.mm() / half_turn.cos(), Unit::Millimetre),
    };
    let width = chord.min(side);
    Some(OnRound { across, depth, width, full_width: side, corners: sharp.min(round), truncated: sharp > round })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(n: f64) -> Length {
        Length::from_f64(n, Unit::Millimetre)
    }

    /// A square of 14 on a round of 18: 2.0 deep, flats of sqrt(18² − 14²) = 11.314, corners cut short at 18 (sharp: 19.8).
    #[test]
    fn square_with_short_corners() {
        let cut = on_round(mm(18.0), mm(2.0), 4).expect("it cuts");
        assert_eq!((cut.across, cut.corners, cut.truncated), (mm(14.0), mm(18.0), true));
        assert!((cut.width.mm() - 11.314).abs() < 1e-3);
    }

    /// A hexagon of 22 has corners of 25.40 (22 x 1.1547, ISO 272): on a round of 30 the flats meet and are 12.70 wide.
    #[test]
    fn full_hexagon() {
        let cut = on_round(mm(30.0), mm(4.0), 6).expect("it cuts");
        assert!(!cut.truncated && (cut.corners.mm() - 25.403).abs() < 1e-3);
        assert!((cut.width.mm() - 12.702).abs() < 1e-3);
    }

    /// Chord of one flat 0.5 deep on 6: 2 sqrt(0.5 x 5.5) = 3.317.
    #[test]
    fn one_flat() {
        let cut = on_round(mm(6.0), mm(0.5), 1).expect("it cuts");
        assert!((cut.width.mm() - 3.317).abs() < 1e-3 && cut.across == mm(5.5));
        assert_eq!(on_round(mm(6.0), mm(-0.5), 2), None);
    }
}
