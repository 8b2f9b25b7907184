//! Which drill to tap with.

use super::{Form, TapDrill, ThreadData};
use crate::handbook::drill::{Drill, Series, drills};
use crate::unit::{Length, Unit};

/// Share of the full thread (.6495 P a side) that a tapped hole is drilled for, percent: common practice.
const USUAL_PERCENT: f64 = 75.0;

/// Thread height that a hole of this diameter leaves, in percent of .6495 P a side for 60° threads (of .6403 P for
/// Whitworth form); `None` for the other forms.
pub fn percent(data: &ThreadData, diameter: Length) -> Option<f64> {
    let height = match data.form {
        Form::Sixty => 0.649_519_05,
        Form::Whitworth => 0.640_327,
        _ => return None,
    };
    let full = 2.0 * height * data.pitch.to_f64(Unit::Millimetre);
    Some((data.nominal - diameter).mm() / full * 100.0)
}

/// Inch threads: the number, letter or fraction drill that comes nearest to 75 % of thread; metric ones: the drill nearest
/// to nominal less pitch (pipe threads G: to the middle of the minor diameter). Of two as near, the larger.
pub(super) fn tap_drill(data: &ThreadData) -> Option<TapDrill> {
    percent(data, data.nominal)?;
    let internal = data.internal.as_ref()?;
    let metric = data.unit == Unit::Millimetre;
    let target = match data.form {
        Form::Sixty => data.nominal - data.pitch.nearest(),
        _ => internal.minor.middle(),
    };
    let far = |d: &Drill| {
        if metric {
            (d.diameter - target).abs().mm()
        } else {
            (percent(data, d.diameter).unwrap_or(0.0) - USUAL_PERCENT).abs()
        }
    };
    let best = drills()
        .iter()
        .filter(|d| (d.series == Series::Millimetre) == metric)
        .min_by(|a, b| far(a).total_cmp(&far(b)).then(b.diameter.cmp(&a.diameter)))?;
    Some(TapDrill {
        name: best.name.clone(),
        diameter: best.diameter,
        percent: percent(data, best.diameter).unwrap_or(0.0),
    })
}
