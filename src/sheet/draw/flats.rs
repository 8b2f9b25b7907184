//! The section through flats on a round.

use std::fmt::Write as _;

use super::Picture;
use super::canvas::{Anchor, Canvas, Dash, Label, num, weight};

const WIDTH: f64 = 178.0;
/// Height of the picture.
pub const HEIGHT: f64 = 44.0;
const RADIUS: f64 = 18.0;

/// Flats on a round; lengths in millimetres of the part, words as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatsSection {
    /// Diameter of the round.
    pub round: f64,
    /// Depth of a flat below it.
    pub depth: f64,
    /// How many flats.
    pub count: u8,
    /// `14.00 across flats`.
    pub across: String,
    /// `2.000 deep`.
    pub deep: String,
    /// `flat 11.31 wide`.
    pub wide: String,
    /// `Ø 18.000`.
    pub around: String,
}

/// Draws it, the first flat on top.
pub fn flats(section: &FlatsSection, id: &str, alt: String) -> Picture {
    let mut canvas = Canvas::new(WIDTH, HEIGHT);
    let (cx, cy) = (WIDTH / 2.0, HEIGHT / 2.0 + 1.0);
    let scale = RADIUS * 2.0 / section.round.max(1e-6);
    let inner = (RADIUS - section.depth * scale).clamp(RADIUS * 0.2, RADIUS);
    canvas.circle((cx, cy), RADIUS, "none", weight::THIN);
    canvas.filled_curve(&shape(section.count, inner, (cx, cy)), "url(#hatch)", weight::THICK);
    canvas.path(&[(cx, cy - RADIUS - 3.0), (cx, cy + RADIUS + 3.0)], weight::THIN, Dash::Center);
    canvas.path(&[(cx - RADIUS - 3.0, cy), (cx + RADIUS + 3.0, cy)], weight::THIN, Dash::Center);
    let (top, far) = (cy - inner, if section.count.is_multiple_of(2) { cy + inner } else { cy + RADIUS });
    let reach = cx + RADIUS + 8.0;
    for y in [top, far] {
        canvas.line((cx + 0.6, y), (reach + 1.6, y), weight::THIN, Dash::Solid);
    }
    canvas.line((reach, top), (reach, far), weight::THIN, Dash::Solid);
    for (y, up) in [(top, -1.0), (far, 1.0)] {
        canvas.area(&[(reach, y), (reach - 0.7, y - up * 2.2), (reach + 0.7, y - up * 2.2)], "#000", 0.0);
    }
    canvas.text((reach + 3.0, f64::midpoint(top, far) + 1.5), Label::plain(&section.across));
    let left = cx - RADIUS - 8.0;
    let say = |canvas: &mut Canvas, y: f64, to: (f64, f64), words: &str| {
        canvas.path(&[to, (left + 2.0, y), (left, y)], weight::THIN, Dash::Solid);
        canvas.text((left - 2.0, y + 1.5), Label::plain(words).anchored(Anchor::End));
    };
    say(&mut canvas, cy - RADIUS + 1.0, (cx - 2.0, f64::midpoint(cy - RADIUS, top)), &section.deep);
    say(&mut canvas, cy - 6.0, (cx - 3.0, top), &section.wide);
    say(&mut canvas, cy + RADIUS - 4.0, (cx - RADIUS * 0.86, cy + RADIUS * 0.5), &section.around);
    Picture::of(&canvas, id, alt)
}

/// Outline of the round with its flats: straight along each flat, along the round between them.
fn shape(count: u8, inner: f64, (cx, cy): (f64, f64)) -> String {
    let n = f64::from(count.max(1));
    let chord = (inner / RADIUS).clamp(-1.0, 1.0).acos();
    let half = if count < 3 { chord } else { chord.min(std::f64::consts::PI / n) };
    let reach = inner / half.cos();
    let at = |angle: f64| (num(cx + reach * angle.sin()), num(cy - reach * angle.cos()));
    let mut path = String::new();
    let rad = num(RADIUS);
    for i in 0..count.max(1) {
        let middle = std::f64::consts::TAU * f64::from(i) / n;
        let ((x0, y0), (x1, y1)) = (at(middle - half), at(middle + half));
        if i == 0 {
            let _ = write!(path, "M{x0} {y0}");
        } else {
            let _ = write!(path, "A{rad} {rad} 0 0 1 {x0} {y0}");
        }
        let _ = write!(path, "L{x1} {y1}");
    }
    let (x, y) = at(-half);
    let large = i32::from(count == 1);
    let _ = write!(path, "A{rad} {rad} 0 {large} 1 {x} {y}Z");
    path
}
