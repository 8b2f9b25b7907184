//! Thrown over for an eccentric: what the indicator reads, what packing brings it near, what sweeps past the bed, how fast at most.

use super::given::{Given, at_tailstock, carriage};
use super::{Figure, SizeLimits};
use crate::chain::Piece;
use crate::handbook::eccentric;
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Feature, Kind};
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

/// The circle that a piece of the finished part sweeps while an eccentric is turned; its own diameter where that is the eccentric, or a fellow on
/// its axis. The profile has what an eccentric sweeps about the part's axis.
pub(super) fn swept(given: &Given, op: &Operation, piece: &Piece) -> Length {
    let Some(throw) = op.throw else { return piece.largest() };
    let cut = op.feature.and_then(|f| given.feature(f));
    let own = given.feature(piece.feature);
    let place = |f: Option<&Feature>| f.map(|f| (f.throw(), f.angle_mdeg));
    match own.map(|f| &f.kind) {
        Some(Kind::Eccentric { diameter, .. }) if place(own) == place(cut) => diameter.limits_or_nominal().max,
        _ => eccentric::swings(throw, piece.largest()),
    }
}

/// Between what walls an eccentric is turned, and how the tool gets in; none where a side is open.
pub(super) fn walls(given: &Given, setup: &Setup, op: &Operation) -> Option<String> {
    let (end, size) = (at_tailstock(setup)?, op.to_diameter?);
    op.throw?;
    let (from, to) = (op.from?.min(op.to?), op.from?.max(op.to?));
    let pieces = &given.profile.pieces;
    let own = pieces.iter().find(|p| Some(p.feature) == op.feature)?;
    let beside = [pieces.iter().find(|p| p.to == own.from)?, pieces.iter().find(|p| p.from == own.to)?];
    let sweeps = beside.map(|p| swept(given, op, p));
    if sweeps.iter().any(|s| *s <= size) {
        return None;
    }
    let shown = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let letters = beside.map(|p| given.feature(p.feature).map_or("", |f| f.letter.as_str()));
    let walls = if sweeps[0] == sweeps[1] {
        let [a, b] = letters;
        tell!("{a} and {b} sweep Ø {}", "{a} und {b} schlagen einen Kreis Ø {}", shown(sweeps[0]))
    } else {
        let [a, b] = letters;
        tell!("{a} sweeps Ø {}, {b} Ø {}", "{a} schlägt einen Kreis Ø {}, {b} Ø {}", shown(sweeps[0]), shown(sweeps[1]))
    };
    let proud = in_the_way(given, setup, op, own, end).filter(|p| sweeps.iter().all(|s| s < p));
    let walls = proud.map_or(walls.clone(), |p| {
        tell!("{walls}, what else stands in the way Ø {}", "{walls}, was sonst im Weg steht Ø {}", shown(p))
    });
    // Whatever the tool passes on its way in, and the work itself before its first cut.
    let on_the_way = pieces.iter().filter(|p| match end {
        End::Datum => p.to <= own.from,
        End::Far => p.from >= own.to,
    });
    let most = on_the_way.map(|p| swept(given, op, p)).chain(op.from_diameter).chain(proud).max()?;
    let clear = (most + given.pick(100_000, 2_500)).ceil_to(given.pick(50_000, 1_000));
    let at = [from, to].map(|at| carriage(at, end, given.overall));
    let ends = [at[0].min(at[1]), at[0].max(at[1])].map(shown);
    let last = op.verb != crate::model::plan::Verb::Rough;
    let faced = if last { told!("; both walls faced", "; beide Wände plan") } else { "" };
    Some(tell!(
        "{walls}: on the way in stay outside Ø {}, come in only between {} and {}, and out again the same way{faced}",
        "{walls}: auf dem Weg außerhalb Ø {} bleiben, nur zwischen {} und {} hineinfahren, ebenso wieder heraus{faced}",
        shown(clear),
        ends[0],
        ends[1]
    ))
}

/// The circle of what this mounting finds on the tool's way in: a ring that roughing left on a wall, a section that is not turned yet. It stands about the
/// part's axis; a fellow eccentric is told by what it sweeps.
fn in_the_way(given: &Given, setup: &Setup, op: &Operation, own: &Piece, end: End) -> Option<Length> {
    let (from, to) = (op.from?.min(op.to?), op.from?.max(op.to?));
    let fellow = |a, b| {
        let mut there = given.profile.between(a, b).filter(|p| p.feature != own.feature);
        there.any(|p| given.feature(p.feature).is_some_and(|f| f.throw().is_some()))
    };
    let stands = setup.before.iter().filter(|s| {
        let ring = s.from < own.to && own.from < s.to && (s.to <= from || s.from >= to);
        let passed = if end == End::Datum { s.from < own.from } else { s.to > own.to };
        (ring || passed) && !fellow(s.from, s.to)
    });
    stands.map(|s| Some(eccentric::swings(op.throw?, s.diameter.max(s.diameter_to)))).max()?
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
