//! Which drill to tap with.

use super::{Family, Form, TapDrill, ThreadData, pipe};
use crate::handbook::drill::{self, Drill, Series};
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
/// to nominal less pitch; G: nearest to three quarters up the minor diameter's limits; NPT: the usual drill of its table.
/// Of two as near, the larger. `None` for forms that are not tapped.
pub(super) fn tap_drill(data: &ThreadData) -> Option<TapDrill> {
    let internal = data.internal.as_ref()?;
    let best = match (data.designation.family, data.unit) {
        (Family::PipeTaperNpt, _) => {
            drill::find(pipe::row(data.designation.family, data.designation.nominal)?.text("drill"))?
        }
        _ if percent(data, data.nominal).is_none() => return None,
        (Family::PipeParallel, _) => {
            nearest(true, |d| (internal.minor.min + internal.minor.band().times_ratio(3, 4) - d.diameter).abs().mm())?
        }
        (_, Unit::Millimetre) => nearest(true, |d| (data.nominal - data.pitch.nearest() - d.diameter).abs().mm())?,
        (_, Unit::Inch) => nearest(false, |d| (percent(data, d.diameter).unwrap_or(0.0) - USUAL_PERCENT).abs())?,
    };
    Some(TapDrill { name: best.name.clone(), diameter: best.diameter, percent: percent(data, best.diameter) })
}

/// The drill of the millimetre series, or of the inch ones, that is least `far`.
fn nearest(metric: bool, far: impl Fn(&Drill) -> f64) -> Option<&'static Drill> {
    drill::drills()
        .iter()
        .filter(|d| (d.series == Series::Millimetre) == metric)
        .min_by(|a, b| far(a).total_cmp(&far(b)).then(b.diameter.cmp(&a.diameter)))
}
