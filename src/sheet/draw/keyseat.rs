//! The section through a keyseat, with its three depths: at the side, from the top of the round, and across the bottom.

use super::Picture;
use super::canvas::{Anchor, Canvas, Dash, Label, num, weight};

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Height of the picture.
pub const HEIGHT: f64 = 44.0;
/// From one line of words to the next.
const LINE: f64 = 4.8;
/// Radius of the shaft on paper.
const RADIUS: f64 = 17.0;

/// A keyseat's section; lengths in millimetres of the part, words as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyseatSection {
    /// Shaft diameter.
    pub shaft: f64,
    /// Width of the keyseat.
    pub width: f64,
    /// Depth from the top of the round.
    pub depth_from_top: f64,
    /// `.2245 from the top of the round`.
    pub from_top: String,
    /// `.2143 at the side`.
    pub at_side: String,
    /// `.6500 across the bottom`.
    pub across: String,
    /// `.1875 wide`.
    pub wide: String,
}

/// Draws it.
pub fn keyseat(section: &KeyseatSection, id: &str, alt: String) -> Picture {
    let mut canvas = Canvas::new(WIDTH, HEIGHT);
    let scale = RADIUS * 2.0 / section.shaft.max(1e-6);
    let (cx, cy) = (WIDTH / 2.0, HEIGHT / 2.0 + 2.0);
    let half = (section.width * scale / 2.0).min(RADIUS * 0.9);
    let bottom = cy - RADIUS + (section.depth_from_top * scale).min(RADIUS * 1.8);
    let side = cy - (RADIUS * RADIUS - half * half).max(0.0).sqrt();
    let (top, foot) = (cy - RADIUS, cy + RADIUS);
    let (l, r) = (num(cx - half), num(cx + half));
    let (rad, b, s) = (num(RADIUS), num(bottom), num(side));
    let outline = format!("M{l} {s}A{rad} {rad} 0 1 0 {r} {s}V{b}H{l}Z");
    canvas.filled_curve(&outline, "url(#hatch)", weight::THICK);
    canvas.path(&[(cx, top - 3.0), (cx, foot + 3.0)], weight::THIN, Dash::Center);
    canvas.path(&[(cx - RADIUS - 3.0, cy), (cx + RADIUS + 3.0, cy)], weight::THIN, Dash::Center);

    let right = Dims { cx, sign: 1.0 };
    right.depth(&mut canvas, (top, 0.0), (bottom, half), RADIUS + 8.0, &section.from_top);
    right.depth(&mut canvas, (bottom, half), (foot, 0.0), RADIUS + 8.0, &section.across);
    let left = Dims { cx, sign: -1.0 };
    left.depth(&mut canvas, (side, half), (bottom, half), RADIUS + 8.0, &section.at_side);
    // A shallow keyseat's depth at the side is told near the top of the round: the width stands a line above it.
    let over = (top - 1.0).min(f64::midpoint(side, bottom) - LINE);
    canvas.path(
        &[(cx - half, side - 0.4), (cx - half - 3.0, over), (cx - RADIUS - 8.0, over)],
        weight::THIN,
        Dash::Solid,
    );
    canvas.text((cx - RADIUS - 10.0, over + 1.5), Label::plain(&section.wide).anchored(Anchor::End));
    Picture::of(&canvas, id, alt)
}

/// Depths measured on one side of the section.
struct Dims {
    cx: f64,
    sign: f64,
}

impl Dims {
    /// An upright dimension from a height to a height (each with how far from the middle its extension line begins).
    fn depth(&self, canvas: &mut Canvas, from: (f64, f64), to: (f64, f64), reach: f64, words: &str) {
        let x = |off: f64| self.cx + self.sign * off;
        let at = x(reach);
        for (y, off) in [from, to] {
            canvas.line((x(off + 0.6), y), (x(reach + 1.6), y), weight::THIN, Dash::Solid);
        }
        canvas.line((at, from.0), (at, to.0), weight::THIN, Dash::Solid);
        for (y, up) in [(from.0, -1.0), (to.0, 1.0)] {
            let long = ((to.0 - from.0) / 2.5).clamp(0.8, 2.2);
            canvas.area(&[(at, y), (at - 0.7, y - up * long), (at + 0.7, y - up * long)], "#000", 0.0);
        }
        let anchor = if self.sign > 0.0 { Anchor::Start } else { Anchor::End };
        let y = f64::midpoint(from.0, to.0) + 1.5;
        canvas.text((x(reach + 3.0), y), Label::plain(words).anchored(anchor));
    }
}
