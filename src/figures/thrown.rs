//! Thrown over for an eccentric: what the indicator reads, what packing brings it near, what sweeps past the bed, how fast at most.

use super::given::Given;
use super::{Figure, SizeLimits};
use crate::handbook::eccentric;
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Kind};
use crate::unit::{Length, Limits};
use crate::{tell, told};

/// How the work is thrown over in a mounting.
#[derive(Debug, Clone, PartialEq)]
pub struct Thrown {
    /// How far the part's axis lies off the spindle's.
    pub throw: Figure,
    /// Total reading of an indicator on the surface held, over a turn: twice the throw.
    pub reading: Figure,
    /// Another coaxial section that stands finished out of the jaws: it must read the same, or the axes are not parallel.
    pub also_on: Option<usize>,
    /// Between what it may read, where the throw has limits.
    pub reading_limits: Option<SizeLimits>,
    /// Packing under one jaw of three with flat tips; none where four jaws hold it.
    pub packing_flat: Option<Figure>,
    /// Packing under narrow tips on the diameter held.
    pub packing_narrow: Option<Figure>,
    /// Diameter of the circle the work sweeps.
    pub sweeps: Figure,
    /// Turns a minute at most, ASSUMED.
    pub most_rpm: f64,
    /// Where around the part the throw lies: degrees counter-clockwise seen from the datum end. None where nothing is clocked.
    pub clock_deg: Option<f64>,
}

/// What a mounting that is thrown over wants; none for all others.
pub(super) fn thrown(given: &Given, setup: &Setup) -> Option<Thrown> {
    let throw = setup.by.throw()?;
    let unit = given.unit;
    let features = || setup.operations.iter().filter_map(|o| given.feature(o.feature?));
    let offsets =
        features().filter_map(|f| f.offset.as_ref().and_then(|o| o.limits)).filter(|l| l.band().is_positive());
    let limits = offsets.reduce(|a, b| a.both(b).unwrap_or(a));
    let twice = |l: Limits| Limits::new(eccentric::reading(l.min), eccentric::reading(l.max));
    let packed = matches!(setup.by, crate::model::Workholder::Packed(_));
    let held = setup.grip.as_ref().map(|g| g.diameter);
    let narrow = held.and_then(|d| eccentric::packing_narrow(throw, d)).filter(|_| packed);
    // A ring that roughing left proud of a face counts: where the last cut came from the other side, it still stands.
    let largest = setup.before.iter().map(|s| s.diameter.max(s.diameter_to)).max().unwrap_or_default();
    Some(Thrown {
        throw: Figure::fine(throw, unit),
        reading: Figure::fine(eccentric::reading(throw), unit),
        also_on: also_on(given, setup),
        reading_limits: limits.map(|l| SizeLimits::of(twice(l), unit)),
        packing_flat: packed.then(|| Figure::usual(eccentric::packing_flat(throw), unit)),
        packing_narrow: narrow.map(|l| Figure::usual(l, unit)),
        sweeps: Figure::usual(eccentric::swings(throw, largest), unit),
        most_rpm: eccentric::most_rpm(throw)?,
        clock_deg: features().find_map(|f| f.angle_mdeg).map(|a| a as f64 / 1000.0),
    })
}

/// The finished section farthest out of the jaws that runs true to the one held.
fn also_on(given: &Given, setup: &Setup) -> Option<usize> {
    let grip = setup.grip.as_ref()?;
    let pieces = given.profile.pieces.iter().filter(|p| p.to <= grip.from || p.from >= grip.to);
    let plain = pieces.filter(|p| {
        given
            .feature(p.feature)
            .is_some_and(|f| matches!(f.kind, Kind::Turn { kept: false, .. }) && f.throw().is_none())
    });
    let there = plain.filter(|p| {
        let mut over = setup.before.iter().filter(|s| s.from < p.to && p.from < s.to);
        over.all(|s| s.diameter.max(s.diameter_to) <= p.largest() + given.pick(2_000, 50))
    });
    // Toward the tailstock: behind the jaws no indicator reaches.
    let out = |at: crate::unit::Station| match setup.works {
        Some(End::Datum) => grip.from - at,
        _ => at - grip.to,
    };
    there
        .filter(|p| out(p.from).is_positive() || out(p.to).is_positive())
        .max_by_key(|p| out(p.from).max(out(p.to)))
        .map(|p| p.feature)
}

/// What to mind at a cut about an eccentric's axis.
pub(super) fn remark(given: &Given, setup: &Setup, op: &Operation) -> Option<String> {
    let throw = op.throw?;
    let (from, to) = (op.from?.min(op.to?), op.from?.max(op.to?));
    let before = setup.before.iter().filter(|s| s.from < to && from < s.to);
    let full = eccentric::interrupted_to(throw, before.map(|s| s.diameter.min(s.diameter_to)).min()?);
    let begins = op.from_diameter?;
    let shown = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let first = setup.operations.iter().find(|o| o.throw.is_some() && o.to_diameter.is_some())?.id == op.id;
    (first && begins > full).then(|| {
        tell!(
            "touch the high side, at {}; the cut strikes once a turn down to {}",
            "an der hohen Seite ankratzen, bei {}; der Schnitt schlägt einmal je Umdrehung bis {}",
            shown(begins),
            shown(full)
        )
    })
}

/// The caution of work that runs out of balance.
pub(super) fn caution(rpm: f64) -> String {
    tell!(
        "Thrown over, it is out of balance and strikes the tool: clamp hard, turn it by hand past bed, slide and tool, no faster than {rpm:.0} rpm, stand out of its plane. If the lathe shakes: slower, or a counterweight.",
        "Außermittig gespannt: Unwucht und Schläge. Fest spannen, von Hand an Bett, Schlitten, Stahl vorbeidrehen, höchstens {rpm:.0} U/min, nicht in der Drehebene stehen. Wenn es rüttelt: langsamer oder Gegengewicht."
    )
}

/// The instrument for a throw.
pub(super) fn measured_by() -> &'static str {
    told!(
        "dial indicator, part in V-blocks or on centers: half of its total reading",
        "Messuhr, Teil in Prismen oder zwischen Spitzen: halber Ausschlag"
    )
}
