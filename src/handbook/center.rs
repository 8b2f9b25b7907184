//! Center holes: DIN 332-1 forms A, B, R (ISO 866, ISO 2540, ISO 2541), DIN 332-2 tapped forms D and DS, and the inch center
//! drills of ASME B94.11M by number.

use std::sync::LazyLock;

use super::{Row, Source, Table, thread};
use crate::unit::{Length, Unit, read_number};

static FORMS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/din332.csv")));
static TAPPED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/din332_2.csv")));
static NUMBERED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/b94_11m.csv")));
static USUAL: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/center_usual.csv")));

/// Kind of a center hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Form {
    /// 60° cone, no protecting chamfer.
    A,
    /// 60° cone with a 120° protecting chamfer.
    B,
    /// Curved flanks.
    R,
    /// Tapped, with a 60° seat.
    D,
    /// Tapped, with a 60° seat and a protecting chamfer.
    Ds,
    /// Cut with a numbered plain center drill.
    Plain,
    /// Cut with a numbered bell center drill: its bell protects the cone.
    Bell,
}

impl Form {
    /// As written in a designation.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::B => "B",
            Self::R => "R",
            Self::D => "D",
            Self::Ds => "DS",
            Self::Plain | Self::Bell => "No.",
        }
    }
}

/// A center hole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CenterHole {
    /// Kind.
    pub form: Form,
    /// Designation in the standard's words: `A 2.5`, `D M8`, `No. 3`, `A 1/8`.
    pub designation: String,
    /// Unit of the standard or of the size asked.
    pub unit: Unit,
    /// Pilot drill; core drill of a tapped hole.
    pub drill_diameter: Length,
    /// Largest diameter of the 60° cone.
    pub mouth_diameter: Length,
    /// Depth from the face; of a tapped hole that of the core hole.
    pub depth: Length,
    /// Diameter of the protecting chamfer or bell.
    pub protecting_diameter: Option<Length>,
    /// Depth of the protecting chamfer.
    pub protecting_depth: Option<Length>,
    /// Body of the center drill that cuts it, where it is a numbered one.
    pub body: Option<Length>,
    /// Thread of a tapped form.
    pub thread: Option<String>,
    /// Depth of the thread of a tapped form, from the end face.
    pub thread_depth: Option<Length>,
    /// Table.
    pub source: Source,
    /// Table or practice the mouth and depth come from, where it is another one.
    pub mouth_source: Source,
}

/// A center hole that cannot be found: the text, and the designations nearest to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoCenter {
    /// What was asked.
    pub asked: String,
    /// Sizes of the same form, nearest first.
    pub nearest: Vec<String>,
}

impl std::fmt::Display for NoCenter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "no center hole \"{}\"", self.asked)?;
        if self.nearest.is_empty() {
            write!(
                f,
                ": write a form and drill (A 2.5, A 1/8), a tapped form (D M8, D 1/4-20) or a center drill (No. 3)"
            )
        } else {
            write!(f, "; nearest: {}", self.nearest.join(", "))
        }
    }
}

impl std::error::Error for NoCenter {}

/// Mouth of an inch form A, B or R for its drill: the ratio the metric standard keeps, 2.12.
const MOUTH_OF_DRILL: (i64, i64) = (212, 100);

/// Reads a designation: form and drill (`A 2.5`, `A 1/8`, `B 3.15`, `R 4`), tapped form (`D M8`, `DS M8`, `D 1/4-20`, `1/4-20`) or center drill (`No. 3`).
///
/// # Errors
/// [`NoCenter`] with the nearest sizes.
pub fn find(text: &str) -> Result<CenterHole, NoCenter> {
    let asked = text.trim();
    let upper = asked.to_ascii_uppercase();
    if let Some(number) =
        upper.strip_prefix("NO.").or_else(|| upper.strip_prefix("NO ")).or_else(|| upper.strip_prefix('#'))
    {
        return numbered(asked, number.trim());
    }
    for (word, form) in [("DS", Form::Ds), ("D", Form::D)] {
        if let Some(thread) = upper.strip_prefix(word) {
            return tapped(asked, form, thread.trim());
        }
    }
    for (word, form) in [("A", Form::A), ("B", Form::B), ("R", Form::R)] {
        if let Some(size) = upper.strip_prefix(word) {
            return by_form(asked, form, size.trim());
        }
    }
    by_thread(asked, Form::D, asked).ok_or_else(|| NoCenter { asked: asked.to_owned(), nearest: Vec::new() })
}

/// A tapped center hole of a thread that DIN 332-2 does not list, as inch ones are: drilled by the usual tap drill; seat and depths in the proportion of the standard's
/// sizes on either side of the nominal diameter.
fn by_thread(asked: &str, form: Form, thread: &str) -> Option<CenterHole> {
    let designation = thread::read(thread).ok()?;
    if designation.external() == Some(true) {
        return None;
    }
    let data = thread::limits(&designation, &thread::Asked::default()).ok()?;
    let drill = data.tap_drill.as_ref().filter(|_| data.unit == Unit::Inch && data.starts == 1)?;
    let scaled = |column: &str| between_rows(column, data.nominal);
    let ds = form == Form::Ds;
    Some(CenterHole {
        form,
        designation: asked.to_owned(),
        unit: Unit::Inch,
        drill_diameter: drill.diameter,
        mouth_diameter: scaled("mouth")?,
        depth: scaled("depth")?,
        protecting_diameter: if ds { scaled("ds_mouth") } else { None },
        protecting_depth: if ds { scaled("ds_depth") } else { None },
        body: None,
        thread: Some(thread.to_owned()),
        thread_depth: scaled("thread_depth"),
        source: TAPPED.source(),
        mouth_source: Source {
            name: "inch thread in the proportions of DIN 332-2, its tap drill by the handbook; common practice",
            confirmed: true,
        },
    })
}

/// A column of DIN 332-2 at a nominal diameter between two of its threads, on the straight line; to .005 in. None beyond its ends.
fn between_rows(column: &str, nominal: Length) -> Option<Length> {
    let row = |row: Row<'_>| {
        let size = read_number(row.text("thread").strip_prefix('M')?, Unit::Millimetre).ok()?.value;
        Some((size, row.length(column, Unit::Millimetre)?))
    };
    let rows: Vec<(Length, Length)> = TAPPED.rows().filter_map(row).collect();
    let pair = rows.windows(2).find(|p| p[0].0 <= nominal && nominal <= p[1].0)?;
    let share = (nominal - pair[0].0).mm() / (pair[1].0 - pair[0].0).mm();
    let at = pair[0].1.mm() + share * (pair[1].1 - pair[0].1).mm();
    Some(Length::from_f64(at, Unit::Millimetre).round_to(Length::micro_inches(5_000)))
}

fn by_form(asked: &str, form: Form, size: &str) -> Result<CenterHole, NoCenter> {
    let none = |nearest| NoCenter { asked: asked.to_owned(), nearest };
    let size = size.trim_end_matches("IN").trim_end_matches("MM").trim();
    if size.contains('/') || size.starts_with('.') {
        let drill = read_number(size, Unit::Inch).map_err(|_| none(Vec::new()))?.value;
        return inch_form(asked, form, drill).ok_or_else(|| none(nearest_drills(drill, form)));
    }
    let drill = read_number(size, Unit::Millimetre).map_err(|_| none(Vec::new()))?.value;
    let row = forms(form).find(|row| row.length("drill", Unit::Millimetre) == Some(drill));
    row.and_then(|row| metric_form(form, row)).ok_or_else(|| none(nearest_metric(form, drill)))
}

fn forms(form: Form) -> impl Iterator<Item = Row<'static>> {
    FORMS.rows().filter(move |row| row.text("form") == form.letter())
}

fn metric_form(form: Form, row: Row<'_>) -> Option<CenterHole> {
    let mm = |column| row.length(column, Unit::Millimetre);
    Some(CenterHole {
        form,
        designation: format!("{} {}", form.letter(), row.text("size")),
        unit: Unit::Millimetre,
        drill_diameter: mm("drill")?,
        mouth_diameter: mm("mouth")?,
        depth: mm("depth")?,
        protecting_diameter: mm("protecting_diameter"),
        protecting_depth: mm("protecting_depth"),
        body: None,
        thread: None,
        thread_depth: None,
        source: row.source(),
        mouth_source: row.source(),
    })
}

fn nearest_metric(form: Form, drill: Length) -> Vec<String> {
    let mut sizes: Vec<(Length, &str)> = forms(form)
        .filter_map(|row| row.length("drill", Unit::Millimetre).map(|d| ((d - drill).abs(), row.text("size"))))
        .collect();
    sizes.sort_unstable();
    sizes.into_iter().take(3).map(|(_, size)| format!("{} {size}", form.letter())).collect()
}

/// Form A, B or R with an inch drill: cut with the plain center drill of that drill, the cone as wide as the metric standard keeps it.
fn inch_form(asked: &str, form: Form, drill: Length) -> Option<CenterHole> {
    let row = drills("plain").find(|row| row.length("drill", Unit::Inch) == Some(drill))?;
    let mouth = drill.times_ratio(MOUTH_OF_DRILL.0, MOUTH_OF_DRILL.1).round_to(Length::micro_inches(1_000));
    let pilot = row.length("drill_length", Unit::Inch)?;
    // A chamfer of 120° around the cone, as the metric form B has it: about 3.2 times the drill, a quarter of the drill deep.
    let guard = (form == Form::B).then(|| drill.times_ratio(32, 10).round_to(Length::micro_inches(1_000)));
    let guard_depth = guard.map(|_| drill.times_ratio(3, 10).round_to(Length::micro_inches(1_000)));
    Some(CenterHole {
        form,
        designation: asked.to_owned(),
        unit: Unit::Inch,
        drill_diameter: drill,
        mouth_diameter: mouth,
        depth: cone(drill, mouth) + pilot + guard_depth.unwrap_or_default(),
        protecting_diameter: guard,
        protecting_depth: guard_depth,
        body: row.length("body", Unit::Inch),
        thread: None,
        thread_depth: None,
        source: row.source(),
        mouth_source: Source {
            name: "mouth 2.12 times the drill as in ISO 866; common practice for inch drills",
            confirmed: true,
        },
    })
}

/// Depth of a 60° cone between two diameters: half their difference by cot 30° (1.7320508).
fn cone(small: Length, large: Length) -> Length {
    (large - small).half().times_ratio(17_320_508, 10_000_000).round_to(Length::micro_inches(100))
}

fn drills(kind: &'static str) -> impl Iterator<Item = Row<'static>> {
    NUMBERED.rows().filter(move |row| row.text("kind") == kind)
}

fn numbered(asked: &str, number: &str) -> Result<CenterHole, NoCenter> {
    let row = NUMBERED.find("number", number);
    row.and_then(numbered_row).ok_or_else(|| NoCenter {
        asked: asked.to_owned(),
        nearest: NUMBERED.rows().map(|row| format!("No. {}", row.text("number"))).collect(),
    })
}

fn numbered_row(row: Row<'_>) -> Option<CenterHole> {
    let inch = |column| row.length(column, Unit::Inch);
    let drill = inch("drill")?;
    let body = inch("body")?;
    let bell = inch("bell");
    let usual = drill.times_ratio(MOUTH_OF_DRILL.0, MOUTH_OF_DRILL.1).round_to(Length::micro_inches(1_000));
    let mouth = bell.unwrap_or(usual).min(body);
    Some(CenterHole {
        form: if bell.is_some() { Form::Bell } else { Form::Plain },
        designation: format!("No. {}", row.text("number")),
        unit: Unit::Inch,
        drill_diameter: drill,
        mouth_diameter: mouth,
        depth: cone(drill, mouth) + inch("drill_length")?,
        protecting_diameter: bell.map(|_| body),
        protecting_depth: None,
        body: Some(body),
        thread: None,
        thread_depth: None,
        source: row.source(),
        mouth_source: Source {
            name: "mouth 2.12 times the drill as in ISO 866; common practice for inch drills",
            confirmed: true,
        },
    })
}

fn nearest_drills(drill: Length, form: Form) -> Vec<String> {
    let mut sizes: Vec<(Length, String)> = drills("plain")
        .filter_map(|row| {
            let d = row.length("drill", Unit::Inch)?;
            Some((
                (d - drill).abs(),
                format!("{} {} in (No. {})", form.letter(), row.text("drill"), row.text("number")),
            ))
        })
        .collect();
    sizes.sort();
    sizes.into_iter().take(3).map(|(_, text)| text).collect()
}

fn tapped(asked: &str, form: Form, thread: &str) -> Result<CenterHole, NoCenter> {
    let row = TAPPED.find("thread", thread);
    let found = row.and_then(|row| tapped_row(form, row)).or_else(|| by_thread(asked, form, thread));
    found.ok_or_else(|| NoCenter {
        asked: asked.to_owned(),
        nearest: TAPPED.rows().map(|row| format!("{} {}", form.letter(), row.text("thread"))).collect(),
    })
}

fn tapped_row(form: Form, row: Row<'_>) -> Option<CenterHole> {
    let mm = |column| row.length(column, Unit::Millimetre);
    Some(CenterHole {
        form,
        designation: format!("{} {}", form.letter(), row.text("thread")),
        unit: Unit::Millimetre,
        drill_diameter: mm("drill")?,
        mouth_diameter: mm("mouth")?,
        depth: mm("depth")?,
        protecting_diameter: (form == Form::Ds).then(|| mm("ds_mouth")).flatten(),
        protecting_depth: (form == Form::Ds).then(|| mm("ds_depth")).flatten(),
        body: None,
        thread: Some(row.text("thread").to_owned()),
        thread_depth: mm("thread_depth"),
        source: row.source(),
        mouth_source: row.source(),
    })
}

/// The size usual for a shaft (practice): form A in millimetres, a numbered plain center drill in inches.
pub fn usual(shaft: Length, unit: Unit) -> Option<CenterHole> {
    let row = USUAL.rows().find(|row| row.text("unit") == unit.word() && row.ranges_over(shaft, unit))?;
    match unit {
        Unit::Millimetre => find(&format!("A {}", row.text("size"))).ok(),
        Unit::Inch => find(&format!("No. {}", row.text("size"))).ok(),
    }
}

/// Every designation of the tables, in their order.
pub fn designations() -> Vec<String> {
    let forms = FORMS.rows().map(|row| format!("{} {}", row.text("form"), row.text("size")));
    let tapped = TAPPED.rows().map(|row| format!("D {}", row.text("thread")));
    forms.chain(tapped).chain(NUMBERED.rows().map(|row| format!("No. {}", row.text("number")))).collect()
}
