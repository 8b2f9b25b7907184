//! Threads inside: the infeed, which way the carriage goes, the time a relief gives.

use super::given::Given;
use super::inside::{HoleCut, depth_line, line, tapped_of};
use super::speed::relief_seconds;
use super::thread_drive::{engage, gearbox};
use super::{Figure, Speed, dial};
use crate::model::feature::{Hand, Thread};
use crate::model::inside::Tapped;
use crate::model::plan::{Operation, Setup};
use crate::model::shop::Reads;
use crate::plan::{run_out, thread_feed};
use crate::unit::{Limits, Unit};
use crate::{tell, told};

/// What the numbers of a threaded hole are worked from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoleThread {
    /// Nominal diameter.
    pub nominal: Figure,
    /// From one thread to the next.
    pub pitch: Figure,
    /// In one turn.
    pub lead: Figure,
    /// Width of the relief an internal thread runs out into.
    pub relief: Option<Figure>,
}

/// An internal thread cut by one point: straight in, toward the operator.
pub(super) fn threaded(given: &Given, setup: &Setup, op: &Operation, speed: Option<&Speed>) -> Option<HoleCut> {
    let thread = tapped_of(given, op)?;
    let unit = given.unit;
    let from = op.from_diameter?;
    let as_cut = as_thread(thread);
    let travels = thread_feed::passes_inside(thread, from, unit);
    let decimals = crate::unit::show::usual_decimals(unit);
    let relief = run_out::behind(&given.facts(), op);
    let relieved = relief.map(|h| Figure::usual(h.long(), unit));
    let time = relief
        .and(run_out::of_thread(&given.facts(), setup, op))
        .zip(speed)
        .and_then(|(r, s)| relief_seconds(&r, s.rpm()));
    let mut cut = HoleCut {
        infeed: travels.iter().map(|l| Figure::new(*l, decimals)).collect(),
        on_dial: travels.iter().filter_map(|l| dial::cross(*l, given.shop, unit)).collect(),
        gearbox: gearbox(given, &as_cut),
        half_nuts: engage(given, &as_cut),
        relief_time: time,
        direction: way(thread, relief.is_some()),
        thread: Some(HoleThread { relief: relieved, ..of_thread(thread, unit) }),
        ..HoleCut::default()
    };
    let dials: Vec<String> = if cut.on_dial.is_empty() {
        cut.infeed.iter().map(|l| l.text(unit)).collect()
    } else {
        cut.on_dial.iter().map(|d| d.text(unit)).collect()
    };
    let how = match given.shop.and_then(|s| s.cross_reads) {
        Some(Reads::Radius) => told!("cross dial (radius), out toward you", "Planskale (Radius), zu dir hin"),
        Some(Reads::Diameter) => told!("cross dial (diameter), out toward you", "Planskale (Durchmesser), zu dir hin"),
        None => told!("a side, out toward you", "je Seite, zu dir hin"),
    };
    let note = tell!("{how}; then twice more at the last", "{how}; beim letzten noch zweimal");
    cut.lines.push(line(told!("Infeed", "Zustellen"), dials.join("  "), note));
    let (hand, travel) = cut.direction.split_once(": ").unwrap_or(("", &cut.direction));
    cut.lines.push(line(told!("Hand", "Gang"), hand.to_owned(), travel));
    if let Some(gearbox) = &cut.gearbox {
        cut.lines.push(line(told!("Gearbox", "Getriebe"), gearbox.says(unit), ""));
    }
    if let Some(engage) = &cut.half_nuts {
        cut.lines.push(line(told!("Half-nuts", "Schloss"), engage.says.clone(), ""));
    }
    if let Some(seconds) = cut.relief_time {
        let note = if cut.half_nuts.as_ref().is_some_and(|e| e.never_open) {
            told!("to draw the tool out and stop the spindle", "um den Stahl zurückzuziehen und die Spindel anzuhalten")
        } else {
            told!("to open the half-nuts", "um die Schlossmutter zu öffnen")
        };
        cut.lines.push(line(told!("Relief", "Freistich"), format!("{seconds:.1} s"), note));
    }
    let pitch = Figure::fine(thread.pitch_diameter.min, unit).text(unit);
    let most = Figure::fine(thread.pitch_diameter.max, unit).text(unit);
    let note = tell!(
        "or the mating screw; pitch diameter {pitch} to {most}",
        "oder die Gegenschraube; Flankendurchmesser {pitch} bis {most}"
    );
    cut.lines.push(line(told!("Proof", "Probe"), told!("plug gauge", "Lehrdorn").to_owned(), note));
    let note = told!(
        "of full thread, from the face; mark it on the bar",
        "volles Gewinde, ab Planfläche; an der Stange anzeichnen"
    );
    depth_line(given, setup, op, &mut cut, note);
    Some(cut)
}

pub(super) fn of_thread(thread: &Tapped, unit: Unit) -> HoleThread {
    let fine = |l| Figure::fine(l, unit);
    HoleThread { nominal: fine(thread.nominal), pitch: fine(thread.pitch), lead: fine(thread.lead), relief: None }
}

/// Which way the carriage goes for an internal thread, the spindle running forward and the tool on the operator's side.
fn way(thread: &Tapped, relief: bool) -> String {
    match (thread.hand, relief) {
        (Hand::Right, _) => told!("right hand: carriage toward the headstock", "rechts: Schlitten zum Spindelstock"),
        (Hand::Left, true) => told!(
            "LEFT HAND: begin in the relief, carriage away from the headstock",
            "LINKS: im Freistich beginnen, Schlitten vom Spindelstock weg"
        ),
        (Hand::Left, false) => told!(
            "LEFT HAND: begin beyond the thread, carriage away from the headstock",
            "LINKS: hinter dem Gewinde beginnen, Schlitten vom Spindelstock weg"
        ),
    }
    .to_owned()
}

/// What the gearbox and the thread dial need of a thread.
fn as_thread(t: &Tapped) -> Thread {
    Thread {
        designation: t.designation.clone(),
        place: t.place,
        form: t.form,
        inch: t.inch,
        tpi: t.tpi,
        pitch: t.pitch,
        lead: t.lead,
        starts: t.starts,
        hand: t.hand,
        nominal: t.nominal,
        taper: None,
        major: Limits::exactly(t.nominal),
        pitch_diameter: t.pitch_diameter,
        minor_max: t.minor.max,
        root: t.minor.min,
        depth: (t.nominal - t.minor.min).half(),
        standard: t.standard,
        nearest: Vec::new(),
        full: None,
        run_out: None,
        blank: None,
        rotation: None,
    }
}
