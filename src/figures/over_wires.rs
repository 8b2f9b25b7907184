//! Wires over a thread, and what a micrometer reads over them.

use super::given::Given;
use super::{Figure, OnScale, SizeLimits, scale};
use crate::handbook::thread::{self as standard, ThreadData};
use crate::model::feature::Thread;
use crate::unit::{Length, Limits, Unit, show};

/// Three wires.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wires {
    /// Wire to use: the shop's nearest to the best one that the form allows, else the best.
    pub wire: Figure,
    /// Whether the shop lists it.
    pub at_hand: bool,
    /// Best wire by the form.
    pub best: Figure,
    /// Reading over the wires.
    pub over: SizeLimits,
    /// The wire, and the reading over it, on a micrometer in the other unit.
    pub on_scale: Option<OnScale>,
}

/// The shop's wire nearest to the best, as long as the form allows it; else the best.
pub(super) fn wires(given: &Given, data: &ThreadData, thread: &Thread) -> Option<Wires> {
    let wire = data.wire?;
    let allowed = given.shop.into_iter().flat_map(|s| s.wires.iter().copied());
    let nearest =
        allowed.filter(|w| wire.smallest <= *w && *w <= wire.largest).min_by_key(|w| ((*w - wire.best).abs(), *w));
    let used = nearest.unwrap_or(wire.best);
    let over = standard::over_wires(data, used)?;
    let decimals = show::usual_decimals(given.unit) + 1;
    // A thread that is cut before a coating has a smaller pitch diameter than its standard; the reading follows it.
    let off = data.external.as_ref().map_or(Length::ZERO, |e| thread.pitch_diameter.max - e.pitch_diameter.max);
    let exact = Limits::new(over.min + off, over.max + off);
    // Readings are printed as a table prints them: to the nearest digit. Inward would shift a limit that is exact in the table.
    let shown = |l: Length| Figure::new(l, decimals).rounded(given.unit);
    // A thread of the other unit has no table in this one: its limits round inward, as all that are converted.
    let over = SizeLimits { exact, max: shown(exact.max), min: shown(exact.min) };
    let own = thread.tpi.is_some() == (given.unit == Unit::Inch);
    let over = if own { over } else { SizeLimits::with(exact, given.unit, decimals) };
    let on_scale = scale::on_scale(given, "micrometer", None, Some(over)).map(|read| OnScale {
        size: Some(Figure::new(used, show::usual_decimals(read.unit) + 1).rounded(read.unit)),
        ..read
    });
    Some(Wires {
        wire: Figure::new(used, decimals),
        at_hand: nearest.is_some(),
        best: Figure::new(wire.best, decimals),
        over,
        on_scale,
    })
}

/// The wire as it is marked: in the shop's unit where the micrometer over it reads in that.
pub(super) fn wire_text(given: &Given, wires: &Wires) -> String {
    match wires.on_scale {
        Some(read) => format!("{} {}", read.size_text(), read.unit.word()),
        None => wires.wire.text(given.unit),
    }
}
