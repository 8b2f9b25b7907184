//! Plain round seats: which nominal size and which class a worn reading came from.

use super::likelihood::worn_small;
use crate::handbook::thread::inch_size;
use crate::handbook::{bearing, fit};
use crate::unit::{Length, Limits, Unit, show};

/// What sits on the seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeatUse {
    /// Not known.
    Unknown,
    /// An inner ring that must not creep: the shaft turns.
    BearingShaftTurns,
    /// An inner ring that may slide on: the housing turns.
    BearingHousingTurns,
    /// Something that runs on it.
    Runs,
    /// Something that slides or is keyed on.
    Slides,
    /// Something pressed on.
    Pressed,
}

impl SeatUse {
    /// Classes of the shaft that are usual for it (ANSI B4.2 preferred fits; bearings: makers' practice).
    const fn classes(self) -> &'static [&'static str] {
        match self {
            Self::Unknown => &["h6", "k6", "f7", "p6"],
            Self::BearingShaftTurns => &["k5", "j5", "m5"],
            Self::BearingHousingTurns => &["g6", "h6"],
            Self::Runs => &["f7", "g6"],
            Self::Slides => &["h6", "k6", "g6"],
            Self::Pressed => &["p6", "s6"],
        }
    }

    const fn is_bearing(self) -> bool {
        matches!(self, Self::BearingShaftTurns | Self::BearingHousingTurns)
    }
}

/// A nominal size a seat may have been made to.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundFound {
    /// `25 mm`, `1 1/4 in`.
    pub name: String,
    /// Nominal diameter.
    pub nominal: Length,
    /// Unit of the nominal.
    pub unit: Unit,
    /// Share of the belief, 0 to 1.
    pub score: f64,
    /// Class to restore and its limits.
    pub class: &'static str,
    /// Limits of that class.
    pub limits: Limits,
    /// Why it may be this.
    pub why: Vec<String>,
}

/// Nominal sizes near a reading, each with how usual it is (common practice, no source).
fn nominals(read: Length, bearing_seat: bool) -> Vec<(String, Length, Unit, f64)> {
    let mut out = Vec::new();
    let reach = Length::micrometres(400).max(read.times_ratio(1, 100));
    let half = Length::PER_MM.half();
    let mut at = (read - reach).ceil_to(half);
    while at <= read + reach && out.len() < 200 {
        let whole = at.round_to(Length::PER_MM) == at;
        let ring = bearing::all().any(|b| b.bore == at);
        let usual = if bearing_seat && !ring {
            0.02
        } else if ring {
            1.0
        } else if whole {
            0.7
        } else {
            0.15
        };
        if at.is_positive() {
            out.push((format!("{} mm", show::exact(at, Unit::Millimetre, 0, 1)), at, Unit::Millimetre, usual));
        }
        at += half;
    }
    for n in 1.. {
        let step = Length::PER_INCH.times_ratio(1, 64);
        let at = (read - reach).ceil_to(step) + step.times(n - 1);
        if at > read + reach || n > 200 {
            break;
        }
        let sixty_fourths = at.pm() / step.pm();
        let usual = match sixty_fourths {
            s if s % 8 == 0 => 1.0,
            s if s % 4 == 0 => 0.7,
            s if s % 2 == 0 => 0.3,
            _ => 0.08,
        };
        if at.is_positive() {
            let usual = if bearing_seat { usual * 0.3 } else { usual };
            out.push((format!("{} in", inch_size(at)), at, Unit::Inch, usual));
        }
    }
    out
}

/// Mean wear of a seat, mm: usual seats lose hundredths, not tenths (common practice, no source).
const SEAT_WEAR: f64 = 0.03;

/// Nominal sizes and classes of a worn seat. `error`: one standard deviation; `wear`: mean wear of the diameter.
pub fn seats(read: Length, of: SeatUse, error: Length, wear: Option<Length>) -> Vec<RoundFound> {
    let wear = wear.map_or(SEAT_WEAR, Length::mm);
    let mut all = Vec::new();
    for (name, nominal, unit, usual) in nominals(read, of.is_bearing()) {
        for (rank, class) in (0_u8..).zip(of.classes()) {
            let Ok(limits) = fit::shaft(class, nominal).map(|d| d.limits(nominal)) else { continue };
            let log = worn_small(read.mm(), (limits.min.mm(), limits.max.mm()), wear, error.mm());
            let prior: f64 = usual * 0.6_f64.powi(i32::from(rank));
            all.push((log + prior.ln(), name.clone(), nominal, unit, *class, limits));
        }
    }
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let Some(best) = all.first().map(|a| a.0) else { return Vec::new() };
    let sum: f64 = all.iter().map(|a| (a.0 - best).exp()).sum();
    let mut out: Vec<RoundFound> = Vec::new();
    for (log, name, nominal, unit, class, limits) in all {
        let share = (log - best).exp() / sum;
        // A nominal stands once, with its likeliest class; the others add to its share.
        if let Some(there) = out.iter_mut().find(|r| r.nominal == nominal) {
            there.score += share;
        } else {
            let why = why(read, nominal, unit, (class, limits), error);
            out.push(RoundFound { name, nominal, unit, score: share, class, limits, why });
        }
    }
    out.sort_by(|a, b| b.score.total_cmp(&a.score));
    out.retain(|r| r.score >= 0.005);
    out.truncate(5);
    out
}

fn why(read: Length, nominal: Length, unit: Unit, made: (&str, Limits), error: Length) -> Vec<String> {
    let places = if unit == Unit::Inch { 4 } else { 3 };
    let of = |l: Length| show::length(l, unit, places);
    let (class, limits) = made;
    let mut out = vec![format!(
        "{} mm = {} in; {class} is {} to {} {}",
        show::length(nominal, Unit::Millimetre, 3),
        show::length(nominal, Unit::Inch, 4),
        of(limits.min),
        of(limits.max),
        unit.word()
    )];
    out.push(if read > limits.max + error.times(2) {
        format!("read {} above {class}: it was made fuller, or is another size", of(read - limits.max))
    } else if read >= limits.min {
        "read within them: hardly worn".to_owned()
    } else {
        format!("read {} below: wear, or a looser class", of(limits.min - read))
    });
    out.push(format!("restore to {} to {} {}, never to the worn size", of(limits.min), of(limits.max), unit.word()));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A metric size read in inches: .984 is 25 mm (24.99 mm), and 1.2495 is 1 1/4 in (the trade's examples; arithmetic).
    #[test]
    fn metric_sizes_hidden_in_inch_readings() {
        let of = |tenths: i64| seats(Length::inch_tenths(tenths), SeatUse::Unknown, Length::micrometres(10), None);
        assert_eq!(of(9_840)[0].name, "25 mm");
        assert_eq!(of(12_495)[0].name, "1 1/4 in");
        assert_eq!(of(7_868)[0].name, "20 mm");
        assert_eq!(of(4_995)[0].name, "1/2 in");
    }

    /// ISO 286-2: 20 k5 is +11/+2 µm (printed tables).
    #[test]
    fn a_bearing_seat_is_restored_to_its_class() {
        let found = seats(Length::micrometres(19_985), SeatUse::BearingShaftTurns, Length::micrometres(3), None);
        assert_eq!((found[0].name.as_str(), found[0].class), ("20 mm", "k5"));
        assert_eq!(found[0].limits, Limits::new(Length::micrometres(20_002), Length::micrometres(20_011)));
    }
}
