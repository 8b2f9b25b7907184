//! Which drill to tap with.

use std::cmp::Reverse;

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
/// One inside the minor diameter's limits goes before one that is not; of two as near, the larger. `None` for forms that
/// are not tapped.
pub(super) fn tap_drill(data: &ThreadData) -> Option<TapDrill> {
    let internal = data.internal.as_ref()?;
    if data.designation.family == Family::PipeTaperNpt {
        let name = pipe::row(data.designation.family, data.designation.nominal)?.text("drill");
        return drill::find(name).map(|d| described(data, d));
    }
    percent(data, data.nominal)?;
    let target = match (data.designation.family, data.unit) {
        (Family::PipeParallel, _) => internal.minor.min + internal.minor.band().times_ratio(3, 4),
        (_, Unit::Millimetre) => data.nominal - data.pitch.nearest(),
        (_, Unit::Inch) => diameter_at(data, USUAL_PERCENT)?,
    };
    let rank = |d: &&Drill| (!internal.minor.holds(d.diameter), (d.diameter - target).abs(), Reverse(d.diameter));
    of_its_unit(data).min_by_key(rank).map(|d| described(data, d))
}

/// All drills of the thread's own unit that leave the minor diameter inside its limits, the smallest first.
pub fn tap_drills(data: &ThreadData) -> Vec<TapDrill> {
    let Some(internal) = &data.internal else { return Vec::new() };
    of_its_unit(data).filter(|d| internal.minor.holds(d.diameter)).map(|d| described(data, d)).collect()
}

/// The diameter that leaves so many percent of thread.
fn diameter_at(data: &ThreadData, wanted: f64) -> Option<Length> {
    let at_one_pitch = percent(data, data.nominal - data.pitch.nearest())?;
    let below = data.pitch.to_f64(Unit::Millimetre) / at_one_pitch * wanted;
    Some(data.nominal - Length::from_f64(below, Unit::Millimetre))
}

fn of_its_unit(data: &ThreadData) -> impl Iterator<Item = &'static Drill> {
    let metric = data.unit == Unit::Millimetre;
    drill::drills().iter().filter(move |d| (d.series == Series::Millimetre) == metric)
}

fn described(data: &ThreadData, d: &Drill) -> TapDrill {
    TapDrill { name: d.name.clone(), diameter: d.diameter, percent: percent(data, d.diameter) }
}
