//! From arguments to readings.

use super::args::{CarriesArg, FormArg, HandArg, IdentifyArgs, YesNo};
use crate::cli::args::StartUnits;
use crate::handbook::identify::{FormGuess, KeyReadings, Pitched, SeatUse, ThreadReadings};
use crate::handbook::thread::{Hand, Pitch};
use crate::unit::{Length, Unit, read_number};

/// Everything that was read.
pub(super) struct Asked {
    /// Unit of the reply.
    pub(super) unit: Unit,
    /// Of the thread.
    pub(super) thread: ThreadReadings,
    /// Of the key.
    pub(super) key: KeyReadings,
    /// Bore, outside diameter and width of a bearing.
    pub(super) bearing: (Option<Length>, Option<Length>, Option<Length>),
    /// Marks on rings.
    pub(super) rings: Vec<String>,
    /// Diameters of seats.
    pub(super) seats: Vec<Length>,
    /// What sits on them.
    pub(super) carries: SeatUse,
}

/// Reads sizes in one unit; each size may carry its own.
struct Sizes {
    units: Option<Unit>,
}

impl Sizes {
    fn of(&self, option: &str, text: &str) -> Result<Length, String> {
        let number = read_number(text, self.units.unwrap_or(Unit::Inch))
            .map_err(|_| format!("--{option} {text}: not a size; write 0.496, 1/2 in or 12.7 mm"))?;
        if self.units.is_none() && !number.own_unit {
            return Err(format!("--{option} {text}: in which unit? Add --units in or --units mm, or write {text} mm"));
        }
        if !number.value.is_positive() {
            return Err(format!("--{option} {text}: a reading is more than nothing"));
        }
        if number.value > Length::PER_INCH.times(1_000) {
            return Err(format!("--{option} {text}: larger than any lathe turns"));
        }
        Ok(number.value)
    }

    fn maybe(&self, option: &str, text: Option<&String>) -> Result<Option<Length>, String> {
        text.map(|t| self.of(option, t)).transpose()
    }

    fn span(&self, text: &str) -> Result<Pitched, String> {
        let bad = || format!("--span \"{text}\": write a length over a number of pitches, as in \"0.180 over 5\"");
        let (long, over) = text.split_once(" over ").ok_or_else(bad)?;
        let over: u32 = over.trim().parse().map_err(|_| bad())?;
        if over == 0 || over > 10_000 {
            return Err(bad());
        }
        Ok(Pitched::Span(self.of("span", long.trim())?, over))
    }
}

impl Asked {
    /// Takes all arguments, or says in one sentence which cannot be taken.
    pub(super) fn of(a: &IdentifyArgs) -> Result<Self, String> {
        let units = a.units.map(|u| if u == StartUnits::In { Unit::Inch } else { Unit::Millimetre });
        let sizes = Sizes { units };
        let usual = ThreadReadings::default();
        let error = sizes.maybe("error", a.error.as_ref())?.unwrap_or(usual.diameter_error);
        let thread = ThreadReadings {
            major: sizes.maybe("major", a.major.as_ref())?,
            minor: sizes.maybe("minor", a.minor.as_ref())?,
            pitch: pitches(a, &sizes)?,
            lead: sizes.maybe("lead", a.lead.as_ref())?,
            starts: a.starts,
            angle: a.angle.map(angle).transpose()?,
            hand: if a.hand == Some(HandArg::Left) { Hand::Left } else { Hand::Right },
            taper: a.taper.map(|t| t == YesNo::Yes),
            form: a.form.map(|f| match f {
                FormArg::Vee => FormGuess::Vee,
                FormArg::Acme => FormGuess::Acme,
                FormArg::Square => FormGuess::Square,
                FormArg::Buttress => FormGuess::Buttress,
            }),
            diameter_error: error,
            span_error: sizes.maybe("span-error", a.span_error.as_ref())?.unwrap_or(usual.span_error),
            angle_error: usual.angle_error,
            wear: sizes.maybe("wear", a.wear.as_ref())?,
        };
        let key = KeyReadings {
            width: sizes.maybe("key-width", a.key_width.as_ref())?,
            height: sizes.maybe("key-height", a.key_height.as_ref())?,
            arc: sizes.maybe("key-arc", a.key_arc.as_ref())?,
            slot: sizes.maybe("key-slot", a.key_slot.as_ref())?,
            shaft: sizes.maybe("shaft", a.shaft.as_ref())?,
            error,
        };
        if key.slot.is_some() && key.shaft.is_none() {
            return Err("--key-slot: the length of a round-bottomed slot tells the arc only with --shaft".to_owned());
        }
        let asked = Self {
            unit: units.unwrap_or(Unit::Millimetre),
            thread,
            key,
            bearing: (
                sizes.maybe("bore", a.bore.as_ref())?,
                sizes.maybe("outside", a.outside.as_ref())?,
                sizes.maybe("wide", a.wide.as_ref())?,
            ),
            rings: a.ring.clone(),
            seats: a.seat.iter().map(|s| sizes.of("seat", s)).collect::<Result<_, _>>()?,
            carries: match a.carries {
                None => SeatUse::Unknown,
                Some(CarriesArg::Bearing) => SeatUse::BearingShaftTurns,
                Some(CarriesArg::IdlerBearing) => SeatUse::BearingHousingTurns,
                Some(CarriesArg::Running) => SeatUse::Runs,
                Some(CarriesArg::Sliding) => SeatUse::Slides,
                Some(CarriesArg::Pressed) => SeatUse::Pressed,
            },
        };
        if asked.nothing() {
            return Err("nothing was read: give at least --major, --span, --key-width, --ring, --bore or --seat; see turnwright identify --help".to_owned());
        }
        Ok(asked)
    }

    fn nothing(&self) -> bool {
        !self.asks_thread()
            && !self.asks_key()
            && !self.asks_bearing()
            && self.rings.is_empty()
            && self.seats.is_empty()
    }

    /// A diameter or a pitch of a thread was read.
    pub(super) fn asks_thread(&self) -> bool {
        let t = &self.thread;
        t.major.is_some() || t.minor.is_some() || !t.pitch.is_empty()
    }

    /// Something of a key was read.
    pub(super) fn asks_key(&self) -> bool {
        let k = &self.key;
        k.width.is_some() || k.height.is_some() || k.arc.is_some() || k.slot.is_some()
    }

    /// A size of a bearing was read.
    pub(super) fn asks_bearing(&self) -> bool {
        self.bearing.0.is_some() || self.bearing.1.is_some() || self.bearing.2.is_some()
    }
}

fn angle(degrees: f64) -> Result<f64, String> {
    if degrees.is_finite() && (0.0..=90.0).contains(&degrees) {
        Ok(degrees)
    } else {
        Err(format!("--angle {degrees}: degrees between the flanks, 0 to 90"))
    }
}

fn pitches(a: &IdentifyArgs, sizes: &Sizes) -> Result<Vec<Pitched>, String> {
    let mut out: Vec<Pitched> = a.span.iter().map(|s| sizes.span(s)).collect::<Result<_, _>>()?;
    for tpi in &a.tpi {
        let bad = || format!("--tpi {tpi}: threads per inch, such as 20 or 4.5");
        if !tpi.is_finite() || !(0.25..=200.0).contains(tpi) {
            return Err(bad());
        }
        let pitch = Pitch::inch(1_000, (tpi * 1_000.0).round() as u32).ok_or_else(bad)?;
        out.push(Pitched::Leaf(pitch.nearest()));
    }
    for pitch in &a.pitch {
        out.push(Pitched::Leaf(sizes.of("pitch", pitch)?));
    }
    Ok(out)
}
