//! The correction after the flip, made once, at the zero.

use super::given::Given;
use super::{Figure, OnScale, scale};
use crate::model::plan::Setup;
use crate::model::shop::Instrument;
use crate::unit::Unit;
use crate::{tell, told};

/// `overall − measured` on the carriage dial where it would be 0: every printed length then holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// Nominal overall.
    pub overall: Figure,
    /// An overall that could be measured, for the worked example.
    pub example_measured: Figure,
    /// What is then set instead of 0.
    pub example_set: Figure,
    /// The same as a dial in the shop's unit shows it, which is named where it is not the part's.
    pub example_on_dial: String,
    /// The overall and the example on a caliper in the other unit: overall, measured.
    pub on_scale: Option<(OnScale, OnScale)>,
    /// Some lengths of the mounting are drawn from the far face: they count from it as it is touched, and the dial shows what was set besides.
    pub by_face: bool,
    /// The overall is held closer than what the shop measures it with: what to measure it by, in words.
    pub coarse: Option<String>,
    /// One sentence that says what to do.
    pub says: String,
}

/// What turns a length in the part's unit into one on a dial in another; none where they are alike.
pub const fn to_the_dial(part: Unit, dial: Unit) -> Option<&'static str> {
    match (part, dial) {
        (Unit::Millimetre, Unit::Inch) => Some("÷ 25.4"),
        (Unit::Inch, Unit::Millimetre) => Some("× 25.4"),
        _ => None,
    }
}

/// The correction a mounting needs: where the carriage counts from the far face and lengths that are drawn from the datum face are cut by it.
pub(super) fn correction(given: &Given, setup: &Setup, by_face: bool) -> Option<Correction> {
    let needed = given.chain.needs_correction(given.part, setup);
    // Once it is measured, the lengths themselves are counted from the measured end.
    let needed = needed && given.chain.measured_overall.is_none();
    needed.then(|| {
        let shown = |length| Figure::usual(length, given.unit);
        let over = given.pick(3_000, 50);
        let overall = shown(given.overall);
        let on_dial = given.in_shop(-over).replace('-', "\u{2212}");
        let dial = given.shop.and_then(|s| s.units).unwrap_or(given.unit);
        // One digit more than usual: what the rounding takes would be missing from every length.
        let read = |length| scale::on_scale(given, "caliper", Some(Figure::fine(length, given.unit)), None);
        let on_scale = read(given.overall).zip(read(given.overall + over));
        let step = to_the_dial(on_scale.map_or(given.unit, |(all, _)| all.unit), dial);
        let step = step.map_or(String::new(), |by| format!(", {by}"));
        let from = on_scale.map_or_else(
            || overall.text(given.unit),
            |(all, _)| format!("{} {}", all.size_text(), all.unit.word()),
        );
        let on_dial = on_scale.filter(|(all, _)| all.unit == dial).map_or(on_dial, |(all, measured)| {
            let worked = all.size.zip(measured.size).map(|(a, m)| Figure::new(a.value - m.value, a.decimals));
            worked.map_or(String::new(), |w| format!("{} {}", w.text(dial), dial.word()))
        });
        let coarse = too_coarse(given);
        let finer = coarse.as_ref().map(|c| format!(" {c}")).unwrap_or_default();
        Correction {
            example_on_dial: on_dial,
            overall,
            on_scale,
            by_face,
            coarse,
            example_measured: shown(given.overall + over),
            example_set: shown(-over),
            says: format!(
                "Overall measured ____; touch the far face and set the carriage dial to {from} \u{2212} measured{step} = ____ instead of 0: \
                 every length below then holds.{}{finer}",
                if by_face { " One from the far face itself (zero: far face) is its reading plus what was set." } else { "" }
            ),
        }
    })
}

/// Where the overall is held closer than the finest instrument of the shop that reaches it reads: the zero is no better than that reading.
fn too_coarse(given: &Given) -> Option<String> {
    let overall = given.part.overall.as_ref()?;
    let half = overall.limits.filter(|l| l.band().is_positive())?.band().half();
    let reaches = |i: &&Instrument| {
        matches!(i.kind.as_str(), "caliper" | "micrometer" | "height gauge")
            && i.range.is_none_or(|(least, most)| least <= overall.nominal && overall.nominal <= most)
    };
    let list = given.shop?.instruments.iter().filter(reaches);
    let (error, kind) = list.filter_map(|i| Some((i.error?, i.kind.as_str()))).min()?;
    let kind = match kind {
        "caliper" => told!("caliper", "Messschieber"),
        "micrometer" => told!("micrometer", "Messschraube"),
        _ => told!("height gauge", "Höhenreißer"),
    };
    let text = |l| Figure::fine(l, given.unit).text(given.unit);
    (half < error).then(|| {
        tell!(
            "The {kind} reads to ±{}, the overall is held to ±{}: measure it finer, by a micrometer that reaches or gauge blocks; the zero is no better than that reading.",
            "{kind}: auf ±{} abzulesen, die Gesamtlänge ist auf ±{} verlangt: feiner messen, mit passender Messschraube oder Endmaßen; die Null ist nicht besser als diese Messung.",
            text(error),
            text(half)
        )
    })
}
