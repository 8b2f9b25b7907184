//! How fast the spindle turns for a cut, and what holds it back: the minutes are counted with it and the sheet tells it.

use crate::chain::Hollow;
use crate::check::Facts;
use crate::check::holding::bar_whip;
use crate::handbook::eccentric;
use crate::handbook::speed::{self, Cut};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Slow, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Inside, InsideCut, Kind};
use crate::unit::{Length, Station, Unit};

use super::holding::usual_center;
use super::{cutting, run_out};

/// What set the wanted speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpeedLimit {
    /// The surface speed of this cut.
    SurfaceSpeed,
    /// The time the relief gives to open the half-nuts.
    RunOut,
    /// Work thrown over pulls at its holding.
    OutOfBalance,
    /// The jaws of a steady rest rub on the work.
    SteadyRest,
    /// The bar that hangs out of the spindle's rear would begin to whip.
    BarWhip,
    /// The work stands farther out of the jaws than a center is asked for.
    Overhang,
}

impl SpeedLimit {
    /// What set a speed, for a machine.
    pub const fn word(self) -> &'static str {
        match self {
            Self::SurfaceSpeed => "surface speed",
            Self::RunOut => "run-out",
            Self::OutOfBalance => "out of balance",
            Self::SteadyRest => "steady rest",
            Self::BarWhip => "bar behind the spindle",
            Self::Overhang => "overhang",
        }
    }
}

/// The speed of a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spindle {
    /// Wanted, revolutions a minute, as computed.
    pub wanted: f64,
    /// The lathe's gear; none off the lathe or without a list of gears.
    pub gear: Option<u32>,
    /// Diameter that runs at the surface speed: the largest one cut, or the cutter's on the mill.
    pub diameter: Length,
    /// What set it.
    pub by: SpeedLimit,
}

impl Spindle {
    /// The gear, or the wanted speed where there is no list of gears.
    pub fn rpm(&self) -> f64 {
        self.gear.map_or(self.wanted, f64::from)
    }
}

/// Share of the speed for work that stands too far out of the jaws. That it must be slower: US Army, OD1645, p. 52, and shops' safety rules; how much: common
/// practice, no source.
const OVERHUNG: f64 = 0.5;

/// What keeps the cuts of a mounting slow, as the work is when it is mounted.
pub fn slow(facts: &Facts<'_>, setup: &Setup) -> Slow {
    Slow {
        rest: rest_rpm(facts, setup),
        overhung: overhung(facts, setup),
        whip: bar_whip::behind(facts, setup).map(|w| w.allowed),
    }
}

/// What the jaws of a steady rest bear: no faster than the bar itself is turned, however small the drill (common practice, no source).
pub(super) fn rest_rpm(facts: &Facts<'_>, setup: &Setup) -> Option<f64> {
    let steady = setup.rest.as_ref().filter(|r| !r.follows)?;
    speed::rpm(cutting::turning_speed(facts.part, facts.shop, false), steady.diameter)
}

/// Stands out of the jaws, without a center or a rest, farther than the check `overhang` lets pass.
fn overhung(facts: &Facts<'_>, setup: &Setup) -> bool {
    let Some((grip, out)) = setup.grip.as_ref().zip(setup.stick_out).filter(|_| setup.holding == Holding::Chuck) else {
        return false;
    };
    out.mm() / grip.diameter.mm() > diameters(facts)
}

/// Diameters of work that may stand out of the jaws.
pub(super) fn diameters(facts: &Facts<'_>) -> f64 {
    facts.limit_number("overhang", "diameters")
}

/// The speed of an operation in a mounting that is so slow, or in whichever; none where nothing turns at a set speed.
pub fn spindle(facts: &Facts<'_>, setup: Option<&Setup>, slow: &Slow, op: &Operation) -> Option<Spindle> {
    let finishing = matches!(op.verb, Verb::Finish | Verb::Face | Verb::Turn | Verb::Taper);
    // Who switches R26 off grooves as fast as they turn.
    let share = match cut(setup, op).filter(|_| !op.is_rough_center())? {
        Cut::Groove if facts.part.wishes.is_off("R26") => 1.0,
        cut => speed::factor(cut).0,
    };
    let diameter = cut_diameter(facts, setup, op)?;
    let base = cutting::turning_speed(facts.part, facts.shop, finishing);
    let relief = if op.verb == Verb::Thread { setup.and_then(|s| run_out::of_thread(facts, s, op)) } else { None };
    let throw = setup.map_or(op.throw, |s| s.by.throw());
    let mut now = (speed::rpm(base.times(share), diameter)?, SpeedLimit::SurfaceSpeed);
    let mut no_faster = |limit: Option<f64>, by: SpeedLimit| {
        if let Some(slower) = limit.filter(|slower| *slower < now.0) {
            now = (slower, by);
        }
    };
    no_faster(relief.and_then(|r| r.rpm()), SpeedLimit::RunOut);
    no_faster(throw.and_then(eccentric::most_rpm), SpeedLimit::OutOfBalance);
    no_faster(slow.rest, SpeedLimit::SteadyRest);
    if slow.overhung {
        now = (now.0 * OVERHUNG, SpeedLimit::Overhang);
    }
    if let Some(slower) = slow.whip.filter(|slower| *slower < now.0) {
        now = (slower, SpeedLimit::BarWhip);
    }
    let (wanted, by) = now;
    let on_lathe = setup.map_or(op.verb != Verb::Mill, |s| s.at_tailstock().is_some());
    let gear = facts.shop.filter(|_| on_lathe).and_then(|s| cutting::gear(wanted, &s.speeds));
    Some(Spindle { wanted, gear, diameter, by })
}

fn cut(setup: Option<&Setup>, op: &Operation) -> Option<Cut> {
    Some(match op.verb {
        Verb::Rough => Cut::Rough,
        Verb::Face | Verb::Finish | Verb::Turn | Verb::Taper | Verb::Bore => Cut::Finish,
        Verb::Groove => Cut::Groove,
        Verb::Chamfer | Verb::File => Cut::Form,
        Verb::Thread => Cut::Thread,
        Verb::Knurl => Cut::Knurl,
        Verb::Center | Verb::Drill => Cut::Drill,
        Verb::Ream => Cut::Ream,
        Verb::PartOff => Cut::Part,
        Verb::Mill if setup.is_none_or(|s| s.at_tailstock().is_none()) => Cut::Rough,
        _ => return None,
    })
}

/// The diameter that runs at the surface speed: largest cut on the lathe, the cutter elsewhere.
fn cut_diameter(facts: &Facts<'_>, setup: Option<&Setup>, op: &Operation) -> Option<Length> {
    let kind = op.feature.and_then(|id| facts.part.features.get(id)).map(|f| &f.kind);
    match (op.verb, kind) {
        (Verb::Center, Some(Kind::CenterHole { size: Some(size), .. })) => Some(size.drill),
        // A center hole that the drawing does not show is drilled by the usual size.
        (Verb::Center, None) => usual_center(facts.part, facts.shop, op.end?).map(|(_, hole)| hole.drill_diameter),
        (Verb::Mill, Some(Kind::Woodruff { number, .. })) => {
            crate::handbook::woodruff::find(number).map(|k| k.cutter_diameter)
        }
        (Verb::Mill, Some(Kind::ParallelKeyseat { width, .. })) => Some(width.nominal),
        (Verb::Mill, Some(Kind::Flats { .. })) => largest_end_mill(facts),
        (Verb::Drill, Some(Kind::CrossHole { diameter, .. })) => Some(diameter.nominal),
        (Verb::Thread, Some(Kind::Thread { thread, .. })) => Some(thread.major.max),
        (Verb::Center | Verb::Mill, _) => None,
        (Verb::Chamfer, Some(Kind::Inside(inside))) => mouth(facts, inside),
        _ if op.inside => op.to_diameter.or(op.from_diameter),
        _ => op.from_diameter.or_else(|| surface_at(setup?, op)).or_else(|| bar(facts)),
    }
}

/// Diameter at the mouth that a chamfer leaves: as stated, else the bore there and twice the chamfer's leg across.
fn mouth(facts: &Facts<'_>, inside: &Inside) -> Option<Length> {
    let InsideCut::Chamfer { leg, angle_mdeg, mouth } = &inside.cut else { return None };
    if let Some(mouth) = mouth {
        return Some(mouth.nominal);
    }
    let overall = facts.chain.overall(facts.part).unwrap_or_default();
    let face = if inside.end == End::Datum { Station::DATUM } else { Station(overall) };
    let at_face = |h: &&Hollow| h.from == face || h.to == face;
    let bore = facts.profile.hollows.iter().filter(at_face).map(|h| h.outermost).max()?;
    let across = 2.0 * (*angle_mdeg as f64 / 1000.0).to_radians().tan();
    Some(bore + Length::from_f64(leg.nominal.mm() * across, Unit::Millimetre))
}

/// The largest end mill of the shop file; none when it lists none.
pub(super) fn largest_end_mill(facts: &Facts<'_>) -> Option<Length> {
    facts.shop?.tools_of(ToolKind::EndMill).filter_map(|t| t.diameter).max()
}

/// Largest diameter of the work, as it came into the mounting, where the operation begins.
fn surface_at(setup: &Setup, op: &Operation) -> Option<Length> {
    let at = op.from.or(op.to)?;
    let spans = setup.before.iter().filter(|s| s.from <= at && at <= s.to);
    spans.map(|s| s.diameter.max(s.diameter_to)).max()
}

fn bar(facts: &Facts<'_>) -> Option<Length> {
    facts.part.stock.as_ref().map(crate::model::part::Stock::across_corners)
}
