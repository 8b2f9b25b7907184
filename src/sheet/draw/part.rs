//! The whole part: letters over it, running lengths from the datum end under it.

use super::Picture;
use super::axis::{Axis, Room, THINNEST};
use super::body::{Look, Placed};
use super::canvas::Canvas;
use super::detail;
use super::labels::{self, Lettered, Running, RunningLine};
use super::outline::{OnIt, OnShape, Outline, Stretch};

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Greatest height of the body on paper.
const TALLEST: f64 = 28.0;
/// The same on the short sheet.
const LOW: f64 = 11.0;
/// Room beside the body for the first and last number and the center line's ends.
const SIDE: f64 = 12.0;

/// What is said about a place along the part.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The place, in millimetres from the datum end.
    pub at: f64,
    /// The length as printed.
    pub text: String,
}

/// Draws a part. `readings` are its faces and centres with their lengths from the datum end; `flag` names that end.
pub fn part(body: &Outline, readings: &[Reading], flag: &str, alt: String) -> Picture {
    part_flagged(body, readings, flag, alt, &[])
}

/// Draws a part, the letters of features that findings are about white on black.
pub fn part_flagged(body: &Outline, readings: &[Reading], flag: &str, alt: String, flagged: &[&str]) -> Picture {
    drawn(body, readings, (flag, flagged), alt, TALLEST)
}

/// The same lower, for the short sheet: a stout part takes no more room there than it needs to be known by.
pub fn part_low(body: &Outline, readings: &[Reading], flag: &str, alt: String, flagged: &[&str]) -> Picture {
    drawn(body, readings, (flag, flagged), alt, LOW)
}

fn drawn(body: &Outline, readings: &[Reading], (flag, flagged): (&str, &[&str]), alt: String, tallest: f64) -> Picture {
    let room = (1.0, WIDTH - 1.0);
    let axis = axis_of(body, readings, tallest);
    let lettered: usize = body.stretches.iter().filter(|s| !s.letter.is_empty()).count()
        + body.on.iter().filter(|o| !o.letter.is_empty()).count();
    let texts: Vec<String> = readings.iter().map(|r| r.text.clone()).collect();
    let high = axis.across(body.largest());
    let top_of_letters = 9.4;
    let top = top_of_letters + labels::letters_height(lettered, room) + 3.0;
    let center = top + high / 2.0;
    let line_y = top + high + 6.0;
    let height = line_y + RunningLine::depth(&texts, room) + 0.6;
    let mut canvas = Canvas::new(WIDTH, height);

    let placed = Placed { body, axis: &axis, center };
    placed.draw(&mut canvas, (body.start(), body.end()), &|_| Look::Plain);
    let (left, right) = (axis.x(body.start()), axis.x(body.end()));
    placed.center_line(&mut canvas, (left - 6.0).max(0.5), (right + 6.0).min(WIDTH - 0.5));
    let datum_x = axis.x(0.0);
    let datum_r = axis.across(body.diameter_at(0.0)) / 2.0;
    labels::flag(&mut canvas, datum_x, 0.4, center - datum_r, true, flag);
    detail::mark(&mut canvas, &axis, center, &detail::small(body, &axis));
    let mut lettered = lettered_places(body, &placed);
    for l in &mut lettered {
        l.flagged = flagged.contains(&l.letter.as_str());
    }
    labels::letters(&mut canvas, &lettered, top_of_letters, room);
    let running: Vec<Running> = readings
        .iter()
        .map(|r| {
            let x = axis.x(r.at);
            let on = body
                .on
                .iter()
                .any(|o| !matches!(o.shape, OnShape::Cavity { .. }) && (o.shape.middle() - r.at).abs() < 1e-6);
            let y = if on { center + 2.5 } else { center + axis.across(body.diameter_at(r.at)) / 2.0 + 0.8 };
            Running { x, y, text: r.text.clone() }
        })
        .collect();
    RunningLine { y: line_y, baseline: line_y + 10.2, room, framed: false }.draw(&mut canvas, datum_x, &running);
    Picture::of(&canvas, "part", alt)
}

/// Where the part stands on its picture.
fn axis_of(body: &Outline, readings: &[Reading], height: f64) -> Axis {
    let side = if readings.len() > 14 { 4.0 } else { SIDE };
    let place =
        Room { left: side, right: WIDTH - side - 1.0, height, datum_right: false, align: 0.5, thinnest: THINNEST };
    Axis::fit(body, body.start(), body.end(), place)
}

/// What cannot be seen on the part's picture, enlarged; `alt` words the list of letters and scales. None where all can be seen.
pub fn details(body: &Outline, readings: &[Reading], alt: impl Fn(&[String]) -> String) -> Option<Picture> {
    let small = detail::small(body, &axis_of(body, readings, TALLEST));
    let says: Vec<String> = small.iter().map(|d| d.says.clone()).collect();
    detail::details(body, &small, alt(&says))
}

/// Where each letter points: the middle of its stretch, moved aside where a letter on the stretch points there too.
pub(super) fn lettered_places(body: &Outline, placed: &Placed) -> Vec<Lettered> {
    let on = body.on.iter().filter(|o| !o.letter.is_empty());
    let mut out: Vec<Lettered> = on.clone().map(|o| over(o, placed)).collect();
    for s in body.stretches.iter().filter(|s| !s.letter.is_empty()) {
        let x = clear_place(s, placed, &on.clone().map(|o| placed.axis.x(o.shape.middle())).collect::<Vec<_>>());
        let y = placed.center - placed.axis.across(s.largest()) / 2.0;
        out.push(Lettered { letter: s.letter.clone(), x, y, flagged: false });
    }
    out
}

fn over(on: &OnIt, placed: &Placed) -> Lettered {
    let down = match on.shape {
        // A letter points at the wall of a bore.
        OnShape::Cavity { diameter, diameter_to, .. } => placed.axis.across(f64::midpoint(diameter, diameter_to)) / 2.0,
        _ => 1.6,
    };
    Lettered { letter: on.letter.clone(), x: placed.axis.x(on.shape.middle()), y: placed.center - down, flagged: false }
}

fn clear_place(s: &Stretch, placed: &Placed, taken: &[f64]) -> f64 {
    let (a, b) = (placed.axis.x(s.from), placed.axis.x(s.to));
    let free = |x: &f64| taken.iter().all(|t| (t - x).abs() > 2.5);
    let breaks = |x: &f64| placed.axis.breaks.iter().all(|at| (placed.axis.x(*at) - x).abs() > 2.0);
    let at = |part: f64| a + (b - a) * part;
    [0.5, 0.35, 0.65, 0.2, 0.8].into_iter().map(at).find(|x| free(x) && breaks(x)).unwrap_or_else(|| at(0.5))
}
