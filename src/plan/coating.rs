//! The part as it is cut, where the description's sizes count after a coating.

use crate::model::feature::{Kind, ThreadForm};
use crate::model::{LimitsFrom, Part, Size};
use crate::unit::{Length, Limits};

/// The part with its outside diameters smaller by the coating that comes on; none where the sizes are those that are cut, or
/// nobody says which they are.
///
/// A diameter grows by two thicknesses, the pitch diameter of a 60° thread by four (geometry; ASME B1.1, coated threads), of
/// other forms by two over the sine of half the thread's angle. Lengths are left as drawn.
pub fn before_coating(part: &Part) -> Option<Part> {
    let thick = part.coating.as_ref().map(|c| c.nominal).filter(|t| t.is_positive())?;
    if part.sizes_after_coating != Some(true) {
        return None;
    }
    let mut cut = part.clone();
    let both = thick.times(2);
    for feature in &mut cut.features {
        match &mut feature.kind {
            // The bar's own surface is coated as it is bought.
            Kind::Turn { kept: true, .. } => {}
            Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => {
                shift(diameter, -both);
            }
            Kind::Taper { start, end, .. } => {
                shift(start, -both);
                shift(end, -both);
            }
            Kind::CrossHole { diameter, .. } => shift(diameter, both),
            Kind::Thread { thread, .. } => {
                let pitch = Length::from_pm(thick.pm().saturating_mul(per_mille(thread.form)) / 1000);
                thread.major = moved(thread.major, -both);
                thread.pitch_diameter = moved(thread.pitch_diameter, -pitch);
                thread.minor_max = thread.minor_max - both;
                thread.root = thread.root - both;
                if let Some(blank) = &mut thread.blank {
                    shift(blank, -both);
                }
            }
            _ => {}
        }
    }
    Some(cut)
}

/// What a pitch diameter grows by for a thickness of 1000: 2000 over the sine of half the thread's angle.
const fn per_mille(form: ThreadForm) -> i64 {
    match form {
        ThreadForm::V60 => 4000,
        ThreadForm::V55 => 4331,
        ThreadForm::Acme => 7988,
        ThreadForm::Trapezoidal => 7727,
        // Flanks across the axis: the pitch diameter is where the crests leave it.
        ThreadForm::Square | ThreadForm::Buttress => 2000,
    }
}

fn shift(size: &mut Size, by: Length) {
    size.nominal += by;
    size.limits = size.limits.map(|l| moved(l, by));
    if size.from == LimitsFrom::Fit {
        size.from = LimitsFrom::Written;
    }
}

fn moved(limits: Limits, by: Length) -> Limits {
    Limits::new(limits.min + by, limits.max + by)
}
