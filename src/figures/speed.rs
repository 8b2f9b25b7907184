//! Spindle speed: from the surface speed of material, tool and cut; then the lathe's own gear.

use super::Figure;
use super::given::{Given, at_tailstock};
use crate::chain::Hollow;
use crate::check::holding::bar_whip;
use crate::handbook::eccentric;
use crate::handbook::material::Named;
use crate::handbook::speed::{self, Cut, SurfaceSpeed};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Inside, InsideCut, Kind};
use crate::plan::cutting;
use crate::unit::{Length, Station, Unit};

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

/// The speed of an operation.
#[derive(Debug, Clone, PartialEq)]
pub struct Speed {
    /// Wanted, revolutions a minute, as computed.
    pub wanted: f64,
    /// The lathe's gear: the nearest that is not above; its slowest when all are. None off the lathe or without a shop file.
    pub gear: Option<u32>,
    /// Diameter that runs at the surface speed: the largest one cut, or the cutter's on the mill.
    pub diameter: Figure,
    /// Surface speed at the gear, or as wanted where there is none; metres a minute.
    pub surface_speed: f64,
    /// What set it.
    pub by: SpeedLimit,
    /// The slowest gear is above the wanted speed.
    pub above_wanted: bool,
}

impl Speed {
    /// The gear, or the wanted speed where there is no list of gears.
    pub fn rpm(&self) -> f64 {
        self.gear.map_or(self.wanted, f64::from)
    }

    /// Surface speed in feet a minute for inches, metres a minute for millimetres.
    pub fn surface_in(&self, unit: Unit) -> f64 {
        SurfaceSpeed::metres(self.surface_speed).in_unit(unit)
    }
}

/// Material of the part, as the handbook knows it.
pub(super) fn material(given: &Given) -> Option<Named> {
    cutting::named_material(given.part)
}

/// Turning speed for roughing or finishing.
pub(super) fn turning_speed(given: &Given, finishing: bool) -> SurfaceSpeed {
    cutting::turning_speed(given.part, given.shop, finishing)
}

/// What the jaws of a steady rest bear: no faster than the bar itself is turned, however small the drill (common practice, no source).
fn rest_rpm(given: &Given, setup: &Setup) -> Option<f64> {
    let steady = setup.rest.as_ref().filter(|r| !r.follows)?;
    speed::rpm(turning_speed(given, false), steady.diameter)
}

/// Share of the speed for work that stands too far out of the jaws. That it must be slower: US Army, OD1645, p. 52, and shops' safety rules; how much: common
/// practice, no source.
const OVERHUNG: f64 = 0.5;

/// Stands out of the jaws, without a center or a rest, farther than the check `overhang` lets pass.
pub(super) fn overhangs(given: &Given, setup: &Setup) -> bool {
    let most = given.facts().limit_number("overhang", "diameters");
    let out = setup.grip.as_ref().zip(setup.stick_out).map(|(grip, out)| out.mm() / grip.diameter.mm());
    setup.holding == Holding::Chuck && out.is_some_and(|diameters| diameters > most)
}

/// The speed of an operation; none where nothing turns at a set speed.
pub(super) fn speed(given: &Given, setup: &Setup, op: &Operation, relief: Option<Relief>) -> Option<Speed> {
    let finishing = matches!(op.verb, Verb::Finish | Verb::Face | Verb::Turn | Verb::Taper);
    // Who switches R26 off grooves as fast as they turn.
    let share = match cut(setup, op)? {
        Cut::Groove if given.part.wishes.is_off("R26") => 1.0,
        cut => speed::factor(cut).0,
    };
    let diameter = cut_diameter(given, setup, op)?;
    let base = turning_speed(given, finishing);
    let wanted = speed::rpm(base.times(share), diameter)?;
    let (wanted, by) = match relief.and_then(|r| run_out_rpm(&r)) {
        Some(slower) if slower < wanted => (slower, SpeedLimit::RunOut),
        _ => (wanted, SpeedLimit::SurfaceSpeed),
    };
    let (wanted, by) = match setup.by.throw().and_then(eccentric::most_rpm) {
        Some(slower) if slower < wanted => (slower, SpeedLimit::OutOfBalance),
        _ => (wanted, by),
    };
    let (wanted, by) = match rest_rpm(given, setup) {
        Some(slower) if slower < wanted => (slower, SpeedLimit::SteadyRest),
        _ => (wanted, by),
    };
    let wanted = if overhangs(given, setup) { (wanted * OVERHUNG, SpeedLimit::Overhang) } else { (wanted, by) };
    let (wanted, by) = match bar_whip::behind(&given.facts(), setup).map(|w| w.allowed) {
        Some(slower) if slower < wanted.0 => (slower, SpeedLimit::BarWhip),
        _ => wanted,
    };
    let gear = at_tailstock(setup).and(given.shop).and_then(|s| cutting::gear(wanted, &s.speeds));
    let rpm = gear.map_or(wanted, f64::from);
    Some(Speed {
        wanted,
        gear,
        diameter: Figure::usual(diameter, given.unit),
        surface_speed: speed::surface_speed(rpm, diameter).metres_per_minute,
        by,
        above_wanted: rpm > wanted,
    })
}

/// What a thread runs out into, for the time it gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Relief {
    pub(super) width: Length,
    pub(super) lead: Length,
    /// The half-nuts stay closed: the tool is drawn out and the spindle stopped.
    pub(super) reverses: bool,
}

/// Seconds wished in the relief. No text on screw cutting prints any; those on reaction do: 1.5 s from seeing to the hand's (or foot's) work being done (Packman,
/// CEEJ article 0023; R. Limpert as ARCCA quotes him), .7 s where it is known beforehand what to do (Seluga). The check `thread-runout-time` asks 1 s at least.
const SECONDS_WISHED: f64 = 1.5;
/// The same where the half-nuts stay closed: two acts, one hand on the cross slide and one on the switch, and the chuck runs on (common practice, no source).
pub const SECONDS_TO_REVERSE: f64 = 3.0;

fn run_out_rpm(relief: &Relief) -> Option<f64> {
    let turns = relief.width.mm() / relief.lead.mm();
    let wished = if relief.reverses { SECONDS_TO_REVERSE } else { SECONDS_WISHED };
    (turns.is_finite() && turns > 0.0).then(|| turns * 60.0 / wished)
}

/// Seconds the tool takes through a relief.
pub(super) fn relief_seconds(relief: &Relief, rpm: f64) -> Option<f64> {
    let seconds = relief.width.mm() / relief.lead.mm() * 60.0 / rpm;
    // To a thousandth: the lead of an inch thread is itself rounded to a picometre.
    seconds.is_finite().then_some((seconds * 1000.0).round() / 1000.0)
}

fn cut(setup: &Setup, op: &Operation) -> Option<Cut> {
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
        Verb::Mill if at_tailstock(setup).is_none() => Cut::Rough,
        _ => return None,
    })
}

/// The diameter that runs at the surface speed: largest cut on the lathe, the cutter elsewhere.
fn cut_diameter(given: &Given, setup: &Setup, op: &Operation) -> Option<Length> {
    let kind = op.feature.and_then(|id| given.feature(id)).map(|f| &f.kind);
    match (op.verb, kind) {
        (Verb::Center, Some(Kind::CenterHole { size: Some(size), .. })) => Some(size.drill),
        // A center hole that the drawing does not show is drilled by the usual size.
        (Verb::Center, None) => super::job::center(given, op).map(|hole| hole.drill.value),
        (Verb::Mill, Some(Kind::Woodruff { number, .. })) => {
            crate::handbook::woodruff::find(number).map(|k| k.cutter_diameter)
        }
        (Verb::Mill, Some(Kind::ParallelKeyseat { width, .. })) => Some(width.nominal),
        (Verb::Mill, Some(Kind::Flats { .. })) => shop_end_mill(given),
        (Verb::Drill, Some(Kind::CrossHole { diameter, .. })) => Some(diameter.nominal),
        (Verb::Thread, Some(Kind::Thread { thread, .. })) => Some(thread.major.max),
        (Verb::Center | Verb::Mill, _) => None,
        (Verb::Chamfer, Some(Kind::Inside(inside))) => mouth(given, inside),
        _ if op.inside => op.to_diameter.or(op.from_diameter),
        _ => op.from_diameter.or_else(|| surface_at(setup, op)).or_else(|| bar(given)),
    }
}

/// Diameter at the mouth that a chamfer leaves: as stated, else the bore there and twice the chamfer's leg across.
fn mouth(given: &Given, inside: &Inside) -> Option<Length> {
    let InsideCut::Chamfer { leg, angle_mdeg, mouth } = &inside.cut else { return None };
    if let Some(mouth) = mouth {
        return Some(mouth.nominal);
    }
    let face = if inside.end == End::Datum { Station::DATUM } else { Station(given.overall) };
    let at_face = |h: &&Hollow| h.from == face || h.to == face;
    let bore = given.profile.hollows.iter().filter(at_face).map(|h| h.outermost).max()?;
    let across = 2.0 * (*angle_mdeg as f64 / 1000.0).to_radians().tan();
    Some(bore + Length::from_f64(leg.nominal.mm() * across, Unit::Millimetre))
}

/// The largest end mill of the shop file; none when it lists none.
fn shop_end_mill(given: &Given) -> Option<Length> {
    given.shop?.tools_of(crate::model::shop::ToolKind::EndMill).filter_map(|t| t.diameter).max()
}

/// Largest diameter of the work, as it came into the mounting, where the operation begins.
fn surface_at(setup: &Setup, op: &Operation) -> Option<Length> {
    let at = op.from.or(op.to)?;
    let spans = setup.before.iter().filter(|s| s.from <= at && at <= s.to);
    spans.map(|s| s.diameter.max(s.diameter_to)).max()
}

fn bar(given: &Given) -> Option<Length> {
    given.part.stock.as_ref().map(crate::model::part::Stock::across_corners)
}
