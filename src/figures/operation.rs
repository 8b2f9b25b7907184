//! The figures of one operation.

use super::clocked::clocked;
use super::crown_cut::crown_cut;
use super::dial::{Zeros, cross_dial};
use super::follow_rest::{followed, plunged_slender};
use super::given::{Given, at_tailstock};
use super::keyseat_cut::keyseat_cut;
use super::knurl_cut::knurl_cut;
use super::outside_cut::{flats_cut, undercut_cut};
use super::positions::{fillet_at, groove_tool, is_undercut, positions, stop_word};
use super::speed::speed;
use super::thread_cut::thread_cut;
use super::{
    CrossDial, Figure, Job, OnScale, Passes, Position, SizeLimits, Speed, aim, feed, inside, job, passes, scale,
};
use crate::model::End;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::{Length, show};
use crate::{tell, told};

/// What turned sizes are read by.
const MICROMETER: &str = "micrometer";

/// All numbers of one operation.
#[derive(Debug, Clone, PartialEq)]
pub struct OperationFigures {
    /// Number in the plan.
    pub number: u32,
    /// Diameter before.
    pub from: Option<Figure>,
    /// Size to aim at, rounded to the digits shown.
    pub aim: Option<Figure>,
    /// Limits of that size.
    pub limits: Option<SizeLimits>,
    /// Both on a micrometer in the other unit.
    pub on_scale: Option<OnScale>,
    /// Spindle speed; none at the bench.
    pub speed: Option<Speed>,
    /// Feed a revolution; none where the hand feeds.
    pub feed: Option<Figure>,
    /// Cuts.
    pub passes: Option<Passes>,
    /// Cross dial; none without a shop file that says what it reads.
    pub cross_dial: Option<CrossDial>,
    /// Places along the part.
    pub positions: Vec<Position>,
    /// Width of the tool's edge (grooving), where the shop lists one that fits.
    pub tool_width: Option<Figure>,
    /// What else it needs.
    pub job: Job,
    /// What to do before it: let it cool.
    pub stop_before: Option<String>,
    /// What to do after it, before going on.
    pub stop_after: Option<String>,
    /// Short remarks: corner at most, face it on the last cut.
    pub remarks: Vec<String>,
    /// Turned on from what was cut before it in this mounting.
    pub clocked: Option<super::Clocked>,
    /// Numbers that are no longer those of the sheet the work was begun by.
    pub changed: Vec<super::Change>,
}

/// Works one operation out. `zeros` remembers where each tool was touched in this mounting.
pub(super) fn operation(given: &Given, setup: &Setup, op: &Operation, zeros: &mut Zeros) -> OperationFigures {
    let unit = given.unit;
    let aimed = op.to_diameter.map(|d| aim(d, op.limits, op.close, unit));
    let from = op.from_diameter.map(|d| aim(d, None, false, unit));
    let plunged = op.verb == Verb::Groove && !op.inside && !is_undercut(given, op);
    let tool_width = plunged.then(|| groove_tool(given, op)).flatten();
    let speed = speed(given, setup, op);
    let turned = matches!(op.verb, Verb::Rough | Verb::Finish | Verb::Turn);
    let on_lathe = at_tailstock(setup).is_some() && !matches!(op.verb, Verb::Polish | Verb::File | Verb::Taper);
    let bores = op.inside && matches!(op.verb, Verb::Bore | Verb::Groove);
    // Parted off, the tool goes to the middle or into the hole there.
    let parted = op.travel.zip(from).filter(|_| op.verb == Verb::PartOff);
    let middle = parted.map(|(deep, f)| Figure::usual(f.value - deep.times(2), unit));
    let cross =
        from.zip(aimed.or(middle)).filter(|(f, t)| on_lathe && !op.inside && f.value > t.value).and_then(|(f, t)| {
            let zero = zeros.touch(op, f, surface_of(given, setup, op));
            cross_dial(f, t, zero, given.shop, unit)
        });
    let cross = match from.zip(aimed) {
        Some((f, t)) if bores && f.value < t.value => inside::outward(given, f, t, op),
        _ => cross,
    };
    if op.inside || matches!(op.verb, Verb::Thread | Verb::Taper | Verb::Knurl | Verb::PartOff) {
        zeros.lost();
    }
    let opened = from.zip(aimed).filter(|(f, t)| op.inside && op.verb == Verb::Bore && f.value < t.value);
    let passes = from
        .zip(aimed)
        .filter(|_| turned)
        .and_then(|(f, t)| passes::passes(f, t, op, given.part, given.shop))
        .or_else(|| opened.and_then(|(f, t)| inside::bore_passes(given, f, t, op.close)));
    let passes = passes.map(|p| passes::on_scales(given, p));
    let limits = op.limits.map(|l| SizeLimits::of(l, unit));
    let positions = positions(given, setup, op, tool_width);
    let plunges = positions.iter().filter(|p| p.what.starts_with("plunge")).count();
    let told_by_dial = cross.as_ref().is_none_or(|c| !c.below_a_division());
    let cuts = passes.as_ref().map(|p| (p.count, p.depth.value));
    let mut remarks = remarks(given, setup, op, cuts, told_by_dial, plunges);
    if !told_by_dial {
        remarks.push(below_a_division(op));
    }
    remarks.extend(between_walls(op, &positions));
    OperationFigures {
        number: op.number,
        from,
        aim: aimed,
        limits,
        on_scale: aimed.and_then(|a| scale::on_scale(given, MICROMETER, Some(a), limits)),
        feed: feed::feed(given, op.verb),
        cross_dial: cross,
        positions,
        tool_width: tool_width.map(|w| Figure::usual(w, unit)),
        job: job_of(given, setup, op, speed.as_ref()),
        speed,
        stop_before: None,
        stop_after: None,
        clocked: clocked(given, setup, op),
        remarks,
        passes,
        changed: Vec::new(),
    }
}

fn job_of(given: &Given, setup: &Setup, op: &Operation, speed: Option<&Speed>) -> Job {
    let tapped = op.verb == Verb::Tap || op.verb == Verb::Drill && inside::tapped_of(given, op).is_some();
    let across = op.verb == Verb::Drill && op.feature.and_then(|f| given.feature(f)).is_some_and(is_across);
    if (op.inside || tapped || across)
        && let Some(hole) = inside::hole_cut(given, setup, op, speed)
    {
        return Job::Hole(Box::new(hole));
    }
    match op.verb {
        Verb::Chamfer if op.inside => job::chamfer(given, op).map_or(Job::Plain, |c| Job::Chamfer(Box::new(c))),
        Verb::Thread => thread_cut(given, setup, op, speed).map_or(Job::Plain, |t| Job::Thread(Box::new(t))),
        Verb::Knurl => knurl_cut(given, setup, op).map_or(Job::Plain, |k| Job::Knurl(Box::new(k))),
        Verb::Groove => undercut_cut(given, op).map_or(Job::Plain, |u| Job::Undercut(Box::new(u))),
        Verb::Mill if flats_cut(given, op).is_some() => {
            flats_cut(given, op).map_or(Job::Plain, |f| Job::Flats(Box::new(f)))
        }
        Verb::Mill => keyseat_cut(given, op).map_or(Job::Plain, |k| Job::Keyseat(Box::new(k))),
        Verb::Taper => job::taper(given, setup, op).map_or(Job::Plain, |t| Job::Taper(Box::new(t))),
        Verb::File => crown_cut(given, setup, op).map_or(Job::Plain, |c| Job::Crown(Box::new(c))),
        Verb::Chamfer => job::chamfer(given, op).map_or(Job::Plain, |c| Job::Chamfer(Box::new(c))),
        Verb::Center => job::center(given, op).map_or(Job::Plain, |c| Job::Center(Box::new(c))),
        _ => Job::Plain,
    }
}

/// How the tool gets in where something larger stands on both sides of the cut.
fn between_walls(op: &Operation, positions: &[Position]) -> Option<String> {
    let walled = positions.iter().any(|p| p.what == "start") && positions.iter().any(|p| p.what != "start");
    (walled && matches!(op.verb, Verb::Rough | Verb::Finish | Verb::Turn)).then(|| {
        told!(
            "a wall on either side: plunge at the first reading, feed to the second; tool ground to clear both walls",
            "Wand auf beiden Seiten: am ersten Wert einstechen, bis zum zweiten längs; Stahl zu beiden Wänden hin freigeschliffen"
        )
        .to_owned()
    })
}

const fn is_across(feature: &crate::model::Feature) -> bool {
    matches!(feature.kind, crate::model::Kind::CrossHole { .. })
}

/// The section a tool is touched on: the one outboard of a groove, else the operation's own.
fn surface_of(given: &Given, setup: &Setup, op: &Operation) -> Option<usize> {
    let (from, end) = (op.from?, at_tailstock(setup)?);
    if op.verb != Verb::Groove {
        return op.feature;
    }
    let pieces = &given.profile.pieces;
    let piece = match end {
        End::Datum => pieces.iter().find(|p| p.from < from && from <= p.to),
        End::Far => pieces.iter().find(|p| p.from <= from && from < p.to),
    };
    piece.map(|p| p.feature)
}

/// What to mind at one operation of so many cuts, each so deep a side; a single cut is told here where its dial does not.
fn remarks(
    given: &Given,
    setup: &Setup,
    op: &Operation,
    cuts: Option<(u32, Length)>,
    told_by_dial: bool,
    plunges: usize,
) -> Vec<String> {
    let once = told_by_dial && cuts.is_some_and(|(count, _)| count == 1);
    let depth = cuts.map(|(_, depth)| depth);
    let mut list: Vec<String> = op.again.iter().cloned().collect();
    list.extend(super::thrown::walls(given, setup, op));
    list.extend(super::thrown::remark(given, setup, op));
    list.extend(clocked(given, setup, op).map(|c| c.says));
    list.extend(followed(given, setup, op, once));
    list.extend(plunged_slender(setup, op));
    let shown = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    if let Some(radius) = op
        .to
        .and_then(|to| fillet_at(given, to))
        .filter(|_| matches!(op.verb, Verb::Finish | Verb::Turn) && stop_word(given, setup, op) == "shoulder")
    {
        list.push(tell!("corner at most {}", "Hohlkehle höchstens {}", shown(radius)));
    }
    if op.close && once {
        list.push(
            told!(
                "one light cut, a keen edge: too little is left to share out; measure before it and after",
                "ein leichter Schnitt, scharfe Schneide: zum Teilen bleibt zu wenig; vorher und nachher messen"
            )
            .to_owned(),
        );
    } else if op.close && !op.inside {
        list.push(
            told!(
                "equal cuts, measure between; face the shoulder last",
                "gleiche Schnitte, dazwischen messen; Absatz zuletzt plan"
            )
            .to_owned(),
        );
    }
    if op.inside {
        match op.verb {
            Verb::Bore if op.close && once => {}
            Verb::Bore if op.close => {
                list.push(
                    told!(
                        "equal cuts, measured between; cut out toward you, let the bar spring out",
                        "gleiche Schnitte, dazwischen messen; zu dir hin, die Stange ausfedern lassen"
                    )
                    .to_owned(),
                );
            }
            Verb::Bore => list.push(
                told!(
                    "the cut goes out toward you: the cross dial counts down",
                    "der Schnitt geht zu dir hin: die Planskale zählt ab"
                )
                .to_owned(),
            ),
            Verb::Groove => list.push(
                told!(
                    "inside grooving bit in the bar; cut out toward you",
                    "Innen-Stecheinsatz in der Stange; zu dir hin stechen"
                )
                .to_owned(),
            ),
            _ => {}
        }
    }
    list.extend(for_rest(given, op));
    // The cross dial tells it, where there is one.
    list.extend(
        parted_deep(given, op).filter(|_| given.shop.is_none_or(|s| s.cross_reads.is_none() || s.cross_dial.is_none())),
    );
    list.extend(parted_bare(setup, op));
    list.extend(polished(given, op));
    list.extend(walls_last(op, plunges));
    let under_scale = |o: &&Operation| o.why.iter().any(|w| w.rule == "R6");
    let first = setup.operations.iter().find(under_scale).is_some_and(|o| o.id == op.id);
    if let Some(bar) = op.from_diameter.filter(|_| first) {
        // The last digit up: never less than the rule.
        let deep = bar
            .times_ratio(UNDER_THE_SCALE.0, UNDER_THE_SCALE.1)
            .ceil_to(show::step(given.unit, show::usual_decimals(given.unit)));
        list.push(match depth.filter(|d| *d < deep) {
            // Power or practice allows no cut as deep as that.
            Some(depth) => tell!(
                "first cut the full {} a side, under the scale; its traces may show until {} a side is off",
                "erster Schnitt volle {} je Seite, unter die Zunderhaut; Reste können zu sehen sein, bis {} je Seite ab sind",
                shown(depth),
                shown(deep)
            ),
            None => tell!(
                "first cut under the scale: {} a side or more",
                "erster Schnitt unter die Zunderhaut: {} je Seite oder mehr",
                shown(deep)
            ),
        });
    }
    list
}

/// How far the cross slide goes in to part off: to the middle, or into a hole that was cut before.
fn parted_deep(given: &Given, op: &Operation) -> Option<String> {
    let deep = op.travel.filter(|t| op.verb == Verb::PartOff && t.is_positive())?;
    let deep = Figure::usual(deep, given.unit).text(given.unit);
    Some(if op.parts_into_a_hole() {
        tell!("in {deep}, into the hole", "{deep} hinein, bis ins Loch")
    } else {
        tell!("in {deep}, to the middle", "{deep} hinein, bis zur Mitte")
    })
}

/// Nothing carries what is parted off: the hole in its end took the center (common practice, no source).
fn parted_bare(setup: &Setup, op: &Operation) -> Option<String> {
    let says = told!(
        "no center: close beside the jaws, slowly; wood under what hangs out for it to drop on, never a hand",
        "ohne Spitze: dicht vor den Backen, langsam; ein Holz darunter, auf das es fallen kann, nie eine Hand"
    );
    (op.verb == Verb::PartOff && setup.only_parts()).then(|| says.to_owned())
}

/// The spot for a steady rest: until it is clean all round; and what becomes of the rough center it is turned on.
fn for_rest(given: &Given, op: &Operation) -> Vec<String> {
    let shown = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    if let Some(limits) = op.limits.filter(|_| op.is_spot()) {
        return vec![tell!(
            "until no scale shows all round, not below {}; a fine feed for the last cut",
            "bis ringsum keine Haut mehr zu sehen ist, nicht unter {}; letzter Schnitt mit feinem Vorschub",
            shown(limits.min)
        )];
    }
    let about_it = matches!(op.verb, Verb::Face | Verb::Center);
    op.why.iter().filter(|w| about_it && w.rule == "R15").map(|w| w.reason.clone()).collect()
}

/// Less is left than the cross dial has a division for.
fn below_a_division(op: &Operation) -> String {
    let text = if op.inside {
        told!(
            "less than a division of the cross dial is left: no infeed; pass once more at the last reading, the bar springs, and measure",
            "es bleibt weniger als ein Teilstrich der Planskale: nicht zustellen; beim letzten Wert noch einmal durchfahren, die Stange federt, und messen"
        )
    } else {
        told!(
            "less than a division of the cross dial is left, nothing for it to set: bring it to size with a fine file and abrasive strip, and measure often",
            "es bleibt weniger als ein Teilstrich der Planskale, zum Zustellen zu wenig: mit Schlichtfeile und Schmirgelleinen auf Maß, oft messen"
        )
    };
    text.to_owned()
}

/// In which order a groove of several plunges is cut: the two walls and the bottom last (an insert maker's guide, Kyocera catalogue 2016/17, G106).
fn walls_last(op: &Operation, plunges: usize) -> Option<String> {
    let text = match plunges {
        _ if op.verb != Verb::Groove => return None,
        0 | 1 => return None,
        2 => told!(
            "both a hair short of the bottom, then once across it from wall to wall",
            "beide knapp über dem Grund, dann einmal von Wand zu Wand über den Grund"
        ),
        _ => told!(
            "the plunges between first, a hair short of the bottom; the two walls last, then once across the bottom from wall to wall",
            "die Einstiche dazwischen zuerst, knapp über dem Grund; die beiden Wände zuletzt, dann einmal von Wand zu Wand über den Grund"
        ),
    };
    Some(text.to_owned())
}

/// What must come off a hot-rolled bar, a side, to be rid of scale, seams and decarburized skin: 1.6 % of its diameter (a bar dealer's rule for clean-up
/// stock, US Alloys: finished size = bar × .968). That the first cut goes under the scale is in NAVEDTRA 14345, without a number.
const UNDER_THE_SCALE: (i64, i64) = (16, 1_000);

/// How much the abrasive strip takes: what was left for it, or, where the tool turns to size, what lies above the lower limit. No text printed how much to
/// leave (F. D. Jones 1914: no more than takes out the tool marks).
fn polished(given: &Given, op: &Operation) -> Option<String> {
    let (from, to) = op.from_diameter.zip(op.to_diameter).filter(|_| op.verb == Verb::Polish)?;
    let told = |l: Length| Figure::fine(l, given.unit).text(given.unit);
    if from > to {
        return Some(tell!(
            "the strip takes {} off the diameter",
            "das Band nimmt {} vom Durchmesser",
            told(from - to)
        ));
    }
    // As they are shown, so that the difference is that of the two numbers on the sheet.
    let least = SizeLimits::of(op.limits?, given.unit).min.rounded(given.unit).value;
    let room = aim(to, op.limits, op.close, given.unit).rounded(given.unit).value - least;
    Some(tell!(
        "turned to size: the strip may take {} and no more",
        "auf Maß gedreht: das Band darf {} nehmen, nicht mehr",
        told(room)
    ))
}
