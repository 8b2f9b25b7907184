//! Twist drill series: number, letter, inch fractions to a 64th, millimetres.

use std::sync::{LazyLock, OnceLock};

use super::{Source, Table};
use crate::unit::{Length, Unit, show};

static NAMED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/drill.csv")));

/// A series of drills.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Series {
    /// Numbers 80 to 1.
    Number,
    /// Letters A to Z.
    Letter,
    /// Inch fractions by 64ths to 3 in.
    Fraction,
    /// Millimetres: by 0.05 to 3, by 0.1 and quarters to 14, by 0.25 to 32, by 0.5 to 50.5, by 1 to 80.
    Millimetre,
}

/// One drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drill {
    /// As stamped: `42`, `I`, `25/64`, `8.5 mm`.
    pub name: String,
    /// Diameter.
    pub diameter: Length,
    /// Its series.
    pub series: Series,
}

/// Where the number and letter sizes come from.
pub fn source() -> Source {
    NAMED.source()
}

/// All drills of all series, in order of diameter; of equal diameters the number first, then letter, fraction, millimetre.
pub fn drills() -> &'static [Drill] {
    static ALL: OnceLock<Vec<Drill>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut all = named();
        all.extend(fractions());
        all.extend(millimetres());
        all.sort_by_key(|d| (d.diameter, d.series));
        all
    })
}

fn named() -> Vec<Drill> {
    NAMED
        .rows()
        .filter_map(|row| {
            let name = row.text("name").to_owned();
            let series = if name.starts_with(|c: char| c.is_ascii_digit()) { Series::Number } else { Series::Letter };
            Some(Drill { name, diameter: row.length("diameter", Unit::Inch)?, series })
        })
        .collect()
}

fn fractions() -> impl Iterator<Item = Drill> {
    (1..=192_i64).map(|n| {
        let (whole, top) = (n / 64, n % 64);
        let by = 1_i64 << top.trailing_zeros().min(6);
        let name = match (whole, top) {
            (w, 0) => w.to_string(),
            (0, t) => format!("{}/{}", t / by, 64 / by),
            (w, t) => format!("{w} {}/{}", t / by, 64 / by),
        };
        Drill { name, diameter: Length::PER_INCH.times_ratio(n, 64), series: Series::Fraction }
    })
}

fn millimetres() -> impl Iterator<Item = Drill> {
    // In hundredths of a millimetre.
    let sizes = (20..=8000_i64).filter(|n| match n {
        ..=300 => n % 5 == 0,
        301..=1400 => n % 10 == 0 || n % 25 == 0,
        1401..=3200 => n % 25 == 0,
        3201..=5050 => n % 50 == 0,
        _ => n % 100 == 0,
    });
    sizes.map(|n| {
        let diameter = Length::micrometres(n * 10);
        Drill {
            name: format!("{} mm", show::exact(diameter, Unit::Millimetre, 0, 2)),
            diameter,
            series: Series::Millimetre,
        }
    })
}

/// The drill a name stands for: `42`, `No. 42`, `#7`, `I`, `25/64`, `1 1/64`, `8.5 mm`, `8.5`; `None` when no series has it.
///
/// A bare whole number is a number drill, a bare decimal millimetres.
pub fn find(name: &str) -> Option<&'static Drill> {
    let wanted = name.trim().trim_start_matches('#').trim();
    let wanted = wanted.strip_prefix("No.").or_else(|| wanted.strip_prefix("no.")).unwrap_or(wanted).trim();
    let wanted = wanted.trim_end_matches(['"', '\u{2033}']).trim_end_matches(" in").trim();
    let joined = wanted.replacen('-', " ", 1);
    let same = |d: &&Drill| {
        d.name.eq_ignore_ascii_case(wanted)
            || d.name == joined
            || d.series == Series::Millimetre
                && d.name.trim_end_matches(" mm") == wanted.trim_end_matches("mm").trim()
                && (wanted.contains('.') || wanted.ends_with("mm"))
    };
    drills().iter().find(same)
}

/// The drills of some series nearest to a diameter, the nearest first, at most `most`.
pub fn nearest(diameter: Length, series: &[Series], most: usize) -> Vec<&'static Drill> {
    let mut some: Vec<&Drill> = drills().iter().filter(|d| series.contains(&d.series)).collect();
    some.sort_by_key(|d| ((d.diameter - diameter).abs(), std::cmp::Reverse(d.diameter)));
    some.truncate(most);
    some
}

/// Length of the point of a drill of the usual 118° beyond its full diameter: 0.3 of the diameter (tan 31° / 2 = 0.3004).
pub fn point_length(diameter: Length) -> Length {
    diameter.times_ratio(3, 10)
}

/// Drills up to 8 mm / 5/16 in go in at once; up to 16 mm / 5/8 in after one about a third as large, which clears the web;
/// larger ones after a third and two thirds (common practice, no source).
pub fn steps(unit: Unit, size: Length) -> Vec<Length> {
    let pick = |micro_inches: i64, micrometres: i64| match unit {
        Unit::Inch => Length::micro_inches(micro_inches),
        Unit::Millimetre => Length::micrometres(micrometres),
    };
    let step = pick(31_250, 500);
    let round = |l: Length| l.round_to(step).max(step);
    let mut list = Vec::new();
    if size > pick(312_500, 8_000) {
        list.push(round(size.times_ratio(1, 3)));
    }
    if size > pick(625_000, 16_000) {
        list.push(round(size.times_ratio(2, 3)));
    }
    list.push(size);
    list
}

/// Whether a drill leads as well as the one wanted: a quarter larger or smaller at most (common practice, no source).
pub fn leads(have: Length, wanted: Length) -> bool {
    (have - wanted).abs().times(4) <= wanted
}
