//! Sizes with their limits in words.

use super::Sources;
use crate::figures::{Figure, OperationFigures, SizeLimits};
use crate::model::plan::{Operation, Verb};
use crate::model::{Feature, LimitsFrom, Size};
use crate::sheet::words;
use crate::unit::{Length, Limits, show};

/// `.8745/.8740`, `1.060 ±.002`, `.545 +0/−.010`, `.020 max`, `(1.250)`: nominal and deviations where they can be told in the
/// unit of the sheet, else both ends rounded inward.
pub(super) fn with_limits(s: &Sources, size: &Size) -> String {
    let unit = s.unit();
    let nominal = s.length(size.nominal);
    if size.reference {
        return format!("({nominal})");
    }
    let Some(limits) = size.limits else { return nominal };
    match size.from {
        LimitsFrom::OneEnd if limits.max == size.nominal => format!("{nominal} max"),
        LimitsFrom::OneEnd if limits.min == size.nominal => format!("{nominal} min"),
        LimitsFrom::Nothing => nominal,
        LimitsFrom::Fit | LimitsFrom::Standard => both_ends(s, limits),
        _ if size.unit != unit => both_ends(s, limits),
        _ => deviations(s, size.nominal, limits),
    }
}

/// What polishing comes to: the finish asked, and the size it leaves.
pub(super) fn polished(s: &Sources, feature: Option<&Feature>, of: &OperationFigures) -> String {
    let text = |f: Figure| f.text(s.unit());
    let finish = feature.and_then(|f| f.finish.as_ref()).map(|f| words::to_finish(&f.text));
    let size = of.aim.map(|a| match of.limits {
        Some(l) => format!("\u{d8} {} ({} / {})", text(a), text(l.max), text(l.min)),
        None => format!("\u{d8} {}", text(a)),
    });
    let size = size.map(|drawn| match of.on_scale {
        Some(read) => words::polished(&read.size_text(), read.limits_text(), read.unit, &drawn),
        None => drawn,
    });
    finish.into_iter().chain(size).collect::<Vec<_>>().join(", ")
}

/// `.6696/.6694`.
pub(super) fn both_ends(s: &Sources, limits: Limits) -> String {
    let shown = SizeLimits::of(limits, s.unit());
    format!("{}/{}", shown.max.text(s.unit()), shown.min.text(s.unit()))
}

fn deviations(s: &Sources, nominal: Length, limits: Limits) -> String {
    let (up, down) = (limits.max - nominal, limits.min - nominal);
    let text = |l: Length| s.length(l.abs());
    match (up, down) {
        (Length::ZERO, Length::ZERO) => s.length(nominal),
        _ if up == -down => format!("{} ±{}", s.length(nominal), text(up)),
        _ if fine(s, up) || fine(s, down) || up < Length::ZERO || down > Length::ZERO => both_ends(s, limits),
        _ => {
            let signed = |l: Length, sign: &str| {
                if l == Length::ZERO { format!("{sign}0") } else { format!("{sign}{}", text(l)) }
            };
            format!("{} {}/{}", s.length(nominal), signed(up, "+"), signed(down, "\u{2212}"))
        }
    }
}

/// A deviation finer than the usual decimals: the two ends are then what the hands look for.
fn fine(s: &Sources, deviation: Length) -> bool {
    let usual = show::usual_decimals(s.unit());
    show::decimals_needed(deviation.abs(), s.unit(), usual, usual + 1) > usual
}

/// Where a parting tool is touched, and whether it ends in a hole; nothing of another tool.
pub(super) fn parted(s: &Sources, op: &Operation, of: &OperationFigures) -> Vec<String> {
    let Some(dial) = of.cross_dial.as_ref().filter(|_| op.verb == Verb::PartOff) else { return Vec::new() };
    let zero = words::zero_on("", &dial.zero.diameter.text(s.unit()));
    std::iter::once(zero).chain(op.parts_into_a_hole().then(|| words::PARTED_THROUGH.say().to_owned())).collect()
}
