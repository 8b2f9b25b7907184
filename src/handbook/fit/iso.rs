//! ISO 286-1:2010: standard tolerance grades and fundamental deviations.

use std::sync::LazyLock;

use super::{Deviations, NoFit};
use crate::handbook::{Row, Source, Table};
use crate::unit::{Length, Unit};

static GRADES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/iso286_it.csv")));
static SHAFTS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/iso286_shaft.csv")));
static HOLES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/iso286_hole.csv")));

/// Letters of the fundamental deviations, in the standard's order.
const LETTERS: [&str; 28] = [
    "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j", "k", "m", "n", "p", "r", "s", "t", "u", "v",
    "x", "y", "z", "za", "zb", "zc",
];

/// A standard tolerance grade, IT01 to IT18.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Grade(i8);

impl Grade {
    /// All twenty, finest first.
    pub fn all() -> impl DoubleEndedIterator<Item = Self> {
        (-1..=18).map(Self)
    }

    /// Reads `01`, `0`, `1` … `18`.
    pub fn read(text: &str) -> Option<Self> {
        match text {
            "01" => Some(Self(-1)),
            _ if text.starts_with('0') && text != "0" => None,
            _ => text.parse().ok().filter(|n| (0..=18).contains(n)).map(Self),
        }
    }

    /// The grade's number; IT01 counts as −1.
    pub fn number(self) -> i8 {
        self.0
    }

    fn column(self) -> String {
        if self.0 < 0 { "01".to_owned() } else { self.0.to_string() }
    }
}

impl std::fmt::Display for Grade {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "IT{}", self.column())
    }
}

/// The tolerance of a grade at a diameter (ISO 286-1 Table 1), if the standard has it: to 3150 mm; IT01 and IT0 to 500 mm;
/// IT14 to IT18 above 1 mm.
pub fn it_value(grade: Grade, diameter: Length) -> Option<Length> {
    it_in(&GRADES.range(diameter, Unit::Millimetre)?, grade, diameter)
}

/// The tolerance of a grade in the row of a diameter.
fn it_in(row: &Row<'_>, grade: Grade, diameter: Length) -> Option<Length> {
    if grade.0 >= 14 && diameter <= Length::PER_MM {
        return None;
    }
    row.thousandths(&grade.column(), Unit::Millimetre)
}

/// The grade whose tolerance is nearest to `band` by ratio; the finer of two that are equally near.
/// `None` outside the standard's sizes or for a band of zero.
pub fn it_grade_of(diameter: Length, band: Length) -> Option<Grade> {
    if !band.is_positive() {
        return None;
    }
    let row = GRADES.range(diameter, Unit::Millimetre)?;
    let distance = |grade: Grade| {
        let it = it_in(&row, grade, diameter)?;
        let (small, large) = if it < band { (it, band) } else { (band, it) };
        // Larger over smaller, in millionths: an order of ratios without logarithms.
        Some(i128::from(large.pm()) * 1_000_000 / i128::from(small.pm().max(1)))
    };
    Grade::all().filter_map(|g| distance(g).map(|d| (d, g))).min().map(|(_, g)| g)
}

/// The coarsest grade whose tolerance still lies within `band`: what a hand must hold to stay inside.
pub fn it_grade_within(diameter: Length, band: Length) -> Option<Grade> {
    let row = GRADES.range(diameter, Unit::Millimetre)?;
    Grade::all().rev().find(|g| it_in(&row, *g, diameter).is_some_and(|it| it <= band))
}

/// A tolerance class split into its letter (lower case) and grade.
fn split(code: &str) -> Option<(&'static str, Grade)> {
    let letters = code.chars().take_while(char::is_ascii_alphabetic).count();
    let (word, number) = code.split_at(letters);
    let one_case = word.chars().all(|c| c.is_ascii_lowercase()) || word.chars().all(|c| c.is_ascii_uppercase());
    let letter = LETTERS.iter().find(|l| l.eq_ignore_ascii_case(word)).filter(|_| one_case)?;
    Some((letter, Grade::read(number)?))
}

/// Whether `code` is a letter and grade of ISO 286, of either side.
pub(super) fn is_class(code: &str) -> bool {
    split(code).is_some()
}

pub(super) fn source() -> Source {
    Source { name: "ISO 286-1:2010, Tables 1 to 5", confirmed: GRADES.source().confirmed && SHAFTS.source().confirmed }
}

fn um(row: Row<'_>, column: &str) -> Option<Length> {
    row.thousandths(column, Unit::Millimetre)
}

/// A shaft's tolerance class.
pub(super) fn shaft(code: &str, diameter: Length) -> Result<Deviations, NoFit> {
    let (letter, grade) = split(code).ok_or_else(|| NoFit::Unknown(code.to_owned()))?;
    let none = || not_tabulated(code, letter);
    let it = it_value(grade, diameter).ok_or_else(none)?;
    if letter == "js" {
        return Ok(around(it));
    }
    let row = SHAFTS.range(diameter, Unit::Millimetre).ok_or_else(none)?;
    if is_first_letter(letter) {
        let upper = from_first_letters(row, letter, diameter).ok_or_else(none)?;
        return Ok(Deviations { upper, lower: upper - it });
    }
    let lower = from_last_letters(row, letter, grade).ok_or_else(none)?;
    Ok(Deviations { upper: lower + it, lower })
}

/// A hole's tolerance class.
pub(super) fn hole(code: &str, diameter: Length) -> Result<Deviations, NoFit> {
    let (letter, grade) = split(code).ok_or_else(|| NoFit::Unknown(code.to_owned()))?;
    let none = || not_tabulated(code, letter);
    let it = it_value(grade, diameter).ok_or_else(none)?;
    if letter == "js" {
        return Ok(around(it));
    }
    let row = SHAFTS.range(diameter, Unit::Millimetre).ok_or_else(none)?;
    if is_first_letter(letter) {
        let lower = -from_first_letters(row, letter, diameter).ok_or_else(none)?;
        return Ok(Deviations { upper: lower + it, lower });
    }
    let upper = hole_upper(row, letter, grade, diameter).ok_or_else(none)?;
    Ok(Deviations { upper, lower: upper - it })
}

fn around(it: Length) -> Deviations {
    Deviations { upper: it.half(), lower: -it.half() }
}

fn is_first_letter(letter: &str) -> bool {
    LETTERS.iter().take_while(|l| **l != "js").any(|l| *l == letter)
}

/// Upper deviation of the shafts a to h. The standard gives a and b above 1 mm only.
fn from_first_letters(row: Row<'_>, letter: &str, diameter: Length) -> Option<Length> {
    if matches!(letter, "a" | "b") && diameter <= Length::PER_MM {
        return None;
    }
    um(row, letter)
}

/// Lower deviation of the shafts j to zc.
fn from_last_letters(row: Row<'_>, letter: &str, grade: Grade) -> Option<Length> {
    match (letter, grade.0) {
        ("j", 5..=8) => um(row, &format!("j{}", grade.0)),
        ("j", _) => None,
        ("k", 4..=7) => um(row, "k4-7"),
        ("k", _) => Some(Length::ZERO),
        _ => um(row, letter),
    }
}

/// Upper deviation of the holes J to ZC: that of the shaft of the same letter with its sign turned, with delta added for
/// K, M, N to IT8 and P to ZC to IT7 between 3 and 500 mm.
fn hole_upper(row: Row<'_>, letter: &str, grade: Grade, diameter: Length) -> Option<Length> {
    let deltas = HOLES.range(diameter, Unit::Millimetre);
    if letter == "j" {
        return matches!(grade.0, 6..=8).then(|| um(deltas?, &format!("J{}", grade.0))).flatten();
    }
    let small = diameter <= Length::PER_MM.times(3);
    match (letter, grade.0) {
        // K beyond IT8 and N beyond IT8 have entries of their own.
        ("k", 9..) if !small => return None,
        ("k", _) if small => return Some(Length::ZERO),
        ("n", 9..) if diameter <= Length::PER_MM => return None,
        ("n", 9..) if !small && deltas.is_some() => return Some(Length::ZERO),
        // The one cell that does not follow delta: M6 over 250 to 315 mm is -9 µm, not -11.
        ("m", 6) if diameter > Length::PER_MM.times(250) && diameter <= Length::PER_MM.times(315) => {
            return Some(Length::micrometres(-9));
        }
        _ => {}
    }
    let plain = -(if letter == "k" { um(row, "k4-7")? } else { um(row, letter)? });
    let last_with_delta = if matches!(letter, "k" | "m" | "n") { 8 } else { 7 };
    match deltas {
        Some(deltas) if !small && grade.0 <= last_with_delta => Some(plain + um(deltas, &format!("d{}", grade.0))?),
        _ => Some(plain),
    }
}

fn not_tabulated(code: &str, letter: &str) -> NoFit {
    let has = match letter {
        "a" | "b" => "the standard has a and b (A and B) over 1 mm to 500 mm",
        "cd" | "ef" | "fg" => "the standard has cd, ef and fg to 10 mm",
        "c" | "v" | "x" | "y" | "z" | "za" | "zb" | "zc" => {
            "the standard has c, x, z, za, zb and zc to 500 mm, v from 14 mm, y from 18 mm"
        }
        "j" => "the standard has j5 to j7 (j8 to 3 mm) and J6 to J8, to 500 mm",
        "t" => "the standard has t from 24 mm",
        "k" | "m" | "n" => "the standard has K to IT8 (beyond it to 3 mm) and holes K, M, N from IT3",
        _ => "the standard has grades IT01 to IT18 to 3150 mm (IT01 and IT0 to 500 mm; holes P to ZC from IT3)",
    };
    NoFit::NotTabulated { code: code.to_owned(), has: has.to_owned() }
}
