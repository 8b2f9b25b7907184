//! A turned body from the side: outline, faces, threads, what lies on it, break lines, center line.

use super::axis::Axis;
use super::canvas::{Canvas, Dash, num, weight};
use super::outline::{OnIt, OnShape, Outline, Stretch, Surface};

/// What a stretch looks like on this page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Finished, or not touched here.
    Plain,
    /// Cut on this page.
    Cut,
}

/// A body on paper: its map and the height of its center line.
#[derive(Debug, Clone, Copy)]
pub struct Placed<'a> {
    /// The body.
    pub body: &'a Outline,
    /// Where it stands.
    pub axis: &'a Axis,
    /// Height of the center line.
    pub center: f64,
}

impl Placed<'_> {
    fn radius(&self, diameter: f64) -> f64 {
        self.axis.across(diameter) / 2.0
    }

    /// The body within `clip` (places along it); `look` says what each stretch looks like.
    pub fn draw(&self, canvas: &mut Canvas, clip: (f64, f64), look: &dyn Fn(&Stretch) -> Look) {
        let shown: Vec<Stretch> = self.body.stretches.iter().filter_map(|s| clipped(s, clip)).collect();
        for stretch in &shown {
            self.fill(canvas, stretch);
        }
        for stretch in shown.iter().filter(|s| look(s) == Look::Plain) {
            self.edges(canvas, stretch, weight::THICK);
        }
        self.faces(canvas, &shown, look);
        for stretch in shown.iter().filter(|s| look(s) == Look::Cut) {
            self.edges(canvas, stretch, weight::CUT);
        }
        for on in &self.body.on {
            let at = on.shape.middle();
            if clip.0 <= at && at <= clip.1 {
                self.on_it(canvas, on, weight::THICK);
            }
        }
        for at in self.axis.breaks.iter().filter(|at| clip.0 < **at && **at < clip.1) {
            self.break_lines(canvas, *at);
        }
    }

    /// Height of a stretch's own axis.
    fn center_of(&self, s: &Stretch) -> f64 {
        self.center - self.axis.across(s.off)
    }

    fn fill(&self, canvas: &mut Canvas, s: &Stretch) {
        let (x0, x1) = (self.axis.x(s.from), self.axis.x(s.to));
        let (r0, r1) = (self.radius(s.diameter), self.radius(s.diameter_to));
        let c = self.center_of(s);
        let corners = [(x0, c - r0), (x1, c - r1), (x1, c + r1), (x0, c + r0)];
        canvas.area(&corners, "#fff", 0.0);
        match s.surface {
            Surface::Bar => canvas.area(&corners, "url(#hatch)", 0.0),
            Surface::Knurled(pattern) => {
                super::knurl::lines(canvas, (x0.min(x1), x0.max(x1)), (c - r0, c + r0), pattern);
            }
            Surface::Turned | Surface::Thread(_) => {}
        }
    }

    /// Upper and lower edge with chamfers, and the root lines of a thread.
    fn edges(&self, canvas: &mut Canvas, s: &Stretch, line: f64) {
        let sign = if self.axis.x(s.to) < self.axis.x(s.from) { -1.0 } else { 1.0 };
        let (x0, x1) = (self.axis.x(s.from), self.axis.x(s.to));
        let room = (x1 - x0).abs();
        // A chamfer never eats more than a third of what is drawn.
        let bevel = |b: (f64, f64)| (self.axis.along(b.0).min(room / 3.0), self.axis.across(b.1));
        let dome = |high: f64| (self.axis.along(high).min(room / 2.0), 0.0);
        let (b0, b1) = (
            if s.dome_from > 0.0 { dome(s.dome_from) } else { bevel(s.bevel_from) },
            if s.dome_to > 0.0 { dome(s.dome_to) } else { bevel(s.bevel_to) },
        );
        let (r0, r1) = (self.radius(s.diameter), self.radius(s.diameter_to));
        let (in0, in1) = (x0 + sign * b0.0, x1 - sign * b1.0);
        let has_bevel = |b: (f64, f64)| b.0 > 0.05 && b.1 > 0.05;
        for up in [-1.0, 1.0] {
            let y = |r: f64| self.center_of(s) + up * r;
            let mut points = Vec::new();
            if s.dome_from > 0.0 {
                points.extend(arc(x0, sign * b0.0, r0).map(|(x, r)| (x, y(r))));
            }
            if has_bevel(b0) {
                points.push((x0, y(r0 - b0.1)));
            }
            points.push((in0, y(r0)));
            points.push((in1, y(r1)));
            if has_bevel(b1) {
                points.push((x1, y(r1 - b1.1)));
            }
            if s.dome_to > 0.0 {
                let mut out: Vec<_> = arc(x1, -sign * b1.0, r1).map(|(x, r)| (x, y(r))).collect();
                out.reverse();
                points.extend(out);
            }
            canvas.path(&points, line, Dash::Solid);
            if let Surface::Thread(depth) = s.surface {
                // ISO 6410-1: root lines thin, at least 0.7 mm or twice the thick line inside the crest (from memory).
                let d = self.axis.across(depth).max(1.0);
                canvas.line((x0, y(r0 - d)), (x1, y(r1 - d)), weight::THIN, Dash::Solid);
            }
        }
        for share in edges_of(s.corners) {
            canvas.line((x0, self.center + share * r0), (x1, self.center + share * r1), weight::THIN, Dash::Solid);
        }
        for (has, x, r) in [(has_bevel(b0), in0, r0), (has_bevel(b1), in1, r1)] {
            if has {
                let c = self.center_of(s);
                canvas.line((x, c - r), (x, c + r), weight::THIN, Dash::Solid);
            }
        }
        if s.off != 0.0 {
            // Its own axis.
            let (c, over) = (self.center_of(s), 3.0);
            let (a, b) = (x0.min(x1) - over, x0.max(x1) + over);
            canvas.line((a, c), (b, c), weight::THIN, Dash::Center);
        }
    }

    /// The faces between stretches and at the ends.
    fn faces(&self, canvas: &mut Canvas, shown: &[Stretch], look: &dyn Fn(&Stretch) -> Look) {
        for i in 0..=shown.len() {
            let left = i.checked_sub(1).and_then(|j| shown.get(j));
            let right = shown.get(i);
            let Some(at) = left.map(|s| s.to).or(right.map(|s| s.from)) else { continue };
            let reach = |d: f64, bevel: (f64, f64), dome: f64| {
                if dome > 0.0 { 0.0 } else { self.radius(d) - self.axis.across(bevel.1) }
            };
            let r_left = left.map_or(0.0, |s| reach(s.diameter_to, s.bevel_to, s.dome_to));
            let r_right = right.map_or(0.0, |s| reach(s.diameter, s.bevel_from, s.dome_from));
            let cut = [left, right].into_iter().flatten().any(|s| look(s) == Look::Cut);
            if (r_left - r_right).abs() < 1e-6 && left.is_some() && right.is_some() && !differ(left, right) {
                continue;
            }
            let x = self.axis.x(at);
            let axis = |s: Option<&Stretch>| s.map_or(self.center, |s| self.center_of(s));
            let top = (axis(left) - r_left).min(axis(right) - r_right);
            let foot = (axis(left) + r_left).max(axis(right) + r_right);
            let line = if cut { weight::CUT } else { weight::THICK };
            canvas.line((x, top), (x, foot), line, Dash::Solid);
        }
    }

    /// What lies on the body, as seen from above it.
    pub fn on_it(&self, canvas: &mut Canvas, on: &OnIt, line: f64) {
        let c = self.center;
        match on.shape {
            OnShape::Slot { from, to, width, round } => {
                let (a, b) = (self.axis.x(from), self.axis.x(to));
                let (left, right) = (a.min(b), a.max(b));
                let half = (self.axis.across(width) / 2.0).max(0.9);
                if round && right - left > 2.0 * half {
                    let (l, r) = (left + half, right - half);
                    canvas.rectangle(l, c - half, r, c + half, "#fff", 0.0);
                    let (h, l, r, top, bottom) = (num(half), num(l), num(r), num(c - half), num(c + half));
                    let ends = format!("M{l} {top}H{r}A{h} {h} 0 0 1 {r} {bottom}H{l}A{h} {h} 0 0 1 {l} {top}Z");
                    canvas.curve(&ends, line);
                } else {
                    canvas.rectangle(left, c - half, right, c + half, "#fff", line);
                }
                let x = f64::midpoint(left, right);
                canvas.line((x, c - half - 1.5), (x, c + half + 1.5), weight::THIN, Dash::Solid);
            }
            OnShape::Flat { from, to, width } => {
                let (a, b) = (self.axis.x(from), self.axis.x(to));
                let half = (self.axis.across(width) / 2.0).max(0.9);
                let (top, foot) = (c - half, c + half);
                canvas.rectangle(a.min(b), top, a.max(b), foot, "none", weight::THIN);
                // A plane on a round is crossed by thin diagonals (ISO 128-3; from memory).
                canvas.line((a, top), (b, foot), weight::THIN, Dash::Solid);
                canvas.line((a, foot), (b, top), weight::THIN, Dash::Solid);
            }
            OnShape::Cavity { .. } => self.cavity(canvas, on.shape, line > weight::THICK),
            OnShape::Hole { at, diameter } => {
                let (x, r) = (self.axis.x(at), (self.axis.across(diameter) / 2.0).max(0.8));
                canvas.circle((x, c), r, "#fff", line);
                canvas.line((x, c - r - 1.5), (x, c + r + 1.5), weight::THIN, Dash::Center);
            }
        }
    }

    /// A bore as hidden lines: walls, bottom, thread, drill point.
    fn cavity(&self, canvas: &mut Canvas, shape: OnShape, cut: bool) {
        let OnShape::Cavity { from, to, diameter, diameter_to, thread, tail, point } = shape else { return };
        let (line, dash) = (if cut { weight::CUT } else { weight::THIN }, Dash::Hidden);
        let (x0, x1) = (self.axis.x(from), self.axis.x(to));
        let (r0, r1) = (self.radius(diameter), self.radius(diameter_to));
        // The bottom lies behind the end that is away from the mouth.
        let inward = if tail < 0.0 || point < 0.0 { -1.0 } else { 1.0 };
        let (bottom, r) = if inward < 0.0 { (from, r0) } else { (to, r1) };
        let end = bottom + tail;
        let (xb, xe) = (self.axis.x(bottom), self.axis.x(end));
        for up in [-1.0, 1.0] {
            let y = |r: f64| self.center + up * r;
            canvas.line((x0, y(r0)), (x1, y(r1)), line, dash);
            if thread > 0.0 {
                let high = self.axis.across(thread).max(0.9);
                canvas.line((x0, y(r0 + high)), (x1, y(r1 + high)), weight::THIN, dash);
            }
            if tail.abs() > 1e-6 {
                canvas.line((xb, y(r)), (xe, y(r)), weight::THIN, dash);
            }
            if point.abs() > 1e-6 {
                canvas.line((xe, y(r)), (self.axis.x(end + point), self.center), weight::THIN, dash);
            }
        }
        let high = if thread > 0.0 { self.axis.across(thread).max(0.9) } else { 0.0 };
        canvas.line((x0, self.center - r0 - high), (x0, self.center + r0 + high), weight::THIN, dash);
        canvas.line((x1, self.center - r1 - high), (x1, self.center + r1 + high), weight::THIN, dash);
    }

    /// Two free-hand lines where a stretch is shortened.
    fn break_lines(&self, canvas: &mut Canvas, at: f64) {
        let x = self.axis.x(at);
        let r = self.radius(self.body.diameter_at(at)) + 1.2;
        let (top, bottom) = (self.center - r, self.center + r);
        canvas.rectangle(x - 1.1, top, x + 1.1, bottom, "#fff", 0.0);
        for edge in [x - 1.1, x + 1.1] {
            let (bulge, quarter) = (num(edge - 1.4), num(top + r / 2.0));
            let (e, t, c, b) = (num(edge), num(top), num(self.center), num(bottom));
            canvas.curve(&format!("M{e} {t}Q{bulge} {quarter} {e} {c}T{e} {b}"), weight::THIN);
        }
    }

    /// The center line from `left` to `right` on paper.
    pub fn center_line(&self, canvas: &mut Canvas, left: f64, right: f64) {
        canvas.line((left, self.center), (right, self.center), weight::THIN, Dash::Center);
    }
}

/// A dome from its summit at `x` to its edge of this radius, `high` on paper along the axis: places and radii.
pub(super) fn arc(x: f64, high: f64, radius: f64) -> impl Iterator<Item = (f64, f64)> {
    const PARTS: u32 = 16;
    let h = high.abs().max(1e-6);
    let round = (radius * radius + h * h) / (2.0 * h);
    let whole = (radius / round).clamp(0.0, 1.0).asin();
    let whole = if h > radius { std::f64::consts::PI - whole } else { whole };
    (0..=PARTS).map(move |i| {
        let angle = whole * f64::from(i) / f64::from(PARTS);
        (x + high.signum() * round * (1.0 - angle.cos()), round * angle.sin())
    })
}

/// Where the edges between flats are seen, as shares of the radius to a corner that lies in the outline.
const fn edges_of(corners: u8) -> &'static [f64] {
    match corners {
        6 => &[-0.5, 0.5],
        4 => &[0.0],
        _ => &[],
    }
}

/// Two stretches of one diameter still have a face between them when they are different features.
fn differ(left: Option<&Stretch>, right: Option<&Stretch>) -> bool {
    match (left, right) {
        (Some(a), Some(b)) => a.feature != b.feature || a.letter != b.letter || a.surface != b.surface,
        _ => true,
    }
}

/// The part of a stretch within the clip.
fn clipped(s: &Stretch, clip: (f64, f64)) -> Option<Stretch> {
    let (from, to) = (s.from.max(clip.0), s.to.min(clip.1));
    if to - from < 1e-9 {
        return None;
    }
    let mut out = s.clone();
    let slope = if s.to > s.from { (s.diameter_to - s.diameter) / (s.to - s.from) } else { 0.0 };
    out.diameter = s.diameter + slope * (from - s.from);
    out.diameter_to = s.diameter + slope * (to - s.from);
    if from > s.from {
        out.bevel_from = (0.0, 0.0);
        out.dome_from = 0.0;
    }
    if to < s.to {
        out.bevel_to = (0.0, 0.0);
        out.dome_to = 0.0;
    }
    (out.from, out.to) = (from, to);
    Some(out)
}
