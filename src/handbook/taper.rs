//! Tapers in every way people say them: ratio, per foot, included angle, angle a side, and the named machine tapers.
//!
//! A taper is the change of diameter over a length. Angles are physics and in floating point; set-over is exact.

use std::sync::LazyLock;

use super::{Row, Source, Table};
use crate::unit::{Length, Unit, read_number};

static NAMED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/taper.csv")));

/// A rate of taper: so much diameter over so much length, as a fraction of whole numbers where it was said as one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// Change of diameter …
    over: i64,
    /// … over this length; both in the same unit.
    along: i64,
}

impl Rate {
    /// Change of diameter over a length.
    pub fn new(over: i64, along: i64) -> Option<Self> {
        (over > 0 && along > 0).then_some(Self { over, along })
    }

    /// From two diameters and the length between them.
    pub fn between(large: Length, small: Length, length: Length) -> Option<Self> {
        Self::new((large - small).pm(), length.pm())
    }

    /// From the included angle in degrees; rounded to a thousand-millionth.
    pub fn from_included_angle(degrees: f64) -> Option<Self> {
        if !(0.0..179.0).contains(&degrees) {
            return None;
        }
        Self::new((2.0 * (degrees.to_radians() / 2.0).tan() * 1e9).round() as i64, 1_000_000_000)
    }

    /// Diameter for each length of one.
    pub fn ratio(self) -> f64 {
        self.over as f64 / self.along as f64
    }

    /// Included angle in degrees.
    pub fn included_angle(self) -> f64 {
        2.0 * (self.ratio() / 2.0).atan().to_degrees()
    }

    /// Angle a side, to which a compound is set, in degrees.
    pub fn half_angle(self) -> f64 {
        self.included_angle() / 2.0
    }

    /// Inches of diameter to a foot of length.
    pub fn per_foot(self) -> f64 {
        12.0 * self.ratio()
    }

    /// Change of diameter over a length, exact to a picometre.
    pub fn over(self, length: Length) -> Length {
        length.times_ratio(self.over, self.along)
    }

    /// What the tailstock is set over for a work this long between its centers: half the change of diameter over the whole work.
    pub fn setover(self, whole: Length) -> Length {
        self.over(whole).half()
    }

    /// Height to put under one roll of a sine bar set to the included angle.
    pub fn sine_height(self, bar: Length) -> Length {
        Length::from_f64(bar.mm() * self.included_angle().to_radians().sin(), Unit::Millimetre)
    }
}

/// A taper found.
#[derive(Debug, Clone, PartialEq)]
pub struct Taper {
    /// As asked; a named taper by its series and number.
    pub name: String,
    /// Its rate.
    pub rate: Rate,
    /// Diameter at the gauge line, for named tapers that have one.
    pub large: Option<Length>,
    /// Diameter at the small end of the plug, for named tapers.
    pub small: Option<Length>,
    /// Length of the plug from the gauge line.
    pub length: Option<Length>,
    /// Table, for named tapers.
    pub source: Source,
}

/// A taper that cannot be read; the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoTaper(pub String);

impl std::fmt::Display for NoTaper {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "\"{}\" is no taper: write 1:10, 0.600 per foot, 7° (included), 2.86° a side, MT3, B&S 9, Jarno 7 or JT 33",
            self.0
        )
    }
}

impl std::error::Error for NoTaper {}

/// Reads a taper: `1:10`, `7:24`, `0.600 per foot`, `1/2 in per ft`, `7°`, `2.86° a side`, `MT3`, `Morse 3`, `B&S 9`, `Jarno 7`, `JT 33`.
///
/// # Errors
/// [`NoTaper`] when none of these fits.
pub fn find(text: &str) -> Result<Taper, NoTaper> {
    let asked = text.trim();
    let lower = asked.to_lowercase();
    let none = || NoTaper(asked.to_owned());
    if let Some(row) = named(&lower) {
        return of_row(row).ok_or_else(none);
    }
    let rate = by_ratio(&lower).or_else(|| by_foot(&lower)).or_else(|| by_angle(&lower)).ok_or_else(none)?;
    let source = Source::printed("geometry: tan of the half angle is half the taper");
    Ok(Taper { name: asked.to_owned(), rate, large: None, small: None, length: None, source })
}

/// Every named taper: series and number.
pub fn names() -> impl Iterator<Item = (&'static str, &'static str)> {
    NAMED.rows().map(|row| (row.text("series"), row.text("number")))
}

fn named(lower: &str) -> Option<Row<'static>> {
    let series = [
        ("morse taper", "Morse"),
        ("morse", "Morse"),
        ("mt", "Morse"),
        ("mk", "Morse"),
        ("brown & sharpe", "Brown & Sharpe"),
        ("b & s", "Brown & Sharpe"),
        ("b&s", "Brown & Sharpe"),
        ("jarno", "Jarno"),
        ("jacobs", "Jacobs"),
        ("jt", "Jacobs"),
    ];
    let (word, name) = series.iter().find(|(word, _)| lower.starts_with(word))?;
    let number =
        lower[word.len()..].trim().trim_start_matches("no.").trim_start_matches('#').trim().replace(" 1/2", ".5");
    NAMED.rows().find(|row| row.text("series") == *name && row.text("number") == number)
}

fn of_row(row: Row<'_>) -> Option<Taper> {
    let inch = |column| row.length(column, Unit::Inch);
    Some(Taper {
        name: format!("{} {}", row.text("series"), row.text("number")),
        rate: Rate::new(inch("per_foot")?.pm(), Length::PER_INCH.times(12).pm())?,
        large: inch("large"),
        small: inch("small"),
        length: inch("depth"),
        source: row.source(),
    })
}

/// A decimal as a fraction of whole numbers.
fn decimal(text: &str) -> Option<(i64, i64)> {
    let text = text.trim();
    let (whole, places) = text.split_once('.').unwrap_or((text, ""));
    if places.len() > 9 || whole.len() > 9 || !format!("{whole}{places}").chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let value = format!("0{whole}{places}").parse().ok()?;
    Some((value, 10_i64.pow(u32::try_from(places.len()).ok()?)))
}

fn by_ratio(lower: &str) -> Option<Rate> {
    let (over, along) = lower.split_once(':')?;
    let ((a, b), (c, d)) = (decimal(over)?, decimal(along)?);
    Rate::new(a.checked_mul(d)?, b.checked_mul(c)?)
}

fn by_foot(lower: &str) -> Option<Rate> {
    let at = lower.find("per f").or_else(|| lower.find("/ft")).or_else(|| lower.find("tpf"))?;
    let over = read_number(lower[..at].trim(), Unit::Inch).ok()?.value;
    Rate::new(over.pm(), Length::PER_INCH.times(12).pm())
}

fn by_angle(lower: &str) -> Option<Rate> {
    let at = lower.find('°').or_else(|| lower.find("deg"))?;
    let degrees: f64 = lower[..at].trim().parse().ok()?;
    let tail = lower[at..].trim_start_matches('°').trim_start_matches("deg").trim_start_matches('.').trim();
    match tail {
        "" | "included" | "incl" | "ees" => Rate::from_included_angle(degrees),
        "a side" | "per side" | "/side" | "each side" => Rate::from_included_angle(2.0 * degrees),
        _ => None,
    }
}
