//! What holds the work: chuck and jaws, dog and drive plate, centers, the jaws of a mill vise.

use super::axis::Axis;
use super::canvas::{Canvas, Dash, weight};

/// A cone whose tip stands a little inside the work's face at `face`, with what carries it, on the right side of the face for
/// a positive `side`.
pub fn center(canvas: &mut Canvas, face: f64, center: f64, side: f64) {
    let tip = face - 2.0 * side;
    let (base, back, end) = (face + 8.0 * side, face + 14.0 * side, face + 22.0 * side);
    let (cone, quill, stock) = (3.6, 4.2, 7.0);
    let flat = [(base, center - quill), (back, center - quill), (back, center + quill), (base, center + quill)];
    canvas.area(&[(tip, center), (base, center - cone), (base, center + cone)], "#fff", weight::THICK);
    canvas.area(&flat, "#fff", weight::THICK);
    let body = [(back, center - stock), (end, center - stock), (end, center + stock), (back, center + stock)];
    canvas.area(&body, "#fff", weight::THICK);
}

/// Nose, drive plate and headstock center with its tip in the face at `face`; returns where the plate is.
pub fn drive_plate(canvas: &mut Canvas, face: f64, center: f64, reach: f64) -> f64 {
    let plate = face - 13.0;
    canvas.rectangle(plate - 9.0, center - 8.0, plate - 3.2, center + 8.0, "#fff", weight::THICK);
    canvas.rectangle(plate - 3.2, center - reach, plate, center + reach, "#fff", weight::THICK);
    let tip = face + 2.0;
    canvas.area(
        &[
            (plate, center - 4.4),
            (plate + 4.0, center - 4.4),
            (tip, center),
            (plate + 4.0, center + 4.4),
            (plate, center + 4.4),
        ],
        "#fff",
        weight::THICK,
    );
    plate
}

/// A dog around the work from `left` to `right` on paper, its tail in the plate; copper under it where `protect`.
pub fn dog(canvas: &mut Canvas, (left, right): (f64, f64), plate: f64, center: f64, radius: f64, protect: bool) {
    let (top, bottom) = (center - radius - 3.4, center + radius + 3.4);
    let middle = f64::midpoint(left, right);
    canvas.rectangle(middle - 1.3, top - 3.4, middle + 1.3, top, "#000", 0.0);
    // The tail goes along the work into a slot of the plate.
    canvas.rectangle(plate - 4.6, bottom - 2.8, left + 0.5, bottom - 0.4, "#fff", weight::THICK);
    canvas.rectangle(left, top, right, bottom, "#fff", weight::THICK);
    if protect {
        for y in [center - radius, center + radius] {
            canvas.rectangle(left - 0.7, y - 0.7, right + 0.7, y + 0.7, "#000", 0.0);
        }
    }
    canvas.line((left, center), (right, center), weight::THIN, Dash::Center);
}

/// A chuck whose jaws end at `jaw_face` on paper and grip a body of this radius; its own body ends at `back`.
pub fn chuck(canvas: &mut Canvas, span: (f64, f64), center: f64, radius: f64, protect: bool) {
    chuck_off(canvas, span, (center, center), radius, protect);
}

/// The same with the work's axis at another height than the spindle's: thrown over for an eccentric.
pub fn chuck_off(
    canvas: &mut Canvas,
    (back, jaw_face): (f64, f64),
    (center, work): (f64, f64),
    radius: f64,
    protect: bool,
) {
    let outer = (radius + (work - center).abs() + 4.5).clamp(11.0, 14.5);
    canvas.rectangle(back - 15.0, center - outer * 0.6, back - 9.0, center + outer * 0.6, "#fff", weight::THICK);
    canvas.rectangle(back - 9.0, center - outer, back, center + outer, "#fff", weight::THICK);
    let step = f64::midpoint(back, jaw_face).min(back + 7.0);
    for up in [-1.0, 1.0] {
        // A jaw reaches no farther out than the chuck's body.
        let most = outer - 0.4 - up * (work - center);
        let y = |r: f64| work + up * r;
        let jaw = [
            (back, y(radius)),
            (jaw_face, y(radius)),
            (jaw_face, y(radius + 2.6)),
            (step, y(radius + 2.6)),
            (step, y((radius + 4.6).min(most).max(radius + 2.6))),
            (back, y((radius + 4.6).min(most).max(radius + 2.6))),
        ];
        canvas.area(&jaw, "#fff", weight::THICK);
        if protect {
            let (a, b) = (y(radius), y(radius + 0.8));
            canvas.rectangle(back, a.min(b), jaw_face + 0.7, a.max(b), "#000", 0.0);
        }
    }
}

/// A collet in the spindle's nose that ends at `face` on paper and closes on a body of this radius.
pub fn collet(canvas: &mut Canvas, (back, face): (f64, f64), center: f64, radius: f64) {
    let nose = (radius + 5.5).clamp(9.0, 13.0);
    canvas.rectangle(back - 15.0, center - nose * 0.8, back - 6.0, center + nose * 0.8, "#fff", weight::THICK);
    let mouth = face - 1.0;
    canvas.rectangle(back - 6.0, center - nose, mouth, center + nose, "#fff", weight::THICK);
    for up in [-1.0, 1.0] {
        let y = |r: f64| center + up * r;
        let cone = [
            (back - 2.0, y(radius)),
            (face, y(radius)),
            (face, y((radius + 4.6).min(nose - 0.6))),
            (mouth - 5.0_f64.min((mouth - back).max(1.0)), y((radius + 2.2).min(nose - 1.2))),
            (back - 2.0, y((radius + 2.2).min(nose - 1.2))),
        ];
        canvas.area(&cone, "url(#hatch)", weight::THICK);
    }
}

/// Soft jaws, bored to a body of this radius: hatched, and square in front.
pub fn soft_jaws(canvas: &mut Canvas, (back, face): (f64, f64), center: f64, radius: f64) {
    chuck(canvas, (back, face), center, radius, false);
    for up in [-1.0, 1.0] {
        let (a, b) = (center + up * radius, center + up * (radius + 4.6));
        canvas.rectangle(back, a.min(b), face, a.max(b), "url(#hatch)", weight::THICK);
    }
}

/// A mandrel through the work from `left` to `right` on paper, between its own centers, the dog on its end.
pub fn mandrel(canvas: &mut Canvas, (left, right): (f64, f64), center: f64, radius: f64) {
    let (from, to) = (left - 9.0, right + 4.0);
    for (a, b) in [(from, left), (right, to)] {
        canvas.rectangle(a, center - radius, b, center + radius, "#fff", weight::THICK);
    }
    for up in [-1.0, 1.0] {
        canvas.line((left, center + up * radius), (right, center + up * radius), weight::THIN, Dash::Gone);
    }
    let plate = drive_plate(canvas, from, center, (radius + 5.0).clamp(9.0, 14.0));
    dog(canvas, (from + 1.0, from + 7.0), plate, center, radius, false);
    self::center(canvas, to, center, 1.0);
}

/// A dividing head seen from above: its body, its spindle with a chuck on the face at `face`.
pub fn dividing_head(canvas: &mut Canvas, face: f64, center: f64, radius: f64) {
    canvas.rectangle(face - 20.0, center - 10.5, face - 8.0, center + 10.5, "#fff", weight::THICK);
    canvas.rectangle(face - 8.0, center - 8.0, face - 3.0, center + 8.0, "#fff", weight::THICK);
    for up in [-1.0, 1.0] {
        let (a, b) = (center + up * radius, center + up * (radius + 3.0));
        canvas.rectangle(face - 3.0, a.min(b), face + 6.0, a.max(b), "#fff", weight::THICK);
    }
    // The crank and its plate stand out to the front.
    canvas.rectangle(face - 16.0, center + 10.5, face - 12.0, center + 13.0, "#fff", weight::THICK);
}

/// V-blocks under the work at two places with its radius there, on a surface plate from `left` to `right` on paper.
pub fn v_blocks(canvas: &mut Canvas, places: [(f64, f64); 2], center: f64, (left, right): (f64, f64)) {
    let plate = center + places[0].1.max(places[1].1) + 6.0;
    for (x, radius) in places {
        // From the front the flank hides the work's lowest quarter.
        canvas.rectangle(x - 4.0, center + radius * 0.7, x + 4.0, plate, "#fff", weight::THICK);
        canvas.line((x - 4.0, center + radius + 1.6), (x + 4.0, center + radius + 1.6), weight::THIN, Dash::Gone);
    }
    canvas.line((left - 6.0, plate), (right + 6.0, plate), weight::CUT, Dash::Solid);
}

/// The jaws and the ring of a steady rest around the work from `left` to `right` on paper.
pub fn steady_rest(canvas: &mut Canvas, (left, right): (f64, f64), center: f64, radius: f64) {
    let middle = f64::midpoint(left, right);
    for up in [-1.0, 1.0] {
        let y = |r: f64| center + up * r;
        let (a, b) = (y(radius), y(radius + 4.0));
        canvas.rectangle(middle - 1.4, a.min(b), middle + 1.4, a.max(b), "#fff", weight::THICK);
        let (a, b) = (y(radius + 4.0), y(radius + 6.2));
        canvas.rectangle(left, a.min(b), right, a.max(b), "#fff", weight::THICK);
    }
}

/// A follow rest on the work whose cut starts at `start` on paper: the jaw on top, the one at the back hidden, the arm behind the work down to
/// the carriage, and the way it goes.
pub fn follow_rest(canvas: &mut Canvas, start: f64, center: f64, radius: f64) {
    let (left, right) = (start - 6.0, start - 1.2);
    let (top, bottom) = (center - radius, center + radius);
    let middle = f64::midpoint(left, right);
    canvas.rectangle(middle - 1.3, top - 4.0, middle + 1.3, top, "#fff", weight::THICK);
    canvas.rectangle(left, top - 6.4, right, top - 4.0, "#fff", weight::THICK);
    for x in [left, right] {
        canvas.line((x, top - 4.0), (x, top), weight::THIN, Dash::Solid);
        canvas.line((x, top), (x, bottom), weight::THIN, Dash::Hidden);
    }
    canvas.rectangle(middle - 1.3, center - 1.3, middle + 1.3, center + 1.3, "none", weight::THIN);
    canvas.rectangle(left - 1.0, bottom, right + 1.0, bottom + 2.6, "#fff", weight::THICK);
    // It goes with the carriage, toward the headstock.
    let (tail, tip, y) = (left - 2.0, left - 9.0, bottom + 1.6);
    canvas.line((tail, y), (tip, y), weight::THIN, Dash::Solid);
    canvas.area(&[(tip, y), (tip + 2.2, y - 0.8), (tip + 2.2, y + 0.8)], "#000", 0.0);
}

/// The two jaws of a mill vise seen from above, gripping from `left` to `right` on paper.
pub fn vise(canvas: &mut Canvas, (left, right): (f64, f64), center: f64, radius: f64) {
    for up in [-1.0, 1.0] {
        let (a, b) = (center + up * radius, center + up * (radius + 4.5));
        canvas.rectangle(left, a.min(b), right, a.max(b), "url(#hatch)", weight::THICK);
    }
}

/// The part of `grip` on paper, in rising order and at least `least` wide.
pub fn on_paper(axis: &Axis, grip: (f64, f64), least: f64) -> (f64, f64) {
    let (a, b) = (axis.x(grip.0), axis.x(grip.1));
    let (left, right) = (a.min(b), a.max(b));
    let missing = (least - (right - left)).max(0.0) / 2.0;
    (left - missing, right + missing)
}
