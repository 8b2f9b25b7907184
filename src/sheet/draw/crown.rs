//! A domed end and the steps it is cut by.

use super::Picture;
use super::canvas::{Anchor, Canvas, Dash, Label, weight};

const WIDTH: f64 = 178.0;
const HEIGHT: f64 = 46.0;
/// Tallest the end is drawn.
const TALL: f64 = 38.0;
/// Longest the dome is drawn.
const LONG: f64 = 34.0;

/// A domed end; lengths in millimetres of the part, words as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct CrownEnd {
    /// Diameter at the edge.
    pub over: f64,
    /// From edge to summit.
    pub height: f64,
    /// So far behind the summit, the diameter there.
    pub steps: Vec<(f64, f64)>,
    /// `radius .750`.
    pub radius_says: String,
    /// `.098`.
    pub height_says: String,
    /// `Ø .750`.
    pub over_says: String,
}

/// Draws it, the summit to the right as it looks at the tailstock.
pub fn crown(end: &CrownEnd, id: &str, alt: String) -> Picture {
    let mut canvas = Canvas::new(WIDTH, HEIGHT);
    let scale = (TALL / end.over.max(1e-6)).min(LONG / end.height.max(1e-6));
    let (cy, body) = (HEIGHT / 2.0, 14.0);
    let (radius, high) = (end.over * scale / 2.0, end.height * scale);
    let left = WIDTH / 2.0 - 30.0;
    let (edge, summit) = (left + body, left + body + high);
    let dome: Vec<(f64, f64)> = super::body::arc(summit, -high, radius).collect();
    let mut outline = vec![(left, cy - radius)];
    outline.extend(dome.iter().rev().map(|(x, r)| (*x, cy - r)));
    outline.extend(dome.iter().map(|(x, r)| (*x, cy + r)));
    outline.push((left, cy + radius));
    canvas.area(&outline, "url(#hatch)", 0.0);
    canvas.path(&outline, weight::THICK, Dash::Solid);
    // The steps, above and below the axis.
    for up in [-1.0, 1.0] {
        let mut points = vec![(summit, cy)];
        let mut at = summit;
        for (behind, across) in end.steps.iter().copied().chain([(end.height, end.over)]) {
            let r = across * scale / 2.0;
            let next = summit - behind * scale;
            points.extend([(at, cy + up * r), (next, cy + up * r)]);
            at = next;
        }
        canvas.path(&points, weight::THIN, Dash::Solid);
    }
    canvas.line((left - 4.0, cy), (summit + 5.0, cy), weight::THIN, Dash::Center);
    let say = summit + 12.0;
    canvas.path(&[(edge + high * 0.7, cy - radius * 0.6), (say - 2.0, cy - radius + 3.0)], weight::THIN, Dash::Solid);
    canvas.text((say, cy - radius + 4.5), Label::plain(&end.radius_says));
    let foot = (cy + radius + 2.0).min(HEIGHT - 0.6);
    for x in [edge, summit] {
        canvas.line((x, cy + if x < summit - 1e-6 { radius } else { 0.0 }), (x, foot), weight::THIN, Dash::Solid);
    }
    canvas.text((say, cy + radius), Label::plain(&format!("{} high", end.height_says)));
    canvas.text((left - 6.0, cy + 1.5), Label::plain(&end.over_says).anchored(Anchor::End));
    Picture::of(&canvas, id, alt)
}
