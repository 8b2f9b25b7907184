//! ANSI B4.1-1967: preferred limits and fits for cylindrical parts, inch.

use std::sync::LazyLock;

use super::{Deviations, NoFit};
use crate::handbook::{Source, Table};
use crate::unit::{Length, Limits, Unit};

static CLASSES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/b41.csv")));

/// The classes of the table, each once.
static NAMES: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    let mut names: Vec<_> = CLASSES.rows().map(|row| row.text("class")).collect();
    names.dedup();
    names
});

/// Every class of the standard, with the number of classes in its family.
const FAMILIES: [(&str, u8); 5] = [("RC", 9), ("LC", 11), ("LT", 6), ("LN", 3), ("FN", 5)];

/// Both parts of a class of fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InchFit {
    /// Deviations of the hole; the lower one is zero in every class.
    pub hole: Deviations,
    /// Deviations of the shaft.
    pub shaft: Deviations,
    /// Table, and whether this row was seen in another printing.
    pub source: Source,
}

impl InchFit {
    /// Smallest and largest clearance; below zero is interference.
    pub fn clearance(self) -> Limits {
        Limits::new(self.hole.lower - self.shaft.upper, self.hole.upper - self.shaft.lower)
    }
}

/// The names of all classes, `RC1` to `FN5`.
pub fn inch_classes() -> impl Iterator<Item = String> {
    FAMILIES.iter().flat_map(|(family, last)| (1..=*last).map(move |n| format!("{family}{n}")))
}

/// The class a code names, with or without a space and in either case; `None` when it names none.
pub(super) fn class_name(code: &str) -> Option<&'static str> {
    let plain = || code.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_ascii_uppercase());
    NAMES.iter().copied().find(|class| class.chars().eq(plain()))
}

pub(super) fn source() -> Source {
    CLASSES.source()
}

/// Hole and shaft of a class at a diameter, to 19.69 in.
///
/// # Errors
/// [`NoFit`] when the class is unknown or the standard leaves it out at this diameter.
pub fn inch_fit(class: &str, diameter: Length) -> Result<InchFit, NoFit> {
    let Some(name) = class_name(class) else {
        return Err(NoFit::Unknown(class.to_owned()));
    };
    let row = CLASSES.rows().find(|row| row.text("class") == name && row.ranges_over(diameter, Unit::Inch));
    let thou = |column| row.and_then(|r| r.thousandths(column, Unit::Inch));
    match (thou("hole_upper"), thou("shaft_upper"), thou("shaft_lower")) {
        (Some(hole_upper), Some(upper), Some(lower)) => Ok(InchFit {
            hole: Deviations { upper: hole_upper, lower: Length::ZERO },
            shaft: Deviations { upper, lower },
            source: row.map_or_else(source, |r| r.source()),
        }),
        _ => Err(NoFit::NotTabulated {
            code: name.to_owned(),
            has: "B4.1 goes to 19.69 in; FN3 begins over 0.95 in, LT3 and LT4 over 0.24 in".to_owned(),
        }),
    }
}
