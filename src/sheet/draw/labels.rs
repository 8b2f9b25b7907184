//! Letters over the body and running lengths under it: pushed apart, joined to their places by elbows.

use super::canvas::{Anchor, Area, Canvas, Dash, Label, TEXT, weight};
use super::spread::{fits, spread};

/// Radius of the circle around a letter.
pub const RING: f64 = 3.4;
/// Type of a letter.
const LETTER: f64 = 4.4;
/// Smallest type of a picture: 9 pt.
const SMALL: f64 = 9.0 * crate::sheet::measure::POINT;

/// A letter to set over a place on the body.
#[derive(Debug, Clone)]
pub struct Lettered {
    /// The letter.
    pub letter: String,
    /// Paper of its place.
    pub x: f64,
    /// Height of the surface it points to.
    pub y: f64,
    /// A finding is about it: white on black.
    pub flagged: bool,
}

/// A ring with its letter inside.
pub fn ring(canvas: &mut Canvas, at: (f64, f64), radius: f64, letter: &str) {
    ring_of(canvas, at, radius, letter, false);
}

/// The ring, white on black where a finding is about its feature.
fn ring_of(canvas: &mut Canvas, at: (f64, f64), radius: f64, letter: &str, flagged: bool) {
    canvas.circle(at, radius, if flagged { "#000" } else { "#fff" }, weight::THICK);
    let fit = if letter.chars().count() > 1 { 0.72 } else { 1.0 };
    let size = LETTER * radius / RING * fit;
    let area = Area { left: at.0 - radius, top: at.1 - radius, right: at.0 + radius, bottom: at.1 + radius };
    canvas.text_in((at.0, at.1 + size * 0.357), Label { size, white: flagged, ..Label::bold(letter) }, area);
}

/// Height that [`letters`] needs from its top to the surface, for so many letters.
pub fn letters_height(count: usize, room: (f64, f64)) -> f64 {
    match rows(count, room) {
        Rows::One => 2.0 * RING + 3.0,
        Rows::Two { radius, .. } => 4.0 * radius + 4.0,
        Rows::None => 0.0,
    }
}

enum Rows {
    One,
    Two { radius: f64, pitch: f64 },
    None,
}

fn rows(count: usize, room: (f64, f64)) -> Rows {
    let width = room.1 - room.0;
    let n = count as f64;
    if n * (2.0 * RING + 1.2) <= width {
        return Rows::One;
    }
    // In two rows the leaders of the upper go between the rings of the lower.
    [RING, 2.9, 2.5]
        .into_iter()
        .map(|radius| (radius, radius + 0.75))
        .find(|(_, pitch)| n * pitch + RING <= width)
        .map_or(Rows::None, |(radius, pitch)| Rows::Two { radius, pitch })
}

/// Sets the letters in one row, or two where they crowd. False when they do not fit in two: then none is drawn.
pub fn letters(canvas: &mut Canvas, letters: &[Lettered], top: f64, room: (f64, f64)) -> bool {
    let mut sorted: Vec<&Lettered> = letters.iter().collect();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x));
    let wanted: Vec<f64> = sorted.iter().map(|l| l.x).collect();
    let (places, radius, heights): (Vec<f64>, f64, [f64; 2]) = match rows(sorted.len(), room) {
        Rows::One => {
            let widths = vec![2.0 * RING; wanted.len()];
            (spread(&wanted, &widths, 1.2, room), RING, [top + RING, top + RING])
        }
        Rows::Two { radius, pitch } => {
            let inner = (room.0 + radius, room.1 - radius);
            let widths = vec![pitch; wanted.len()];
            (spread(&wanted, &widths, 0.0, inner), radius, [top + radius, top + 3.0 * radius + 0.6])
        }
        Rows::None => return false,
    };
    let lowest = heights[1] + radius;
    for (i, (l, x)) in sorted.iter().zip(&places).enumerate() {
        let y = heights[i % 2];
        let elbow = (lowest + 2.6).min(l.y);
        canvas.path(&[(*x, y + radius), (*x, lowest + 0.6), (l.x, elbow), (l.x, l.y)], weight::THIN, Dash::Solid);
        ring_of(canvas, (*x, y), radius, &l.letter, l.flagged);
    }
    true
}

/// A running length: where it stands and what it says.
#[derive(Debug, Clone)]
pub struct Running {
    /// Paper of its place.
    pub x: f64,
    /// Height where its extension line begins.
    pub y: f64,
    /// The length.
    pub text: String,
}

/// Running lengths from the origin along one line (ISO 129-1, parallel and running dimensions).
#[derive(Debug, Clone, Copy)]
pub struct RunningLine {
    /// Height of the line.
    pub y: f64,
    /// Baseline of the numbers when they stand upright.
    pub baseline: f64,
    /// Left and right edge for the numbers.
    pub room: (f64, f64),
    /// Whether the numbers stand in the square frame of the carriage dial.
    pub framed: bool,
}

impl RunningLine {
    /// Height from the line to the foot of the numbers for these texts.
    pub fn depth(texts: &[String], room: (f64, f64)) -> f64 {
        match set(texts, room) {
            Set::Upright => 11.0,
            Set::Turned(size) => 7.0 + longest(texts, size),
            Set::None => 0.0,
        }
    }

    /// Draws the line from `origin`, an arrow to each place, and the numbers. False when there are too many to print at 9 pt.
    pub fn draw(&self, canvas: &mut Canvas, origin: f64, marks: &[Running]) -> bool {
        let mut sorted: Vec<&Running> = marks.iter().collect();
        sorted.sort_by(|a, b| a.x.total_cmp(&b.x));
        let texts: Vec<String> = sorted.iter().map(|m| m.text.clone()).collect();
        let Some((first, last)) = sorted.first().zip(sorted.last()) else { return true };
        let set = set(&texts, self.room);
        canvas.line((first.x.min(origin), self.y), (last.x.max(origin), self.y), weight::THIN, Dash::Solid);
        let (widths, gap) = match set {
            Set::Upright => {
                let frame = if self.framed { 2.4 } else { 0.0 };
                (
                    texts.iter().map(|t| Label::bold(t).width() + frame).collect::<Vec<_>>(),
                    if self.framed { 1.4 } else { 2.4 },
                )
            }
            Set::Turned(size) => (vec![size * 0.97; texts.len()], 0.35),
            Set::None => return false,
        };
        let wanted: Vec<f64> = sorted.iter().map(|m| m.x).collect();
        for ((mark, at), width) in sorted.iter().zip(spread(&wanted, &widths, gap, self.room)).zip(&widths) {
            canvas.line((mark.x, mark.y), (mark.x, self.y), weight::THIN, Dash::Solid);
            let bend = self.y + 1.6;
            canvas.path(
                &[(mark.x, self.y), (mark.x, bend), (at, bend + 3.2), (at, bend + 4.0)],
                weight::THIN,
                Dash::Solid,
            );
            if (mark.x - origin).abs() > 0.01 {
                arrow(canvas, (mark.x, self.y), (mark.x - origin).signum());
            }
            match set {
                Set::Turned(size) => {
                    let label = Label { size, turned: true, ..Label::bold(&mark.text).anchored(Anchor::End) };
                    canvas.text((at + size * 0.357, bend + 4.8), label);
                }
                _ if self.framed => {
                    let (half, y) = (width / 2.0, self.baseline);
                    let area = Area { left: at - half, top: y - 4.4, right: at + half, bottom: y + 1.4 };
                    canvas.rectangle(area.left + 0.15, area.top, area.right - 0.15, area.bottom, "#fff", 0.3);
                    canvas.text_in((at, y), Label::bold(&mark.text), area);
                }
                _ => canvas.text((at, self.baseline), Label::bold(&mark.text)),
            }
        }
        canvas.circle((origin, self.y), 1.1, "#fff", weight::THICK);
        true
    }
}

/// A filled arrow head whose tip is at `tip`; it points right for a positive `direction`.
pub fn arrow(canvas: &mut Canvas, tip: (f64, f64), direction: f64) {
    let back = tip.0 - 2.4 * direction;
    canvas.area(&[tip, (back, tip.1 - 0.75), (back, tip.1 + 0.75)], "#000", 0.0);
}

enum Set {
    Upright,
    Turned(f64),
    None,
}

fn set(texts: &[String], room: (f64, f64)) -> Set {
    let widths: Vec<f64> = texts.iter().map(|t| Label::bold(t).width()).collect();
    if fits(&widths, 4.0, room) {
        return Set::Upright;
    }
    [TEXT, 10.5 * crate::sheet::measure::POINT, SMALL]
        .into_iter()
        .find(|size| fits(&vec![size * 0.97; texts.len()], 0.35, room))
        .map_or(Set::None, Set::Turned)
}

fn longest(texts: &[String], size: f64) -> f64 {
    texts.iter().map(|t| Label { size, ..Label::bold(t) }.width()).fold(0.0, f64::max)
}

/// The black flag on the datum face: its pole at `x` from `top` down to `bottom`, its body on the side it points away from.
pub fn flag(canvas: &mut Canvas, x: f64, top: f64, bottom: f64, body_right: bool, words: &str) {
    let (high, tip) = (7.6, 4.0);
    let width = Label { size: LETTER, ..Label::bold(words) }.width() + 4.0;
    let side = if body_right { 1.0 } else { -1.0 };
    canvas.line((x, top), (x, bottom), weight::THICK, Dash::Solid);
    let (near, far) = (x + side * tip, x + side * (tip + width));
    canvas.area(&[(x, top + high / 2.0), (near, top), (far, top), (far, top + high), (near, top + high)], "#000", 0.0);
    let middle = f64::midpoint(near, far);
    let area = Area { left: x.min(far), top, right: x.max(far), bottom: top + high };
    let label = Label { size: LETTER, white: true, ..Label::bold(words) };
    canvas.text_in((middle, top + high / 2.0 + LETTER * 0.357), label, area);
}

/// How far a flag with these words reaches from its pole.
pub fn flag_reach(words: &str) -> f64 {
    4.0 + Label { size: LETTER, ..Label::bold(words) }.width() + 4.0
}
