//! Every thread that a reading may have come from.

use std::sync::OnceLock;

use super::british_association;
use crate::handbook::thread::{
    ALL, Asked, Designation, Family, Form, Pitch, TaperPipe, ThreadData, UnifiedSeries, WhitworthSeries, limits, read,
    series,
};
use crate::unit::{Length, Limits, Unit};

/// One standard thread, single start.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// As its standard writes it.
    pub name: String,
    /// Its designation; `None` for threads the handbook has no limits for (BA).
    pub designation: Option<Designation>,
    /// What the handbook says of it.
    pub data: Option<ThreadData>,
    /// Limits of the external major diameter when new; on a taper from the small to the large end.
    pub major: Limits,
    /// Limits of the internal minor diameter when new.
    pub minor: Option<Limits>,
    /// Pitch.
    pub pitch: Pitch,
    /// Angle between the flanks, degrees.
    pub angle: f64,
    /// Whether it lies on a taper.
    pub taper: bool,
    /// How usual it is beside the others: 1 for a coarse series, less for rarer ones (common practice, no source).
    pub usual: f64,
}

impl Candidate {
    /// Pitch in mm.
    pub fn pitch_mm(&self) -> f64 {
        self.pitch.to_f64(Unit::Millimetre)
    }
}

/// How usual a thread is: a slight preference, so that of two that fit alike the commoner one comes first.
fn usual(d: &Designation, first_of_size: bool) -> f64 {
    match d.family {
        Family::UnifiedInch { series, .. } => match series {
            UnifiedSeries::Unc | UnifiedSeries::Unf => 1.0,
            UnifiedSeries::Unef => 0.6,
            UnifiedSeries::Un => 0.5,
            UnifiedSeries::Uns => 0.3,
        },
        Family::IsoMetric if first_of_size => 1.0,
        Family::Whitworth { series: WhitworthSeries::Bsw }
        | Family::IsoMetric
        | Family::PipeParallel
        | Family::PipeTaperNpt => 0.7,
        Family::Acme { stub: false } | Family::IsoTrapezoidal => 0.8,
        _ => 0.5,
    }
}

/// All of them, in the order of the handbook's series; each name once.
pub fn candidates() -> &'static [Candidate] {
    static LIST: OnceLock<Vec<Candidate>> = OnceLock::new();
    LIST.get_or_init(|| {
        let mut list: Vec<Candidate> = Vec::new();
        for family in ALL {
            let mut last = None;
            for d in series(family) {
                let first = last != Some(d.nominal);
                last = Some(d.nominal);
                if let Some(candidate) =
                    standard(&d, usual(&d, first)).filter(|c| !list.iter().any(|o| o.name == c.name))
                {
                    list.push(candidate);
                }
            }
        }
        list.extend(british_association());
        list
    })
}

/// A thread of the handbook.
pub(super) fn standard(d: &Designation, usual: f64) -> Option<Candidate> {
    let data = limits(d, &Asked::special()).ok()?;
    let external = data.external.as_ref()?;
    // On a taper the reading may have been taken anywhere from the small end to the end of useful thread.
    let major = data.taper.map_or(external.major, |t| {
        let rise = t.useful_length.times_ratio(1, i64::from(t.one_in.max(1)));
        Limits::new(external.major.min, external.major.max + rise)
    });
    Some(Candidate {
        name: d.show(),
        designation: Some(d.clone()),
        major,
        minor: data.internal.as_ref().map(|i| i.minor),
        pitch: d.pitch,
        angle: data.form.half_angle().map_or(52.0, |half| half * 2.0),
        taper: matches!(d.family, Family::PipeTaperNpt | Family::PipeTaperR { kind: TaperPipe::R }),
        usual,
        data: Some(data),
    })
}

fn british_association() -> impl Iterator<Item = Candidate> {
    british_association::SIZES.iter().map(|(n, pitch, major)| {
        let mm = |x: f64| Length::from_f64(x, Unit::Millimetre);
        // New crests lie up to a tenth of the pitch below the nominal (common practice, no source).
        Candidate {
            name: format!("{n} BA"),
            designation: None,
            data: None,
            major: Limits::new(mm(major - pitch * 0.1), mm(*major)),
            minor: None,
            pitch: Pitch::Metric(mm(*pitch)),
            angle: 47.5,
            taper: false,
            usual: 0.5,
        }
    })
}

/// Square and buttress screws have no series here: fractions of an inch or whole millimetres with the pitches the trade cuts.
pub(super) fn made_to_measure(form: Form, major: Length) -> Vec<Candidate> {
    let word = if form == Form::Square { "SQUARE" } else { "BUTT" };
    let sixteenth = Length::PER_INCH.times_ratio(1, 16);
    let nearest = major.ceil_to(sixteenth);
    let mut names = Vec::new();
    for nominal in [nearest, nearest + sixteenth] {
        for tpi in ["2", "2.5", "3", "3.5", "4", "5", "6", "7", "8", "10", "12", "16"] {
            names.push(format!("{}-{tpi} {word}", crate::unit::show::exact(nominal, Unit::Inch, 3, 7)));
        }
    }
    if form == Form::Square {
        let up = major.ceil_to(Length::PER_MM).pm() / Length::PER_MM.pm();
        for nominal in [up, up + 1, up + 2] {
            names.extend([2, 3, 4, 5, 6, 7, 8, 10, 12].map(|p| format!("Square {nominal}x{p}")));
        }
    }
    names.iter().filter_map(|n| read(n).ok()).filter_map(|d| standard(&d, 0.7)).collect()
}
