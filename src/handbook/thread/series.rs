//! The standard combinations of diameter and pitch: what exists, what is usual, what lies nearest.

use std::sync::OnceLock;

use crate::handbook::{Row, Table};
use crate::unit::{Length, Unit, read_number};

use super::{
    Designation, EngagementGroup, Family, Hand, Pitch, UnifiedSeries, WhitworthSeries, acme, pipe, trapezoidal,
    whitworth,
};

/// One size of the Unified series and the threads per inch it is made with.
struct UnifiedSize {
    nominal: Length,
    pitches: Vec<(UnifiedSeries, Pitch)>,
}

fn unified() -> &'static [UnifiedSize] {
    static TABLE: OnceLock<Vec<UnifiedSize>> = OnceLock::new();
    TABLE.get_or_init(|| Table::read(include_str!("unified_series.csv")).rows().filter_map(unified_size).collect())
}

fn unified_size(row: Row<'_>) -> Option<UnifiedSize> {
    let columns = [
        (UnifiedSeries::Unc, "unc"),
        (UnifiedSeries::Unf, "unf"),
        (UnifiedSeries::Unef, "unef"),
        (UnifiedSeries::Un, "un"),
        (UnifiedSeries::Uns, "uns"),
    ];
    let pitches = columns
        .iter()
        .flat_map(|(series, c)| row.text(c).split_whitespace().filter_map(tpi).map(|p| (*series, p)))
        .collect();
    Some(UnifiedSize { nominal: row.length("nominal", Unit::Inch)?, pitches })
}

/// All lengths of a cell that lists them with spaces between.
pub(super) fn lengths(cell: &str, unit: Unit) -> Vec<Length> {
    cell.split_whitespace().filter_map(|c| read_number(c, unit).ok()).map(|n| n.value).collect()
}

/// `18` or `4.5` threads per inch.
pub(super) fn tpi(text: &str) -> Option<Pitch> {
    match text.split_once('.') {
        None => text.parse().ok().and_then(|n| Pitch::inch(1, n)),
        Some((whole, places)) => {
            let scale = 10_u32.checked_pow(u32::try_from(places.len()).ok()?)?;
            Pitch::inch(scale, format!("{whole}{places}").parse().ok()?)
        }
    }
}

/// One nominal diameter of ISO 261: coarse pitch, fine pitches, pitches in use outside it.
struct MetricSize {
    nominal: Length,
    coarse: Option<Length>,
    fine: Vec<Length>,
    also: Vec<Length>,
}

fn metric() -> &'static [MetricSize] {
    static TABLE: OnceLock<Vec<MetricSize>> = OnceLock::new();
    TABLE.get_or_init(|| {
        Table::read(include_str!("metric_series.csv"))
            .rows()
            .filter_map(|row| {
                Some(MetricSize {
                    nominal: row.length("nominal", Unit::Millimetre)?,
                    coarse: row.length("coarse", Unit::Millimetre),
                    fine: lengths(row.text("fine"), Unit::Millimetre),
                    also: lengths(row.text("also"), Unit::Millimetre),
                })
            })
            .collect()
    })
}

/// The series a bare `3/4-16` belongs to.
pub(super) fn unified_series_of(nominal: Length, pitch: Pitch) -> Option<UnifiedSeries> {
    let size = unified().iter().find(|s| s.nominal == nominal)?;
    size.pitches.iter().find(|(_, p)| *p == pitch).map(|(s, _)| *s)
}

/// The coarse pitch of a metric size.
pub(super) fn metric_coarse(nominal: Length) -> Option<Length> {
    metric().iter().find(|s| s.nominal == nominal)?.coarse
}

/// Whether ISO 261 itself has the pair (`Some(true)`), or only wider lists have it (`Some(false)`).
pub(super) fn metric_pair(nominal: Length, pitch: Length) -> Option<bool> {
    let size = metric().iter().find(|s| s.nominal == nominal)?;
    if size.coarse == Some(pitch) || size.fine.contains(&pitch) {
        return Some(true);
    }
    size.also.contains(&pitch).then_some(false)
}

/// The pitch that goes without saying in a series: `5/8 UNC`, `1/2 NPT`, `G 1/2`.
pub(super) fn usual_pitch(family: Family, nominal: Length) -> Option<Pitch> {
    match family {
        Family::UnifiedInch { series, .. } if !matches!(series, UnifiedSeries::Un | UnifiedSeries::Uns) => {
            let size = unified().iter().find(|s| s.nominal == nominal)?;
            size.pitches.iter().find(|(s, _)| *s == series).map(|(_, p)| *p)
        }
        Family::PipeParallel | Family::PipeTaperNpt | Family::PipeTaperR { .. } => pipe::pitch(family, nominal),
        Family::Whitworth { series } => whitworth::pitch(series, nominal),
        _ => None,
    }
}

fn named(family: Family, nominal: Length, pitch: Pitch) -> Designation {
    let mut d = Designation {
        family,
        nominal,
        pitch,
        starts: 1,
        hand: Hand::Right,
        class: None,
        engagement: EngagementGroup::Normal,
        text: String::new(),
    };
    d.text = d.show();
    d
}

/// All standard designations of the series `family` belongs to, in order of size; empty for kinds without a standard series.
///
/// For Unified threads the one series asked for; for ISO metric the pairs of ISO 261, the coarse one of each size first.
pub fn series(family: Family) -> Vec<Designation> {
    match family {
        Family::UnifiedInch { series, rounded_root } => unified()
            .iter()
            .flat_map(|size| size.pitches.iter().map(move |(s, p)| (*s, size.nominal, *p)))
            .filter(|(s, _, _)| *s == series)
            .map(|(series, nominal, pitch)| named(Family::UnifiedInch { series, rounded_root }, nominal, pitch))
            .collect(),
        Family::IsoMetric => metric()
            .iter()
            .flat_map(|s| s.coarse.iter().chain(&s.fine).map(move |p| named(family, s.nominal, Pitch::Metric(*p))))
            .collect(),
        Family::IsoTrapezoidal => trapezoidal::pairs().map(|(d, p)| named(family, d, Pitch::Metric(p))).collect(),
        Family::Acme { .. } => acme::pairs().iter().map(|(d, p)| named(family, *d, *p)).collect(),
        Family::Whitworth { series } => whitworth::pairs(series).map(|(d, p)| named(family, d, p)).collect(),
        Family::PipeParallel | Family::PipeTaperNpt | Family::PipeTaperR { .. } => {
            pipe::sizes(family).map(|(d, p)| named(family, d, p)).collect()
        }
        Family::Square | Family::Buttress { .. } => Vec::new(),
    }
}

/// Every family that has a standard series, in the order `handbook thread` lists them.
pub const ALL: [Family; 14] = [
    Family::UnifiedInch { series: UnifiedSeries::Unc, rounded_root: false },
    Family::UnifiedInch { series: UnifiedSeries::Unf, rounded_root: false },
    Family::UnifiedInch { series: UnifiedSeries::Unef, rounded_root: false },
    Family::UnifiedInch { series: UnifiedSeries::Un, rounded_root: false },
    Family::UnifiedInch { series: UnifiedSeries::Uns, rounded_root: false },
    Family::IsoMetric,
    Family::Acme { stub: false },
    Family::Acme { stub: true },
    Family::IsoTrapezoidal,
    Family::Whitworth { series: WhitworthSeries::Bsw },
    Family::Whitworth { series: WhitworthSeries::Bsf },
    Family::PipeParallel,
    Family::PipeTaperR { kind: super::TaperPipe::R },
    Family::PipeTaperNpt,
];

/// The standard threads of the same kind nearest to `wanted`: by diameter first, then by pitch; at most `most`.
///
/// Unified threads are sought in all Unified series.
pub fn nearest(wanted: &Designation, most: usize) -> Vec<Designation> {
    let mut all: Vec<Designation> = match wanted.family {
        Family::UnifiedInch { rounded_root, .. } => ALL
            .iter()
            .filter_map(|f| match f {
                Family::UnifiedInch { series, .. } => Some(Family::UnifiedInch { series: *series, rounded_root }),
                _ => None,
            })
            .flat_map(series)
            .collect(),
        family => series(family),
    };
    let p = wanted.pitch.to_f64(Unit::Millimetre);
    let distance = |d: &Designation| {
        let by_size = (d.nominal - wanted.nominal).abs().mm() / wanted.nominal.mm().max(1e-9);
        let by_pitch = (d.pitch.to_f64(Unit::Millimetre) / p).ln().abs();
        // A tenth of the diameter weighs as much as a pitch half as coarse again.
        by_size * 4.0 + by_pitch
    };
    all.sort_by(|a, b| distance(a).total_cmp(&distance(b)));
    all.truncate(most);
    all
}

/// Whether `d`'s diameter and pitch are a standard pair of its own series.
pub fn is_standard(d: &Designation) -> bool {
    match (d.family, d.pitch) {
        (Family::UnifiedInch { series, .. }, _) => unified()
            .iter()
            .any(|s| s.nominal == d.nominal && s.pitches.iter().any(|(x, p)| *x == series && *p == d.pitch)),
        (Family::IsoMetric, Pitch::Metric(p)) => metric_pair(d.nominal, p).is_some(),
        (Family::IsoTrapezoidal, Pitch::Metric(p)) => trapezoidal::pairs().any(|pair| pair == (d.nominal, p)),
        (Family::Acme { .. }, p) => acme::is_preferred(d.nominal, p),
        (Family::Whitworth { series }, p) => whitworth::pairs(series).any(|pair| pair == (d.nominal, p)),
        (Family::PipeParallel | Family::PipeTaperNpt | Family::PipeTaperR { .. }, p) => {
            pipe::pitch(d.family, d.nominal) == Some(p)
        }
        _ => false,
    }
}
