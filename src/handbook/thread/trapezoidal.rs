//! ISO metric trapezoidal threads: ISO 2901 (profile), 2902 (series), 2903 (tolerances), 2904 (basic dimensions).

use std::sync::LazyLock;

use super::limits::{Sides, above, below, times};
use super::series::lengths;
use super::{Asked, Designation, EngagementGroup, External, Form, Internal, Pitch, Unknown, engagement, series};
use crate::handbook::{Row, Source, Table};
use crate::unit::{Length, Unit, show};

static SERIES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("trapezoidal_series.csv")));
static BY_PITCH: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("trapezoidal_pitch.csv")));
static BY_DIAMETER: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("trapezoidal_pitch_diameter.csv")));

const KNOWN: [&str; 8] = ["7e", "8e", "8c", "9c", "7H", "8H", "9H", "7c"];
const GRADES_8_9: Source =
    Source::from_memory("ISO 2903:1993, grades 8 and 9 of the pitch diameter tolerances (grade 7 was seen in print)");
const MM: Unit = Unit::Millimetre;

/// Pairs of diameter and pitch in order of size: ISO 2902 and, behind them, those DIN 103 adds.
pub(super) fn pairs() -> impl Iterator<Item = (Length, Length)> {
    static PAIRS: LazyLock<Vec<(Length, Length)>> = LazyLock::new(|| {
        let rows = SERIES.rows().filter_map(|r| Some((r.length("nominal", MM)?, r)));
        rows.flat_map(|(d, r)| {
            lengths(r.text("pitches"), MM).into_iter().chain(lengths(r.text("also"), MM)).map(move |p| (d, p))
        })
        .collect()
    });
    PAIRS.iter().copied()
}

pub(super) fn sides(d: &Designation, asked: &Asked, standard: bool) -> Result<Sides, Unknown> {
    if !standard && !asked.special {
        return Err(Unknown::Pair { nearest: series::nearest(d, 4) });
    }
    let range = Unknown::Range(
        "trapezoidal pitches of 1.5 to 44 mm and diameters of 8 to 355 mm for which ISO 2903 has tolerances",
    );
    let Pitch::Metric(pitch) = d.pitch else { return Err(range) };
    let Some(row) = BY_PITCH.rows().find(|r| r.length("pitch", MM) == Some(pitch)) else { return Err(range) };
    let Some(tolerances) =
        BY_DIAMETER.rows().find(|r| r.length("pitch", MM) == Some(pitch) && r.ranges_over(d.nominal, MM))
    else {
        return Err(range);
    };
    let (mut notes, mut source) = (Vec::new(), vec![BY_DIAMETER.source(), BY_PITCH.source()]);
    let usual = usual_classes(d, asked, pitch, &mut notes, &mut source);
    let (external, internal) = match (d.class.as_deref(), d.external()) {
        (None, _) => {
            notes.push(format!("no class given: {} and {} assumed", usual.0, usual.1));
            usual
        }
        (Some(class), Some(false)) => (usual.0, class),
        (Some(class), _) => (class, usual.1),
    };
    if [external, internal].iter().any(|c| c.starts_with(['8', '9'])) {
        source.push(GRADES_8_9);
    }
    if !standard {
        notes.push("not a pair of ISO 2902: worked with the tolerances of ISO 2903".to_owned());
    }
    let size = Size { nominal: d.nominal, pitch, starts: d.starts, row, tolerances };
    if d.starts > 1 {
        notes.push(
            "multiple starts: pitch diameter tolerance enlarged as ISO 2903 says (2: 1.12, 3: 1.25, 4: 1.4, more: 1.6)"
                .to_owned(),
        );
    }
    let unknown = || Unknown::Class { known: KNOWN.to_vec() };
    let clearance = size.clearance();
    Ok(Sides {
        form: Form::Trapezoidal,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - pitch.half(),
        external: Some(size.external(external).ok_or_else(unknown)?),
        internal: Some(size.internal(internal).ok_or_else(unknown)?),
        depth: pitch.half() + clearance,
        // Root flat: 0.366 P less 2 tan 15° of the clearance.
        tool_flat: times(d.pitch, 0.366_025_4) - clearance.times_ratio(535_898, 1_000_000),
        taper: None,
        source,
        notes,
    })
}

/// The classes of medium quality that ISO 2903 recommends for the length of engagement: 7e and 7H, 8e and 8H for a long one.
fn usual_classes(
    d: &Designation,
    asked: &Asked,
    pitch: Length,
    notes: &mut Vec<String>,
    source: &mut Vec<Source>,
) -> (&'static str, &'static str) {
    let normal = engagement::by_formula(d.nominal, pitch);
    let long = asked.engagement.map_or(d.engagement == EngagementGroup::Long, |length| length > normal.to);
    if long || asked.engagement.is_some() {
        source.push(normal.source);
        notes.push(format!(
            "engagement: {}; over about {} mm it is long, where 8e and 8H are usual",
            if long { "long" } else { "normal" },
            show::exact(normal.to, MM, 0, 3),
        ));
    }
    if long { ("8e", "8H") } else { ("7e", "7H") }
}

struct Size {
    nominal: Length,
    pitch: Length,
    starts: u8,
    row: Row<'static>,
    tolerances: Row<'static>,
}

impl Size {
    fn clearance(&self) -> Length {
        self.row.length("clearance", MM).unwrap_or_default()
    }

    fn micrometres(&self, column: &str) -> Option<Length> {
        self.row.thousandths(column, MM)
    }

    /// Pitch diameter tolerance of a grade 7 to 9, enlarged for several starts.
    fn tolerance(&self, column: &str, grade: u32) -> Option<Length> {
        let at = usize::try_from(grade.checked_sub(7)?).ok()?;
        let cell = self.tolerances.text(column).split_whitespace().nth(at)?;
        let single = Length::micrometres(cell.parse().ok()?);
        let hundredths = match self.starts {
            0 | 1 => 100,
            2 => 112,
            3 => 125,
            4 => 140,
            _ => 160,
        };
        Some(single.times_ratio(hundredths, 100).round_to(Length::micrometres(1)))
    }

    fn class(text: &str) -> Option<(u32, char)> {
        let mut c = text.chars();
        let (grade, position) = (c.next()?.to_digit(10)?, c.next()?);
        c.next().is_none().then_some((grade, position))
    }

    fn external(&self, class: &str) -> Option<External> {
        let (grade, position) = Self::class(class)?;
        let (es, es_minor) = match position {
            'e' => (self.micrometres("e")?, self.micrometres("e_minor")?),
            'c' => (self.micrometres("c")?, self.micrometres("c")?),
            _ => return None,
        };
        let tolerance = self.tolerance("external", grade)?;
        let printed = self.tolerances.thousandths("minor_7e", MM).filter(|_| class == "7e" && self.starts == 1);
        let minor_tolerance =
            printed.unwrap_or_else(|| (tolerance.times_ratio(5, 4) + es_minor).round_to(Length::micrometres(1)));
        let minor_max = self.nominal - self.pitch - self.clearance().times(2);
        Some(External {
            class: class.to_owned(),
            allowance: es,
            major: below(self.nominal, self.micrometres("external")?),
            pitch_diameter: below(self.nominal - self.pitch.half() - es, tolerance),
            minor: below(minor_max, minor_tolerance),
        })
    }

    fn internal(&self, class: &str) -> Option<Internal> {
        let (grade, position) = Self::class(class)?;
        if position != 'H' {
            return None;
        }
        Some(Internal {
            class: class.to_owned(),
            minor: above(self.nominal - self.pitch, self.micrometres("internal")?),
            pitch_diameter: above(self.nominal - self.pitch.half(), self.tolerance("internal", grade)?),
            major_min: self.nominal + self.clearance().times(2),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_standard_pair_has_tolerances() {
        for (d, p) in pairs() {
            let has = BY_DIAMETER.rows().any(|r| r.ranges_over(d, MM) && r.length("pitch", MM) == Some(p));
            assert!(has, "Tr {} x {}", d.mm(), p.mm());
        }
    }
}
