//! Threads of Whitworth form: BSW and BSF, BS 84.

use std::sync::LazyLock;

use super::limits::{Sides, tenths, times};
use super::series::tpi;
use super::{Asked, Designation, External, Form, Internal, Pitch, Unknown, WhitworthSeries, series};
use crate::handbook::{Source, Table};
use crate::unit::{Length, Limits, Unit};

static SERIES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("whitworth_series.csv")));

const BS_84: Source =
    Source::from_memory("BS 84:1956, parallel screw threads of Whitworth form, formulas for tolerances and allowance");

/// Diameter and pitch of every size of a series, in order.
pub(super) fn pairs(series: WhitworthSeries) -> impl Iterator<Item = (Length, Pitch)> {
    let wanted = match series {
        WhitworthSeries::Bsw => "bsw",
        WhitworthSeries::Bsf => "bsf",
    };
    SERIES
        .rows()
        .filter(move |r| r.text("series") == wanted)
        .filter_map(|r| Some((r.length("nominal", Unit::Inch)?, tpi(r.text("tpi"))?)))
}

pub(super) fn pitch(series: WhitworthSeries, nominal: Length) -> Option<Pitch> {
    pairs(series).find(|(d, _)| *d == nominal).map(|(_, p)| p)
}

pub(super) fn sides(d: &Designation, asked: &Asked, standard: bool) -> Result<Sides, Unknown> {
    if !standard && !asked.special {
        return Err(Unknown::Pair { nearest: series::nearest(d, 4) });
    }
    let mut notes = Vec::new();
    let class = d.class.as_deref().unwrap_or_else(|| {
        notes.push("no class given: medium assumed".to_owned());
        "medium"
    });
    let (bolt, nut) = match class {
        "close" => (2.0 / 3.0, 1.0),
        "medium" => (1.0, 1.0),
        "free" | "normal" => (1.5, 1.5),
        _ => return Err(Unknown::Class { known: vec!["close", "medium", "free", "normal"] }),
    };
    let (nominal, p) = (d.nominal.inches(), d.pitch.to_f64(Unit::Inch));
    let engagement = asked.engagement.unwrap_or(d.nominal).inches();
    let tolerance = tolerance_of(nominal, engagement, p);
    let pitch = tenths(nominal - 0.640_327 * p);
    let minor = tenths(nominal - 1.280_654 * p);
    let minus = |top: Length, allowance: Length, t: f64| Limits::new(top - allowance - tenths(t), top - allowance);
    let plus = |bottom: Length, t: f64| Limits::new(bottom, bottom + tenths(t));
    let allowance = if class == "close" { Length::ZERO } else { tenths(allowance(d, nominal, p, tolerance)) };
    let (bolt, nut) = (bolt * tolerance, nut * tolerance);
    let minor_share = if class == "close" { 0.013 } else { 0.02 };
    let minor_extra = match 1.0 / p {
        n if n > 25.0 => 0.004,
        n if n > 21.0 => 0.005,
        _ => 0.007,
    };
    Ok(Sides {
        form: Form::Whitworth,
        nominal: d.nominal,
        basic_pitch_diameter: d.nominal - times(d.pitch, 0.640_327),
        external: Some(External {
            class: class.to_owned(),
            allowance,
            major: minus(tenths(nominal), allowance, bolt + 0.01 * p.sqrt()),
            pitch_diameter: minus(pitch, allowance, bolt),
            minor: minus(minor, allowance, bolt + minor_share * p.sqrt()),
        }),
        internal: Some(Internal {
            class: class.to_owned(),
            minor: plus(minor, 0.2 * p + minor_extra),
            pitch_diameter: plus(pitch, nut),
            major_min: tenths(nominal),
        }),
        depth: times(d.pitch, 0.640_327),
        tool_flat: times(d.pitch, 0.137_329),
        taper: None,
        source: vec![BS_84, SERIES.source()],
        notes,
    })
}

/// Allowance of medium and free bolts to 3/4 in: 0.3 of the medium tolerance; below 1/4 in that of the 1/4 in size of the
/// series. Inches.
fn allowance(d: &Designation, nominal: f64, pitch: f64, tolerance: f64) -> f64 {
    if nominal > 0.75 {
        return 0.0;
    }
    if nominal >= 0.25 {
        return 0.3 * tolerance;
    }
    let quarter = match d.family {
        super::Family::Whitworth { series: WhitworthSeries::Bsf } => 1.0 / 26.0,
        super::Family::Whitworth { .. } => 1.0 / 20.0,
        _ => pitch,
    };
    0.3 * tolerance_of(0.25, 0.25, quarter)
}

/// T of BS 84: the effective diameter tolerance of the medium class, inches.
fn tolerance_of(nominal: f64, engagement: f64, pitch: f64) -> f64 {
    0.002 * nominal.cbrt() + 0.003 * engagement.sqrt() + 0.005 * pitch.sqrt()
}
