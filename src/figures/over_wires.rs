//! Wires over a thread, and what a micrometer reads over them.

use super::given::Given;
use super::{Figure, OnScale, SizeLimits, scale};
use crate::handbook::thread::{self as standard, ThreadData};
use crate::model::feature::Thread;
use crate::model::shop::Reads;
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

/// What a reading over the wires means for the dial that feeds the tool: (reading − aim) × factor is still to go in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StillIn {
    /// Reading to come to: the middle of the limits over the wires, on the micrometer's own scale.
    pub aim: Figure,
    /// Unit of that micrometer.
    pub unit: Unit,
    /// What the dial counts for a length over the wires, both in one unit: 1 / (2 cos angle) along a compound set over; straight in 1/2, 1 on a
    /// cross dial that reads diameters.
    pub factor: f64,
    /// The same from the micrometer's unit to the dial's, as it is printed.
    pub shown: f64,
    /// Unit of that dial.
    pub dial_unit: Unit,
    /// The compound's dial; else the cross dial's.
    pub compound: bool,
}

/// Over one wire size the reading moves as the pitch diameter does (M = E + 3 W − .86603 P, ASME B1.2), and that by twice what the tool goes in: plain geometry.
pub(super) fn still_in(given: &Given, wires: &Wires, angle_deg: Option<f64>) -> StillIn {
    let limits = wires.on_scale.and_then(|s| Some((s.limits?, s.unit)));
    let (limits, unit) = limits.unwrap_or((wires.over, given.unit));
    let middle = Limits::new(limits.min.value, limits.max.value).middle();
    let dial_unit = given.shop.and_then(|s| s.units).unwrap_or(given.unit);
    let diameters = given.shop.and_then(|s| s.cross_reads) == Some(Reads::Diameter);
    let factor = match angle_deg {
        Some(angle) => 0.5 / angle.to_radians().cos(),
        None if diameters => 1.0,
        None => 0.5,
    };
    let shown = match (unit, dial_unit) {
        (Unit::Inch, Unit::Millimetre) => factor * 25.4,
        (Unit::Millimetre, Unit::Inch) => factor / 25.4,
        _ => factor,
    };
    let aim = Figure::new(middle, limits.max.decimals).rounded(unit);
    StillIn { aim, unit, factor, shown, dial_unit, compound: angle_deg.is_some() }
}

/// The wire as it is marked: in the shop's unit where the micrometer over it reads in that.
pub(super) fn wire_text(given: &Given, wires: &Wires) -> String {
    match wires.on_scale {
        Some(read) => format!("{} {}", read.size_text(), read.unit.word()),
        None => wires.wire.text(given.unit),
    }
}
