//! Unified inch threads: ASME B1.1, limits rounded to four places before they are subtracted.

use std::sync::LazyLock;

use crate::handbook::{Row, Source, Table};
use crate::unit::{Length, Limits, Unit};

use super::limits::{Sides, below, tenths, times};
use super::{Asked, Designation, External, Family, Form, Internal, UnifiedSeries, Unknown, series};

/// Cells of the standard's table of limits that its own formulas do not give.
static PRINTED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("unified_printed.csv")));

const B1_1: Source =
    Source::printed("ASME B1.1-2003, formulas for limits of size, and its table of limits where that differs");

const ALLOWANCE: Source =
    Source::from_memory("ASME B1.1-2003: another length of engagement changes the tolerance, the allowance stays");

const CLASSES: [&str; 6] = ["1A", "2A", "3A", "1B", "2B", "3B"];

pub(super) fn sides(d: &Designation, asked: &Asked, standard: bool) -> Result<Sides, Unknown> {
    if !standard && !asked.special {
        return Err(Unknown::Pair { nearest: series::nearest(d, 4) });
    }
    let nominal = d.nominal.inches();
    let pitch = d.pitch.to_f64(Unit::Inch);
    if !(0.03..=12.5).contains(&nominal) || pitch > nominal * 0.5 {
        return Err(Unknown::Range("diameters of 0.03 to 12 in, pitch not over half the diameter"));
    }
    let (external_class, internal_class, note) = classes(d.class.as_deref())?;
    let usual = usual_engagement(d);
    let engagement = engagement(d, asked);
    let size = Size {
        d,
        nominal,
        pitch,
        tolerance_2a: tolerance_2a(nominal, pitch, engagement),
        usual_2a: tolerance_2a(nominal, pitch, usual),
    };
    let mut notes: Vec<String> = note.map(str::to_owned).into_iter().collect();
    let mut source = vec![B1_1];
    if asked.engagement.is_some() {
        notes.push(engagement_note(d, engagement));
        if (engagement - usual).abs() > 1e-12 {
            source.push(ALLOWANCE);
        }
    }
    if !standard {
        notes.push("not a pair of the standard's series: worked by the formulas for special threads (UNS)".to_owned());
    }
    let mut external = size.external(external_class);
    let mut internal = size.internal(internal_class);
    if standard && (engagement - usual).abs() < 1e-12 {
        size.correct(&mut external, &mut internal);
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

/// External and internal class, and what is assumed.
fn classes(class: Option<&str>) -> Result<(&'static str, &'static str, Option<&'static str>), Unknown> {
    Ok(match class {
        None => ("2A", "2B", Some("no class given: 2A and 2B assumed")),
        Some("1A" | "1B") => ("1A", "1B", None),
        Some("2A" | "2B") => ("2A", "2B", None),
        Some("3A" | "3B") => ("3A", "3B", None),
        Some(_) => return Err(Unknown::Class { known: CLASSES.to_vec() }),
    })
}

/// Length of engagement that the tolerances of a series are for, inches: the diameter for UNC, UNF and the 4, 6 and 8
/// constant pitches, nine pitches for all others.
fn usual_engagement(d: &Designation) -> f64 {
    let coarse_un = matches!(d.pitch.threads_per_inch(), Some((4 | 6 | 8, 1)));
    match d.family {
        Family::UnifiedInch { series: UnifiedSeries::Unc | UnifiedSeries::Unf, .. } => d.nominal.inches(),
        Family::UnifiedInch { series: UnifiedSeries::Un, .. } if coarse_un => d.nominal.inches(),
        _ => 9.0 * d.pitch.to_f64(Unit::Inch),
    }
}

/// The length the tolerance is worked for: the usual one as long as the asked one lies in the range the standard's table
/// is for (to 1 1/2 diameters, or 5 to 15 pitches), else the asked one.
fn engagement(d: &Designation, asked: &Asked) -> f64 {
    let usual = usual_engagement(d);
    let Some(length) = asked.engagement.map(Length::inches).filter(|l| *l > 0.0) else { return usual };
    let pitch = d.pitch.to_f64(Unit::Inch);
    let by_diameter = (usual - d.nominal.inches()).abs() < 1e-12;
    let covered = if by_diameter { length <= 1.5 * usual } else { (5.0 * pitch..=15.0 * pitch).contains(&length) };
    if covered { usual } else { length }
}

/// What the asked length of engagement does to the tolerance.
fn engagement_note(d: &Designation, worked_for: f64) -> String {
    let usual = usual_engagement(d);
    let range = if (usual - d.nominal.inches()).abs() < 1e-12 { "to 1 1/2 diameters" } else { "of 5 to 15 pitches" };
    if (worked_for - usual).abs() < 1e-12 {
        return format!("the tolerances are for lengths of engagement {range}, this one among them");
    }
    format!("outside the lengths of engagement {range}: the tolerance is worked for {worked_for:.3} in by the formula")
}

/// Pitch diameter tolerance of class 2A, inches: ASME B1.1 §5.8.1.
fn tolerance_2a(nominal: f64, pitch: f64, engagement: f64) -> f64 {
    0.0015 * nominal.cbrt() + 0.0015 * engagement.sqrt() + 0.015 * pitch.powf(2.0 / 3.0)
}

struct Size<'a> {
    d: &'a Designation,
    nominal: f64,
    pitch: f64,
    tolerance_2a: f64,
    /// The same at the usual length of engagement, from which the allowance is taken.
    usual_2a: f64,
}

impl Size<'_> {
    fn external(&self, class: &'static str) -> External {
        let (share, major_factor) = match class {
            "1A" => (1.5, 0.09),
            "3A" => (0.75, 0.06),
            _ => (1.0, 0.06),
        };
        let allowance = if class == "3A" { Length::ZERO } else { tenths(0.3 * self.usual_2a) };
        let major_max = tenths(self.nominal) - allowance;
        let major = below(major_max, tenths(major_factor * self.pitch.powf(2.0 / 3.0)));
        let pitch_max = (major_max - times(self.d.pitch, 0.649_519_053)).round_to(Length::inch_tenths(1));
        let pitch_min = tenths(pitch_max.inches() - share * self.tolerance_2a);
        let pitch_diameter = Limits::new(pitch_min, pitch_max);
        External {
            class: class.to_owned(),
            allowance,
            major,
            pitch_diameter,
            minor: self.minor(major_max, pitch_diameter),
        }
    }

    /// UNR minor diameter: largest by the table, smallest as a tool with a flat of P/8 leaves it at the least pitch diameter.
    fn minor(&self, major_max: Length, pitch_diameter: Limits) -> Limits {
        // The table takes the two shares of 1.19078 P off one after the other, each rounded: .0745 for 16 tpi, not .0744.
        let max = major_max - tenths(1.082_531_755 * self.pitch) - tenths(0.108_253_175 * self.pitch);
        let min = (pitch_diameter.min - times(self.d.pitch, 0.649_519_053)).round_to(Length::inch_tenths(1));
        Limits::new(min, max)
    }

    /// Pitch diameter tolerance of an internal class: a share of that of 2A, which is taken to six places for it.
    fn internal_tolerance(&self, share: f64) -> f64 {
        share * (self.tolerance_2a * 1e6).round() / 1e6
    }

    fn internal(&self, class: &'static str) -> Internal {
        let share = match class {
            "1B" => 1.95,
            "3B" => 0.975,
            _ => 1.3,
        };
        let pitch_min = tenths(self.nominal - 0.649_519_053 * self.pitch);
        Internal {
            class: class.to_owned(),
            minor: self.internal_minor(class),
            pitch_diameter: Limits::new(pitch_min, tenths(pitch_min.inches() + self.internal_tolerance(share))),
            major_min: tenths(self.nominal),
        }
    }

    /// Minor diameter: to three places for 1B and 2B from No. 6 up, the smaller sizes and 3B to four (its minimum from the three).
    fn internal_minor(&self, class: &str) -> Limits {
        let (p, d) = (self.pitch, self.nominal);
        let basic = tenths(d - 1.082_531_755 * p);
        let common = 0.05 * p.powf(2.0 / 3.0) + 0.03 * p / d - 0.002;
        let tolerance = if class == "3B" {
            let least = if p < 1.0 / 12.5 { 0.23 * p - 1.5 * p * p } else { 0.12 * p };
            common.max(least).min(0.394 * p)
        } else if d < 0.2495 {
            common.max(0.25 * p - 0.4 * p * p).min(0.394 * p)
        } else if p < 0.2501 {
            0.25 * p - 0.4 * p * p
        } else {
            0.15 * p
        };
        let thou = Length::micro_inches(1000);
        let three_places = self.nominal > 0.1375;
        let min = if three_places { basic.round_to(thou) } else { basic };
        let special = matches!(self.d.family, Family::UnifiedInch { series: UnifiedSeries::Uns, .. });
        let max = match (three_places && class != "3B", special) {
            // 1B and 2B of the standard series: basic and tolerance to four places each, their sum to three.
            (true, false) => (basic + tenths(tolerance)).round_to(thou),
            // UNS rows of the table were rounded once.
            (true, true) => Length::from_f64(d - 1.082_531_755 * p + tolerance, Unit::Inch).round_to(thou),
            (false, _) => tenths(basic.inches() + tolerance),
        };
        Limits::new(min, max)
    }

    /// Puts in what the standard's table prints where its formulas give something else.
    fn correct(&self, external: &mut External, internal: &mut Internal) {
        for row in PRINTED.rows().filter(|r| self.is_row(*r)) {
            let Some(printed) = row.length("printed", Unit::Inch) else { continue };
            match (row.text("cell"), row.text("class")) {
                ("allowance", class) if class == external.class => self.shift(external, printed),
                ("pd_min", class) if class == external.class => {
                    external.pitch_diameter.min = printed;
                    external.minor = self.minor(external.major.max, external.pitch_diameter);
                }
                ("unr_minor_max", class) if class == external.class => external.minor.max = printed,
                ("major_min", class) if class == external.class => external.major.min = printed,
                ("pd_max", class) if class == internal.class => internal.pitch_diameter.max = printed,
                ("minor_max", class) if class == internal.class => internal.minor.max = printed,
                ("minor_min", class) if class == internal.class => internal.minor.min = printed,
                _ => {}
            }
        }
    }

    fn is_row(&self, row: Row<'_>) -> bool {
        row.length("nominal", Unit::Inch) == Some(self.d.nominal) && series::tpi(row.text("tpi")) == Some(self.d.pitch)
    }

    /// The same class with another allowance: everything moves by the difference.
    fn shift(&self, external: &mut External, allowance: Length) {
        let by = external.allowance - allowance;
        for limits in [&mut external.major, &mut external.pitch_diameter] {
            *limits = Limits::new(limits.min + by, limits.max + by);
        }
        external.allowance = allowance;
        external.minor = self.minor(external.major.max, external.pitch_diameter);
    }
}
