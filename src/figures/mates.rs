//! How what sits on the part will fit it: the clearance to expect, and how much warmer a tight one must be to slide on.
//!
//! Rise = (interference + room to slide) / (bore · coefficient of expansion). The mate is warmed, the shaft stays cold.

use super::given::Given;
use super::{Figure, SizeLimits};
use crate::check::{bore_limits, is_bearing, outside_limits};
use crate::handbook::heat::{self, Expansion, STEEL};
use crate::model::inside::InsideCut;
use crate::model::{Carried, Feature, Kind};
use crate::unit::{Length, Limits, Unit, show};
use crate::{tell, told};

/// A mate on its seat.
#[derive(Debug, Clone, PartialEq)]
pub struct Mate {
    /// The seat.
    pub feature: usize,
    /// Its letter.
    pub letter: String,
    /// What sits on it.
    pub part: String,
    /// Whether it sits in a bore of the part, not on it: `bore` is then its outside diameter.
    pub within: bool,
    /// Limits of the seat.
    pub seat: SizeLimits,
    /// Limits of the bore; both alike where only a nominal is stated.
    pub bore: SizeLimits,
    /// Where the bore's limits come from: empty as stated, else in words.
    pub bore_by: String,
    /// Whether the bore is as it was measured.
    pub bore_measured: bool,
    /// Whether the seat is as it was measured.
    pub seat_measured: bool,
    /// Least and most clearance; below zero it is interference.
    pub clearance: Limits,
    /// How it is warmed to slide on; none where it goes on by hand or with a light push.
    pub warm: Option<Warm>,
}

/// Warming a mate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warm {
    /// How much warmer than the shaft, in kelvin for millimetres and degrees Fahrenheit for inches, rounded up.
    pub rise: f64,
    /// Room to slide in which the rise leaves at the tightest.
    pub room: Length,
    /// The coefficient used.
    pub expansion: Expansion,
    /// Most that such a mate may be warmed to, in degrees of the same scale.
    pub most: f64,
    /// Whether the tightest can be slid on within that, from a shaft at room temperature.
    pub enough: bool,
}

/// Interference, as a share of the bore, up to which a light push or a soft hammer does (common practice, no source).
const PUSH: f64 = 0.000_2;
/// Room to slide in, as a share of the bore (common practice, no source).
const ROOM: f64 = 0.000_3;
/// Rolling bearings are not warmed above this: their steel and grease suffer (common practice, no source).
const BEARING: (f64, f64) = (120.0, 250.0);
/// Other steel is not warmed above this: it begins to lose its temper and turns blue (common practice, no source).
const STEEL_MATE: (f64, f64) = (200.0, 400.0);
/// Where the check has a bearing's bore from.
const ISO_492: &str = ", ISO 492 normal class";
/// Room temperature.
const ROOM_AT: (f64, f64) = (20.0, 68.0);

/// Everything with a bore that sits on a turned section, and everything that sits in a bore.
pub(super) fn mates(given: &Given) -> Vec<Mate> {
    let seats = given.part.sections().filter(|s| matches!(s.kind, Kind::Turn { .. }));
    let of = |seat| move |(i, c): (usize, &Carried)| mate(given, seat, i, c);
    let on = seats.flat_map(|seat: &Feature| seat.carries.iter().enumerate().filter_map(of(seat)));
    let within = |seat| move |(i, c): (usize, &Carried)| in_bore(given, seat, i, c);
    let bores = given.part.features.iter();
    on.chain(bores.flat_map(|seat| seat.carries.iter().enumerate().filter_map(within(seat)))).collect()
}

/// What decides how a mate fits: its own limits as stated or read, else by what the trade takes for it.
struct Limited {
    limits: Limits,
    by: &'static str,
    read: bool,
}

/// The mate's size: as it was measured, else as its own limits or the standard say.
fn limited(given: &Given, seat: &Feature, nth: usize, stated: (Limits, &'static str)) -> Limited {
    let read = given.part.measured_mate(seat.id, nth).map(|s| Limits::exactly(s.nominal));
    let (limits, by) = read.map_or(stated, |l| (l, ""));
    let known = limits.band().is_positive() || read.is_some();
    let by = if by == ISO_492 { told!(", ISO 492 normal class", ", ISO 492 Klasse Normal") } else { by };
    let by = if read.is_some() { told!("as measured", "wie gemessen") } else { by };
    let by = if known { by.trim_start_matches(", ") } else { told!("its limits are not stated", "ohne Grenzmaße") };
    Limited { limits, by, read: read.is_some() }
}

fn mate(given: &Given, seat: &Feature, nth: usize, carried: &Carried) -> Option<Mate> {
    let bore = carried.bore.as_ref()?;
    let piece = given.profile.piece(seat.id)?;
    // What was measured counts for what was stated.
    let seat_read = given.part.measured_diameter(seat.id).map(|s| Limits::exactly(s.nominal));
    let on_seat = seat_read.unwrap_or_else(|| Limits::new(piece.smallest(), piece.largest()));
    let own = limited(given, seat, nth, bore_limits(carried, bore));
    let clearance = Limits::new(own.limits.min - on_seat.max, own.limits.max - on_seat.min);
    let tightest = (-clearance.min).max(Length::ZERO);
    let warm =
        (tightest.mm() > PUSH * own.limits.min.mm()).then(|| warm(given.unit, own.limits.min, tightest, carried));
    Some(Mate {
        feature: seat.id,
        letter: seat.letter.clone(),
        part: super::mate_word(&carried.part.text),
        within: false,
        seat: SizeLimits::of(on_seat, given.unit),
        bore: SizeLimits::outward(own.limits, given.unit),
        bore_by: own.by.to_owned(),
        bore_measured: own.read,
        seat_measured: seat_read.is_some(),
        clearance,
        warm,
    })
}

/// What sits in a bore of the part: a bearing's outer ring by ISO 492, where nothing closer is stated.
fn in_bore(given: &Given, seat: &Feature, nth: usize, carried: &Carried) -> Option<Mate> {
    let Kind::Inside(inside) = &seat.kind else { return None };
    let InsideCut::Bore { diameter, .. } = &inside.cut else { return None };
    let (limits, by) = outside_limits(carried)?;
    let seat_read = given.part.measured_diameter(seat.id).map(|s| Limits::exactly(s.nominal));
    let bored = seat_read.unwrap_or_else(|| diameter.limits_or_nominal());
    let own = limited(given, seat, nth, (limits, by));
    let clearance = Limits::new(bored.min - own.limits.max, bored.max - own.limits.min);
    Some(Mate {
        feature: seat.id,
        letter: seat.letter.clone(),
        part: super::mate_word(&carried.part.text),
        within: true,
        seat: SizeLimits::of(bored, given.unit),
        bore: SizeLimits::outward(own.limits, given.unit),
        bore_by: own.by.to_owned(),
        bore_measured: own.read,
        seat_measured: seat_read.is_some(),
        clearance,
        warm: None,
    })
}

fn warm(unit: Unit, bore: Length, tightest: Length, carried: &Carried) -> Warm {
    let expansion = heat::expansion(&carried.part.text).unwrap_or(STEEL);
    let room = Length::from_f64(bore.to_f64(unit) * ROOM, unit);
    let pick = |(kelvin, fahrenheit): (f64, f64)| if unit == Unit::Inch { fahrenheit } else { kelvin };
    let rise = (rise(bore, tightest + room, expansion, unit) / 5.0).ceil() * 5.0;
    let most = pick(if is_bearing(carried) { BEARING } else { STEEL_MATE });
    Warm { rise, room, expansion, most, enough: pick(ROOM_AT) + rise <= most }
}

/// Degrees (kelvin for millimetres, Fahrenheit for inches) that open a bore by so much.
fn rise(bore: Length, opens: Length, expansion: Expansion, unit: Unit) -> f64 {
    let by_one = heat::growth(bore, 1_000.0, expansion, unit).to_f64(unit) / 1_000.0;
    opens.to_f64(unit) / by_one
}

impl Mate {
    /// Whether it is tried on at the lathe: only what goes on with clearance comes off again.
    pub fn is_tried(&self) -> bool {
        self.clearance.min >= Length::ZERO
    }

    /// `.0000 to .0010 clearance`, `.0002 to .0011 interference`, `.0004 interference to .0003 clearance`.
    pub fn says(&self, unit: Unit) -> String {
        let decimals = show::usual_decimals(unit) + 1;
        let text = |l: Length| Figure::new(l.abs(), decimals).rounded(unit).text(unit);
        // Outward: what is to be expected is never more than is told.
        let step = show::step(unit, decimals);
        let (least, most) = (self.clearance.min.floor_to(step), self.clearance.max.ceil_to(step));
        match (least >= Length::ZERO, most <= Length::ZERO) {
            (true, _) if least == most => tell!("{} clearance", "{} Spiel", text(least)),
            (true, _) => tell!("{} to {} clearance", "{} bis {} Spiel", text(least), text(most)),
            (false, true) if least == most => tell!("{} interference", "{} Übermaß", text(least)),
            (false, true) => tell!("{} to {} interference", "{} bis {} Übermaß", text(most), text(least)),
            (false, false) => {
                tell!("{} interference to {} clearance", "{} Übermaß bis {} Spiel", text(least), text(most))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(per_kelvin: f64, per_fahrenheit: f64) -> Expansion {
        Expansion { per_kelvin, per_fahrenheit, ..STEEL }
    }

    /// A machine shop's page on shrink fits (rivcut.com, resources): an aluminium hub of 1.000 in, .0010 interference and .0020 to
    /// slide in, 12.8e-6 per °F: "about a 234 °F rise".
    #[test]
    fn an_aluminium_hub() {
        let opens = Length::micro_inches(1_000) + Length::micro_inches(2_000);
        let found = rise(Length::PER_INCH, opens, plain(0.0, 12.8), Unit::Inch);
        assert!((found - 234.0).abs() < 0.5, "{found}");
    }

    /// NCERT, Physics for class XI, exercise 11.7 (from memory): a steel wheel of 8.69 cm on a shaft of 8.70 cm at 27 °C,
    /// 1.20e-5 per K: the shaft cooled to −69 °C, 96 K.
    #[test]
    fn a_wheel_on_a_shaft() {
        let found = rise(Length::micrometres(87_000), Length::micrometres(100), plain(12.0, 0.0), Unit::Millimetre);
        assert!((found - 95.8).abs() < 0.05, "{found}");
    }
}
