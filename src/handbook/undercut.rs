//! Undercuts for a corner that is ground or must be clear: DIN 509 forms E, F, G and H.

use std::sync::LazyLock;

use super::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit, read_number};

static ROWS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/din509.csv")));

/// What the shaft has to bear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Duty {
    /// Usual load.
    Usual,
    /// Raised fatigue load: larger radii.
    Fatigue,
}

/// An undercut of DIN 509.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Undercut {
    /// E (cylinder only), F (cylinder and face), G (small load, short), H (steep).
    pub form: char,
    /// Radius.
    pub radius: Length,
    /// Depth a side below the shaft.
    pub depth: Limits,
    /// Depth in the face; forms F, G and H.
    pub face_depth: Option<Length>,
    /// Width along the shaft.
    pub width: Length,
    /// Height up the face, a reference value; forms F, G and H.
    pub face_height: Option<Length>,
    /// Shafts it is meant for: over and to.
    pub shafts: (Option<Length>, Option<Length>),
    /// Load it is meant for.
    pub duty: Duty,
    /// Table.
    pub source: Source,
}

impl Undercut {
    /// `DIN 509 F 0.6x0.3`.
    pub fn designation(&self) -> String {
        let mm = |l: Length| crate::unit::show::exact(l, Unit::Millimetre, 0, 2);
        format!("DIN 509 {} {}x{}", self.form, mm(self.radius), mm(self.depth.min))
    }
}

fn of(row: Row<'_>) -> Option<Undercut> {
    let mm = |column| row.length(column, Unit::Millimetre);
    let (radius, t1) = (mm("radius")?, mm("t1")?);
    let deeper = if radius <= Length::micrometres(200) { 50 } else { 100 };
    Some(Undercut {
        form: row.text("form").chars().next()?,
        radius,
        depth: Limits::new(t1, t1 + Length::micrometres(deeper)),
        face_depth: mm("t2"),
        width: mm("f")?,
        face_height: mm("g"),
        shafts: (mm("over"), mm("to")),
        duty: if row.text("duty") == "fatigue" { Duty::Fatigue } else { Duty::Usual },
        source: row.source(),
    })
}

/// Every undercut of the standard.
pub fn all() -> impl Iterator<Item = Undercut> {
    ROWS.rows().filter_map(of)
}

/// The undercuts the standard gives a shaft, preferred radii first.
pub fn for_shaft(form: char, shaft: Length, duty: Duty) -> Vec<Undercut> {
    let form = form.to_ascii_uppercase();
    let fits = |u: &Undercut| {
        u.form == form
            && u.duty == duty
            && u.shafts.0.is_none_or(|o| o < shaft)
            && u.shafts.1.is_none_or(|t| shaft <= t)
    };
    let mut found: Vec<Undercut> = all().filter(fits).collect();
    // Radii of the preferred series come first; the table keeps each range in rising order otherwise.
    found.sort_by_key(|u| !preferred(u.radius));
    found
}

/// Radii of the preferred series (0.2 0.4 0.6 1 1.6 2.5 4).
fn preferred(radius: Length) -> bool {
    [200, 400, 600, 1000, 1600, 2500, 4000].map(Length::micrometres).contains(&radius)
}

/// Reads `DIN 509 F 0.6x0.3` or `F 0.6 x 0.3`.
pub fn by_designation(text: &str) -> Option<Undercut> {
    let upper = text.to_ascii_uppercase().replace(['×', ' '], "x").replace('X', "x");
    let plain =
        upper.trim_start_matches("DINx509").trim_start_matches("DIN509").trim_matches('x').trim_start_matches('-');
    let form = plain.chars().next()?;
    let mut numbers = plain[form.len_utf8()..].split('x').filter(|n| !n.is_empty());
    let mut mm = || read_number(numbers.next()?, Unit::Millimetre).ok().map(|n| n.value);
    let (radius, t1) = (mm()?, mm()?);
    all().find(|u| u.form == form && u.radius == radius && u.depth.min == t1)
}
