//! Which lines are worth scribing.
//!
//! On the blank: both ends of a kept surface, where lines survive, and how far dog or jaws may reach. After roughing: every other step,
//! on the larger neighbour while it is rough, and the walls of a relief on its blank. None on what is finished already.

use super::given::{Given, at_tailstock, carriage, station};
use super::lying::may_be_pricked;
use super::marks::{Leave, Mark};
use super::thread_cut::{relief_of, thread_of};
use super::{Figure, scale};
use crate::chain::Piece;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Kind, Plan};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// A line before it has its label.
pub(super) struct Line {
    pub(super) at: Station,
    /// Less is worth more, when there are too many.
    pub(super) worth: u8,
    diameter: Length,
    on: String,
    feature: Option<usize>,
    after: u32,
    means: String,
    leave: Leave,
    grip_of: Option<u32>,
    /// The end at the tailstock of a lathe the work stays in.
    in_lathe: Option<End>,
}

impl Line {
    /// With its label and the height gauge's setting for the face the bar stands on.
    pub(super) fn mark(self, given: &Given, label: String, standing: End) -> Mark {
        let shown = |l| Figure::usual(l, given.unit);
        let gauge = match standing {
            End::Datum => self.at - Station::DATUM,
            End::Far => self.at.from_far_end(given.overall),
        };
        Mark {
            label,
            from_datum: shown(self.at - Station::DATUM),
            height_gauge: shown(gauge),
            on_scale: scale::on_scale(given, "height gauge", Some(shown(gauge)), None),
            carriage: self.in_lathe.map(|end| shown(carriage(self.at, end, given.overall))),
            on_diameter: shown(self.diameter),
            on: self.on,
            feature: self.feature,
            after: self.after,
            means: self.means,
            leave: self.leave,
            prick: self.feature.is_none() && may_be_pricked(given, self.at, self.diameter),
            grip_of: self.grip_of,
        }
    }
}

/// The first list: when it is scribed, on which face the bar then stands, its lines.
pub(super) struct Blank {
    pub(super) when: String,
    pub(super) standing: End,
    pub(super) lines: Vec<Line>,
}

const fn cuts_metal_away(verb: Verb) -> bool {
    matches!(verb, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Taper | Verb::Thread | Verb::Knurl)
}

/// Lines on the bar's own surface.
pub(super) fn blank(given: &Given, plan: &Plan) -> Blank {
    let operations: Vec<(&Setup, &Operation)> = plan.operations().collect();
    let first_cut = operations.iter().position(|(_, o)| cuts_metal_away(o.verb)).unwrap_or(operations.len());
    let faced = |end| operations[..first_cut].iter().any(|(_, o)| o.verb == Verb::Face && o.end == Some(end));
    let standing = if !faced(End::Datum) && faced(End::Far) { End::Far } else { End::Datum };
    let last_before = first_cut.checked_sub(1).and_then(|i| operations.get(i));
    let same_mounting = last_before.zip(operations.get(first_cut)).is_some_and(|(a, b)| a.0.number == b.0.number);
    let when = match last_before {
        Some((setup, op)) if same_mounting => {
            tell!(
                "in setup {}, after operation {}: pointed tool",
                "in Spannlage {}, nach Arbeitsgang {}: Spitzstahl",
                setup.number,
                op.number
            )
        }
        _ if is_tall(given) && first_cut < operations.len() => {
            let (setup, op) = operations[first_cut];
            tell!(
                "in setup {}, before operation {}: pointed tool",
                "in Spannlage {}, vor Arbeitsgang {}: Spitzstahl",
                setup.number,
                op.number
            )
        }
        Some((setup, _)) => tell!("after setup {}", "nach Spannlage {}", setup.number),
        None => told!("before setup 1", "vor Spannlage 1").to_owned(),
    };
    let from_setup = operations.get(first_cut).map_or(u32::MAX, |(s, _)| s.number);
    let mut lines = kept_ends(given);
    // What is scribed in the chuck is set by the carriage.
    let in_lathe = same_mounting || is_tall(given);
    let chucked =
        operations.get(first_cut).filter(|_| in_lathe).and_then(|(s, _)| Some((stays_in_lathe(given, s)?, s)));
    if let Some((end, setup)) = chucked {
        for line in &mut lines {
            line.in_lathe = Some(end);
        }
        lines.retain(|line| is_out_of_jaws(setup, end, line.at));
    }
    let when = match last_before {
        // Nothing but where later jaws and dogs may reach: that is scribed when the work is out of the chuck again.
        Some(_) if same_mounting && lines.is_empty() => {
            tell!("after setup {from_setup}", "nach Spannlage {from_setup}")
        }
        _ => when,
    };
    // No line tells where jaws go that hold the work already when it can be scribed: there the stick-out does.
    let first_told = if in_lathe { from_setup.saturating_add(1) } else { from_setup };
    for setup in plan.setups.iter().filter(|s| s.number >= first_told) {
        if let Some(line) = grip_line(given, setup)
            && lines.iter().all(|l| l.at != line.at)
        {
            lines.push(line);
        }
    }
    Blank { when, standing, lines }
}

fn is_kept(given: &Given, piece: &Piece) -> bool {
    given.feature(piece.feature).is_some_and(|f| matches!(f.kind, Kind::Turn { kept: true, .. }))
}

fn bar(given: &Given) -> Length {
    let stock = given.part.stock.as_ref().map(|s| s.size.nominal);
    stock.or_else(|| given.profile.largest()).unwrap_or_default()
}

/// Both ends of every kept surface.
fn kept_ends(given: &Given) -> Vec<Line> {
    let mut lines = Vec::new();
    for pair in given.profile.pieces.windows(2) {
        let (p, q) = (&pair[0], &pair[1]);
        let (kept, word) = match (is_kept(given, p), is_kept(given, q)) {
            (true, false) => (p, told!("ends", "endet")),
            (false, true) => (q, told!("starts", "beginnt")),
            _ => continue,
        };
        let spoken = given.spoken(kept.feature);
        lines.push(Line {
            at: q.from,
            worth: 0,
            diameter: bar(given),
            on: tell!("bar, {spoken}", "Rohteil, {spoken}"),
            feature: Some(kept.feature),
            after: 0,
            means: format!("{spoken} {word}"),
            leave: Leave::Line,
            grip_of: None,
            in_lathe: None,
        });
    }
    lines
}

/// How far dog or jaws may reach on the bar.
fn grip_line(given: &Given, setup: &Setup) -> Option<Line> {
    let grip = setup.grip.as_ref()?;
    let end = at_tailstock(setup)?;
    let on_bar = grip.letter.is_empty() || grip.diameter == bar(given);
    let at = match end {
        End::Datum => grip.from.min(grip.to),
        End::Far => grip.from.max(grip.to),
    };
    let inside = Station::DATUM < at && at < Station(given.overall);
    let means = if setup.holding == Holding::BetweenCenters {
        tell!("dog reaches no farther (setup {})", "weiter reicht das Drehherz nicht (Spannlage {})", setup.number)
    } else {
        tell!("jaws reach no farther (setup {})", "weiter reichen die Backen nicht (Spannlage {})", setup.number)
    };
    (on_bar && inside).then(|| Line {
        at,
        worth: 1,
        diameter: grip.diameter,
        on: told!("bar", "Rohteil").to_owned(),
        feature: None,
        after: 0,
        means,
        leave: Leave::Line,
        grip_of: Some(setup.number),
        in_lathe: None,
    })
}

/// Lines on rough surfaces.
pub(super) fn after_roughing(given: &Given, plan: &Plan) -> Vec<Line> {
    let operations: Vec<(&Setup, &Operation)> = plan.operations().collect();
    let steps = given.profile.pieces.windows(2).filter_map(|pair| rough_line(given, &operations, &pair[0], &pair[1]));
    steps.chain(operations.iter().filter_map(|(setup, op)| full_thread(given, &operations, setup, op))).collect()
}

/// The end of the work at the tailstock, where a chuck holds it and taking it out would lose its truth, or it would stand too tall on a
/// plate.
fn stays_in_lathe(given: &Given, setup: &Setup) -> Option<End> {
    let chuck = matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest);
    at_tailstock(setup).filter(|_| chuck || is_tall(given))
}

/// Too slender or too heavy to be stood on its end.
fn is_tall(given: &Given) -> bool {
    let slender = given.overall > bar(given).times(TALL_DIAMETERS);
    slender || super::bar::is_heavy(given)
}

/// Diameters of height that stand on a plate without an angle plate and a strap (common practice, no source).
const TALL_DIAMETERS: i64 = 10;

/// Whether a place stands out of the jaws of a mounting, on the tailstock's side.
fn is_out_of_jaws(setup: &Setup, end: End, at: Station) -> bool {
    setup.grip.as_ref().is_none_or(|grip| match end {
        End::Datum => at < grip.from.min(grip.to),
        End::Far => at > grip.from.max(grip.to),
    })
}

/// How far a thread with a run-out is full, on its blank: the thread itself cuts the line away.
fn full_thread(given: &Given, operations: &[(&Setup, &Operation)], setup: &Setup, op: &Operation) -> Option<Line> {
    if op.verb != Verb::Thread {
        return None;
    }
    let (thread, end, feature) = (thread_of(given, op)?, at_tailstock(setup)?, op.feature?);
    let (width, None) = relief_of(given, setup, op, thread)? else { return None };
    let at = station(carriage(op.to?, end, given.overall) - width, end, given.overall);
    let blank = operations
        .iter()
        .find(|(_, o)| matches!(o.verb, Verb::Finish | Verb::Turn) && covers(o, feature) && o.to_diameter.is_some())?;
    let diameter = blank.1.to_diameter?;
    let letter = given.feature(feature).map_or(String::new(), |f| f.letter.clone());
    Some(Line {
        at,
        worth: 1,
        diameter,
        on: tell!("{letter} at {}", "{letter} bei {}", Figure::usual(diameter, given.unit).text(given.unit)),
        feature: Some(feature),
        after: blank.1.number,
        means: tell!("{} full to here", "{} voll bis hier", given.spoken(feature)),
        leave: Leave::Split,
        grip_of: None,
        in_lathe: stays_in_lathe(given, blank.0),
    })
}

fn covers(op: &Operation, feature: usize) -> bool {
    op.feature == Some(feature) || op.with.contains(&feature)
}

fn rough_line(given: &Given, operations: &[(&Setup, &Operation)], p: &Piece, q: &Piece) -> Option<Line> {
    if is_kept(given, p) || is_kept(given, q) || p.largest() == q.largest() {
        return None;
    }
    let (large, small) = if p.largest() > q.largest() { (p, q) } else { (q, p) };
    let at = q.from;
    let uses = operations.iter().position(|(_, o)| {
        matches!(o.verb, Verb::Finish | Verb::Turn | Verb::Groove | Verb::Taper) && covers(o, small.feature)
    })?;
    // Two sections finished in one cut have no step between them.
    if covers(operations[uses].1, large.feature) {
        return None;
    }
    let is_thread = given.feature(large.feature).is_some_and(|f| matches!(f.kind, Kind::Thread { .. }));
    let leaves_it = |o: &Operation| {
        let blank = is_thread && matches!(o.verb, Verb::Finish | Verb::Turn);
        (o.verb == Verb::Rough || blank) && covers(o, large.feature) && o.to_diameter.is_some()
    };
    let own = operations[..uses].iter().rposition(|(_, o)| leaves_it(o))?;
    let surface = operations[own].1;
    // The marking is done in one go when the roughing of that mounting is over.
    let same_run = |i: &usize| {
        let (setup, op) = operations[*i];
        op.verb == Verb::Rough && setup.number == operations[own].0.number && *i < uses
    };
    let last = if surface.verb == Verb::Rough { (own + 1..operations.len()).take_while(same_run).last() } else { None };
    let until = last.unwrap_or(own);
    let after = operations[until].1.number;
    let relief = given.feature(small.feature).is_some_and(|f| matches!(f.kind, Kind::Relief { .. }));
    let seat = |piece: &Piece| given.feature(piece.feature).is_some_and(|f| !f.carries.is_empty());
    let leave = if seat(large) && !relief { Leave::Line } else { Leave::Split };
    let letter = |piece: &Piece| given.feature(piece.feature).map_or(String::new(), |f| f.letter.clone());
    let diameter = surface.to_diameter?;
    let deeper = operations[own + 1..=until].iter().any(|(_, o)| covers(o, small.feature));
    let name = if covers(surface, small.feature) && !deeper {
        format!("{}\u{2013}{}", letter(p), letter(q))
    } else {
        letter(large)
    };
    Some(Line {
        at,
        worth: match (relief, leave) {
            (true, _) => 0,
            (false, Leave::Split) => 1,
            (false, Leave::Line) => 2,
        },
        diameter,
        on: tell!("{name} at {}", "{name} bei {}", Figure::usual(diameter, given.unit).text(given.unit)),
        feature: Some(large.feature),
        after,
        means: means(given, p, q),
        leave,
        grip_of: None,
        in_lathe: stays_in_lathe(given, operations[own].0),
    })
}

/// What a face is, by the more important of its two sections: a seat, then a thread, then a relief.
fn means(given: &Given, p: &Piece, q: &Piece) -> String {
    let rank = |piece: &Piece| match given.feature(piece.feature) {
        Some(f) if matches!(f.kind, Kind::Thread { .. }) => 1,
        Some(f) if !f.carries.is_empty() => 0,
        Some(f) if matches!(f.kind, Kind::Relief { .. }) => 2,
        _ => 3,
    };
    if rank(p) <= rank(q) {
        tell!("{} ends", "{} endet", given.spoken(p.feature))
    } else {
        tell!("{} starts", "{} beginnt", given.spoken(q.feature))
    }
}
