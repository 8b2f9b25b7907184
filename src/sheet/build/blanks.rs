//! Blanks filled before a cut: what is still to come off a face, and what the bar measures where a tool is touched on it.

use super::Sources;
use super::row::{BLANK, piece};
use crate::figures::{CrossDial, OperationFigures, SizeLimits};
use crate::model::shop::Reads;
use crate::sheet::view::{Line, PieceKind, Rich, Works};
use crate::sheet::words;
use crate::sheet::{blocks, fit};
use crate::unit::{Length, Unit, show};

/// Width of the labels, as of the last cuts of a close size.
const LABEL: f64 = 21.0;

/// Width of a blank in a line of three.
const NARROW: f64 = 22.0;

/// Facing to length: measured less what is aimed at is still to come off, by the carriage where it has a dial; then measured again.
pub(super) fn to_length(s: &Sources) -> Vec<Line> {
    use PieceKind::{Blank, CarriageBlank, Plain, Strong};
    let all = s.figures.inspection.iter().find(|r| r.is_overall());
    let on_scale = all.and_then(|r| r.on_scale);
    let unit = on_scale.map_or(s.unit(), |read| read.unit);
    let drawn = s.part.overall.as_ref().map_or(s.overall(), crate::model::Size::aim);
    let limits = on_scale.and_then(|read| read.limits);
    // The zero of the other end counts from the size as drawn: the same number, but where rounding inward leaves it outside.
    let within = |l: &SizeLimits| l.min.value <= drawn && drawn <= l.max.value;
    let aim = limits.filter(|l| !within(l)).map_or(drawn, |l| l.min.value + (l.max.value - l.min.value).half());
    let aim = in_unit(aim, unit);
    let dial = s.shop.is_some_and(|shop| shop.carriage_dial.is_some());
    let step = s.dial_step(unit).filter(|_| dial);
    let mut pieces = vec![
        piece(Plain, words::IT_READS.say(), 0.0),
        piece(Blank, words::IT_READS.say(), BLANK),
        piece(Plain, "\u{2212}", 0.0),
        piece(Strong, &aim, 0.0),
        piece(Plain, "=", 0.0),
    ];
    // One number for hand and carriage, but where the dial has the other unit.
    if let Some(by) = step {
        pieces.push(piece(Blank, words::TO_COME_OFF.say(), BLANK));
        pieces.push(piece(Plain, by, 0.0));
        pieces.push(piece(CarriageBlank, &s.on_dial(words::TO_COME_OFF.say()), BLANK));
    } else {
        let kind = if dial { CarriageBlank } else { Blank };
        pieces.push(piece(kind, words::TO_COME_OFF.say(), BLANK));
    }
    pieces.push(piece(Plain, words::TO_COME_OFF.say(), 0.0));
    let mut before = blocks::line(Rich::new().strong(words::LAST_CUT.say()), LABEL, pieces);
    (before.works, before.value, before.units) = (Works::MeasuredMinusGiven, aim, unit.word());
    let together = in_one_line(&before, dial);
    if step.is_none() && fit::fits(&together, blocks::DETAIL_ROOM) {
        return vec![together];
    }
    let blank = piece(Blank, words::OVERALL_MEASURED.say(), BLANK);
    let after = blocks::line(Rich::from(words::OVERALL_MEASURED.say()), 44.0, vec![blank]);
    vec![before, after]
}

/// The same with what it measures afterwards in one line, in short.
fn in_one_line(before: &Line, dial: bool) -> Line {
    use PieceKind::{Blank, CarriageBlank, OwnBlank, Plain, Strong};
    let pieces = vec![
        piece(Blank, words::IT_READS.say(), NARROW),
        piece(Plain, "\u{2212}", 0.0),
        piece(Strong, &before.value, 0.0),
        piece(Plain, "=", 0.0),
        piece(if dial { CarriageBlank } else { Blank }, words::TO_COME_OFF.say(), NARROW),
        piece(Plain, words::LAST_CUT_OVERALL.say(), 0.0),
        piece(OwnBlank, words::OVERALL_MEASURED.say(), NARROW),
    ];
    let line = blocks::line(Rich::new().strong(words::IT_READS.say()), LABEL, pieces);
    Line { works: before.works, value: before.value.clone(), units: before.units, ..line }
}

/// A length as an instrument in this unit is read.
fn in_unit(length: Length, unit: Unit) -> String {
    let usual = show::usual_decimals(unit);
    show::exact(length, unit, usual, usual + 1)
}

/// Where a tool is touched on the bar, the dial's zero stands for the bar as it is stated: what it measures less is set instead of 0, on a
/// radius dial half of it. None for a bar with corners, and for any but the first tool touched on it.
pub(super) fn bar_measured(s: &Sources, of: &OperationFigures) -> Option<Line> {
    use PieceKind::{Blank, DialBlank, Plain, Strong};
    let bar = s.part.stock.as_ref().filter(|stock| !stock.shape.has_corners())?.size.nominal;
    let on_bar = |c: &CrossDial| c.zero.now && c.zero.diameter.value == bar;
    // It is measured once, and set so in every mounting on it.
    let pairs = s.mounted().flat_map(|(setup, figures)| setup.operations.iter().zip(&figures.operations));
    let first = pairs.filter(|(op, _)| !op.inside).map(|(_, f)| f).find(|f| f.cross_dial.as_ref().is_some_and(on_bar));
    let first = first.filter(|f| f.number == of.number)?;
    let dial = first.cross_dial.as_ref()?;
    // On the micrometer that reads the turned size.
    let unit = of.on_scale.map_or(s.unit(), |read| read.unit);
    let given = in_unit(bar, unit);
    let half = dial.reads == Reads::Radius;
    let step = s.dial_step(unit);
    let set = if half { words::HALF_INSTEAD_OF_ZERO.say() } else { words::INSTEAD_OF_ZERO.say() };
    let mut pieces = vec![
        piece(Strong, &given, 0.0),
        piece(Plain, words::LESS_MEASURED.say(), 0.0),
        piece(Blank, words::IT_READS.say(), BLANK),
        piece(Plain, "=", 0.0),
    ];
    pieces.extend(step.map(|by| piece(Plain, by, 0.0)));
    pieces.push(piece(Plain, set, 0.0));
    pieces.push(piece(DialBlank, &step.map_or(set.to_owned(), |_| s.on_dial(set)), BLANK));
    let mut line = blocks::line(Rich::new().strong(words::THE_BAR.say()), LABEL, pieces);
    (line.value, line.units) = (given, unit.word());
    line.works = if half { Works::GivenMinusMeasuredHalf } else { Works::GivenMinusMeasured };
    Some(line)
}
