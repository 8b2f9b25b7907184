//! How a taper is cut: what the trade has, what this lathe can, and which is taken.

use super::layout::Layout;
use crate::model::plan::{Operation, Why};
use crate::model::{Part, Shop};
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};

/// The ways a taper could be cut here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) struct TaperWays {
    /// The tailstock set over by so much, where it goes so far.
    pub(in crate::plan) set_over: Option<Length>,
    /// Its slide is long enough.
    pub(in crate::plan) compound: bool,
    /// The lathe has one.
    pub(in crate::plan) attachment: bool,
}

/// What the tailstock would be set over: half of the difference, over the whole length of the work and not over the taper.
fn set_over_of(layout: &Layout, operation: &Operation) -> Option<(Length, Length)> {
    let section = layout.section(operation.feature?)?;
    let long = section.long();
    if !long.is_positive() {
        return None;
    }
    let rise = (section.ends.0 - section.ends.1).abs().half();
    Some((long, layout.overall.times_ratio(rise.pm(), long.pm())))
}

/// What a compound's slide usually travels (common practice, no source).
fn usual_slide(part: &Part) -> Length {
    match part.units {
        Unit::Inch => Length::micro_inches(3_000_000),
        Unit::Millimetre => Length::micrometres(75_000),
    }
}

/// The ways of cutting a taper; none where its ends are not known.
pub(in crate::plan) fn ways(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    operation: &Operation,
) -> Option<TaperWays> {
    let (long, set_over) = set_over_of(layout, operation)?;
    let travel = shop.and_then(|s| s.tailstock_travel);
    Some(TaperWays {
        set_over: Some(set_over).filter(|by| travel.is_none_or(|most| *by <= most)),
        compound: long <= usual_slide(part),
        attachment: shop.and_then(|s| s.taper_attachment) == Some(true),
    })
}

/// The ways of cutting a taper, the one to take first; none where its ends are not known.
pub(super) fn method(part: &Part, layout: &Layout, shop: Option<&Shop>, operation: &Operation) -> Option<Why> {
    let (long, set_over) = set_over_of(layout, operation)?;
    let usual_slide = usual_slide(part);
    let shown = |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), 3);
    let travel = shop.and_then(|s| s.tailstock_travel);
    let reason = if shop.and_then(|s| s.taper_attachment) == Some(true) {
        format!("by the taper attachment; set over, the tailstock would want {}", shown(set_over))
    } else if long <= usual_slide {
        let against = match travel {
            Some(most) if set_over > most => {
                format!("the tailstock would have to be set over {}, more than its {}", shown(set_over), shown(most))
            }
            _ => format!("set over {}, the tailstock would do it too, and want setting back after", shown(set_over)),
        };
        format!("by the compound, whose slide is long enough for {}: {against}", shown(long))
    } else if travel.is_none_or(|most| set_over <= most) {
        format!(
            "between centers with the tailstock set over {}: {} is longer than a compound's slide ({} taken, measure yours)",
            shown(set_over),
            shown(long),
            shown(usual_slide)
        )
    } else {
        format!(
            "by the compound in two settings, or by an attachment: {} is longer than its slide, and the tailstock cannot be set over {}",
            shown(long),
            shown(set_over)
        )
    };
    Some(because("taper-method", reason))
}
