//! Acme threads: general purpose classes 2G, 3G, 4G (ASME B1.5), stub Acme (ASME B1.8).

use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit};

use super::limits::{Sides, above, below, tenths, times};
use super::{Designation, External, Form, Internal, Pitch, Unknown};

const B1_5: Source = Source::printed("ASME B1.5-1997, general purpose Acme, tables of form, allowances and tolerances");
const B1_8: Source = Source::from_memory("ASME B1.8-1988, stub Acme");

/// The preferred diameters (sixteenths of an inch) and their threads per inch: ASME B1.5 Table 2, the same for B1.8.
const PREFERRED: [(i64, u32); 23] = [
    (4, 16),
    (5, 14),
    (6, 12),
    (7, 12),
    (8, 10),
    (10, 8),
    (12, 6),
    (14, 6),
    (16, 5),
    (18, 5),
    (20, 5),
    (22, 4),
    (24, 4),
    (28, 4),
    (32, 4),
    (36, 3),
    (40, 3),
    (44, 3),
    (48, 2),
    (56, 2),
    (64, 2),
    (72, 2),
    (80, 2),
];

/// Ends of the size ranges of the allowance table, in sixteenths of an inch; the allowance goes by the mean of the range.
const RANGES: [i64; 23] = [0, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 30, 34, 38, 42, 46, 52, 60, 68, 76, 88];

/// Preferred pairs of diameter and pitch, in order.
pub(super) fn pairs() -> Vec<(Length, Pitch)> {
    PREFERRED.iter().map(|(s, tpi)| (Length::PER_INCH.times_ratio(*s, 16), Pitch::tpi(*tpi))).collect()
}

/// Whether a pair of diameter and pitch is a preferred one.
pub(super) fn is_preferred(nominal: Length, pitch: Pitch) -> bool {
    PREFERRED.iter().any(|(s, tpi)| Length::PER_INCH.times_ratio(*s, 16) == nominal && Pitch::tpi(*tpi) == pitch)
}

/// Factors of a class: allowance, pitch increment, diameter increment.
fn factors(class: &str) -> Option<(f64, f64, f64)> {
    Some(match class {
        "2G" => (0.008, 0.030, 0.006),
        "3G" => (0.006, 0.014, 0.0028),
        "4G" => (0.004, 0.010, 0.002),
        _ => return None,
    })
}

pub(super) fn sides(d: &Designation, stub: bool) -> Result<Sides, Unknown> {
    let (nominal, pitch) = (d.nominal.inches(), d.pitch.to_f64(Unit::Inch));
    if !(0.1875..=5.5).contains(&nominal) || pitch > nominal * 0.6 || d.pitch.unit() != Unit::Inch {
        return Err(Unknown::Range("diameters of 3/16 to 5 1/2 in, pitch not over 0.6 of the diameter"));
    }
    let mut notes = Vec::new();
    let class = d.class.as_deref().unwrap_or_else(|| {
        notes.push("no class given: 2G assumed".to_owned());
        "2G"
    });
    if matches!(class, "2C" | "3C" | "4C" | "5C" | "6C") {
        return Err(Unknown::NotSupported("centralizing Acme classes (C); the general purpose ones are 2G, 3G and 4G"));
    }
    let Some(factors) = factors(class) else { return Err(Unknown::Class { known: vec!["2G", "3G", "4G"] }) };
    if !is_preferred(d.nominal, d.pitch) {
        notes.push("not a preferred pair of the standard: worked by its formulas".to_owned());
    }
    if d.starts > 1 {
        notes.push("multiple starts: tolerances of the single thread of this pitch".to_owned());
    }
    let size = Size { nominal: d.nominal, pitch: d.pitch, class, factors, stub };
    Ok(Sides {
        form: if stub { Form::StubAcme } else { Form::Acme },
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - times(d.pitch, size.height()),
        external: Some(size.external()),
        internal: Some(size.internal()),
        depth: times(d.pitch, size.height()) + size.clearance().half(),
        tool_flat: times(d.pitch, if stub { 0.422_4 } else { 0.370_7 }) - root_share(size.clearance()),
        taper: None,
        source: if stub { vec![B1_8, B1_5] } else { vec![B1_5] },
        notes,
    })
}

/// What the clearance takes off the root flat: .259 of it, to .0001 in as the standard's table takes it (.0052, .0026).
fn root_share(clearance: Length) -> Length {
    clearance.times_ratio(259, 1000).round_to(Length::inch_tenths(1))
}

struct Size<'a> {
    nominal: Length,
    pitch: Pitch,
    class: &'a str,
    factors: (f64, f64, f64),
    stub: bool,
}

impl Size<'_> {
    /// Basic height as a share of the pitch.
    fn height(&self) -> f64 {
        if self.stub { 0.3 } else { 0.5 }
    }

    /// Clearance between crest and root on the diameter: .020 in, .010 for finer than 10 threads per inch.
    fn clearance(&self) -> Length {
        if self.pitch.to_f64(Unit::Inch) < 0.099_9 { Length::inch_tenths(100) } else { Length::inch_tenths(200) }
    }

    fn allowance(&self) -> Length {
        let sixteenths = self.nominal.inches() * 16.0;
        let mean = RANGES
            .windows(2)
            .find(|w| sixteenths <= w[1] as f64)
            .map_or(self.nominal.inches(), |w| (w[0] + w[1]) as f64 / 32.0);
        tenths(self.factors.0 * mean.sqrt())
    }

    /// Pitch diameter tolerance, unrounded, inches: a diameter between two listed ones takes the smaller one's increment.
    fn tolerance(&self) -> f64 {
        let listed = PREFERRED.iter().map(|(s, _)| *s as f64 / 16.0).rfind(|d| *d <= self.nominal.inches() + 1e-9);
        let d = listed.unwrap_or_else(|| self.nominal.inches());
        self.factors.1 * self.pitch.to_f64(Unit::Inch).sqrt() + self.factors.2 * d.sqrt()
    }

    /// Tolerance of the crest diameters: .05 of the pitch, not under .005 in.
    fn crest_tolerance(&self) -> Length {
        tenths((0.05 * self.pitch.to_f64(Unit::Inch)).max(0.005))
    }

    /// The one least minor diameter that the standard's table prints a tenth smaller than its rules give: 3/8-12, 3G.
    fn printed_minor_min(&self) -> Option<Length> {
        let three_eighths = self.nominal == Length::PER_INCH.times_ratio(3, 8) && self.pitch == Pitch::tpi(12);
        (three_eighths && self.class == "3G" && !self.stub).then_some(Length::inch_tenths(2730))
    }

    fn external(&self) -> External {
        let p = self.pitch.to_f64(Unit::Inch);
        let (d, allowance) = (self.nominal.inches(), self.allowance());
        let pitch_max = tenths(d - self.height() * p - allowance.inches());
        let minor_max = tenths(d - 2.0 * self.height() * p) - self.clearance();
        // B1.5: one and a half times the pitch diameter tolerance; B1.8: once (from memory).
        let minor_share = if self.stub { 1.0 } else { 1.5 };
        // From the rounded maximum less the unrounded tolerance.
        let minor_min = tenths(minor_max.inches() - minor_share * self.tolerance());
        External {
            class: self.class.to_owned(),
            allowance,
            major: below(self.nominal, self.crest_tolerance()),
            pitch_diameter: below(pitch_max, tenths(self.tolerance())),
            minor: Limits::new(self.printed_minor_min().unwrap_or(minor_min), minor_max),
        }
    }

    fn internal(&self) -> Internal {
        let (d, p) = (self.nominal.inches(), self.pitch.to_f64(Unit::Inch));
        let minor_min = tenths(d - 2.0 * self.height() * p);
        Internal {
            class: self.class.to_owned(),
            minor: above(minor_min, self.crest_tolerance()),
            pitch_diameter: above(tenths(d - self.height() * p), tenths(self.tolerance())),
            major_min: self.nominal + self.clearance(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_allowance_table_goes_by_the_mean_of_its_ranges() {
        // Machinery's Handbook 27th ed. p. 1841 Table 10, over 1 9/16 to 1 7/8: .0105 (8/1000 of the root of 1.75 would be .0106).
        let size = |d| Size {
            nominal: Length::inch_tenths(d),
            pitch: Pitch::tpi(4),
            class: "2G",
            factors: (0.008, 0.03, 0.006),
            stub: false,
        };
        assert_eq!(size(17_500).allowance(), Length::inch_tenths(105));
        assert_eq!(size(3_750).allowance(), Length::inch_tenths(49));
    }
}
