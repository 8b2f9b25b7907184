//! ISO metric threads: ISO 965-1, tolerances from its tables; basic diameters ISO 724.

use std::sync::LazyLock;

use crate::handbook::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit, show};

use super::limits::{Sides, above, below, microns, times};
use super::{Asked, Designation, EngagementGroup, External, Form, Internal, Pitch, Unknown, normal_engagement, series};

static BY_PITCH: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("metric_pitch.csv")));
static BY_DIAMETER: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("metric_pitch_diameter.csv")));

const FORMULAS: Source =
    Source::from_memory("ISO 965-1:1998, formulas for tolerances (this pitch is not in its tables)");

const E_AND_F: Source = Source::from_memory("ISO 965-1:1998 Table 1, positions e and f (near its formulas)");
const RECOMMENDED: Source = Source::from_memory("ISO 965-1:1998, classes recommended for short and long engagement");

const KNOWN: [&str; 26] = [
    "3h4h", "4h", "4g6g", "5h4h", "5h6h", "5g6g", "6e", "6f", "6g", "6h", "7e6e", "7g6g", "7h6h", "8g", "9g8g", "4H",
    "4H5H", "5H", "5H6H", "6H", "7H", "8H", "5G", "6G", "7G", "8G",
];

/// A tolerance class: grade and position of the pitch diameter and of the crest diameter.
#[derive(Clone, Copy)]
struct Class {
    pitch_grade: usize,
    pitch_position: char,
    crest_grade: usize,
    crest_position: char,
}

impl Class {
    fn read(text: &str) -> Option<Self> {
        let c: Vec<char> = text.chars().collect();
        let pair = |i: usize| {
            let grade = c.get(i).and_then(|c| c.to_digit(10)).and_then(|n| usize::try_from(n).ok())?;
            Some((grade, *c.get(i + 1)?))
        };
        let (pitch_grade, pitch_position) = pair(0)?;
        let (crest_grade, crest_position) = if c.len() == 4 { pair(2)? } else { (pitch_grade, pitch_position) };
        Some(Self { pitch_grade, pitch_position, crest_grade, crest_position })
    }

    fn is(self, side: fn(&char) -> bool) -> bool {
        side(&self.pitch_position) && side(&self.crest_position)
    }
}

/// The classes of medium quality that ISO 965-1 recommends for a length group; h and finer below 1.5 mm.
const fn usual_classes(group: EngagementGroup, small: bool) -> (&'static str, &'static str) {
    match (group, small) {
        (EngagementGroup::Short, false) => ("5g6g", "5H"),
        (EngagementGroup::Normal, false) => ("6g", "6H"),
        (EngagementGroup::Long, false) => ("7g6g", "7H"),
        (EngagementGroup::Short, true) => ("5h6h", "4H"),
        (EngagementGroup::Normal, true) => ("6h", "5H"),
        // The standard has no external grade 7 at these pitches.
        (EngagementGroup::Long, true) => ("6h", "6H"),
    }
}

/// The length group a thread is asked for: by its length of engagement, else by the designation's letter. What is to be
/// said of it goes to the notes and sources.
fn length_group(d: &Designation, asked: &Asked, notes: &mut Vec<String>, source: &mut Vec<Source>) -> EngagementGroup {
    let normal = normal_engagement(d.nominal, d.pitch.nearest());
    let group = asked.engagement.map_or(d.engagement, |length| normal.group(length));
    if asked.engagement.is_none() && d.engagement == EngagementGroup::Normal {
        return group;
    }
    source.push(normal.source);
    notes.push(format!(
        "engagement: {}; normal is over {} to {} mm, where 6g and 6H are usual; short 5g6g and 5H, long 7g6g and 7H",
        group.word(),
        show::exact(normal.above, Unit::Millimetre, 0, 3),
        show::exact(normal.to, Unit::Millimetre, 0, 3),
    ));
    if group != d.engagement && d.engagement != EngagementGroup::Normal {
        notes.push(format!("the designation says {}, the length given is {}", d.engagement.word(), group.word()));
    }
    if group != EngagementGroup::Normal {
        source.push(RECOMMENDED);
    }
    group
}

pub(super) fn sides(d: &Designation, asked: &Asked) -> Result<Sides, Unknown> {
    let Pitch::Metric(pitch) = d.pitch else { return Err(Unknown::Range("pitches in millimetres")) };
    let pair = series::metric_pair(d.nominal, pitch);
    if pair.is_none() && !asked.special {
        return Err(Unknown::Pair { nearest: series::nearest(d, 4) });
    }
    if !(1.0..=600.0).contains(&d.nominal.mm()) || pitch.mm() > d.nominal.mm() * 0.5 || pitch.mm() < 0.19 {
        return Err(Unknown::Range("diameters of 1 to 600 mm, pitches from 0.2 mm to half the diameter"));
    }
    let size = Size::new(d.nominal, pitch);
    let small = d.nominal < Length::micrometres(1500);
    let (mut notes, mut source) = (Vec::new(), Vec::new());
    let group = length_group(d, asked, &mut notes, &mut source);
    let usual = usual_classes(group, small);
    let (external, internal) = match (d.class.as_deref(), d.external()) {
        (None, _) => {
            notes.push(format!("no class given: {} and {} assumed", usual.0, usual.1));
            usual
        }
        (Some(class), Some(false)) => (usual.0, class),
        (Some(class), _) => (class, usual.1),
    };
    if d.class.is_some() && group != EngagementGroup::Normal {
        notes.push(
            "the class asked for is worked as it stands; the length group does not change its tolerance".to_owned(),
        );
    }
    let unknown = || Unknown::Class { known: KNOWN.to_vec() };
    let external = size.external(external).ok_or_else(unknown)?;
    let internal = size.internal(internal).ok_or_else(unknown)?;
    source.splice(0..0, [BY_DIAMETER.source(), Source::printed("ISO 724:1993, basic dimensions")]);
    if external.class.contains(['e', 'f']) {
        source.push(E_AND_F);
    }
    if size.row.is_none() || size.by_pitch.is_none() {
        source.insert(0, FORMULAS);
    }
    match pair {
        None => notes.push("not a pair of ISO 261: worked as a special thread".to_owned()),
        Some(false) => notes.push("not a pair of ISO 261, but in use (DIN 13)".to_owned()),
        Some(true) => {}
    }
    if pitch < Length::micrometres(300) && internal.class.starts_with('6') {
        notes
            .push("ISO 965-1 has no grade 6 for the minor diameter at this pitch: one public table's value".to_owned());
    }
    Ok(Sides {
        form: Form::Sixty,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - times(d.pitch, 0.649_519_053),
        external: Some(external),
        internal: Some(internal),
        depth: times(d.pitch, 0.613_434_66),
        tool_flat: times(d.pitch, 0.125),
        taper: None,
        source,
        notes,
    })
}

struct Size {
    nominal: Length,
    pitch: Length,
    /// Its row of the pitch diameter tolerances, if the standard has one.
    row: Option<Row<'static>>,
    /// Its row of what goes by the pitch alone.
    by_pitch: Option<Row<'static>>,
}

fn cell(text: &str, at: usize) -> Option<Length> {
    text.split_whitespace().nth(at)?.parse().ok().map(Length::micrometres)
}

/// To the nearest of the R40 preferred numbers, as the standard rounds what its formulas give; micrometres.
fn preferred(value: f64) -> Option<Length> {
    const R40: [f64; 41] = [
        1.0, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.12, 2.24, 2.36, 2.5, 2.65, 2.8, 3.0,
        3.15, 3.35, 3.55, 3.75, 4.0, 4.25, 4.5, 4.75, 5.0, 5.3, 5.6, 6.0, 6.3, 6.7, 7.1, 7.5, 8.0, 8.5, 9.0, 9.5, 10.0,
    ];
    if !(1.0..1e5).contains(&value) {
        return None;
    }
    let decade = 10_f64.powf(value.log10().floor());
    let nearest = R40.iter().min_by(|a, b| (*a - value / decade).abs().total_cmp(&(*b - value / decade).abs()))?;
    Some(Length::micrometres((nearest * decade).round() as i64))
}

/// What each grade is of grade 6, grades 3 to 9.
const OF_GRADE_6: [f64; 7] = [0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0];

impl Size {
    fn new(nominal: Length, pitch: Length) -> Self {
        let mm = Unit::Millimetre;
        let here = |r: &Row<'_>| r.length("pitch", mm) == Some(pitch);
        Self {
            nominal,
            pitch,
            row: BY_DIAMETER.rows().find(|r| here(r) && r.ranges_over(nominal, mm)),
            by_pitch: BY_PITCH.rows().find(here),
        }
    }

    /// Pitch diameter tolerance of the external thread, grades 3 to 9.
    fn external_pitch_tolerance(&self, grade: usize) -> Option<Length> {
        let at = grade.checked_sub(3)?;
        match self.row {
            Some(row) => cell(row.text("external"), at),
            None => preferred(self.pitch_tolerance_6() * OF_GRADE_6.get(at)?),
        }
    }

    /// Pitch diameter tolerance of the internal thread, grades 4 to 8.
    fn internal_pitch_tolerance(&self, grade: usize) -> Option<Length> {
        let at = grade.checked_sub(4).filter(|g| *g <= 4)?;
        match self.row {
            Some(row) => cell(row.text("internal"), at),
            None => preferred(self.pitch_tolerance_6() * 1.32 * OF_GRADE_6.get(at + 1)?),
        }
    }

    /// Td2 of grade 6 by the standard's formula, micrometres: 90 P^0.4 d^0.1, d the geometric mean of its range.
    fn pitch_tolerance_6(&self) -> f64 {
        const RANGES: [f64; 11] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0, 600.0];
        let d = self.nominal.mm();
        let mean = RANGES.windows(2).find(|w| d <= w[1]).map_or(d, |w| (w[0] * w[1]).sqrt());
        90.0 * self.pitch.mm().powf(0.4) * mean.powf(0.1)
    }

    fn external_crest_tolerance(&self, grade: usize) -> Option<Length> {
        let at = [4, 6, 8].iter().position(|g| *g == grade)?;
        let p = self.pitch.mm();
        match self.by_pitch {
            Some(row) => cell(row.text("crest_external"), at),
            None => preferred((180.0 * p.powf(2.0 / 3.0) - 3.15 / p.sqrt()) * [0.63, 1.0, 1.6][at]),
        }
    }

    fn internal_crest_tolerance(&self, grade: usize) -> Option<Length> {
        let at = grade.checked_sub(4).filter(|g| *g <= 4)?;
        let p = self.pitch.mm();
        let six = if p < 1.0 { 433.0 * p - 190.0 * p.powf(1.22) } else { 230.0 * p.powf(0.7) };
        match self.by_pitch {
            Some(row) => cell(row.text("crest_internal"), at),
            None => preferred(six * OF_GRADE_6[at + 1]),
        }
    }

    /// Distance of the position's zero from the basic size: below it for external, above it for internal threads.
    fn deviation(&self, position: char) -> Option<Length> {
        let p = self.pitch.mm();
        let at = match position {
            'h' | 'H' => return Some(Length::ZERO),
            'e' => 0,
            'f' => 1,
            'g' | 'G' => 2,
            _ => return None,
        };
        match self.by_pitch {
            Some(row) => cell(row.text("efg"), at),
            None => Some(Length::micrometres(match at {
                0 if p >= 0.5 => 50.0 + 11.0 * p,
                1 => 30.0 + 11.0 * p,
                2 => 15.0 + 11.0 * p,
                _ => return None,
            } as i64)),
        }
    }

    fn external(&self, class: &str) -> Option<External> {
        let c = Class::read(class).filter(|c| c.is(char::is_ascii_lowercase))?;
        let (d, p) = (self.nominal.mm(), self.pitch.mm());
        let (es, es_crest) = (self.deviation(c.pitch_position)?, self.deviation(c.crest_position)?);
        let tolerance = self.external_pitch_tolerance(c.pitch_grade)?;
        let pitch_diameter = below(microns(d - 0.649_519_053 * p) - es, tolerance);
        // d3 min: d2 min - 0.616025 P, from the exact d2 (ISO 965-1, root radius not under 0.125 P).
        let least = microns(d - (0.649_519_053 + 0.616_025_404) * p - es.mm() - tolerance.mm());
        Some(External {
            class: class.to_owned(),
            allowance: es,
            major: below(self.nominal - es_crest, self.external_crest_tolerance(c.crest_grade)?),
            pitch_diameter,
            minor: Limits::new(least, microns(d - 1.082_531_755 * p) - es),
        })
    }

    fn internal(&self, class: &str) -> Option<Internal> {
        let c = Class::read(class).filter(|c| c.is(char::is_ascii_uppercase))?;
        let (d, p) = (self.nominal.mm(), self.pitch.mm());
        let (ei, ei_crest) = (self.deviation(c.pitch_position)?, self.deviation(c.crest_position)?);
        Some(Internal {
            class: class.to_owned(),
            minor: above(microns(d - 1.082_531_755 * p) + ei_crest, self.internal_crest_tolerance(c.crest_grade)?),
            pitch_diameter: above(microns(d - 0.649_519_053 * p) + ei, self.internal_pitch_tolerance(c.pitch_grade)?),
            major_min: self.nominal + ei,
        })
    }
}
