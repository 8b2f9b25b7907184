//! The operations of a setup in order, each with what must stay on its page and what its picture shows.

use super::{Sources, keyseat, outline, outside, row, title};
use crate::figures::{CarriageZero, Job, OperationFigures, SetupFigures};
use crate::model::End;
use crate::model::plan::{DatumEnd, Operation, Setup, Verb};
use crate::sheet::draft::Item;
use crate::sheet::draw::{Focus, Reading};
use crate::sheet::view::{Columns, Frame, Shape, Step};
use crate::sheet::{blocks, measure, words};
use crate::unit::{Station, Unit};

/// Places before the point in the columns of a setup.
#[derive(Debug, Clone, Copy)]
pub(super) struct Places {
    /// Of the sizes to aim at.
    pub size: usize,
    /// Of the lengths.
    pub length: usize,
}

/// Every operation.
pub(super) fn steps(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Vec<Item> {
    let texts = |f: &dyn Fn(&OperationFigures) -> Vec<String>| {
        let all: Vec<String> = figures.operations.iter().flat_map(f).collect();
        measure::whole_places(all.iter().map(String::as_str))
    };
    let places = Places {
        size: texts(&|o| o.aim.map(|_| row::aimed(s, figures, o)).into_iter().collect()),
        length: texts(&|o| o.positions.iter().map(|p| row::reading_in_column(s, p)).collect()),
    };
    let pairs = setup.operations.iter().zip(&figures.operations);
    pairs.map(|(op, of)| step(s, setup, figures, op, of, places)).collect()
}

fn step(
    s: &Sources,
    setup: &Setup,
    figures: &SetupFigures,
    op: &Operation,
    of: &OperationFigures,
    places: Places,
) -> Item {
    let row = row::row(s, (setup, figures), op, of, places);
    let in_columns = matches!(row.shape, Shape::Columns { .. });
    let before = of.stop_before.iter().map(|t| blocks::stop(words::STOP.say(), words::from_file(t).into())).collect();
    let mut after = Vec::new();
    if let Job::Keyseat(cut) = &of.job {
        after.push(keyseat::picture(s, cut, &format!("keyseat-{}", op.number)));
    }
    if let Job::Crown(cut) = &of.job {
        after.push(outside::crown_picture(s, cut, &format!("crown-{}", op.number)));
    }
    if let Job::Flats(cut) = &of.job {
        after.push(outside::picture(s, cut, &format!("flats-{}", op.number)));
    }
    after.extend(of.stop_after.iter().map(|t| blocks::stop(words::STOP.say(), words::from_file(t).into())));
    let step = Step { before, row, after, focus: focus(s, setup, figures, op), small: false };
    Item::Step { step, columns: in_columns.then(|| columns(s, figures)) }
}

/// The unit sizes of a mounting are read in: that of the first instrument in another than the part's.
pub(super) fn read_in(s: &Sources, figures: &SetupFigures) -> Unit {
    figures.operations.iter().find_map(|o| o.on_scale).map_or(s.unit(), |r| r.unit)
}

fn columns(s: &Sources, figures: &SetupFigures) -> Columns {
    let dial = s.shop.is_some_and(|shop| shop.carriage_dial.is_some());
    let reads = s.shop.filter(|shop| shop.cross_dial.is_some()).and_then(|shop| shop.cross_reads);
    let datum = matches!(figures.zero, CarriageZero::DatumFace | CarriageZero::OffLathe);
    let sawn = figures.zero == CarriageZero::SawnEnd;
    let foreign = Some(s.dial_unit()).filter(|unit| *unit != s.unit());
    let from = match foreign.filter(|_| dial) {
        Some(unit) if sawn => words::from_sawn_in(unit),
        Some(unit) => words::from_in(datum, unit),
        None if sawn => words::FROM_SAWN_END.say().to_owned(),
        None if datum => words::FROM_DATUM.say().to_owned(),
        None => words::FROM_FAR_FACE.say().to_owned(),
    };
    let reads_in = |reads| match foreign {
        Some(unit) => words::reads_in(reads, unit.word()),
        None => words::reads_word(reads).to_owned(),
    };
    Columns {
        again: false,
        operation: words::OPERATION.say().to_owned(),
        measure: words::MEASURE.say().to_owned(),
        measure_sub: words::measure_sub(read_in(s, figures), s.unit()),
        length: if dial { words::CARRIAGE.say() } else { words::LENGTH.say() }.to_owned(),
        length_sub: from,
        length_frame: if dial { Frame::Carriage } else { Frame::None },
        cross: reads.map_or("", |_| words::CROSS.say()).to_owned(),
        cross_sub: reads.map_or(String::new(), reads_in),
        measured: words::MEASURED.say().to_owned(),
    }
}

/// What the picture shows of an operation: the stretch it cuts, and the lengths of its finished faces.
fn focus(s: &Sources, setup: &Setup, figures: &SetupFigures, op: &Operation) -> Focus {
    let mut focus = Focus::default();
    let letters = op.feature.into_iter().chain(op.with.iter().copied()).map(|f| s.letter(f).to_owned());
    focus.words = letters.filter(|l| !l.is_empty()).collect();
    if op.is_spot() {
        focus.cuts.extend(op.from.zip(op.to).map(|(a, b)| (outline::mm(a.min(b)), outline::mm(a.max(b)))));
        return focus;
    }
    let zero = match figures.zero {
        CarriageZero::FarFace | CarriageZero::FacedToOverall => Station(s.overall()),
        CarriageZero::DatumFace | CarriageZero::SawnEnd | CarriageZero::OffLathe => Station::DATUM,
    };
    let from_zero = |at: Station| {
        let length = if zero == Station::DATUM { at.0 } else { at.from_far_end(s.overall()) };
        let text = if at == zero { "0".to_owned() } else { s.length(length) };
        Reading { at: outline::mm(at), text }
    };
    focus.readings.push(from_zero(zero));
    if op.inside {
        focus.on.extend(op.feature);
        focus.readings.extend(op.to.map(from_zero));
        let (start, end) = (-1e-6, s.overall().mm() + 1e-6);
        focus.readings.retain(|r| start <= r.at && r.at <= end);
        return focus;
    }
    match op.verb {
        Verb::Face | Verb::Center | Verb::PartOff => {
            let end = op.end.or(title::worked_end(setup));
            let face = if end == Some(End::Far) { Station(s.overall()) } else { Station::DATUM };
            if op.verb == Verb::Face {
                focus.faces.push(outline::mm(op.to.unwrap_or(face)));
            }
        }
        Verb::Mill | Verb::Drill | Verb::Tap => {
            focus.on.extend(op.feature);
            focus.readings.extend(op.feature.and_then(|f| s.chain.center(f)).map(from_zero));
        }
        Verb::Rough | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Thread | Verb::Taper | Verb::Knurl => {
            let (Some(from), Some(to)) = (op.from, op.to) else { return focus };
            let (a, b) = (from.min(to), from.max(to));
            focus.cuts.push((outline::mm(a), outline::mm(b)));
            focus.readings.push(from_zero(op.face.unwrap_or(to)));
            if op.verb == Verb::Groove {
                focus.readings.push(from_zero(from));
            }
        }
        _ => {
            let spans = op.feature.and_then(|f| s.chain.span(f));
            focus.cuts.extend(spans.filter(|_| op.verb == Verb::Polish).map(|(a, b)| (outline::mm(a), outline::mm(b))));
        }
    }
    // Overhang before the face is cut, and walls a groove shares, are not lengths of this mounting.
    let (start, end) = (-1e-6, s.overall().mm() + 1e-6);
    focus.readings.retain(|r| start <= r.at && r.at <= end);
    focus
}

/// Where the sawn end lies on the picture, where the carriage counts from it.
pub(super) fn sawn_end(setup: &Setup, figures: &SetupFigures) -> Option<f64> {
    let far = setup.datum_end == DatumEnd::Headstock;
    let at = if far { setup.before.last().map(|s| s.to) } else { setup.before.first().map(|s| s.from) };
    at.filter(|_| figures.zero == CarriageZero::SawnEnd).map(outline::mm)
}

/// The face that lengths count from; none off the lathe.
pub(super) fn counts_from(figures: &SetupFigures) -> Option<&'static str> {
    Some(match figures.zero {
        CarriageZero::DatumFace => words::DATUM_FACE.say(),
        CarriageZero::FarFace | CarriageZero::FacedToOverall => words::FAR_FACE.say(),
        CarriageZero::SawnEnd => words::SAWN_END.say(),
        CarriageZero::OffLathe => return None,
    })
}
