//! The thread block.

use super::Sources;
use crate::figures::{Figure, OperationFigures, StillIn, ThreadCut};
use crate::sheet::view::{Line, Mm, Piece, PieceKind, Rich};
use crate::sheet::{blocks, words};
use crate::sheet::{layout, measure};
use crate::unit::Unit;

/// Width of the labels.
const LABEL: f64 = 38.0;
/// Width beside them.
const ROOM: f64 = 117.0;
/// Room that a speed takes.
const BESIDE_SPEED: f64 = 22.0;

fn piece(kind: PieceKind, text: impl Into<String>, width: f64) -> Piece {
    Piece { kind, text: text.into(), width: Mm(width) }
}

/// Infeed list, wires, blank, gearbox, thread dial, speed.
pub(super) fn lines(s: &Sources, t: &ThreadCut, of: &OperationFigures) -> Vec<Line> {
    use PieceKind::{Blank, Plain, Strong};
    let text = |f: Figure| f.text(s.unit());
    let label = |l: &str| Rich::from(l);
    let mut out = stops(s, of);
    out.extend(infeed(s, t));
    if let Some(w) = &t.wires {
        let limits = w.on_scale.and_then(|read| read.both());
        let limits = limits.unwrap_or_else(|| format!("{} / {}", text(w.over.max), text(w.over.min)));
        let pieces = vec![
            piece(Strong, limits, 0.0),
            piece(Plain, words::READS.say(), 0.0),
            piece(Blank, words::READS.say(), 27.0),
        ];
        // The reading beside it names the unit of both.
        let wire = w.on_scale.map_or_else(|| text(w.wire), |read| read.size_text());
        out.push(blocks::line(label(&words::over_wires(&wire)), LABEL, pieces));
        out.extend(t.still_in.map(|i| still_in(&i)));
    }
    let blank = t.blank_on_scale.and_then(|read| read.both());
    let blank = blank.unwrap_or_else(|| format!("{} / {}", text(t.blank.max), text(t.blank.min)));
    let mut sized = vec![piece(Strong, blank, 0.0)];
    if let Some(pipe) = &t.pipe {
        sized.push(piece(Plain, words::at_small_end(&text(pipe.small_end.max), &text(pipe.small_end.min)), 0.0));
    }
    out.push(blocks::line(label(words::BLANK_DIAMETER.say()), LABEL, sized));
    for (i, step) in t.pipe.iter().flat_map(|p| &p.recipe).enumerate() {
        out.extend(words::wrapped(if i == 0 { words::PIPE.say() } else { "" }, LABEL, step, ROOM));
    }
    out.extend(drive(s, t));
    let never_open = t.dial.as_ref().is_some_and(|d| d.never_open);
    let mut speed = Vec::new();
    if let Some(v) = &of.speed {
        let shown = v.gear.map_or(format!("{:.0}", v.wanted), |g| g.to_string());
        speed.push(piece(Strong, words::rpm(&shown), 0.0));
    }
    let gives = t.relief_time.map(|seconds| {
        let relief = t.relief_feature.map_or("", |f| s.letter(f));
        words::relief_gives(relief, seconds, never_open)
    });
    // Beside the speed where there is room for it, else below.
    let beside = |words: &&String| measure::width(words, layout::BODY, false) < ROOM - BESIDE_SPEED;
    if let Some(words) = gives.as_ref().filter(beside) {
        speed.push(piece(Plain, words, 0.0));
    }
    if !speed.is_empty() {
        out.push(blocks::line(label(words::SPEED.say()), LABEL, speed));
    }
    if let Some(words) = gives.as_ref().filter(|w| !beside(w)) {
        out.extend(words::wrapped("", LABEL, words, ROOM));
    }
    // Told where it hurries: beyond that the thread ends far from the center.
    let hurries = |s: f64| s < crate::figures::SECONDS_TO_REVERSE;
    if let Some(off) = t.runs_off.filter(|o| o.seconds.is_none_or(hurries)) {
        out.extend(words::wrapped_strong(
            "",
            LABEL,
            &words::out_before_center(&text(off.past_face), off.seconds, never_open),
            ROOM,
        ));
    }
    let seconds = t.relief_time.or(t.runs_off.and_then(|o| o.seconds));
    if never_open && seconds.is_some_and(|s| s < crate::figures::SECONDS_TO_REVERSE) {
        out.extend(words::wrapped("", LABEL, words::short_to_reverse(), ROOM));
    }
    if let Some(i) = &t.indexing {
        out.extend(words::wrapped(words::STARTS.say(), LABEL, &i.says, ROOM));
    }
    out
}

/// From a reading over the wires to what the dial is still to count.
fn still_in(i: &StillIn) -> Line {
    use PieceKind::{Blank, Plain, Strong};
    let factor = format!("{:.3}", i.shown);
    let factor = if i.unit == Unit::Inch { factor.trim_start_matches('0') } else { &factor };
    let other = (i.unit != i.dial_unit).then_some(i.dial_unit);
    let mut pieces =
        vec![piece(Plain, words::reading_less(&i.aim.text(i.unit)), 0.0), piece(Blank, words::READS.say(), 20.0)];
    if other.is_some() || (i.shown - 1.0).abs() > 1e-9 {
        pieces.push(piece(Strong, words::times(factor), 0.0));
        pieces.push(piece(Blank, words::READS.say(), 20.0));
    }
    pieces.push(piece(Plain, words::on_this_dial(i.compound, other), 0.0));
    blocks::line(Rich::from(words::STILL_IN.say()), LABEL, pieces)
}

/// Where the carriage stands as the thread begins and ends.
fn stops(s: &Sources, of: &OperationFigures) -> Vec<Line> {
    let pieces = of.positions.iter().filter(|p| p.carriage.is_some()).flat_map(|p| {
        [
            piece(PieceKind::Carriage, super::row::reading(s, p), 0.0),
            piece(PieceKind::Plain, words::thread_place(&p.what), 0.0),
        ]
    });
    let pieces: Vec<Piece> = pieces.collect();
    if pieces.is_empty() {
        Vec::new()
    } else {
        vec![blocks::line(Rich::from(words::CARRIAGE_STOPS.say()), LABEL, pieces)]
    }
}

/// Cumulative travel of each cut, in rows that fit, then what follows the last.
fn infeed(s: &Sources, t: &ThreadCut) -> Vec<Line> {
    use PieceKind::{Dial, Plain, Strong};
    let text = |f: Figure| f.text(s.unit());
    let dial = t.compound.as_ref().map_or(t.straight.is_some(), |c| c.dial.is_some());
    let kind = if dial { Dial } else { Strong };
    let name = t.compound.as_ref().map_or(words::STRAIGHT_IN.say().to_owned(), |c| words::compound(&c.angle));
    let shown: Vec<String> = if t.on_dial.is_empty() {
        t.passes.iter().map(|p| text(*p)).collect()
    } else {
        t.on_dial.iter().map(|d| d.text(s.unit())).collect()
    };
    let widest = shown.iter().map(|p| measure::width(p, 13.0, true)).fold(0.0, f64::max);
    let in_a_row = ((ROOM + 1.6) / (widest + if dial { 5.4 } else { 2.4 })).floor().max(1.0) as usize;
    let mut out: Vec<Line> = Vec::new();
    for (i, chunk) in shown.chunks(in_a_row).enumerate() {
        let label = if i == 0 { Rich::from(name.as_str()) } else { Rich::new() };
        out.push(blocks::line(label, LABEL, chunk.iter().map(|p| piece(kind, p.clone(), 0.0)).collect()));
    }
    let mut then = t.compound.as_ref().map(|c| words::handle(c.handle)).unwrap_or_default();
    if let Some(last) = shown.last().filter(|_| t.spring_passes > 0) {
        then = format!("{then} {}", words::spring_passes(t.spring_passes, last));
    }
    if t.compound.is_some() {
        let straight = t.straight.map_or(text(t.depth), |d| d.text(s.unit()));
        then = format!("{then} {}", words::straight(t.straight.is_some(), &straight, &t.depth_is));
    }
    if let Some(nose) = t.nose_radius {
        then = format!("{then} {}", words::nose(&text(nose)));
    }
    let then = measure::broken(then.trim(), 12.0, false, ROOM);
    out.extend(then.into_iter().map(|l| blocks::line(Rich::new(), LABEL, vec![piece(Plain, l, 0.0)])));
    out
}

/// Gearbox and thread dial, in one line where they are short.
fn drive(s: &Sources, t: &ThreadCut) -> Vec<Line> {
    use PieceKind::{Plain, Strong};
    let gearbox = t.gearbox.as_ref().map(|g| g.says(s.unit()));
    let dial = t.dial.as_ref().map(|d| d.says.clone());
    let wide = |l: &str| measure::width(l, 14.0, true);
    match (gearbox, dial) {
        (Some(says), Some(dial)) if wide(&says) + wide(&dial) < ROOM - 34.0 => {
            let beside = piece(Plain, words::THREAD_DIAL_BESIDE.say(), 0.0);
            let pieces = vec![piece(Strong, says, 0.0), beside, piece(Strong, dial, 0.0)];
            vec![blocks::line(Rich::from(words::GEARBOX.say()), LABEL, pieces)]
        }
        (gearbox, dial) => {
            let line = |word: &str, says: Option<String>| {
                says.map(|t| words::wrapped_strong(word, LABEL, &t, ROOM)).unwrap_or_default()
            };
            let mut out = line(words::GEARBOX.say(), gearbox);
            out.extend(line(words::THREAD_DIAL.say(), dial));
            out
        }
    }
}
