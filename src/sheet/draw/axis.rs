//! Where a place along the part stands on the paper: to scale, with long stretches broken and very short ones widened.

use super::outline::Outline;

/// The least a stretch is drawn wide, so that its two faces can be told apart.
const NARROWEST: f64 = 1.6;
/// A broken stretch keeps at least this much.
const BROKEN: f64 = 11.0;
/// The usual least thickness of a body on paper.
pub const THINNEST: f64 = 12.0;

/// A map from places to paper.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Place and paper, rising in place.
    knots: Vec<(f64, f64)>,
    /// Places where a stretch is broken.
    pub breaks: Vec<f64>,
    /// Millimetres of paper to a millimetre, across the axis and along an unbroken stretch.
    pub scale: f64,
    /// Whether every stretch that is neither broken nor very short is as long as the scale has it.
    pub to_scale: bool,
}

/// Room for a picture of a body.
#[derive(Debug, Clone, Copy)]
pub struct Room {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Greatest height.
    pub height: f64,
    /// Whether the datum end is at the right.
    pub datum_right: bool,
    /// Where a body that does not fill the length stands: 0 at the left edge, 1 at the right.
    pub align: f64,
    /// A body thinner than this on paper is drawn larger and broken.
    pub thinnest: f64,
}

impl Axis {
    /// Fits places `from` to `to` of a body into the room.
    pub fn fit(body: &Outline, from: f64, to: f64, room: Room) -> Self {
        Self::fit_under(body, body.largest(), from, to, room)
    }

    /// The same with room across the axis for a diameter `largest`, such as that of the bar around the body.
    pub fn fit_under(body: &Outline, largest: f64, from: f64, to: f64, room: Room) -> Self {
        let length = (to - from).max(1e-6);
        let width = (room.right - room.left).max(1.0);
        let largest = largest.max(1e-6);
        let whole = (width / length).min(room.height / largest);
        let scale = whole.max(room.thinnest.min(room.height) / largest);
        let faces = faces(body, from, to);
        let true_widths: Vec<f64> = faces.windows(2).map(|w| (w[1] - w[0]) * scale).collect();
        let widths = shares(&true_widths, width);
        let used: f64 = widths.iter().sum();
        let before = if room.datum_right { 1.0 - room.align } else { room.align };
        let mut x = room.left + (width - used) * before;
        let mut knots = vec![(faces[0], x)];
        for (face, w) in faces[1..].iter().zip(&widths) {
            x += w;
            knots.push((*face, x));
        }
        if room.datum_right {
            for knot in &mut knots {
                knot.1 = room.left + room.right - knot.1;
            }
        }
        let shortened = |t: f64, w: f64| w < t * 0.98 - 0.5;
        let pairs = || faces.windows(2).zip(true_widths.iter().zip(&widths));
        let breaks = pairs()
            .filter(|(_, (t, w))| shortened(**t, **w) && **w >= BROKEN - 1e-6)
            .map(|(f, _)| f64::midpoint(f[0], f[1]))
            .collect();
        let to_scale = pairs().all(|(_, (t, w))| !shortened(*t, *w) || *w >= BROKEN - 1e-6);
        Self { knots, breaks, scale, to_scale }
    }

    /// Paper of a place; places outside go on at the scale.
    pub fn x(&self, place: f64) -> f64 {
        let (first, last) = (self.knots[0], self.knots[self.knots.len() - 1]);
        let sign = if last.1 < first.1 { -1.0 } else { 1.0 };
        if place <= first.0 {
            return first.1 + (place - first.0) * self.scale * sign;
        }
        if place >= last.0 {
            return last.1 + (place - last.0) * self.scale * sign;
        }
        let i = self.knots.partition_point(|k| k.0 <= place).clamp(1, self.knots.len() - 1);
        let (a, b) = (self.knots[i - 1], self.knots[i]);
        if b.0 <= a.0 { a.1 } else { a.1 + (b.1 - a.1) * (place - a.0) / (b.0 - a.0) }
    }

    /// A length across the axis on paper.
    pub fn across(&self, length: f64) -> f64 {
        length * self.scale
    }

    /// Paper of a length along the axis at an unbroken place.
    pub fn along(&self, length: f64) -> f64 {
        length * self.scale
    }
}

/// The faces between `from` and `to`, both included, each once.
fn faces(body: &Outline, from: f64, to: f64) -> Vec<f64> {
    let bottoms = body.on.iter().flat_map(|o| match o.shape {
        super::outline::OnShape::Cavity { from, to, .. } => vec![from, to],
        _ => Vec::new(),
    });
    let steps = body.stretches.iter().flat_map(|s| [s.from, s.to]).chain(bottoms);
    let inner = steps.filter(|f| *f > from + 1e-6 && *f < to - 1e-6);
    let mut out: Vec<f64> = std::iter::once(from).chain(inner).chain(std::iter::once(to.max(from + 1e-6))).collect();
    out.sort_by(f64::total_cmp);
    out.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    out
}

/// Paper for each stretch: its true width where that fits, the narrow widened, the longest shortened to one cap.
fn shares(true_widths: &[f64], room: f64) -> Vec<f64> {
    let n = true_widths.len() as f64;
    let least = NARROWEST.min(room / (n * 1.5));
    let with_cap = |cap: f64| true_widths.iter().map(|w| w.max(least).min(cap.max(least))).collect::<Vec<f64>>();
    let free = with_cap(f64::INFINITY);
    if free.iter().sum::<f64>() <= room {
        return free;
    }
    let (mut low, mut high) = (least, room);
    for _ in 0..60 {
        let mid = f64::midpoint(low, high);
        if with_cap(mid).iter().sum::<f64>() <= room {
            low = mid;
        } else {
            high = mid;
        }
    }
    if low >= BROKEN {
        return with_cap(low);
    }
    // No stretch is long enough to break: all shrink alike.
    let total: f64 = free.iter().sum();
    let spare = room - least * n;
    let above: f64 = total - least * n;
    free.iter().map(|w| least + (w - least) * (spare / above.max(1e-9)).min(1.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::draw::outline::Stretch;

    fn body(faces: &[f64], diameter: f64) -> Outline {
        let stretches = faces.windows(2).map(|w| Stretch::cylinder(w[0], w[1], diameter, "")).collect();
        Outline { stretches, on: vec![] }
    }

    #[test]
    fn a_short_part_is_to_scale() {
        let room = Room { left: 10.0, right: 110.0, height: 30.0, datum_right: false, align: 0.5, thinnest: THINNEST };
        let axis = Axis::fit(&body(&[0.0, 20.0, 50.0], 10.0), 0.0, 50.0, room);
        assert!((axis.scale - 2.0).abs() < 1e-9);
        assert!((axis.x(20.0) - 50.0).abs() < 1e-9);
        assert!(axis.breaks.is_empty());
    }

    #[test]
    fn a_long_part_is_broken_in_its_longest_stretch_and_fills_the_room() {
        let room = Room { left: 0.0, right: 150.0, height: 30.0, datum_right: true, align: 0.5, thinnest: THINNEST };
        let axis = Axis::fit(&body(&[0.0, 20.0, 980.0, 1000.0], 20.0), 0.0, 1000.0, room);
        assert_eq!(axis.breaks, vec![500.0]);
        assert!(axis.x(0.0) > axis.x(1000.0));
        assert!((axis.x(0.0) - 150.0).abs() < 1e-6 && axis.x(1000.0).abs() < 1e-6);
        assert!((axis.x(0.0) - axis.x(20.0) - 20.0 * axis.scale).abs() < 1e-6);
    }
}
