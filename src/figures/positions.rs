//! Places along the part in every frame a setup uses.

use super::comes_out::past_the_face;
use super::given::{Given, at_tailstock, carriage, station};
use super::keyseat_cut::keyseat_cut;
use super::outside_cut::flats_cut;
use super::thread_cut::{relief_of, thread_of};
use super::thrown::swept;
use super::{DialReading, Figure, OnIndicator, dial};
use crate::model::feature::Hand;
use crate::model::plan::{Operation, Setup, Verb, Zero};
use crate::model::{End, Kind};
use crate::plan::cutting;
use crate::unit::{Length, Station};

/// Which edge of the tool stands at a carriage reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// The one nearer the headstock.
    Left,
    /// The one nearer the tailstock.
    Right,
    /// Its point, or it does not matter.
    None,
}

impl Edge {
    /// As the JSON has it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::None => "none",
        }
    }
}

/// The zero that a place on the carriage counts from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountsFrom {
    /// 0 on the datum face.
    DatumFace,
    /// The far face, with the zero corrected by the measured overall: a length drawn from the datum face comes right.
    Corrected,
    /// The far face as it is touched: on a corrected dial what was set instead of 0 is added.
    FarFace,
}

impl CountsFrom {
    /// As the JSON has it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::DatumFace => "datum face",
            Self::Corrected => "corrected",
            Self::FarFace => "far face",
        }
    }
}

/// Says of each place of an operation which zero it counts from.
pub(super) fn count_from(given: &Given, setup: &Setup, (op, corrected): (&Operation, bool), rows: &mut [Position]) {
    for row in rows.iter_mut().filter(|r| r.carriage.is_some()) {
        row.zero = match at_tailstock(setup) {
            Some(End::Datum) => Some(CountsFrom::DatumFace),
            Some(End::Far) if !corrected => Some(CountsFrom::FarFace),
            Some(End::Far) => {
                let far = given.chain.is_drawn_from_far(given.part, op, Station(row.from_datum.value));
                Some(if far { CountsFrom::FarFace } else { CountsFrom::Corrected })
            }
            None => None,
        };
    }
}

/// One place an operation goes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Position {
    /// What is there: `shoulder`, `stop`, `plunge 1`, `thread ends`.
    pub what: String,
    /// From the datum face. For a plunge: the wall it serves.
    pub from_datum: Figure,
    /// From the far end.
    pub from_far_end: Figure,
    /// From the face at the tailstock, for the tool's edge named here; none off the lathe.
    pub carriage: Option<Figure>,
    /// What `carriage` counts from; none off the lathe.
    pub zero: Option<CountsFrom>,
    /// Which edge.
    pub edge: Edge,
    /// `carriage` on the carriage's dial, where it has one.
    pub dial: Option<DialReading>,
    /// `carriage` on an indicator on the bed, where the carriage has no dial.
    pub indicator: Option<OnIndicator>,
}

/// A place that the tool's point goes to.
pub(super) fn point(given: &Given, setup: &Setup, what: &str, at: Station) -> Position {
    let reading = at_tailstock(setup).map(|end| carriage(at, end, given.overall) + over_the_face(given, setup));
    row(given, what, at, reading, Edge::None)
}

/// How far the zero of a mounting lies beyond the finished face at the tailstock: nothing, but for the sawn end.
fn over_the_face(given: &Given, setup: &Setup) -> Length {
    let sawn = match (setup.zero, setup.works) {
        (Zero::SawnEnd, Some(End::Datum)) => setup.before.first().map(|s| Station::DATUM - s.from),
        (Zero::SawnEnd, Some(End::Far)) => setup.before.last().map(|s| s.to.0 - given.overall),
        _ => None,
    };
    sawn.unwrap_or_default()
}

fn row(given: &Given, what: &str, at: Station, reading: Option<Length>, edge: Edge) -> Position {
    let shown = |l| Figure::usual(l, given.unit);
    Position {
        what: what.to_owned(),
        from_datum: shown(at - Station::DATUM),
        from_far_end: shown(at.from_far_end(given.overall)),
        carriage: reading.map(shown),
        zero: None,
        edge,
        dial: reading.and_then(|l| dial::carriage(l, given.shop, given.unit)),
        indicator: reading.and_then(|l| dial::indicator(l, given.shop, given.unit)),
    }
}

/// Where an operation begins and stops.
pub(super) fn positions(given: &Given, setup: &Setup, op: &Operation, tool_width: Option<Length>) -> Vec<Position> {
    let at = |what: &str, place: Option<Station>| place.map(|p| point(given, setup, what, p));
    let one = |what: &str, place| at(what, place).into_iter().collect();
    if op.inside {
        let past = past_the_face(given, setup, op);
        let inward = op.end.unwrap_or(End::Datum);
        let bottom = op.to.map(|to| match inward {
            End::Datum => to + past,
            End::Far => to - past,
        });
        return match op.verb {
            Verb::Drill | Verb::Ream | Verb::Bore if past.is_positive() => one("past the face", bottom),
            Verb::Drill | Verb::Ream => one("full diameter to", op.to),
            Verb::Bore => one("bottom", op.to),
            Verb::Tap | Verb::Thread => one("full thread to", op.to),
            Verb::Chamfer => one("chamfer ends", op.to),
            Verb::Groove => walls_inside(given, setup, op),
            _ => [at("starts", op.from), at("ends", op.to)].into_iter().flatten().collect(),
        };
    }
    match op.verb {
        Verb::Face => one("face", op.to.or(op.from)),
        Verb::Rough => between(given, setup, op, if op.face.is_some() { "stop, short of the face" } else { "stop" }),
        Verb::Turn if op.is_spot() => {
            [at("spot starts", op.from), at("spot ends", op.to)].into_iter().flatten().collect()
        }
        Verb::Finish | Verb::Turn => between(given, setup, op, stop_word(given, setup, op)),
        Verb::Taper => [at("taper starts", op.from), at("taper ends", op.to)].into_iter().flatten().collect(),
        Verb::Knurl => [at("knurl starts", op.from), at("knurl ends", op.to)].into_iter().flatten().collect(),
        Verb::Chamfer => [at("edge", op.from), at("chamfer ends", op.to)].into_iter().flatten().collect(),
        Verb::File => one("edge of the crown", op.to),
        Verb::Thread => thread_ends(given, setup, op),
        Verb::Groove if is_undercut(given, op) => {
            [at("undercut starts", op.from), at("shoulder", op.to)].into_iter().flatten().collect()
        }
        Verb::Groove => plunges(given, setup, op, tool_width),
        Verb::PartOff => part_off(given, setup, op),
        Verb::Mill => cutter_places(given, setup, op),
        Verb::Drill if at_tailstock(setup).is_none() => one("hole centre", center(op)),
        _ => Vec::new(),
    }
}

/// The walls of a groove inside, each with the edge of the bit that cuts it.
fn walls_inside(given: &Given, setup: &Setup, op: &Operation) -> Vec<Position> {
    let wall = |what: &str, at: Option<Station>, edge| at.map(|at| Position { edge, ..point(given, setup, what, at) });
    [wall("near wall", op.from, Edge::Right), wall("far wall", op.to, Edge::Left)].into_iter().flatten().collect()
}

/// Middle of what an operation spans.
pub(super) fn center(op: &Operation) -> Option<Station> {
    let (from, to) = (op.from?, op.to?);
    Some(from + (to - from).half())
}

/// The stop, and the start as well where something larger stands outboard of it.
fn between(given: &Given, setup: &Setup, op: &Operation, stop: &str) -> Vec<Position> {
    let mut rows = Vec::new();
    if let (Some(from), Some(end), Some(size)) = (op.from, at_tailstock(setup), op.to_diameter) {
        let outboard = given.profile.pieces.iter().filter(|p| match end {
            End::Datum => p.to <= from,
            End::Far => p.from >= from,
        });
        // About an eccentric's axis a smaller section stands out by its throw.
        let stands = |p| if op.throw.is_some() { swept(given, op, p) } else { crate::chain::Piece::smallest(p) };
        if outboard.map(stands).max().is_some_and(|d| d > size) {
            rows.push(point(given, setup, "start", from));
        }
    }
    rows.extend(op.to.map(|to| point(given, setup, stop, to)));
    rows
}

/// Whether a finishing cut ends at a shoulder or just ends.
pub(super) fn stop_word(given: &Given, setup: &Setup, op: &Operation) -> &'static str {
    let (Some(to), Some(end), Some(size)) = (op.to, at_tailstock(setup), op.to_diameter) else { return "end" };
    let beyond = given.profile.pieces.iter().find(|p| match end {
        End::Datum => p.from == to,
        End::Far => p.to == to,
    });
    // Beside an eccentric a smaller section stands out on one side.
    if beyond.is_some_and(|p| swept(given, op, p) > size) { "shoulder" } else { "end" }
}

/// Plunges of a groove by the tool's left edge: both walls, evenly between them, as few as cover the width. Without a tool that
/// fits, the two walls, each with the edge that cuts it. No text found prints the step as a share of the width; insert makers want a groove widened in
/// steps and its walls and bottom finished last (Kyocera catalogue 2016/17, G106), which the remark at the operation says.
fn plunges(given: &Given, setup: &Setup, op: &Operation, tool_width: Option<Length>) -> Vec<Position> {
    let (Some(from), Some(to), Some(end)) = (op.from, op.to, at_tailstock(setup)) else { return Vec::new() };
    let (a, b) = (carriage(from, end, given.overall), carriage(to, end, given.overall));
    let (near, far) = (a.min(b), a.max(b));
    let width = far - near;
    let place = |reading| station(reading, end, given.overall);
    let Some(tool) = tool_width.filter(|w| w.is_positive() && *w <= width) else {
        return vec![
            row(given, "near wall", place(near), Some(near), Edge::Right),
            row(given, "far wall", place(far), Some(far), Edge::Left),
        ];
    };
    let count = cutting::plunges(width, Some(tool));
    let steps = i64::from(count) - 1;
    (0..=steps)
        .map(|i| {
            let left = if steps == 0 { far } else { near + tool + (width - tool).times_ratio(i, steps) };
            let serves = if i == 0 && steps > 0 { near } else { left };
            row(given, &format!("plunge {}", i + 1), place(serves), Some(left), Edge::Left)
        })
        .collect()
}

/// Where a thread ends and by where the tool must be out; for a left-hand thread where it begins and runs off.
fn thread_ends(given: &Given, setup: &Setup, op: &Operation) -> Vec<Position> {
    let (Some(thread), Some(from), Some(to), Some(end)) = (thread_of(given, op), op.from, op.to, at_tailstock(setup))
    else {
        return Vec::new();
    };
    let relief = relief_of(given, setup, op, thread);
    let reading = carriage(to, end, given.overall);
    let place = |reading| station(reading, end, given.overall);
    // In the middle of the relief: at its wall the tool's left flank would stand in the shoulder. Without one nothing lets the tool in: it
    // is cut toward the shoulder like a right-hand thread, the tool upside down or the spindle reversed.
    if let (Hand::Left, Some((width, Some(_)))) = (thread.hand, relief) {
        let begin = place(reading + width.half());
        return vec![point(given, setup, "begins in the relief", begin), point(given, setup, "runs off", from)];
    }
    // A relief lies beyond the thread's section, a run-out inside it.
    let (full, out) = match relief {
        Some((width, Some(_))) => (reading, Some(reading + width)),
        Some((width, None)) => (reading - width, Some(reading)),
        None => (reading, None),
    };
    let mut rows = vec![point(given, setup, "thread ends", place(full))];
    rows.extend(out.map(|reading| point(given, setup, "out by", place(reading))));
    rows
}

/// Where the middle of a milling cutter goes.
fn cutter_places(given: &Given, setup: &Setup, op: &Operation) -> Vec<Position> {
    let row = |what: &str, at: Figure| point(given, setup, what, Station(at.value));
    if let Some(flats) = flats_cut(given, op) {
        return vec![row("flat from", flats.along.from), row("flat to", flats.along.to)];
    }
    let Some(key) = keyseat_cut(given, op) else { return Vec::new() };
    match (key.center, key.cutter_center) {
        (Some(center), _) => vec![row("cutter centre", center)],
        (None, Some(path)) => vec![row("cutter centre from", path.from), row("cutter centre to", path.to)],
        (None, None) => Vec::new(),
    }
}

/// Parting: the edge toward the tailstock leaves the face.
fn part_off(given: &Given, setup: &Setup, op: &Operation) -> Vec<Position> {
    let (Some(at), Some(end)) = (op.to.or(op.from), at_tailstock(setup)) else { return Vec::new() };
    vec![row(given, "part off", at, Some(carriage(at, end, given.overall)), Edge::Right)]
}

/// Whether an operation is an undercut in a corner.
pub(super) fn is_undercut(given: &Given, op: &Operation) -> bool {
    op.feature.and_then(|f| given.feature(f)).is_some_and(|f| matches!(f.kind, Kind::Undercut { .. }))
}

/// Width of the grooving tool to use, as the minutes are counted with it.
pub(super) fn groove_tool(given: &Given, op: &Operation) -> Option<Length> {
    cutting::groove_tool(given.shop, op.tool, op)
}

/// Corner radius asked at a face, if the description gives one.
pub(super) fn fillet_at(given: &Given, at: Station) -> Option<Length> {
    given.part.features.iter().find_map(|f| match &f.kind {
        Kind::Fillet { radius, at: place } if given.chain.station(place) == Some(at) => Some(radius.max()),
        _ => None,
    })
}
