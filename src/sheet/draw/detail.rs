//! Reliefs and grooves too small to see at the drawing's scale, each enlarged in a circle with its letter and scale
//! (ISO 128-3, detail views; the letter is the feature's own, which points at the place already).

use super::Picture;
use super::axis::Axis;
use super::canvas::{Anchor, Area, Canvas, Dash, Label, weight};
use super::outline::{Outline, Stretch};

/// A groove narrower than this on paper is enlarged.
const NARROW: f64 = 2.6;
/// So is one shallower than this.
const SHALLOW: f64 = 0.7;
/// What is longer on paper, or shallower on the part, is a step and no groove, millimetres.
const LONG: f64 = 9.0;
/// Least depth a side of a groove, millimetres of the part.
const SCRATCH: f64 = 0.03;
/// Radius of a circle.
const RADIUS: f64 = 12.5;
/// Most circles of a picture: a row.
const MOST: usize = 5;
/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Scales that a drawing may have (ISO 5455), the smallest first.
const SCALES: [f64; 6] = [2.0, 5.0, 10.0, 20.0, 50.0, 100.0];

/// A place to enlarge.
#[derive(Debug, Clone)]
pub struct Detail {
    /// Letter of the feature.
    pub letter: String,
    /// Its middle along the part.
    pub at: f64,
    /// Diameter at its bottom.
    pub diameter: f64,
    /// Its width.
    pub wide: f64,
    /// Paper to part, in the circle.
    pub scale: f64,
    /// What stands under the circle: letter and scale.
    pub says: String,
}

/// Reliefs and grooves of a body that cannot be told on a picture of this axis, the smallest scale first where they are too many.
pub fn small(body: &Outline, axis: &Axis) -> Vec<Detail> {
    let mut found: Vec<Detail> = body
        .stretches
        .windows(3)
        .filter_map(|w| {
            let [before, here, after] = w else { return None };
            let (left, right) = (before.diameter_to - here.diameter, after.diameter - here.diameter_to);
            let (wide, deep) = (here.to - here.from, left.min(right) / 2.0);
            let groove = deep > SCRATCH && axis.along(wide) < LONG;
            let hard = axis.along(wide) < NARROW || axis.across(deep) < SHALLOW;
            (groove && hard && !here.letter.is_empty()).then(|| detail(here, wide, deep))
        })
        .collect();
    found.truncate(MOST);
    found
}

fn detail(here: &Stretch, wide: f64, deep: f64) -> Detail {
    // Half of the circle's width for the groove, a third of its height for the wall.
    let fits = |s: &&f64| wide * **s <= RADIUS && deep * **s <= RADIUS * 0.7;
    let scale = SCALES.iter().rev().find(fits).copied().unwrap_or(SCALES[0]);
    let says = format!("{}  {scale:.0}:1", here.letter);
    let at = here.middle();
    Detail { letter: here.letter.clone(), at, diameter: here.diameter, wide, scale, says }
}

/// A thin circle around each place on the picture of the part, kept clear of every word.
pub fn mark(canvas: &mut Canvas, axis: &Axis, center: f64, details: &[Detail]) {
    for d in details {
        let (x, y) = (axis.x(d.at), center - axis.across(d.diameter) / 2.0);
        let radius = (axis.along(d.wide) / 2.0 + 1.0).clamp(1.4, 2.4);
        canvas.circle((x, y), radius, "none", weight::THIN);
        canvas.keep_clear(Area { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius });
    }
}

/// The circles in a row; none where everything can be seen.
pub fn details(body: &Outline, details: &[Detail], alt: String) -> Option<Picture> {
    let pitch = WIDTH / details.len().max(1) as f64;
    let mut canvas = Canvas::new(WIDTH, 2.0 * RADIUS + 7.5);
    for (i, d) in details.iter().enumerate() {
        let middle = (pitch * (i as f64 + 0.5), RADIUS + 0.5);
        profile(&mut canvas, body, d, middle);
        canvas.circle(middle, RADIUS, "none", weight::THIN);
        let label = Label { anchor: Anchor::Middle, ..Label::bold(&d.says) };
        canvas.text((middle.0, 2.0 * RADIUS + 5.6), label);
    }
    (!details.is_empty()).then(|| Picture::of(&canvas, "details", alt))
}

/// The upper edge of the body and its faces inside the circle; the groove's bottom lies a little under its middle.
fn profile(canvas: &mut Canvas, body: &Outline, d: &Detail, middle: (f64, f64)) {
    let bottom = middle.1 + RADIUS * 0.25;
    let x = |place: f64| middle.0 + (place - d.at) * d.scale;
    let y = |diameter: f64| bottom - (diameter - d.diameter) / 2.0 * d.scale;
    let mut edge: Vec<(f64, f64)> = Vec::new();
    for s in &body.stretches {
        let bevel = |b: (f64, f64)| if b.0 > 0.0 && b.1 > 0.0 { b } else { (0.0, 0.0) };
        let (from, to) = (bevel(s.bevel_from), bevel(s.bevel_to));
        edge.extend([(s.from, s.diameter - 2.0 * from.1), (s.from + from.0, s.diameter)].map(|(p, q)| (x(p), y(q))));
        edge.extend([(s.to - to.0, s.diameter_to), (s.to, s.diameter_to - 2.0 * to.1)].map(|(p, q)| (x(p), y(q))));
    }
    let mut line = |from: (f64, f64), to: (f64, f64)| {
        if let Some((from, to)) = clipped(from, to, middle, RADIUS) {
            canvas.line(from, to, weight::THICK, Dash::Solid);
        }
    };
    for pair in edge.windows(2) {
        line(pair[0], pair[1]);
    }
    // A face is seen as a line down to the far side of the body.
    for pair in body.stretches.windows(2) {
        let top = (pair[0].diameter_to - 2.0 * pair[0].bevel_to.1).max(pair[1].diameter - 2.0 * pair[1].bevel_from.1);
        line((x(pair[1].from), y(top)), (x(pair[1].from), middle.1 + 2.0 * RADIUS));
    }
}

/// The part of a line inside a circle.
fn clipped(from: (f64, f64), to: (f64, f64), center: (f64, f64), radius: f64) -> Option<((f64, f64), (f64, f64))> {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let (fx, fy) = (from.0 - center.0, from.1 - center.1);
    let (a, b, c) = (dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - radius * radius);
    let under = b * b - a * c;
    if a < 1e-12 || under <= 0.0 {
        return None;
    }
    let (first, last) = ((-b - under.sqrt()) / a, (-b + under.sqrt()) / a);
    let (first, last) = (first.max(0.0), last.min(1.0));
    let at = |t: f64| (from.0 + dx * t, from.1 + dy * t);
    (last - first > 1e-9).then(|| (at(first), at(last)))
}

#[cfg(test)]
mod tests {
    use super::clipped;

    #[test]
    fn lines_end_at_the_circle() {
        let unit = |from, to| clipped(from, to, (0.0, 0.0), 1.0);
        assert_eq!(unit((-3.0, 0.0), (3.0, 0.0)), Some(((-1.0, 0.0), (1.0, 0.0))));
        assert_eq!(unit((0.0, 0.0), (0.5, 0.0)), Some(((0.0, 0.0), (0.5, 0.0))));
        assert_eq!(unit((-3.0, 2.0), (3.0, 2.0)), None);
        assert_eq!(unit((2.0, 0.0), (3.0, 0.0)), None);
    }
}
