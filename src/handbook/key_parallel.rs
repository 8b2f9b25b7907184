//! Parallel keys and their seats: ASME B17.1-1967 (R2013) and ISO/R 773 (DIN 6885-1, JIS B 1301).

use std::sync::LazyLock;

use super::keyseat::{self, SeatDepths};
use super::{Source, Table, fit};
use crate::unit::{Length, Limits, Unit};

static INCH: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/b171.csv")));
static METRIC: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/iso773.csv")));

/// A parallel key in a shaft, with its seat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParallelKey {
    /// Inch or metric standard.
    pub unit: Unit,
    /// Width of key and seat, nominal.
    pub width: Length,
    /// Height of the key.
    pub height: Length,
    /// Depth of the seat where the standard measures it: at the side (inch), from the top of the round (metric).
    pub seat_depth: Limits,
    /// Depth of the keyway in the hub; inch: at the side, with the standard's clearance of .005 in; metric: t2.
    pub hub_depth: Limits,
    /// Depths worked from `seat_depth.min`.
    pub depths: SeatDepths,
    /// S of B17.1: bottom of the seat across the shaft; inch only.
    pub s: Option<Length>,
    /// T of B17.1: bottom of the hub's keyway across the bore; inch only.
    pub t: Option<Length>,
    /// Limits of the seat's width: metric N9 (normal) and P9 (tight); inch class 2.
    pub seat_width: Vec<(&'static str, Limits)>,
    /// Largest radius in the corner of the seat; metric only.
    pub corner: Option<Length>,
    /// Where the sizes come from.
    pub source: Source,
    /// Where the tolerances come from.
    pub tolerance_source: Source,
}

/// Why there is no key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoKey {
    /// No key is given for this shaft.
    Shaft,
    /// The key is wider than the shaft can hold, or has no size.
    Size,
}

impl std::fmt::Display for NoKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Shaft => {
                "no key for this shaft: B17.1 has keys for shafts over 5/16 to 30 in, ISO 773 over 6 to 500 mm"
            }
            Self::Size => "the key must be narrower than the shaft, and have a width and a height",
        })
    }
}

impl std::error::Error for NoKey {}

fn table(unit: Unit) -> &'static Table {
    match unit {
        Unit::Inch => &INCH,
        Unit::Millimetre => &METRIC,
    }
}

/// The usual key for a shaft: square to 6 1/2 in, rectangular above; metric b x h.
///
/// # Errors
/// [`NoKey::Shaft`] outside the standard's shafts.
pub fn for_shaft(shaft: Length, unit: Unit) -> Result<ParallelKey, NoKey> {
    let row = table(unit).range(shaft, unit).ok_or(NoKey::Shaft)?;
    let width = row.length("width", unit).unwrap_or_default();
    let large = shaft > Length::PER_INCH.times_ratio(13, 2);
    let height = match unit {
        Unit::Inch if !large => row.length("square", unit),
        Unit::Inch => row.length("rectangular", unit),
        Unit::Millimetre => row.length("height", unit),
    };
    with_size(shaft, width, height.unwrap_or(width), unit)
}

/// Every key of a standard: the shafts it is for (over `min`, to `max`), its width and its height.
pub fn sizes(unit: Unit) -> impl Iterator<Item = (Limits, Length, Length)> {
    table(unit).rows().filter_map(move |row| {
        let shafts = Limits::new(row.length("over", unit)?, row.length("to", unit)?);
        let key = for_shaft(shafts.max, unit).ok()?;
        Some((shafts, key.width, key.height))
    })
}

/// The rectangular key B17.1 gives as the other choice for a shaft; its square key is [`for_shaft`]'s.
pub fn rectangular(shaft: Length) -> Option<(Length, Length)> {
    let row = INCH.range(shaft, Unit::Inch)?;
    row.length("width", Unit::Inch).zip(row.length("rectangular", Unit::Inch))
}

/// A key of any size in a shaft. Metric sizes outside the standard are seated half their height deep at the side (practice).
///
/// # Errors
/// [`NoKey::Size`] when the key does not fit a round of this diameter.
pub fn with_size(shaft: Length, width: Length, height: Length, unit: Unit) -> Result<ParallelKey, NoKey> {
    if !width.is_positive() || !height.is_positive() || width >= shaft {
        return Err(NoKey::Size);
    }
    match unit {
        Unit::Inch => Ok(inch(shaft, width, height)),
        Unit::Millimetre => Ok(metric(shaft, width, height)),
    }
}

fn inch(shaft: Length, width: Length, height: Length) -> ParallelKey {
    let thou = |n: i64| Length::micro_inches(n * 1000);
    let depths = keyseat::from_side(shaft, width, height.half());
    let usual = INCH.rows().find(|row| row.length("width", Unit::Inch) == Some(width));
    let wide = if width <= Length::PER_INCH.half() { 2 } else { 3 };
    ParallelKey {
        unit: Unit::Inch,
        width,
        height,
        seat_depth: Limits::new(height.half(), height.half() + thou(15)),
        hub_depth: Limits::new(height.half() + thou(5), height.half() + thou(15)),
        depths,
        s: Some(depths.across_bottom),
        t: Some(depths.across_bottom + height + thou(5)),
        seat_width: vec![("class 2", Limits::new(width, width + thou(wide)))],
        corner: None,
        source: usual.map_or_else(|| Source { confirmed: false, ..INCH.source() }, |row| row.source()),
        tolerance_source: Source::from_memory("ASME B17.1-1967 Table 4, class 2; S +0/-.015, T +.010/-0"),
    }
}

fn metric(shaft: Length, width: Length, height: Length) -> ParallelKey {
    let unit = Unit::Millimetre;
    let row = METRIC
        .rows()
        .find(|row| row.length("width", unit) == Some(width) && row.length("height", unit) == Some(height));
    let cell = |column| row.and_then(|r| r.length(column, unit));
    let (t1, t2, source) = if let Some((t1, t2)) = cell("t1").zip(cell("t2")) {
        (t1, t2, METRIC.source())
    } else {
        let t1 = (height.half() + keyseat::arc_height(shaft, width)).round_to(Length::micrometres(100));
        let practice = Source::from_memory("not a size of ISO 773: half the height in the shaft, common practice");
        (t1, height - t1, practice)
    };
    let deep = cell("depth_tolerance").unwrap_or(Length::micrometres(200));
    let depths = keyseat::from_top(shaft, width, t1);
    let wide = |name, code| fit::hole(code, width).ok().map(|d| (name, d.limits(width)));
    ParallelKey {
        unit,
        width,
        height,
        seat_depth: Limits::new(t1, t1 + deep),
        hub_depth: Limits::new(t2, t2 + deep),
        depths,
        s: None,
        t: None,
        seat_width: [wide("N9, normal", "N9"), wide("P9, tight", "P9")].into_iter().flatten().collect(),
        corner: cell("r"),
        source,
        tolerance_source: source,
    }
}

/// Smallest and largest shaft of a standard; the smallest itself is just below the first range.
pub fn shafts(unit: Unit) -> Limits {
    let over = table(unit).rows().filter_map(|r| r.length("over", unit)).min().unwrap_or_default();
    let to = table(unit).rows().filter_map(|r| r.length("to", unit)).max().unwrap_or_default();
    Limits::new(over, to)
}

/// The shafts (over, to and including) a key of this width is usual in, if the width is standard.
pub fn usual_shafts(width: Length, unit: Unit) -> Option<Limits> {
    let row = table(unit).rows().find(|row| row.length("width", unit) == Some(width))?;
    row.length("over", unit).zip(row.length("to", unit)).map(|(over, to)| Limits::new(over, to))
}

/// Greatest offset of a keyseat's centre line, and greatest run of it over a length, by B17.1.
///
/// Source: ASME B17.1-1967 (R2013), keyseat alignment tolerances, as printed in Machinery's Handbook 31st ed. p. 2552.
pub fn alignment(length: Length) -> (Length, Length) {
    let offset = Length::micro_inches(10_000);
    let lead = if length <= Length::PER_INCH.times(4) {
        Length::micro_inches(2_000)
    } else if length <= Length::PER_INCH.times(10) {
        length.times_ratio(5, 10_000)
    } else {
        Length::micro_inches(5_000)
    };
    (offset, lead)
}
