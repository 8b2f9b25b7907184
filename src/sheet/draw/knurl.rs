//! A knurled surface, told by thin lines along its teeth.

use super::canvas::{Canvas, Dash, weight};
use crate::model::feature::KnurlPattern;

/// Distance of the lines on paper.
const PITCH: f64 = 2.2;

/// Lines over a stretch from `x.0` to `x.1`, `y.0` its upper and `y.1` its lower edge.
pub(super) fn lines(canvas: &mut Canvas, x: (f64, f64), y: (f64, f64), pattern: KnurlPattern) {
    match pattern {
        KnurlPattern::Straight => {
            let count = ((y.1 - y.0) / PITCH).floor().max(1.0) as u32;
            for i in 1..count {
                let at = y.0 + (y.1 - y.0) * f64::from(i) / f64::from(count);
                canvas.line((x.0, at), (x.1, at), weight::THIN, Dash::Solid);
            }
        }
        KnurlPattern::Diagonal => slanted(canvas, x, y, false),
        KnurlPattern::Diamond => {
            slanted(canvas, x, y, false);
            slanted(canvas, x, y, true);
        }
    }
}

/// Lines at 45 degrees, cut off at the edges of the stretch.
fn slanted(canvas: &mut Canvas, x: (f64, f64), y: (f64, f64), falling: bool) {
    let high = y.1 - y.0;
    let count = ((x.1 - x.0 + high) / PITCH).ceil() as u32;
    for i in 1..count {
        // Where the line meets the lower edge, and how far up it is cut off.
        let foot = x.0 - high + PITCH * f64::from(i);
        let (from, to) = ((x.0 - foot).max(0.0), (x.1 - foot).min(high));
        if to - from < 0.2 {
            continue;
        }
        let at = |up: f64| (foot + up, if falling { y.0 + up } else { y.1 - up });
        canvas.line(at(from), at(to), weight::THIN, Dash::Solid);
    }
}
