//! How a taper is cut: what the trade has, what this lathe can, and which is taken.

use super::layout::Layout;
use crate::model::plan::{Operation, Setup, Verb, Why};
use crate::model::{Part, Shop, Workholder};
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

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
    let attachment = shop.and_then(|s| s.taper_attachment) == Some(true);
    let goes = travel.is_none_or(|most| set_over <= most);
    Some(TaperWays {
        // Nobody sets the tailstock over for a pipe thread who has an attachment: thread and taper follow that in one setting.
        set_over: Some(set_over).filter(|_| goes && !(attachment && is_thread(part, operation))),
        // No leadscrew follows a compound: it turns the taper of a pipe thread only where nothing else is left.
        compound: long <= usual_slide(part) && !(is_thread(part, operation) && goes),
        attachment,
    })
}

/// A taper that carries a pipe thread.
fn is_thread(part: &Part, operation: &Operation) -> bool {
    operation.feature.is_some_and(|f| part.pipe_small_end(f).is_some())
}

/// How the taper of a pipe thread is cut, and the thread on it.
fn pipe_method(part: &Part, shop: Option<&Shop>, set_over: Length) -> Why {
    let shown = show::exact(set_over, part.units, show::usual_decimals(part.units), 3);
    let travel = shop.and_then(|s| s.tailstock_travel);
    let reason = if shop.and_then(|s| s.taper_attachment) == Some(true) {
        told!(
            "by the taper attachment, and the thread behind it in the same setting",
            "mit dem Leitlineal, das Gewinde dahinter in derselben Stellung"
        )
        .to_owned()
    } else if travel.is_none_or(|most| set_over <= most) {
        tell!(
            "between centers with the tailstock set over {shown}, and the thread in the same setting: no leadscrew follows a compound",
            "zwischen Spitzen mit um {shown} verstelltem Reitstock, das Gewinde in derselben Stellung: keine Leitspindel folgt dem Oberschlitten"
        )
    } else {
        tell!(
            "by the compound, and the thread by a pipe die: the tailstock cannot be set over {shown}, and no leadscrew follows a compound",
            "mit dem Oberschlitten, das Gewinde mit der Rohrkluppe: der Reitstock lässt sich nicht um {shown} verstellen, und keine Leitspindel folgt dem Oberschlitten"
        )
    };
    because("taper-method", reason)
}

/// A pipe thread's taper that came to be cut in a chuck: the method told of it was thought of with centers, which a pipe has none of.
pub(in crate::plan) fn in_a_chuck(part: &Part, shop: Option<&Shop>, setup: &mut Setup) {
    let attachment = shop.and_then(|s| s.taper_attachment) == Some(true);
    if attachment || matches!(setup.by, Workholder::SetOver(_)) {
        return;
    }
    for operation in setup.operations.iter_mut().filter(|o| o.verb == Verb::Taper && !o.inside) {
        if is_thread(part, operation) {
            operation.why.retain(|w| w.rule != "taper-method");
            let reason = "by the compound, and the thread by a pipe die: no leadscrew follows a compound, and a tailstock set over does nothing for work in a chuck";
            operation.why.push(because("taper-method", reason));
        }
    }
}

/// The ways of cutting a taper, the one to take first; none where its ends are not known.
pub(super) fn method(part: &Part, layout: &Layout, shop: Option<&Shop>, operation: &Operation) -> Option<Why> {
    let (long, set_over) = set_over_of(layout, operation)?;
    if is_thread(part, operation) {
        return Some(pipe_method(part, shop, set_over));
    }
    let usual_slide = usual_slide(part);
    let shown = |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), 3);
    let travel = shop.and_then(|s| s.tailstock_travel);
    let reason = if shop.and_then(|s| s.taper_attachment) == Some(true) {
        tell!(
            "by the taper attachment; set over, the tailstock would want {}",
            "mit dem Leitlineal; der Reitstock müsste um {} verstellt werden",
            shown(set_over)
        )
    } else if long <= usual_slide {
        let against = match travel {
            Some(most) if set_over > most => {
                tell!(
                    "the tailstock would have to be set over {}, more than its {}",
                    "der Reitstock müsste um {} verstellt werden, mehr als seine {}",
                    shown(set_over),
                    shown(most)
                )
            }
            _ => tell!(
                "set over {}, the tailstock would do it too, and want setting back after",
                "der um {} verstellte Reitstock könnte es auch, und müsste danach zurückgestellt werden",
                shown(set_over)
            ),
        };
        tell!(
            "by the compound, whose slide is long enough for {}: {against}",
            "mit dem Oberschlitten, dessen Weg für {} reicht: {against}",
            shown(long)
        )
    } else if travel.is_none_or(|most| set_over <= most) {
        tell!(
            "between centers with the tailstock set over {}: {} is longer than a compound's slide ({} taken, measure yours)",
            "zwischen Spitzen mit um {} verstelltem Reitstock: {} ist länger als der Weg eines Oberschlittens ({} angenommen, eigenen messen)",
            shown(set_over),
            shown(long),
            shown(usual_slide)
        )
    } else {
        tell!(
            "by the compound in two settings, or by an attachment: {} is longer than its slide, and the tailstock cannot be set over {}",
            "mit dem Oberschlitten in zwei Stellungen oder mit einem Leitlineal: {} ist länger als sein Weg, und der Reitstock lässt sich nicht um {} verstellen",
            shown(long),
            shown(set_over)
        )
    };
    Some(because("taper-method", reason))
}
