//! Rows of distances under the outline of a part: a tolerance chart, its results, a loop of dimensions that contradict each other.

use super::Picture;
use super::axis::{Axis, Room, THINNEST};
use super::body::{Look, Placed};
use super::canvas::{Anchor, Canvas, Dash, Label, weight};
use super::outline::Outline;
use crate::sheet::measure::POINT;

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Height of the body on paper.
const TALLEST: f64 = 18.0;
/// Space between two columns of text.
const GAP: f64 = 3.0;

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartRow {
    /// Number at its left.
    pub number: String,
    /// Where it is measured from, millimetres from the datum end; none for a cut measured by what comes off.
    pub from: Option<f64>,
    /// Where it cuts, or ends.
    pub to: f64,
    /// Side of the cut face on which what comes off lies (−1 toward the datum end, 1 away from it); none where nothing does.
    pub stock: Option<f64>,
    /// An arrow at both ends: a distance, not a cut.
    pub both: bool,
    /// Drawn heavy.
    pub heavy: bool,
    /// Texts of the columns at the right.
    pub texts: Vec<String>,
}

/// Rows under an outline, with heads over the columns at the right.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartRows {
    /// Id of the picture.
    pub id: String,
    /// Heads; the first is over the numbers.
    pub heads: Vec<String>,
    /// The rows.
    pub rows: Vec<ChartRow>,
    /// Whether the outline stands over them.
    pub outline: bool,
    /// What it shows, in words.
    pub alt: String,
}

/// Sizes by how many rows there are.
struct Type {
    size: f64,
    pitch: f64,
}

impl Type {
    fn of(rows: usize) -> Self {
        let points = match rows {
            0..=20 => 12.0,
            21..=26 => 10.5,
            _ => 9.0,
        };
        Self { size: points * POINT, pitch: points * POINT * 1.42 }
    }
}

/// Draws pictures that stand under each other: their faces in one line, their type as small as all of them on one page ask.
pub fn charts(body: &Outline, all: &[ChartRows]) -> Vec<Picture> {
    let kind = Type::of(all.iter().map(|r| r.rows.len()).sum());
    let columns: Vec<Vec<f64>> = all.iter().map(|rows| columns(rows, &kind)).collect();
    let numbers = all
        .iter()
        .map(|rows| wide(rows.heads.first().into_iter().chain(rows.rows.iter().map(|r| &r.number)), &kind, true));
    let number = numbers.fold(0.0, f64::max);
    let texts = columns.iter().map(|c| c.iter().map(|w| w + GAP).sum::<f64>()).fold(0.0, f64::max);
    all.iter().zip(&columns).map(|(rows, columns)| one(body, rows, &kind, columns, (number, texts))).collect()
}

/// Draws the rows; `sides` is the width of the numbers and of the texts.
fn one(body: &Outline, rows: &ChartRows, kind: &Type, columns: &[f64], sides: (f64, f64)) -> Picture {
    let (number, texts) = sides;
    let place = Room {
        left: number + 8.0,
        right: (WIDTH - texts - 6.0).max(number + 40.0),
        height: TALLEST,
        datum_right: false,
        align: 0.5,
        thinnest: THINNEST,
    };
    let axis = Axis::fit(body, body.start(), body.end(), place);
    let high = if rows.outline { axis.across(body.largest()) + 5.0 } else { 0.0 };
    let head = high + kind.size * 1.2;
    let top = head + kind.size * 0.5;
    let height = top + kind.pitch * rows.rows.len() as f64 + 1.5;
    let mut canvas = Canvas::new(WIDTH, height);
    if rows.outline {
        let placed = Placed { body, axis: &axis, center: (high - 3.0) / 2.0 };
        placed.draw(&mut canvas, (body.start(), body.end()), &|_| Look::Plain);
        placed.center_line(&mut canvas, axis.x(body.start()) - 4.0, axis.x(body.end()) + 4.0);
    }
    faces(&mut canvas, rows, &axis, (high - 1.5).max(0.0), height - 1.0);
    texts_of(&mut canvas, &rows.heads, head, number, columns, kind, true);
    canvas.line((0.0, top - 0.4), (WIDTH, top - 0.4), weight::THIN, Dash::Solid);
    for (i, row) in rows.rows.iter().enumerate() {
        let middle = top + kind.pitch * (i as f64 + 0.5);
        let mut texts = vec![row.number.clone()];
        texts.extend(row.texts.iter().cloned());
        texts_of(&mut canvas, &texts, middle + kind.size * 0.36, number, columns, kind, row.heavy);
        mark(&mut canvas, row, &axis, middle);
        let below = top + kind.pitch * (i as f64 + 1.0);
        if (i + 1) % 4 == 0 && i + 1 < rows.rows.len() {
            canvas.line((0.0, below), (WIDTH, below), weight::THIN, Dash::Hidden);
        }
    }
    Picture::of(&canvas, &rows.id, rows.alt.clone())
}

fn wide<'a>(texts: impl Iterator<Item = &'a String>, kind: &Type, bold: bool) -> f64 {
    texts.map(|t| Label { size: kind.size, bold, ..Label::plain(t) }.width()).fold(0.0, f64::max)
}

/// Widths of the columns at the right.
fn columns(rows: &ChartRows, kind: &Type) -> Vec<f64> {
    (1..rows.heads.len())
        .map(|i| wide(rows.rows.iter().filter_map(|r| r.texts.get(i - 1)).chain([&rows.heads[i]]), kind, true))
        .collect()
}

/// Number at the left, the other texts flush right in their columns.
fn texts_of(canvas: &mut Canvas, texts: &[String], y: f64, number: f64, columns: &[f64], kind: &Type, bold: bool) {
    let label = |text| Label { size: kind.size, bold, ..Label::plain(text) };
    let mut right = WIDTH;
    for (text, width) in texts.iter().skip(1).zip(columns).rev() {
        if !text.is_empty() {
            canvas.text((right, y), label(text).anchored(Anchor::End));
        }
        right -= width + GAP;
    }
    if let Some(first) = texts.first().filter(|t| !t.is_empty()) {
        canvas.text((number, y), label(first).anchored(Anchor::End));
    }
}

/// Thin lines down from every face that a row speaks of.
fn faces(canvas: &mut Canvas, rows: &ChartRows, axis: &Axis, top: f64, bottom: f64) {
    let mut places: Vec<f64> =
        rows.rows.iter().flat_map(|r| r.from.into_iter().chain([r.to])).map(|p| axis.x(p)).collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    for x in places {
        canvas.line((x, top), (x, bottom), weight::THIN, Dash::Hidden);
    }
}

/// A row's line: a dot where it is measured from, an arrow where it cuts, a triangle for what comes off.
fn mark(canvas: &mut Canvas, row: &ChartRow, axis: &Axis, y: f64) {
    let to = axis.x(row.to);
    let line = if row.heavy { weight::CUT } else { weight::THICK };
    if let Some(from) = row.from.map(|f| axis.x(f)) {
        canvas.line((from, y), (to, y), line, Dash::Solid);
        let way = if to >= from { 1.0 } else { -1.0 };
        head(canvas, (to, y), way);
        if row.both {
            head(canvas, (from, y), -way);
        } else {
            canvas.circle((from, y), 0.9, "#fff", weight::THICK);
        }
    }
    if let Some(side) = row.stock {
        let tip = to + side * 0.2;
        canvas.area(&[(tip, y), (tip + side * 2.6, y - 1.5), (tip + side * 2.6, y + 1.5)], "#000", 0.0);
    } else if row.from.is_none() {
        canvas.circle((to, y), 0.9, "#000", weight::THICK);
    }
}

fn head(canvas: &mut Canvas, at: (f64, f64), way: f64) {
    let back = at.0 - way * 2.2;
    canvas.area(&[at, (back, at.1 - 0.9), (back, at.1 + 0.9)], "#000", 0.0);
}
