//! Knurls: the blank for a finished diameter (DIN 82), and whether the teeth come out whole around it.

use std::sync::LazyLock;

use super::{Source, Table};
use crate::unit::{Length, Unit};

static FORMS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/knurl.csv")));

/// Pitches of DIN 82, in micrometres.
pub const PITCHES: [i64; 6] = [500, 600, 800, 1000, 1200, 1600];

/// Diametral pitches of ASME B94.6 (teeth to an inch of diameter).
pub const DIAMETRAL: [i64; 4] = [64, 96, 128, 160];

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
