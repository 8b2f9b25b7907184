//! The figures of what is cut inside: drilling steps and depths, the reamer, the tap, the internal thread's infeed.

use super::comes_out::{in_the_bar, tapped_blind, through};
use super::given::{Given, at_tailstock, carriage};
use super::inside_thread::{HoleThread, of_thread, threaded};
use super::{CrossDial, DialReading, Engage, Figure, Gearbox, Passes, Speed, Touch, cross_hole, dial, passes};
use crate::handbook::drill::{drills, leads, point_length};
use crate::model::Kind;
use crate::model::feature::{Hand, ThreadForm};
use crate::model::inside::{InsideCut, Tapped};
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::shop::ToolKind;
use crate::plan::cutter::drill_steps;
use crate::plan::{least_bored, rough_depth};
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// One line of what a hole needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoleLine {
    /// What it is about: `Drills`, `Depth`.
    pub label: String,
    /// What counts.
    pub value: String,
    /// What is to be known with it.
    pub note: String,
}

/// Everything for a cut inside.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HoleCut {
    /// Drills in order, the last the size to drill; empty for other cuts.
    pub steps: Vec<Figure>,
    /// Depth from the face to the full diameter, or of full thread; none where it goes through.
    pub depth: Option<Figure>,
    /// Depth from the face to the drill's point.
    pub to_point: Option<Figure>,
    /// `depth` on the tailstock's handwheel, where the shop file has its dial.
    pub tailstock: Option<DialReading>,
    /// The thread that is tapped, cut or drilled for.
    pub thread: Option<HoleThread>,
    /// How a hole across is found.
    pub touch: Option<super::CrossTouch>,
    /// Share of the full thread that the drilled hole leaves, percent.
    pub percent: Option<f64>,
    /// Turns of the tap from the first thread to the full depth.
    pub turns: Option<f64>,
    /// Cumulative infeed a side of an internal thread, straight in toward the operator.
    pub infeed: Vec<Figure>,
    /// The same on the cross dial, as it counts; empty where the shop file does not say what it reads.
    pub on_dial: Vec<DialReading>,
    /// How the lathe gets the lead of an internal thread.
    pub gearbox: Option<Gearbox>,
    /// Where the half-nuts may be closed for it.
    pub half_nuts: Option<Engage>,
    /// Seconds the tool is in the relief behind it; none where it has none, goes through, or begins there.
    pub relief_time: Option<f64>,
    /// Which way the carriage goes.
    pub direction: String,
    /// All of it in words and digits.
    pub lines: Vec<HoleLine>,
}

/// The thread an operation inside or across cuts.
pub(super) fn tapped_of<'a>(given: &Given<'a>, op: &Operation) -> Option<&'a Tapped> {
    given.feature(op.feature?)?.tapped()
}

pub(super) fn line(label: &str, value: String, note: impl Into<String>) -> HoleLine {
    HoleLine { label: label.to_owned(), value, note: note.into() }
}

/// The block of a cut inside, or of a tapped hole across.
pub(super) fn hole_cut(given: &Given, setup: &Setup, op: &Operation, speed: Option<&Speed>) -> Option<HoleCut> {
    match op.verb {
        Verb::Drill => Some(drilled(given, setup, op)),
        Verb::Ream => Some(reamed(given, setup, op)),
        Verb::Tap => tap(given, setup, op),
        Verb::Thread => threaded(given, setup, op, speed),
        Verb::Bore => Some(bored(given, setup, op)),
        _ => None,
    }
}

/// Depth from the face at the tailstock, or from the surface of a hole across; none where it goes through.
fn depth(given: &Given, setup: &Setup, op: &Operation) -> Option<Length> {
    if let Kind::CrossHole { deep, .. } = &given.feature(op.feature?)?.kind {
        return deep.as_ref().map(|d| d.nominal);
    }
    let through = given.profile.hollows.iter().any(|h| Some(h.feature) == op.feature && h.through);
    let end = at_tailstock(setup)?;
    op.to.map(|to| carriage(to, end, given.overall)).filter(|_| !through)
}

fn drilled(given: &Given, setup: &Setup, op: &Operation) -> HoleCut {
    let unit = given.unit;
    let text = |f: Figure| f.text(unit);
    let size = op.to_diameter.unwrap_or_default();
    let steps = if op.from_diameter.is_some() { vec![sized(given, size)] } else { steps(given, size) };
    let mut cut = HoleCut::default();
    let names: Vec<String> = steps.iter().map(|s| drill_name(given, s.value)).collect();
    let spot = if op.from_diameter.is_some() {
        told!("in the hole that is there", "in das vorhandene Loch")
    } else {
        told!("spot with the center drill first", "zuerst mit dem Zentrierbohrer anbohren")
    };
    cut.lines.push(line(told!("Drill", "Bohrer"), names.join(told!(", then ", ", dann ")), spot));
    let across_deep =
        op.feature.and_then(|f| given.feature(f)).is_some_and(|f| matches!(f.kind, Kind::CrossHole { .. }));
    cross_hole::touch_off(given, op, &mut cut);
    let wall = cross_hole::wall(given, op).map(|w| cross_hole::drilled_through(given, w));
    if let Some(deep) = depth(given, setup, op) {
        let full = Figure::usual(deep, unit);
        let point = Figure::usual(deep + point_length(size), unit);
        let note = if across_deep {
            tell!(
                "from the surface to the full diameter: {} from where the point touches the top",
                "ab Oberfläche bis zum vollen Durchmesser: {} ab da, wo die Bohrerspitze die Kuppe berührt",
                text(point)
            )
        } else {
            tell!(
                "from the face to the full diameter; {} to the point",
                "ab Planfläche bis zum vollen Durchmesser; {} bis zur Bohrerspitze",
                text(point)
            )
        };
        cut.lines.push(wall.unwrap_or_else(|| line(depth_label(), text(full), note)));
        cut.tailstock = op.inside.then(|| tailstock(given, deep)).flatten();
        (cut.depth, cut.to_point) = (Some(full), Some(point));
    } else if let Some(wall) = wall {
        cut.lines.push(wall);
    } else {
        let deep = in_the_bar(given, setup, op).filter(|_| op.inside);
        cut.to_point = deep.map(|deep| Figure::usual(deep + point_length(size), unit));
        cut.lines.push(through(
            given,
            setup,
            op,
            told!("ease the feed as the point comes out", "Vorschub zurücknehmen, wenn die Spitze durchkommt"),
        ));
    }
    cut.lines.extend(squared_bottom(given, setup, op));
    let long = depth(given, setup, op).or_else(|| Some((op.to? - op.from?).abs()));
    if !across_deep && long.is_some_and(|l| l > size.times(3)) {
        cut.lines.push(chips(given, size));
    }
    if let Some(deep) = long.filter(|l| !across_deep && *l > size.times(LONG_DRILL)) {
        cut.lines.push(reaches(given, deep));
    }
    let in_bar = in_the_bar(given, setup, op).filter(|_| op.inside).and_then(|deep| tailstock(given, deep));
    if let Some(reading) = cut.tailstock.or(in_bar) {
        let turns = turns_text(&reading, unit);
        cut.lines.push(line(
            told!("Handwheel", "Handrad"),
            turns,
            told!(
                "of the tailstock, from where the full diameter meets the face",
                "am Reitstock, ab da, wo der volle Durchmesser die Planfläche trifft"
            ),
        ));
    }
    // A smaller hole is bored out before the thread is cut: it leaves no thread yet.
    if let Some(thread) = tapped_of(given, op).filter(|t| size >= t.minor.min) {
        cut.percent = percent(thread, size);
        cut.thread = Some(of_thread(thread, given.unit));
        if let Some(percent) = cut.percent {
            let high = Figure::fine(full_height(thread), unit).text(unit);
            let note = tell!(
                "of the full thread, .6495 P = {high} a side, for {}",
                "der vollen Gewindehöhe, 0,6495 P = {high} je Seite, für {}",
                thread.designation
            );
            cut.lines.push(line(told!("Leaves", "Lässt"), format!("{percent:.0} %"), note));
        }
    }
    cut.steps = steps;
    cut
}

/// Diameters from which a usual drill may be too short: those of a common jobbers' length cut about eight to ten deep (common practice, no source).
const LONG_DRILL: i64 = 8;

/// How far the flutes of a drill must reach.
fn reaches(given: &Given, deep: Length) -> HoleLine {
    let note = told!(
        "of flutes, or they pack: an extra long drill, ground alike on both lips, or halfway from either end",
        "Nutenlänge, sonst verstopft er: ein überlanger Bohrer, beide Schneiden gleich, oder halb von jeder Seite"
    );
    line(told!("Must reach", "Muss reichen"), Figure::usual(deep, given.unit).text(given.unit), note)
}

/// Drilling deeper than three diameters packs the flutes (common practice, no source).
fn chips(given: &Given, size: Length) -> HoleLine {
    let text = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let note = tell!(
        "past {} deep: out of the hole every {}, brush the chips off, cutting oil in",
        "tiefer als {}: alle {} ganz heraus, Späne abpinseln, Öl nachgeben",
        text(size.times(3)),
        text(size)
    );
    line(told!("Chips", "Späne"), told!("draw back", "ausräumen").to_owned(), note)
}

/// Height of a full 60° thread a side, 0.6495 P: what a percentage of thread counts from (Machinery's Handbook, "Percentage of full thread").
fn full_height(thread: &Tapped) -> Length {
    thread.pitch.times_ratio(64_952, 100_000)
}

/// 60° threads: (nominal − hole) / (1.299 P).
fn percent(thread: &Tapped, hole: Length) -> Option<f64> {
    let full = 2.0 * 0.649_519_05 * thread.pitch.mm();
    let share = (thread.nominal - hole).mm() / full * 100.0;
    (thread.form == ThreadForm::V60).then_some(share)
}

/// A drill's diameter in as many digits as it needs.
fn sized(given: &Given, size: Length) -> Figure {
    let usual = crate::unit::show::usual_decimals(given.unit);
    Figure::new(size, crate::unit::show::decimals_needed(size, given.unit, usual.min(1), usual + 1))
}

/// As stamped, with its size where the stamp does not say it: `7/16`, `No. 7 (.201)`, `8.5 mm`.
fn drill_name(given: &Given, size: Length) -> String {
    let metric = given.unit == Unit::Millimetre;
    let found = drills()
        .iter()
        .find(|d| d.diameter == size && (d.series == crate::handbook::drill::Series::Millimetre) == metric);
    let shown = sized(given, size).text(given.unit);
    match found {
        Some(d) if metric => d.name.clone(),
        Some(d) if d.name.contains('/') => format!("{} ({shown})", d.name),
        Some(d) if d.name.chars().all(|c| c.is_ascii_digit()) && size < Length::PER_INCH => {
            format!("No. {} ({shown})", d.name)
        }
        Some(d) => format!("{} ({shown})", d.name),
        // A metric drill in an inch shop's drawer, or the other way about.
        None => match drills().iter().find(|d| d.diameter == size) {
            Some(d) if !metric => format!("{} ({shown})", d.name),
            _ => format!("Ø {shown}"),
        },
    }
}

/// The drills for a hole, in order; for what only leads, the nearest of the drawer that is a quarter larger or smaller at most.
fn steps(given: &Given, size: Length) -> Vec<Figure> {
    let own = || given.shop.into_iter().flat_map(|s| s.tools_of(ToolKind::Drill)).filter_map(|t| t.diameter);
    let near = |l: Length| own().filter(|d| leads(*d, l)).min_by_key(|d| (*d - l).abs());
    let at_hand = |l: Length| if l == size { l } else { near(l).unwrap_or(l) };
    drill_steps(given.unit, size).into_iter().map(|l| sized(given, at_hand(l))).collect()
}

fn tailstock(given: &Given, deep: Length) -> Option<DialReading> {
    let shop = given.shop?;
    Some(DialReading::of(deep, shop.tailstock_dial?, shop.units.unwrap_or(given.unit)))
}

fn turns_text(reading: &DialReading, unit: Unit) -> String {
    let rest = reading.rest_text(unit);
    match (reading.turns, reading.rest.value.is_positive()) {
        (0, _) => rest,
        (1, false) => told!("1 turn", "1 Umdr.").to_owned(),
        (n, false) => tell!("{n} turns", "{n} Umdr."),
        (1, true) => tell!("1 turn + {rest}", "1 Umdr. + {rest}"),
        (n, true) => tell!("{n} turns + {rest}", "{n} Umdr. + {rest}"),
    }
}

fn reamed(given: &Given, setup: &Setup, op: &Operation) -> HoleCut {
    let mut cut = HoleCut::default();
    let left = op.from_diameter.zip(op.to_diameter).map(|(from, to)| Figure::fine(to - from, given.unit));
    if let Some(left) = left {
        let note = told!(
            "on the diameter for it to take; oil, one pass, never turned backward",
            "im Durchmesser zum Reiben; Öl, ein Durchgang, nie rückwärts drehen"
        );
        let left = left.text(given.unit);
        cut.lines.push(line(told!("Reamer", "Reibahle"), tell!("{left} left", "{left} bleiben"), note));
    }
    depth_line(given, setup, op, &mut cut, told!("to the full diameter", "bis zum vollen Durchmesser"));
    cut.lines.extend(squared_bottom(given, setup, op));
    cut
}

/// A blind `bore` too small for a boring tool is drilled or reamed to size: its bottom is still to be squared.
fn squared_bottom(given: &Given, setup: &Setup, op: &Operation) -> Option<HoleLine> {
    depth(given, setup, op)?;
    let Kind::Inside(inside) = &given.feature(op.feature?)?.kind else { return None };
    let InsideCut::Bore { hole: false, drill_depth: None, diameter, .. } = &inside.cut else { return None };
    let small = op.to_diameter? == diameter.nominal && diameter.nominal < least_bored(given.unit);
    small.then(|| {
        let note = told!(
            "last, with a drill of this size ground flat or an end mill: to the same depth",
            "zuletzt mit einem flach geschliffenen Bohrer dieser Größe oder einem Schaftfräser: auf dieselbe Tiefe"
        );
        line(told!("Bottom", "Grund"), told!("flat", "eben").to_owned(), note)
    })
}

fn bored(given: &Given, setup: &Setup, op: &Operation) -> HoleCut {
    let mut cut = HoleCut::default();
    let note =
        told!("from the face; the last cut faces the bottom", "ab Planfläche; der letzte Schnitt dreht den Grund plan");
    depth_line(given, setup, op, &mut cut, note);
    cut
}

pub(super) fn depth_line(given: &Given, setup: &Setup, op: &Operation, cut: &mut HoleCut, note: &str) {
    if let Some(deep) = depth(given, setup, op) {
        let full = Figure::usual(deep, given.unit);
        cut.depth = Some(full);
        cut.lines.push(line(depth_label(), full.text(given.unit), note));
    } else {
        cut.lines.push(through(given, setup, op, ""));
    }
}

pub(super) fn depth_label() -> &'static str {
    told!("Depth", "Tiefe")
}

fn tap(given: &Given, setup: &Setup, op: &Operation) -> Option<HoleCut> {
    let thread = tapped_of(given, op)?;
    let mut cut = HoleCut { thread: Some(of_thread(thread, given.unit)), ..HoleCut::default() };
    let hand = if thread.hand == Hand::Left { told!(", left hand", ", links") } else { "" };
    let how = if op.inside {
        told!(
            "held square by the tailstock center; the chuck turned by hand, or the slowest gear",
            "mit der Reitstockspitze gerade geführt; Futter von Hand gedreht oder langsamster Gang"
        )
    } else {
        told!("square to the surface; by hand", "rechtwinklig zur Oberfläche; von Hand")
    };
    cut.lines.push(line(told!("Tap", "Gewindebohrer"), format!("{}{hand}", thread.designation), how));
    if let Some(taper) = thread.taper {
        let turn = Figure::usual(taper.gauge_tolerance, given.unit).text(given.unit);
        let note = tell!(
            "by hand: its notch flush with the face, one turn ({turn}) either way; tap until it is, no deeper",
            "von Hand: Kerbe bündig mit der Planfläche, eine Umdrehung ({turn}) mehr oder weniger; bis dahin schneiden, nicht tiefer"
        );
        let gauge = tell!("plug gauge {}", "Lehrdorn {}", thread.designation);
        cut.lines.push(line(told!("Proof", "Probe"), gauge, note));
        cut.lines.push(line(
            told!("Taper", "Kegel"),
            format!("1:{}", taper.one_in),
            told!(
                "the tap cuts it all along: oil, back off every quarter turn",
                "der Gewindebohrer schneidet auf ganzer Länge: Öl, alle Viertelumdrehung zurückdrehen"
            ),
        ));
    }
    let blind = depth(given, setup, op);
    cut.depth = blind.map(|deep| Figure::usual(deep, given.unit));
    if let Some(wall) = cross_hole::wall(given, op) {
        cut.lines.push(cross_hole::tapped_through(given, wall, thread));
    } else if let Some(deep) = blind {
        let full = Figure::usual(deep, given.unit);
        let turns = deep.mm() / thread.lead.mm();
        cut.turns = Some((turns * 10.0).round() / 10.0);
        let note = tell!(
            "of full thread: about {turns:.1} turns; back off every half turn, clear the chips{}",
            "volles Gewinde: etwa {turns:.1} Umdrehungen; alle halbe Umdrehung zurückdrehen, Späne räumen{}",
            cross_hole::bottoming(op)
        );
        cut.lines.push(line(depth_label(), full.text(given.unit), note));
    } else if let Some((full, tip)) = tapped_blind(given, setup, op, thread) {
        let (turns, full) = (tip.mm() / thread.lead.mm(), Figure::usual(full, given.unit).text(given.unit));
        let note = tell!(
            "blind, bar still stands behind: do not bottom. A plug tap, about {turns:.1} turns: {full} of full thread and its lead; back off every half turn, clear the chips",
            "Grundloch, dahinter steht noch Rohteil: nicht auf Grund. Mittelschneider, etwa {turns:.1} Umdrehungen: {full} volles Gewinde und der Anschnitt; alle halbe Umdrehung zurückdrehen, Späne räumen"
        );
        cut.lines.push(line(depth_label(), Figure::usual(tip, given.unit).text(given.unit), note));
    } else {
        let note = told!("back off every half turn", "alle halbe Umdrehung zurückdrehen");
        cut.lines.push(line(depth_label(), told!("through", "durch").to_owned(), note));
    }
    Some(cut)
}

/// Cuts of a boring tool: as in turning, with half the depth (a bar springs), and readings that grow.
pub(super) fn bore_passes(given: &Given, from: Figure, to: Figure, close: bool) -> Option<Passes> {
    let most = rough_depth(given.part, given.shop).0.half();
    let mut list = passes::no_deeper(most, to, from, close, given.unit, given.shop)?;
    for (i, cut) in list.cuts.iter_mut().enumerate() {
        if let (Some(depth), Some(reads)) = (cut.depth, cut.should_read.as_mut()) {
            let taken = depth.value.times(2).times_ratio(i64::try_from(i).unwrap_or(0) + 1, 1);
            *reads = Figure::new(from.value + taken, reads.decimals);
        }
    }
    Some(list)
}

/// The cross dial of a boring cut: zero where the tool touches the wall of the hole, then out toward the operator.
pub(super) fn outward(given: &Given, from: Figure, to: Figure, op: &Operation) -> Option<CrossDial> {
    let zero = Touch { diameter: from, feature: op.feature, now: true };
    dial::cross_dial(to, from, zero, given.shop, given.unit).map(|mut d| {
        d.from_zero = d.infeed;
        d
    })
}
