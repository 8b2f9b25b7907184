//! The bar standing on its datum end, with the lines to scribe, each led to its row of the list beside it.

use super::Picture;
use super::axis::{Axis, Room};
use super::body::{Look, Placed};
use super::canvas::{Canvas, Dash, weight};
use super::outline::{Outline, Stretch};

/// Paper across the bar.
const ACROSS: f64 = 21.0;
/// Room for the leaders between bar and list.
const LEADERS: f64 = 20.0;
/// A thin body may stay thin here: what counts is where the lines stand.
const THINNEST: f64 = 6.0;
/// Room for the plate under the bar.
const PLATE: f64 = 6.0;

/// A line to scribe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkLine {
    /// Height above the plate, in millimetres of the part.
    pub at: f64,
    /// Height of its row on the picture.
    pub row: f64,
}

/// Width of the picture.
pub const WIDTH: f64 = ACROSS + 10.0 + LEADERS;

/// Draws the bar in a picture of this height; `lines` stand in the order of the rows, highest first.
pub fn marks(body: &Outline, lines: &[MarkLine], height: f64, id: &str, alt: String) -> Picture {
    let plate = height - PLATE;
    let body = &cut_at(body, lines);
    let middle = ACROSS / 2.0 + 5.0;
    let room = Room { left: 5.0, right: plate, height: ACROSS, datum_right: true, align: 1.0, thinnest: THINNEST };
    let axis = Axis::fit(body, body.start(), body.end(), room);
    // Drawn lying, with the datum end at the right, then stood upright.
    let mut lying = Canvas::new(height, WIDTH);
    let placed = Placed { body, axis: &axis, center: 0.0 };
    placed.draw(&mut lying, (body.start(), body.end()), &|_| Look::Plain);
    placed.center_line(&mut lying, axis.x(body.end()) - 3.5, plate);
    for line in lines {
        let (x, r) = (axis.x(line.at), axis.across(body.diameter_at(line.at)) / 2.0);
        lying.line((x, -r), (x, r), weight::CUT, Dash::Solid);
    }
    let mut canvas = Canvas::new(WIDTH, height);
    canvas.upended(&lying, middle);
    plate_under(&mut canvas, plate);
    for line in lines {
        let (y, r) = (axis.x(line.at), axis.across(body.diameter_at(line.at)) / 2.0);
        let edge = middle + r + 0.8;
        let bend = ACROSS + 12.0;
        let leader = [(edge, y), (bend, y), (WIDTH - 4.5, line.row), (WIDTH - 0.5, line.row)];
        canvas.path(&leader, weight::THIN, Dash::Solid);
    }
    Picture::of(&canvas, id, alt)
}

/// The body with a face at each line, so that no stretch is broken across one.
fn cut_at(body: &Outline, lines: &[MarkLine]) -> Outline {
    let mut stretches = body.stretches.clone();
    for line in lines {
        let inside = |s: &Stretch| s.from + 1e-3 < line.at && line.at < s.to - 1e-3;
        let Some(i) = stretches.iter().position(inside) else { continue };
        let mut behind = stretches[i].clone();
        let part = (line.at - behind.from) / (behind.to - behind.from);
        let between = behind.diameter + (behind.diameter_to - behind.diameter) * part;
        (behind.from, behind.diameter, behind.bevel_from) = (line.at, between, (0.0, 0.0));
        let before = &mut stretches[i];
        (before.to, before.diameter_to, before.bevel_to) = (line.at, between, (0.0, 0.0));
        stretches.insert(i + 1, behind);
    }
    Outline { stretches, on: body.on.clone() }
}

fn plate_under(canvas: &mut Canvas, y: f64) {
    let (left, right) = (0.5, WIDTH - 8.0);
    canvas.line((left, y + 0.5), (right, y + 0.5), weight::CUT, Dash::Solid);
    let mut x = left + 3.0;
    while x < right {
        canvas.line((x, y + 1.0), (x - 2.6, y + 3.6), weight::THIN, Dash::Solid);
        x += 3.2;
    }
}
