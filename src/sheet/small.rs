//! Blocks of the short sheet: the same things in 9 to 13 pt, a line an operation, so that a simple part fits one side of paper.

use super::draw::Picture;
use super::layout::WIDTH;
use super::measure::{self, POINT};
use super::view::{
    Block, Body, Cell, Columns, InspectionList, Line, Mm, OperationRow, Pair, Piece, PieceKind, Rich, Shape, Works,
    Zero,
};

/// Body text, points.
const TEXT: f64 = 10.0;
/// Height of a line of it.
const LINE: f64 = TEXT * 1.22 * POINT;
/// Words that count: STOP, headings, sizes in a line.
const STRONG: f64 = 11.0;
/// Numbers in frames.
const FRAMED: f64 = 12.0;
/// Limits beside a size, and what stands beside a frame.
const SMALL: f64 = 9.0;
/// What a frame adds to the width of its number, with the gap behind it.
const AROUND: f64 = 5.2;
/// How much smaller a picture is than on the full sheet: its 12 pt become 9.
pub const SHRINK: f64 = 0.75;

/// Widths of the columns of operations: tick box, number, letter, verb, size, length, cross dial, measured.
pub const COLUMNS: [f64; 8] = [6.5, 8.5, 7.0, 46.0, 30.0, 38.0, 27.0, 15.0];
/// Height of the heads of the columns.
pub const COLUMN_HEADS: f64 = 9.6;
/// Width of a text across the columns.
const WIDE: f64 = COLUMNS[3] + COLUMNS[4] + COLUMNS[5] + COLUMNS[6] + COLUMNS[7];
/// Width of what stands under an operation.
const DETAIL: f64 = WIDTH - COLUMNS[0] - COLUMNS[1] - 1.0;
/// Height of a heading under its rule.
const HEADING: f64 = 7.4;
/// Height of a row to inspect, and over the first.
const INSPECTION: (f64, f64) = (8.0, 13.8);

fn block(height: f64, body: Body) -> Block {
    Block { height: Mm(height), small: true, body }
}

fn text_height(rich: &Rich, room: f64) -> f64 {
    measure::lines(rich, TEXT, room) as f64 * LINE
}

/// The top of the short sheet: name, drawing, picture, and what to lay on the saw.
pub fn brief(name: &str, lines: &[Rich], facts: &[Pair], picture: Option<Picture>) -> Block {
    let said = lines.iter().cloned().reduce(|all, line| all.plain(" ").and(line)).unwrap_or_default();
    let name = measure::broken(name, 18.0, true, WIDTH);
    let side = WIDTH * (1.0 - SHRINK) - 4.0;
    let facts: Vec<Pair> = facts
        .iter()
        .map(|f| {
            let value = Rich::new().plain(format!("{} ", f.key)).and(f.value.clone());
            let height = Mm(text_height(&value, side) + 0.8);
            Pair { key: String::new(), value, height }
        })
        .collect();
    let drawn = picture.as_ref().map_or(0.0, |p| p.height * SHRINK);
    let beside = facts.iter().map(|f| f.height.0).sum::<f64>() + 2.0;
    let top = name.len() as f64 * 18.0 * 1.2 * POINT + text_height(&said, WIDTH) + 3.0;
    let width = Mm(WIDTH * SHRINK);
    let (svg, alt) = picture.map(|p| (p.svg, p.alt)).unwrap_or_default();
    block(top + drawn.max(beside) + 1.0, Body::Brief { name, text: said, facts, width, svg, alt })
}

/// A paragraph.
pub fn text(rich: Rich) -> Block {
    block(text_height(&rich, WIDTH) + 1.2, Body::Text { text: rich })
}

/// A paragraph in the smallest type.
pub fn fine(rich: Rich) -> Block {
    block(measure::lines(&rich, SMALL, WIDTH) as f64 * SMALL * 1.2 * POINT + 0.8, Body::Fine { text: rich })
}

/// A heading under a rule.
pub fn heading(words: &str) -> Block {
    block(HEADING, Body::Heading { text: words.to_owned(), beside: Rich::new() })
}

/// A heading under a rule, and the first of `lines` behind it where the line holds both; the rest below.
pub fn heading_beside(words: &str, lines: Rich) -> Vec<Block> {
    let room = WIDTH - measure::width(words, STRONG, true) - 4.0;
    if measure::lines(&lines, TEXT, room) <= 1 {
        return vec![block(HEADING, Body::Heading { text: words.to_owned(), beside: lines })];
    }
    vec![heading(words), text(lines)]
}

/// A block of the full sheet at this size; a kind that has none stays as it is.
pub fn of(b: Block) -> Block {
    let full = b.height.0;
    match b.body {
        Body::Text { text: rich } => text(rich),
        Body::Zeros { dials } => {
            let joined =
                |lines: Vec<Rich>| lines.into_iter().reduce(|all, l| all.plain(" ").and(l)).into_iter().collect();
            let dials: Vec<Zero> = dials.into_iter().map(|d| Zero { lines: joined(d.lines), ..d }).collect();
            let rooms = if dials.len() > 1 { [82.0 - 22.5, 93.0 - 17.2] } else { [WIDTH - 26.0; 2] };
            let lines = |d: &Zero, room| d.lines.iter().map(|l| measure::lines(l, TEXT, room)).sum();
            let most: usize = dials.iter().zip(rooms).map(|(d, room)| lines(d, room)).max().unwrap_or(0);
            block((most as f64 * LINE).max(5.2) + 1.4, Body::Zeros { dials })
        }
        Body::Correction { line, text } => {
            let line = in_line(line);
            let height = line.height.0 + text_height(&text, WIDTH - 8.0) + 4.6;
            block(height, Body::Correction { line, text })
        }
        Body::Stop { word, text } => {
            let room = WIDTH - measure::width(&word, STRONG, true) - 12.0;
            let lines = measure::lines(&text, STRONG, room) as f64;
            block(lines * STRONG * 1.2 * POINT + 2.4, Body::Stop { word, text })
        }
        Body::Picture { width, svg, alt } => {
            block(full * SHRINK, Body::Picture { width: Mm(width.0 * SHRINK), svg, alt })
        }
        Body::Inspection { columns } => inspection(columns),
        Body::List { items, .. } => {
            let run_in = items.into_iter().map(|i| i.0).reduce(|all, i| all.plain(" ").and(i)).unwrap_or_default();
            text(run_in)
        }
        Body::SignOff { rows } => block(8.0, Body::SignOff { rows }),
        body => Block { height: Mm(full), small: false, body },
    }
}

/// Sizes to inspect.
pub fn inspection(columns: Vec<InspectionList>) -> Block {
    let rows = columns.iter().map(|c| c.rows.len()).max().unwrap_or(0);
    block(INSPECTION.1 + rows as f64 * INSPECTION.0 + 1.5, Body::Inspection { columns })
}

/// Most rows to inspect that `room` millimetres hold.
pub fn inspection_rows(room: f64) -> usize {
    ((room - INSPECTION.1 - 1.5) / INSPECTION.0).max(0.0) as usize
}

/// A table of operations.
pub fn operations(columns: Option<Columns>, rows: Vec<OperationRow>) -> Block {
    let head = if columns.as_ref().is_some_and(|c| !c.again) { COLUMN_HEADS } else { 0.0 };
    block(head + rows.iter().map(|r| r.height.0).sum::<f64>(), Body::Operations { columns, rows })
}

/// An operation in as few lines as it takes: what stood in lines of its own follows in the same one.
pub fn row(mut row: OperationRow) -> OperationRow {
    if let Shape::Columns { under_aim, .. } = &mut row.shape
        && !under_aim.is_empty()
    {
        row.second.extend(std::mem::take(under_aim).into_iter().map(Rich::from));
    }
    let second = row.second.drain(..).reduce(|all, s| all.plain(", ").and(s));
    row.second = second.into_iter().collect();
    row.detail = merged(std::mem::take(&mut row.detail));
    let verb = |text: &Rich| {
        let said = Rich::new().strong(format!("{} ", row.verb)).and(text.clone()).plain("  ");
        row.second.iter().cloned().fold(said, Rich::and)
    };
    let top = match &row.shape {
        Shape::Columns { aim, length, cross, blank, .. } => {
            let size = if aim.as_ref().is_some_and(|a| !a.upper.is_empty() || !a.lower.is_empty()) { 7.2 } else { 5.4 };
            text_height(&verb(&Rich::from(row.what.clone())), COLUMNS[3] - 1.5)
                .max(size)
                .max(flow_height(length, COLUMNS[5] - 1.0))
                .max(flow_height(cross, COLUMNS[6] - 1.0))
                .max(if *blank { 6.4 } else { 0.0 })
        }
        Shape::Wide { text } => text_height(&verb(text), WIDE - 1.5),
    };
    let top = top.max(5.0) + 1.2;
    // One short line, a blank for the overall, stands behind a text across the columns: then both heights are the same.
    if let (Shape::Wide { text }, [line]) = (&row.shape, &row.detail[..]) {
        let beside = measure::rich_width(&verb(text), TEXT) + line.pieces.iter().map(piece_width).sum::<f64>();
        if beside < WIDE - 10.0 {
            row.top = Mm(top.max(line.height.0 + 0.8));
            row.height = row.top;
            return row;
        }
    }
    let detail: f64 = row.detail.iter().map(|l| l.height.0).sum();
    row.top = Mm(top);
    row.height = Mm(top + detail + if row.detail.is_empty() { 0.0 } else { 1.0 });
    row
}

/// Height of numbers in frames and the words beside them, as many a line as fit.
fn flow_height(cell: &Cell, room: f64) -> f64 {
    let frames = cell.readings.iter().map(|r| (measure::width(r, FRAMED, true) + AROUND, 6.3));
    let words = cell.under.iter().map(|u| (measure::width(u, SMALL, false) + 1.0, 4.2));
    let (mut used, mut this, mut above) = (0.0, 0.0_f64, 0.0);
    for (width, height) in frames.chain(words) {
        if used > 0.0 && used + width > room * 0.97 {
            above += this;
            (used, this) = (0.0, 0.0);
        }
        used += width;
        this = this.max(height);
    }
    above + this
}

/// Lines below an operation, filled up: the next begins where the one before ends, while it fits.
fn merged(lines: Vec<Line>) -> Vec<Line> {
    let mut out: Vec<Line> = Vec::new();
    let mut open: Vec<Piece> = Vec::new();
    let mut used = 0.0;
    let close = |open: &mut Vec<Piece>, used: &mut f64, out: &mut Vec<Line>| {
        *used = 0.0;
        if !open.is_empty() {
            out.push(sized(Rich::new(), std::mem::take(open)));
        }
    };
    for line in joined(lines) {
        if line.works != Works::Nothing {
            close(&mut open, &mut used, &mut out);
            out.push(in_line(line));
            continue;
        }
        let label = line.label.text();
        let said = (!label.is_empty()).then(|| plain(label));
        let pieces: Vec<Piece> =
            said.into_iter().chain(line.pieces.into_iter().map(at_this_size)).flat_map(broken).collect();
        // What fits a line of its own is not torn from its label.
        let whole: f64 = pieces.iter().map(piece_width).sum();
        if used + piece_width(&gap()) + whole > DETAIL * 0.97 {
            close(&mut open, &mut used, &mut out);
        }
        if !open.is_empty() {
            used += piece_width(&gap());
            open.push(gap());
        }
        for piece in pieces {
            let width = piece_width(&piece);
            if used > 0.0 && used + width > DETAIL * 0.97 {
                close(&mut open, &mut used, &mut out);
            }
            used += width;
            open.push(piece);
        }
    }
    close(&mut open, &mut used, &mut out);
    out
}

/// A sentence that was broken into lines for the full sheet, in one again.
fn joined(lines: Vec<Line>) -> Vec<Line> {
    let only_text = |l: &Line| {
        l.label.is_empty() && matches!(&l.pieces[..], [Piece { kind: PieceKind::Plain, width: Mm(0.0), .. }])
    };
    let mut out: Vec<Line> = Vec::new();
    for line in lines {
        match out.last_mut() {
            Some(last) if only_text(last) && only_text(&line) && !last.pieces[0].text.ends_with(['.', ':']) => {
                last.pieces[0].text =
                    format!("{} {}", last.pieces[0].text.trim_end(), line.pieces[0].text.trim_start());
            }
            _ => out.push(line),
        }
    }
    out
}

/// Between what belongs to one label and what belongs to the next.
fn gap() -> Piece {
    plain("\u{2007}\u{2007}".to_owned())
}

fn plain(text: String) -> Piece {
    Piece { kind: PieceKind::Plain, text, width: Mm(0.0) }
}

const fn is_blank(kind: PieceKind) -> bool {
    matches!(kind, PieceKind::Blank | PieceKind::OwnBlank | PieceKind::DialBlank | PieceKind::CarriageBlank)
}

fn at_this_size(piece: Piece) -> Piece {
    let width = if is_blank(piece.kind) { piece.width.0.min(20.0) } else { 0.0 };
    Piece { width: Mm(width), ..piece }
}

/// A text longer than a line, in pieces that are not.
fn broken(piece: Piece) -> Vec<Piece> {
    if piece.kind != PieceKind::Plain || piece_width(&piece) <= DETAIL * 0.9 {
        return vec![piece];
    }
    measure::broken(&piece.text, TEXT, false, DETAIL * 0.9).into_iter().map(plain).collect()
}

fn piece_width(piece: &Piece) -> f64 {
    let gap = 1.4;
    gap + match piece.kind {
        PieceKind::Plain => measure::width(&piece.text, TEXT, false),
        PieceKind::Strong => measure::width(&piece.text, STRONG, true),
        PieceKind::Dial | PieceKind::Carriage => measure::width(&piece.text, STRONG, true) + AROUND,
        PieceKind::Blank | PieceKind::OwnBlank | PieceKind::DialBlank | PieceKind::CarriageBlank => piece.width.0,
    }
}

/// One line at this size, its label as wide as its words.
fn in_line(line: Line) -> Line {
    let pieces = line.pieces.into_iter().map(at_this_size).collect();
    Line { works: line.works, value: line.value, units: line.units, ..sized(line.label, pieces) }
}

fn sized(label: Rich, pieces: Vec<Piece>) -> Line {
    let framed = |k| matches!(k, PieceKind::Dial | PieceKind::Carriage);
    let height = if pieces.iter().any(|p| is_blank(p.kind)) {
        7.4
    } else if pieces.iter().any(|p| framed(p.kind)) {
        6.8
    } else {
        LINE + 0.4
    };
    let label_width = if label.is_empty() { 0.0 } else { measure::rich_width(&label, STRONG) + 0.6 };
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
