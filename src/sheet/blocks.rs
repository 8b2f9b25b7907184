//! Blocks with their heights worked out.

use super::draw::Picture;
use super::layout::{self, BLANK, BODY, LARGE, LARGE_LINE, LINE, TIGHT_LINE, WIDTH};
use super::view::{
    Block, Body, Cell, Columns, InspectionList, LegendRow, Line, LogoBox, MarkRow, Mm, NoteKind, OperationRow, Pair,
    PieceKind, Rich, SetupLine, Shape, SignRow, TickItem, TickList, Works, Zero,
};
use super::{fit, measure, words};

pub use super::heads::{begin, setup_head, title_head};

/// Height of a heading inside a page, with the space under it.
const HEADING: f64 = LARGE_LINE + 1.2;
/// Space above a block that begins with a heading.
const ABOVE: f64 = 4.0;

fn block(height: f64, body: Body) -> Block {
    Block { height: Mm(height), small: false, body }
}

/// Space under the logo.
const LOGO_GAP: f64 = 2.0;
/// Room for the logo: width and height.
pub const LOGO_ROOM: (f64, f64) = (60.0, 12.0);

/// Name, drawing and bar.
pub fn cover(
    company: &str,
    logo: Option<LogoBox>,
    name: &str,
    lines: Vec<Rich>,
    facts: Vec<(String, String)>,
) -> Block {
    let room = 114.0;
    let name = measure::broken(name, 24.0, true, room);
    let company_height = if company.is_empty() { 0.0 } else { LINE };
    let logo_height = logo.as_ref().map_or(0.0, |l| l.height.0 + LOGO_GAP);
    let left = company_height
        + logo_height
        + name.len() as f64 * 24.0 * 1.15 * measure::POINT
        + lines.iter().map(|l| layout::body(l, room) + 0.8).sum::<f64>();
    let facts: Vec<Pair> = facts
        .into_iter()
        .map(|(key, value)| {
            let value = Rich::new().strong(value);
            let height = layout::body(&value, 36.0).max(LINE) + 0.6;
            Pair { key, value, height: Mm(height) }
        })
        .collect();
    let right: f64 = 1.5 + facts.iter().map(|f| f.height.0).sum::<f64>();
    block(left.max(right) + 2.0, Body::Cover { company: company.to_owned(), logo, name, lines, facts })
}

/// A picture with a little space under it.
pub fn picture(picture: Picture) -> Block {
    let (height, width) = (picture.height + 1.5, Mm(picture.width));
    block(height, Body::Picture { width, svg: picture.svg, alt: picture.alt })
}

/// Room for a picture of a setup, drawn when it is known what its page cuts.
pub fn picture_room(height: f64) -> Block {
    block(height + 1.5, Body::Picture { width: Mm(WIDTH), svg: String::new(), alt: String::new() })
}

/// One row of the list of letters.
pub fn legend_row(letter: &str, size: &str, what: &str) -> LegendRow {
    let lines = measure::lines(&size.into(), BODY, 35.5).max(measure::lines(&what.into(), BODY, 39.0)).max(1);
    let height = Mm(lines as f64 * TIGHT_LINE + 2.0);
    LegendRow { letter: letter.to_owned(), size: size.to_owned(), what: what.to_owned(), height }
}

/// The list of letters, the first half at the left.
pub fn legend(rows: Vec<LegendRow>) -> Block {
    let half = rows.len().div_ceil(2);
    let mut left = rows;
    let right = left.split_off(half);
    let height = [&left, &right].iter().map(|c| c.iter().map(|r| r.height.0).sum::<f64>()).fold(0.0, f64::max);
    block(height + 2.0, Body::Legend { columns: vec![left, right] })
}

/// The setups in a sentence each: number, sentence, anchor.
pub fn setups(heading: &str, rows: Vec<(String, Rich, String)>) -> Block {
    let rows: Vec<SetupLine> = rows
        .into_iter()
        .map(|(number, text, id)| {
            let height = (layout::body(&text, 148.0) + 1.4).max(7.2);
            SetupLine { number, text, page: String::new(), id, height: Mm(height) }
        })
        .collect();
    let height = ABOVE + HEADING + rows.iter().map(|r| r.height.0).sum::<f64>();
    block(height, Body::Setups { heading: heading.to_owned(), rows })
}

/// A framed text.
pub fn boxed(heading: &str, paragraphs: Vec<Rich>) -> Block {
    let paragraphs: Vec<(Rich, Mm)> = paragraphs
        .into_iter()
        .map(|p| {
            let height = layout::body(&p, WIDTH - 9.0) + 1.0;
            (p, Mm(height))
        })
        .collect();
    let height = boxed_height(&paragraphs);
    block(height, Body::Boxed { heading: heading.to_owned(), paragraphs })
}

/// Height of a framed text.
pub fn boxed_height(paragraphs: &[(Rich, Mm)]) -> f64 {
    ABOVE + 5.5 + HEADING + paragraphs.iter().map(|p| p.1.0).sum::<f64>()
}

/// A list of things to lay out.
pub fn tick_list(heading: &str, items: Vec<Rich>) -> TickList {
    let items = items
        .into_iter()
        .map(|text| {
            let height = Mm((layout::body(&text, 75.5) + 1.0).max(7.6));
            TickItem { text, height }
        })
        .collect();
    TickList { heading: heading.to_owned(), items }
}

/// Lists to tick off, side by side.
pub fn ticks(columns: Vec<TickList>) -> Block {
    let height = ticks_height(&columns);
    block(height, Body::Ticks { columns })
}

/// Height of lists side by side.
pub fn ticks_height(columns: &[TickList]) -> f64 {
    ABOVE + HEADING + columns.iter().map(|c| c.items.iter().map(|i| i.height.0).sum::<f64>()).fold(0.0, f64::max)
}

/// What was assumed.
pub fn assumed(heading: &str, rows: Vec<(String, Rich)>) -> Block {
    let rows: Vec<Pair> = rows
        .into_iter()
        .map(|(key, value)| {
            let key_lines = measure::lines(&key.as_str().into(), BODY, 36.0) as f64;
            let height = Mm(layout::body(&value, 129.0).max(key_lines * LINE) + 0.6);
            Pair { key, value, height }
        })
        .collect();
    let height = assumed_height(&rows);
    block(height, Body::Assumed { heading: heading.to_owned(), rows })
}

/// Height of the box of assumptions.
pub fn assumed_height(rows: &[Pair]) -> f64 {
    ABOVE + 5.5 + HEADING + rows.iter().map(|r| r.height.0).sum::<f64>()
}

/// Sentences under a heading, each with a square before it.
pub fn list(heading: &str, items: Vec<Rich>) -> Block {
    let items: Vec<(Rich, Mm)> = items
        .into_iter()
        .map(|i| {
            let height = layout::body(&i, WIDTH - 6.5) + 0.8;
            (i, Mm(height))
        })
        .collect();
    let height = list_height(heading, &items);
    block(height, Body::List { heading: heading.to_owned(), items })
}

/// Height of a list of sentences.
pub fn list_height(heading: &str, items: &[(Rich, Mm)]) -> f64 {
    let top = if heading.is_empty() { 0.0 } else { ABOVE + HEADING };
    top + items.iter().map(|i| i.1.0).sum::<f64>()
}

/// A paragraph.
pub fn text(rich: Rich) -> Block {
    block(layout::body(&rich, WIDTH) + 2.0, Body::Text { text: rich })
}

/// A heading inside a page.
pub fn heading(words: &str) -> Block {
    block(ABOVE + HEADING, Body::Heading { text: words.to_owned(), beside: Rich::new() })
}

/// What the dials read, side by side.
pub fn zeros(dials: Vec<Zero>) -> Block {
    let room = if dials.len() > 1 { [80.0 - 28.5, 92.0 - 21.0] } else { [WIDTH - 28.0; 2] };
    let lines = dials
        .iter()
        .zip(room.into_iter().cycle())
        .map(|(d, room)| d.lines.iter().map(|l| measure::lines(l, BODY, room)).sum::<usize>())
        .max()
        .unwrap_or(0);
    block((lines as f64 * LINE).max(7.2) + 2.2, Body::Zeros { dials })
}

/// The correction at the zero.
pub fn correction(line: Line, text: Rich) -> Block {
    let height = line.height.0 + layout::body(&text, WIDTH - 8.0) + 5.6;
    block(height, Body::Correction { line, text })
}

/// STOP.
pub fn stop(word: &str, text: Rich) -> Block {
    let room = WIDTH - measure::width(word, LARGE, true) - 13.0;
    block(layout::text(&text, LARGE, LARGE_LINE, room) + 3.8, Body::Stop { word: word.to_owned(), text })
}

/// A line of a block below an operation.
pub fn line(label: Rich, label_width: f64, pieces: Vec<super::view::Piece>) -> Line {
    let tall = |k: PieceKind| {
        matches!(k, PieceKind::Blank | PieceKind::OwnBlank | PieceKind::DialBlank | PieceKind::CarriageBlank)
    };
    let framed = |k: PieceKind| matches!(k, PieceKind::Dial | PieceKind::Carriage);
    let height = if pieces.iter().any(|p| tall(p.kind)) {
        10.6
    } else if pieces.iter().any(|p| framed(p.kind)) {
        9.6
    } else {
        6.0
    };
    Line {
        label,
        label_width: Mm(label_width),
        pieces,
        works: Works::Nothing,
        value: String::new(),
        units: "",
        height: Mm(height),
    }
}

/// Width of the lines below an operation.
pub const DETAIL_ROOM: f64 = WIDTH - layout::DETAIL_LEFT - 1.0;

/// Height of the heads of the columns.
pub const COLUMN_HEADS: f64 = 13.0;

/// Space over and under what stands in an operation's row.
const AROUND_ROW: f64 = 3.0;

/// Works the height of an operation's row.
pub fn sized(mut row: OperationRow) -> OperationRow {
    row.detail = fit::fitted(row.detail, DETAIL_ROOM);
    let second = |room: f64| row.second.iter().map(|s| layout::text(s, BODY, TIGHT_LINE, room)).sum::<f64>();
    let cell = |c: &Cell| c.readings.len() as f64 * 9.1 + c.under.len() as f64 * TIGHT_LINE;
    let top = match &row.shape {
        Shape::Columns { length, cross, under_aim, .. } => {
            let aim = 7.5 + if under_aim.is_empty() { 0.0 } else { under_aim.len() as f64 * TIGHT_LINE + 0.4 };
            let verb = LARGE_LINE * verb_lines(&row) + second(layout::COLUMNS[3] - 0.5);
            verb.max(cell(length)).max(cell(cross)).max(aim).max(BLANK).max(13.6)
        }
        Shape::Wide { text } => {
            let room = WIDTH - layout::DETAIL_LEFT - layout::COLUMNS[2] - 1.0;
            let head = Rich::new().strong(format!("{} ", row.verb)).and(text.clone());
            (layout::text(&head, LARGE, LARGE_LINE, room) + second(room)).max(9.0)
        }
    };
    let detail: f64 = row.detail.iter().map(|l| l.height.0).sum();
    let gap = if row.detail.is_empty() { 0.0 } else { 1.5 };
    row.top = Mm(top + AROUND_ROW);
    row.height = Mm(top + AROUND_ROW + detail + gap);
    row
}

/// Leaves out findings, the last first, until the row is lower by `over` millimetres: one line says where they all stand. An
/// operation is never split, and its numbers come before what is said of it elsewhere too.
pub fn with_fewer_findings(mut row: OperationRow, over: f64) -> OperationRow {
    let more = |n: usize| words::wrapped("", 0.0, &words::more_findings(n), DETAIL_ROOM);
    let note: f64 = more(1).iter().map(|l| l.height.0).sum();
    let (mut out, mut won) = (0, -note);
    while let Some(lines) = row.told.pop().filter(|_| won < over) {
        let at = row.detail.len() - lines;
        won += row.detail.drain(at..).map(|l| l.height.0).sum::<f64>();
        out += 1;
    }
    if out > 0 {
        row.detail.extend(more(out));
    }
    sized(row)
}

fn verb_lines(row: &OperationRow) -> f64 {
    let text = Rich::new().strong(format!("{} ", row.verb)).plain(row.what.clone());
    measure::lines(&text, LARGE, layout::COLUMNS[3] - 0.5) as f64
}

/// A table of operations.
pub fn operations(columns: Option<Columns>, rows: Vec<OperationRow>) -> Block {
    let head = if columns.as_ref().is_some_and(|c| !c.again) { COLUMN_HEADS } else { 0.0 };
    let height = head + rows.iter().map(|r| r.height.0).sum::<f64>();
    block(height, Body::Operations { columns, rows })
}

/// Height of the heads of a list of marks.
pub const MARK_HEADS: f64 = 11.5;
/// Least height of a row of a list of marks.
pub const MARK_ROW: f64 = 13.0;
/// Width of the surfaces, and of the meanings, in a list of marks.
pub const MARK_COLUMNS: [f64; 2] = [36.0, 39.0];

/// One line to scribe.
pub fn mark_row(label: &str, gauge: &str, on: &str, means: &str, leave: &str) -> MarkRow {
    let on = measure::broken(on, BODY, false, MARK_COLUMNS[0] - 1.5);
    let meanings = measure::lines(&means.into(), BODY, MARK_COLUMNS[1] - 0.5) + 1;
    let lines = on.len().max(meanings) as f64;
    let height = Mm((lines * 12.0 * 1.15 * measure::POINT + 2.6).max(MARK_ROW));
    MarkRow { label: label.into(), gauge: gauge.into(), on, means: means.into(), leave: leave.into(), height }
}

/// Height of the middle of each row, from the top of the list's heads.
pub fn mark_middles(rows: &[MarkRow]) -> Vec<f64> {
    let mut top = MARK_HEADS;
    rows.iter()
        .map(|r| {
            top += r.height.0;
            top - r.height.0 / 2.0
        })
        .collect()
}

/// Height of the picture beside a list of marks.
pub fn marks_picture_height(rows: &[MarkRow]) -> f64 {
    (MARK_HEADS + rows.iter().map(|r| r.height.0).sum::<f64>() + 2.0).max(66.0)
}

/// Lines to scribe.
pub fn marks(heading: &str, picture: Picture, head: Vec<String>, rows: Vec<MarkRow>, note: Rich) -> Block {
    let list = MARK_HEADS
        + rows.iter().map(|r| r.height.0).sum::<f64>()
        + 3.0
        + layout::body(&note, WIDTH - picture.width - 1.0);
    // A heading that says where the lines are scribed may take two lines.
    let heading_lines = measure::lines(&Rich::new().strong(heading), LARGE, WIDTH).max(1) as f64;
    let height = HEADING + (heading_lines - 1.0) * LARGE_LINE + list.max(picture.height) + 3.0;
    block(
        height,
        Body::Marks {
            heading: heading.to_owned(),
            width: Mm(picture.width),
            svg: picture.svg,
            alt: picture.alt,
            head,
            rows,
            note,
        },
    )
}

/// Height of a row to inspect.
pub const INSPECTION_ROW: f64 = 11.0;
/// Height over the rows to inspect.
pub const INSPECTION_HEADS: f64 = HEADING + 7.0;

/// Sizes to inspect.
pub fn inspection(columns: Vec<InspectionList>) -> Block {
    let rows = columns.iter().map(|c| c.rows.len()).max().unwrap_or(0);
    block(INSPECTION_HEADS + rows as f64 * INSPECTION_ROW + 3.0, Body::Inspection { columns })
}

/// Names and dates.
pub fn sign_off(rows: Vec<SignRow>) -> Block {
    block(rows.len() as f64 * 11.8 + 2.0, Body::SignOff { rows })
}

/// Lines to write on.
pub fn lines(heading: &str, count: usize) -> Block {
    block(ABOVE + HEADING + count as f64 * 9.5, Body::Lines { heading: heading.to_owned(), count })
}

/// A piece of a note.
pub fn note(kind: NoteKind, level: u8, marker: &str, lines: Vec<Rich>) -> Block {
    let indent = if kind == NoteKind::Item { 6.0 * f64::from(level) } else { 0.0 };
    let size = if kind == NoteKind::Heading { LARGE } else { BODY };
    let pitch = if kind == NoteKind::Heading { LARGE_LINE } else { LINE };
    let height: f64 = lines.iter().map(|l| layout::text(l, size, pitch, WIDTH - indent - 4.0).max(pitch)).sum();
    block(height.max(1.0) + 1.8, Body::Note { note: kind, level, marker: marker.to_owned(), lines })
}
