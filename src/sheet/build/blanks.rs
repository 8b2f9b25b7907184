//! Blanks filled before a cut: what is still to come off a face, and what the bar measures where a tool is touched on it.

use super::Sources;
use super::row::{BLANK, piece};
use crate::figures::{CrossDial, OperationFigures, SetupFigures};
use crate::model::plan::Setup;
use crate::model::shop::Reads;
use crate::sheet::blocks;
use crate::sheet::view::{Line, PieceKind, Rich, Works};
use crate::sheet::words;
use crate::unit::{Length, Unit, show};

/// Width of the labels, as of the last cuts of a close size.
const LABEL: f64 = 21.0;

/// Facing to length: measured less what is aimed at is still to come off, by the carriage where it has a dial; then measured again.
pub(super) fn to_length(s: &Sources) -> Vec<Line> {
    use PieceKind::{Blank, CarriageBlank, Plain, Strong};
    let all = s.figures.inspection.iter().find(|r| r.is_overall());
    let on_scale = all.and_then(|r| r.on_scale);
    let unit = on_scale.map_or(s.unit(), |read| read.unit);
    let drawn = s.part.overall.as_ref().map_or(s.overall(), crate::model::Size::aim);
    let limits = on_scale.and_then(|read| read.limits);
    let aim = limits.map_or(drawn, |l| l.min.value + (l.max.value - l.min.value).half());
    let aim = in_unit(aim, unit);
    let mut pieces = vec![
        piece(Blank, words::IT_READS.say(), BLANK),
        piece(Plain, "\u{2212}", 0.0),
        piece(Strong, &aim, 0.0),
        piece(Plain, "=", 0.0),
        piece(Blank, words::TO_COME_OFF.say(), BLANK),
    ];
    if s.shop.is_some_and(|shop| shop.carriage_dial.is_some()) {
        let step = s.dial_step(unit);
        pieces.extend(step.map(|by| piece(Plain, by, 0.0)));
        let by = words::BY_THE_CARRIAGE.say();
        pieces.push(piece(CarriageBlank, &step.map_or(by.to_owned(), |_| s.on_dial(by)), BLANK));
    }
    let mut before = blocks::line(Rich::new().strong(words::LAST_CUT.say()), LABEL, pieces);
    (before.works, before.value, before.units) = (Works::MeasuredMinusGiven, aim, unit.word());
    let blank = piece(Blank, words::OVERALL_MEASURED.say(), BLANK);
    let after = blocks::line(Rich::from(words::OVERALL_MEASURED.say()), 44.0, vec![blank]);
    vec![before, after]
}

/// A length as an instrument in this unit is read.
fn in_unit(length: Length, unit: Unit) -> String {
    let usual = show::usual_decimals(unit);
    show::exact(length, unit, usual, usual + 1)
}

/// Where a tool is touched on the bar, the dial's zero stands for the bar as it is stated: what it measures less is set instead of 0, on a
/// radius dial half of it. None for a bar with corners, and for any but the first tool touched on it.
pub(super) fn bar_measured(s: &Sources, setup: &Setup, figures: &SetupFigures, of: &OperationFigures) -> Option<Line> {
    use PieceKind::{Blank, DialBlank, Plain, Strong};
    let bar = s.part.stock.as_ref().filter(|stock| !stock.shape.has_corners())?.size.nominal;
    let outside = |n: u32| setup.operations.iter().any(|o| o.number == n && !o.inside);
    let on_bar = |c: &CrossDial| c.zero.now && c.zero.diameter.value == bar;
    let mut touched =
        figures.operations.iter().filter(|o| outside(o.number) && o.cross_dial.as_ref().is_some_and(on_bar));
    let first = touched.next().filter(|o| o.number == of.number)?;
    let dial = first.cross_dial.as_ref()?;
    // On the micrometer that reads the turned size.
    let unit = of.on_scale.map_or(s.unit(), |read| read.unit);
    let given = in_unit(bar, unit);
    let half = dial.reads == Reads::Radius;
    let step = s.dial_step(unit);
    let share = match (half, step) {
        (true, Some(by)) => format!("½ {by}"),
        (true, None) => words::HALF.say().to_owned(),
        (false, Some(by)) => by.to_owned(),
        (false, None) => words::ALL_OF_IT.say().to_owned(),
    };
    let set = words::SET_INSTEAD_OF_ZERO.say();
    let pieces = vec![
        piece(Strong, &given, 0.0),
        piece(Plain, "\u{2212}", 0.0),
        piece(Blank, words::BAR_READS.say(), BLANK),
        piece(Plain, "=", 0.0),
        piece(Blank, words::LESS.say(), BLANK),
        piece(Plain, &share, 0.0),
        piece(DialBlank, &step.map_or(set.to_owned(), |_| s.on_dial(set)), BLANK),
    ];
    let mut line = blocks::line(Rich::new().strong(words::THE_BAR.say()), LABEL, pieces);
    (line.value, line.units) = (given, unit.word());
    line.works = if half { Works::GivenMinusMeasuredHalf } else { Works::GivenMinusMeasured };
    Some(line)
}
