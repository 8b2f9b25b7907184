//! One mounting: how the work is held, which end is where, what is cut on this page and what the carriage reads there.

use super::Picture;
use super::axis::{Axis, Room, THINNEST};
use super::body::{Look, Placed};
use super::canvas::{Anchor, Canvas, Dash, Label, weight};
use super::holding;
use super::labels::{self, Running, RunningLine};
use super::outline::{Outline, Stretch, Surface};
use super::part::{Reading, lettered_places};
use crate::sheet::words;

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Height of the picture on a setup's first page, and on those that carry on: there the operations have the room.
pub const HEIGHTS: [f64; 2] = [FULL.height, LOW.height];

/// Heights within a picture.
#[derive(Debug, Clone, Copy)]
struct Size {
    /// Of all of it.
    height: f64,
    /// Of the spindle's axis.
    center: f64,
    /// Of the work, at most.
    tallest: f64,
    /// Of the line of running lengths.
    line: f64,
}

const FULL: Size = Size { height: 47.0, center: 22.0, tallest: 20.0, line: 35.2 };
const LOW: Size = Size { height: 40.5, center: 18.6, tallest: 13.5, line: 28.7 };

/// How the work is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Chuck alone.
    Chuck,
    /// Chuck and tailstock center.
    ChuckAndCenter,
    /// Between centers with a dog.
    Centers,
    /// In the vise or V-blocks of a mill, seen from above.
    Mill,
    /// Lying on the bench.
    Bench,
}

/// What grips the work, as far as it looks different.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Gripper {
    /// Jaws, or a dog.
    #[default]
    Jaws,
    /// Soft jaws bored to the work.
    SoftJaws,
    /// A collet.
    Collet,
    /// A mandrel of this diameter in the bore, in millimetres.
    Mandrel(f64),
    /// A dividing head.
    DividingHead,
    /// V-blocks on a surface plate, seen from the front.
    VBlocks,
}

/// A mounting, ready to be drawn for each of its pages.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// How it is held.
    pub held: Held,
    /// What grips it.
    pub gripper: Gripper,
    /// Whether the datum end is at the right (at the tailstock).
    pub datum_right: bool,
    /// The work when it is mounted, bar included.
    pub before: Outline,
    /// The work when the mounting is left.
    pub after: Outline,
    /// Held from here to here, millimetres from the datum end.
    pub grip: Option<(f64, f64)>,
    /// Something soft under jaws or dog.
    pub protect: bool,
    /// A steady rest carries the work from here to here, millimetres from the datum end; on a mill the other place it lies on.
    pub rest: Option<(f64, f64)>,
    /// A follow rest goes with the carriage from here to here, millimetres from the datum end.
    pub follow: Option<(f64, f64)>,
    /// How far the eccentric that is cut lies over the body's axis: the body is held so much lower, and the eccentric runs true.
    pub thrown: f64,
    /// The face that running lengths count from.
    pub zero: f64,
    /// Words on the flag.
    pub flag: String,
    /// Words at the left and right foot: `HEADSTOCK`, `TAILSTOCK`.
    pub feet: (String, String),
    /// Whether the running lengths are carriage readings.
    pub carriage: bool,
    /// Text alternative up to what is cut on the page.
    pub alt: String,
}

/// What one page of a mounting shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Focus {
    /// Stretches cut on the page, millimetres from the datum end.
    pub cuts: Vec<(f64, f64)>,
    /// End faces cut.
    pub faces: Vec<f64>,
    /// Features cut that lie on the body (keyseats, holes), by number.
    pub on: Vec<usize>,
    /// Running lengths.
    pub readings: Vec<Reading>,
    /// What is cut, for the text alternative.
    pub words: Vec<String>,
}

impl Focus {
    /// Adds what another operation on the same page cuts.
    pub fn add(&mut self, other: &Self) {
        self.cuts.extend(&other.cuts);
        self.faces.extend(&other.faces);
        self.on.extend(&other.on);
        for word in &other.words {
            if !self.words.contains(word) {
                self.words.push(word.clone());
            }
        }
        for r in &other.readings {
            if !self.readings.iter().any(|have| (have.at - r.at).abs() < 1e-6) {
                self.readings.push(r.clone());
            }
        }
    }

    fn cuts(&self, s: &Stretch) -> bool {
        s.surface != Surface::Bar && self.cuts.iter().any(|(a, b)| *a - 1e-6 <= s.middle() && s.middle() <= *b + 1e-6)
    }
}

impl Scene {
    /// Draws the mounting for a page; `first` also shows the metal that goes, `low` leaves the operations more room.
    pub fn draw(&self, focus: &Focus, first: bool, low: bool, id: &str) -> Picture {
        let size = if low { LOW } else { FULL };
        let mut canvas = Canvas::new(WIDTH, size.height);
        let ends = self.ends();
        let axis = self.axis(ends, size);
        let center = self.center(&axis, size);
        let placed = Placed { body: &self.after, axis: &axis, center };
        let look = |s: &Stretch| if focus.cuts(s) { Look::Cut } else { Look::Plain };
        if self.held == Held::Mill && self.gripper == Gripper::Jaws {
            self.hold_in_vise(&mut canvas, &axis, size);
        }
        placed.draw(&mut canvas, ends, &look);
        if first {
            self.gone(&mut canvas, &placed, ends);
        }
        for face in &focus.faces {
            let (x, r) = (axis.x(*face), axis.across(self.after.diameter_at(*face)) / 2.0);
            canvas.line((x, center - r), (x, center + r), weight::CUT, Dash::Solid);
        }
        for on in self.after.on.iter().filter(|o| o.feature.is_some_and(|f| focus.on.contains(&f))) {
            placed.on_it(&mut canvas, on, weight::CUT);
        }
        placed.center_line(
            &mut canvas,
            axis.x(ends.0).min(axis.x(ends.1)) - 4.0,
            axis.x(ends.0).max(axis.x(ends.1)) + 4.0,
        );
        if self.thrown != 0.0 {
            let (a, b) = (axis.x(ends.0), axis.x(ends.1));
            canvas.line((a.min(b) - 12.0, size.center), (a.max(b) + 8.0, size.center), weight::THIN, Dash::Center);
        }
        self.hold(&mut canvas, &axis, ends, size);
        self.carry_behind_the_tool(&mut canvas, &placed, focus);
        self.label(&mut canvas, &placed, focus, (ends, size.line));
        let cut = if focus.words.is_empty() { String::new() } else { words::cut_here(&focus.words.join(", ")) };
        Picture::of(&canvas, id, format!("{}{cut}", self.alt))
    }

    /// The stretch of the work that is seen: all of it, or what stands out of the chuck and is gripped.
    fn ends(&self) -> (f64, f64) {
        let from = self.before.start().min(self.after.start());
        let to = self.before.end().max(self.after.end());
        match (self.held, self.grip) {
            (Held::Chuck | Held::ChuckAndCenter, Some(grip)) if self.datum_right => (from, grip.1.min(to)),
            (Held::Chuck | Held::ChuckAndCenter, Some(grip)) => (grip.0.max(from), to),
            _ => (from, to),
        }
    }

    /// Height of the work's own axis.
    fn center(&self, axis: &Axis, size: Size) -> f64 {
        size.center + axis.across(self.thrown)
    }

    fn axis(&self, ends: (f64, f64), size: Size) -> Axis {
        let reach = labels::flag_reach(&self.flag);
        let chuck = matches!(self.held, Held::Chuck | Held::ChuckAndCenter);
        let left = match (self.datum_right, chuck) {
            (true, true) => 17.0,
            (true, false) => 27.0,
            (false, _) => reach + 2.0,
        };
        let right = match (self.datum_right, self.held) {
            (true, _) => WIDTH - reach - 1.0,
            (false, Held::Mill | Held::Bench) => WIDTH - 14.0,
            (false, _) => WIDTH - 27.0,
        };
        let align = if chuck { 0.0 } else { 0.5 };
        let room = Room { left, right, height: size.tallest, datum_right: self.datum_right, align, thinnest: THINNEST };
        Axis::fit_under(&self.after, self.after.largest().max(self.before.largest()), ends.0, ends.1, room)
    }

    fn hold_in_vise(&self, canvas: &mut Canvas, axis: &Axis, size: Size) {
        for grip in self.grip.into_iter().chain(self.rest) {
            let inner = self.after.stretches.iter().filter(|s| s.to > grip.0 + 1e-6 && s.from < grip.1 - 1e-6);
            let radius = axis.across(inner.map(Stretch::largest).fold(0.0, f64::max)) / 2.0;
            holding::vise(canvas, holding::on_paper(axis, grip, 4.0), size.center, radius);
        }
    }

    fn hold(&self, canvas: &mut Canvas, axis: &Axis, ends: (f64, f64), size: Size) {
        let spindle = size.center;
        let (a, b) = (axis.x(ends.0), axis.x(ends.1));
        let (left, right) = (a.min(b), a.max(b));
        let gripped = self.grip.map(|g| axis.across(self.before.diameter_at(f64::midpoint(g.0, g.1))) / 2.0);
        match self.held {
            Held::Chuck | Held::ChuckAndCenter => {
                let face = self.grip.map_or(left + 10.0, |g| holding::on_paper(axis, g, 1.0).1);
                let radius = gripped.unwrap_or(6.0);
                match self.gripper {
                    Gripper::Collet => holding::collet(canvas, (left, face), spindle, radius),
                    Gripper::SoftJaws => holding::soft_jaws(canvas, (left, face), spindle, radius),
                    _ => holding::chuck_off(
                        canvas,
                        (left, face),
                        (spindle, self.center(axis, size)),
                        radius,
                        self.protect,
                    ),
                }
                if self.held == Held::ChuckAndCenter {
                    holding::center(canvas, right, spindle, 1.0);
                }
            }
            Held::Centers if matches!(self.gripper, Gripper::Mandrel(_)) => {
                let Gripper::Mandrel(bore) = self.gripper else { return };
                holding::mandrel(canvas, (left, right), spindle, axis.across(bore) / 2.0);
            }
            Held::Centers => {
                let radius = gripped.unwrap_or(6.0);
                let plate = holding::drive_plate(canvas, left, spindle, (radius + 5.0).clamp(10.0, 14.0));
                let span = self.grip.map_or((left + 4.0, left + 10.0), |g| holding::on_paper(axis, g, 7.0));
                holding::dog(canvas, span, plate, self.center(axis, size), radius, self.protect);
                holding::center(canvas, right, spindle, 1.0);
            }
            Held::Mill if self.gripper == Gripper::DividingHead => {
                let radius = axis.across(self.after.diameter_at(if a < b { ends.0 } else { ends.1 })) / 2.0;
                holding::dividing_head(canvas, left, spindle, radius);
            }
            Held::Mill if self.gripper == Gripper::VBlocks => {
                let radius = |share: f64| axis.across(self.after.diameter_at(ends.0 + share * (ends.1 - ends.0))) / 2.0;
                let at = |share: f64| (left + share * (right - left), if a < b { share } else { 1.0 - share });
                holding::v_blocks(
                    canvas,
                    [0.12, 0.88].map(at).map(|(x, share)| (x, radius(share))),
                    spindle,
                    (left, right),
                );
            }
            Held::Mill | Held::Bench => {}
        }
        if let Some(rest) = self.rest.filter(|_| self.held != Held::Mill) {
            let radius = axis.across(self.before.diameter_at(f64::midpoint(rest.0, rest.1))) / 2.0;
            holding::steady_rest(canvas, holding::on_paper(axis, rest, 4.0), spindle, radius);
        }
    }

    /// The follow rest on the start that is turned for it, where what it carries is cut on the page.
    fn carry_behind_the_tool(&self, canvas: &mut Canvas, placed: &Placed, focus: &Focus) {
        let axis = placed.axis;
        let Some((from, to)) = self.follow else { return };
        if !focus.cuts.iter().any(|(a, b)| a.min(*b) < to - 1e-6 && from + 1e-6 < a.max(*b)) {
            return;
        }
        let radius = axis.across(self.after.diameter_at(f64::midpoint(from, to))) / 2.0;
        holding::follow_rest(canvas, holding::on_paper(axis, (from, to), 4.0).1, placed.center, radius);
    }

    /// The outline of metal that goes in this mounting.
    fn gone(&self, canvas: &mut Canvas, placed: &Placed, ends: (f64, f64)) {
        let (axis, center) = (placed.axis, placed.center);
        let mut cuts: Vec<f64> = [&self.before, &self.after]
            .iter()
            .flat_map(|o| o.stretches.iter().flat_map(|s| [s.from, s.to]))
            .filter(|f| *f >= ends.0 - 1e-9 && *f <= ends.1 + 1e-9)
            .collect();
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        for pair in cuts.windows(2) {
            let middle = f64::midpoint(pair[0], pair[1]);
            let (was, is) = (self.before.diameter_at(middle), self.after.diameter_at(middle));
            let goes = was > is + 0.05;
            let r = axis.across(was) / 2.0;
            let (x0, x1) = (axis.x(pair[0]), axis.x(pair[1]));
            if goes {
                for up in [-1.0, 1.0] {
                    canvas.line((x0, center + up * r), (x1, center + up * r), weight::THIN, Dash::Gone);
                    let outer = [(pair[0], x0, self.before.start()), (pair[1], x1, self.before.end())];
                    for (_, x, _) in outer.into_iter().filter(|(place, _, end)| (place - end).abs() < 1e-6) {
                        canvas.line((x, center), (x, center + up * r), weight::THIN, Dash::Gone);
                    }
                }
            }
        }
    }

    fn label(&self, canvas: &mut Canvas, placed: &Placed, focus: &Focus, (ends, line): ((f64, f64), f64)) {
        let (axis, center) = (placed.axis, placed.center);
        let datum = axis.x(0.0_f64.clamp(ends.0, ends.1));
        let r = axis.across(self.after.diameter_at(0.0)) / 2.0;
        labels::flag(canvas, datum, 0.4, center - r, self.datum_right, &self.flag);
        let room = if self.datum_right { (1.0, datum - 1.5) } else { (datum + 1.5, WIDTH - 1.0) };
        let letters: Vec<_> = lettered_places(&self.shown(focus, ends), placed);
        labels::letters(canvas, &letters, 0.7, room);
        let foot = line + 10.2;
        let (left, right) = (Label::plain(&self.feet.0), Label::plain(&self.feet.1).anchored(Anchor::End));
        canvas.text((0.3, foot), left);
        canvas.text((WIDTH - 0.3, foot), right);
        let running: Vec<Running> = focus
            .readings
            .iter()
            .filter(|m| ends.0 - 1e-6 <= m.at && m.at <= ends.1 + 1e-6)
            .map(|m| {
                let y = center + axis.across(self.after.diameter_at(m.at)) / 2.0 + 0.8;
                Running { x: axis.x(m.at), y, text: m.text.clone() }
            })
            .collect();
        let clear = |w: f64| if w > 0.0 { w + 2.5 } else { 0.5 };
        let room = (clear(left.width()), WIDTH - clear(right.width()));
        let line = RunningLine { y: line, baseline: foot, room, framed: self.carriage };
        if !running.is_empty() {
            line.draw(canvas, axis.x(self.zero), &running);
        }
    }

    /// Only what is cut on this page gets a letter.
    fn shown(&self, focus: &Focus, ends: (f64, f64)) -> Outline {
        let inside = |at: f64| ends.0 <= at && at <= ends.1;
        let stretches = self.after.stretches.iter().filter(|s| focus.cuts(s) && inside(s.middle())).cloned().collect();
        let is_cut = |f: Option<usize>| f.is_some_and(|f| focus.on.contains(&f));
        let on = self.after.on.iter().filter(|o| is_cut(o.feature)).cloned().collect();
        Outline { stretches, on }
    }
}
