//! Knurls: the blank for a finished diameter (DIN 82), tolerances by diametral pitch (ASME B94.6), and whether the teeth
//! come out whole around it.

use std::sync::LazyLock;

use super::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit};

static FORMS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/knurl.csv")));
static DIAMETRAL: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/b94_6.csv")));

const CLASSES_2_3: Source =
    Source::from_memory("ASME B94.6: lower limits of classes II and III, tooth depth; growth is about one depth");

/// Pitches of DIN 82, in micrometres.
pub const PITCHES: [i64; 6] = [500, 600, 800, 1000, 1200, 1600];

/// How much a knurl of a DIN 82 form grows the diameter; about, for it depends on the material and the press.
pub fn growth(form: &str, pitch: Length) -> Option<(Length, Source)> {
    let row = FORMS.rows().find(|row| row.text("form").eq_ignore_ascii_case(form))?;
    let part = row.thousandths("growth", Unit::Millimetre)?;
    // The cell is a part of the pitch; read as thousandths of a millimetre it is micrometres to a millimetre of pitch.
    Some((pitch.times_ratio(part.pm(), 1_000_000), row.source()))
}

/// The forms of DIN 82: letters and words.
pub fn forms() -> impl Iterator<Item = (&'static str, &'static str)> {
    FORMS.rows().map(|row| (row.text("form"), row.text("name")))
}

/// Teeth around a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Around {
    /// Whole number of teeth nearest to what the blank holds.
    pub teeth: i64,
    /// Blank that holds just that number.
    pub blank: Length,
}

/// The whole number of teeth nearest to `blank`, and the blank that holds it: teeth x pitch / π.
pub fn around(blank: Length, pitch: Length) -> Option<Around> {
    if !blank.is_positive() || !pitch.is_positive() {
        return None;
    }
    let teeth = (std::f64::consts::PI * blank.pm() as f64 / pitch.pm() as f64).round().max(1.0);
    let blank = Length::from_pm((teeth * pitch.pm() as f64 / std::f64::consts::PI).round() as i64);
    Some(Around { teeth: teeth as i64, blank })
}

/// Diameter of a bump knurl: the wheel that rolls `teeth` of its own over a part that holds `part_teeth`, less a drag of .010 in.
///
/// Source: a knurl maker's worked example: 18 teeth on .375, a wheel of 31 teeth is .636.
pub fn bump_wheel(part: Length, part_teeth: i64, wheel_teeth: i64) -> Option<Length> {
    (part_teeth > 0 && wheel_teeth > 0)
        .then(|| part.times_ratio(wheel_teeth, part_teeth) - Length::micro_inches(10_000))
}

/// A knurl by diametral pitch: teeth to an inch of blank diameter. All lengths are exact as the standard prints them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diametral {
    /// Teeth to an inch of diameter: 64, 96, 128 or 160.
    pub pitch: i64,
    /// Teeth come out whole on every multiple of this.
    pub tracks_every: Length,
    /// The blank may be so much larger or smaller.
    pub blank_tolerance: Length,
    /// About how much the diameter grows.
    pub growth: Length,
    /// Deviations of the knurled diameter from the size asked for: class and limits. Classes II and III are for straight
    /// knurls only.
    pub knurled: [(&'static str, Limits); 3],
    /// Where the class I and blank figures are printed.
    pub source: Source,
    /// Where the rest comes from.
    pub other_source: Source,
}

/// The diametral pitches of ASME B94.6, coarsest first.
pub fn diametral_pitches() -> impl Iterator<Item = i64> {
    DIAMETRAL.rows().filter_map(|row| row.text("pitch").parse().ok())
}

/// The knurl of a diametral pitch; `None` for one ASME B94.6 does not have.
pub fn diametral(pitch: i64) -> Option<Diametral> {
    DIAMETRAL.rows().find(|row| row.text("pitch").parse() == Ok(pitch)).and_then(|row| diametral_of(row, pitch))
}

fn diametral_of(row: Row<'_>, pitch: i64) -> Option<Diametral> {
    let inches = |column| row.length(column, Unit::Inch);
    let below = |column| inches(column).map(|minus| Limits::new(-minus, Length::ZERO));
    Some(Diametral {
        pitch,
        tracks_every: inches("track")?,
        blank_tolerance: inches("blank")?,
        growth: inches("depth")?,
        knurled: [
            ("I", Limits::new(-inches("class1_minus")?, inches("class1_plus")?)),
            ("II", below("class2_minus")?),
            ("III", below("class3_minus")?),
        ],
        source: row.source(),
        other_source: CLASSES_2_3,
    })
}

impl Diametral {
    /// Teeth on a blank: its diameter times the diametral pitch, to the nearest whole tooth, and the blank that has just
    /// that many. `None` for a blank that is not above zero.
    pub fn around(&self, blank: Length) -> Option<Around> {
        let one = Length::PER_INCH.pm();
        let teeth = (i128::from(blank.pm()) * i128::from(self.pitch) * 2 + i128::from(one)) / (i128::from(one) * 2);
        let teeth = i64::try_from(teeth).ok().filter(|_| blank.is_positive())?.max(1);
        Some(Around { teeth, blank: Length::PER_INCH.times_ratio(teeth, self.pitch) })
    }

    /// Whether the standard's tools track on this blank: a multiple of 1/64 or 1/32 in.
    pub fn tracks(&self, blank: Length) -> bool {
        blank.is_positive() && blank.pm() % self.tracks_every.pm() == 0
    }
}
