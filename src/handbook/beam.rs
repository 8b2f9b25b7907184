//! How far a stepped bar gives under the tool: exact integration of the beam's curvature, piece by piece. Physics, in floating point.
//!
//! The bar lies along x from the chuck (or the left center). Each piece is round and of one diameter, so the curvature M/(E I)
//! is a straight line in x on every piece; slope and deflection follow without error of step size.

use super::Source;
use crate::unit::Length;

/// How the bar is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hold {
    /// Chuck only: built in at x = 0, free at the end.
    Chuck,
    /// Chuck and a center at the far end.
    ChuckAndCenter,
    /// Between centers: supported at both ends.
    Centers,
    /// Chuck and a steady rest at [`Beam::rest_at`]: built in at x = 0, carried at the rest, free at the end.
    ChuckAndRest,
}

/// What is turned and how it is held.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// Diameters and lengths from the chuck or left center, in mm.
    pub pieces: Vec<(f64, f64)>,
    /// Holding.
    pub hold: Hold,
    /// Modulus of elasticity, `MPa` (N/mm²).
    pub modulus: f64,
    /// Stiffness of the chuck or the left center sideways, N/mm; `None` is rigid.
    pub near_stiffness: Option<f64>,
    /// Stiffness of the tailstock center or the steady rest sideways, N/mm; `None` is rigid.
    pub tail_stiffness: Option<f64>,
    /// Where a steady rest carries the bar, mm from the chuck; read for [`Hold::ChuckAndRest`] alone, which needs it.
    pub rest_at: Option<f64>,
}

/// Modulus of steel, `MPa`.
pub const STEEL_MPA: f64 = 207_000.0;

/// What a force does to the bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deflection {
    /// Sideways, under the force, mm.
    pub at_force: f64,
    /// Error of the diameter there: twice that.
    pub diameter_error: f64,
    /// Force on the tailstock center or the steady rest, N; zero without either.
    pub tail_reaction: f64,
    /// Where the bar gives most, from the chuck or left center, mm …
    pub greatest_at: f64,
    /// … and how far, mm.
    pub greatest: f64,
}

/// Why a beam cannot be worked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoBeam {
    /// A piece without diameter or length, or no piece at all.
    Pieces,
    /// The force acts outside of the bar.
    Place,
    /// A modulus or stiffness that is not above zero.
    Stiffness,
    /// A steady rest that stands nowhere on the bar.
    Rest,
}

impl std::fmt::Display for NoBeam {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Pieces => "write the bar as diameter x length from the chuck outward: 30x150 20x150",
            Self::Place => "the force must act on the bar, between the chuck and its end",
            Self::Stiffness => "modulus and stiffness must be above zero",
            Self::Rest => "say where the steady rest stands: on the bar, measured from the chuck",
        })
    }
}

impl std::error::Error for NoBeam {}

impl Beam {
    /// A steel bar on rigid supports; pieces in `Length`s.
    pub fn steel(pieces: &[(Length, Length)], hold: Hold) -> Self {
        let pieces = pieces.iter().map(|(d, l)| (d.mm(), l.mm())).collect();
        Self { pieces, hold, modulus: STEEL_MPA, near_stiffness: None, tail_stiffness: None, rest_at: None }
    }

    /// Length of the bar, mm.
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(|(_, l)| l).sum()
    }

    /// What a force of `newtons` sideways at `at` mm from the chuck or left center does.
    ///
    /// # Errors
    /// [`NoBeam`] for pieces, places or stiffnesses that are none.
    pub fn under(&self, newtons: f64, at: f64) -> Result<Deflection, NoBeam> {
        let (tail, shape) = self.shape(newtons, at)?;
        let at_force = shape(at);
        let (greatest_at, greatest) = greatest(&shape, self.length());
        Ok(Deflection { at_force, diameter_error: 2.0 * at_force, tail_reaction: tail, greatest_at, greatest })
    }

    /// How far the bar gives at `x` mm under a force of `newtons` at `at` mm, in mm.
    ///
    /// # Errors
    /// [`NoBeam`] for pieces, places or stiffnesses that are none.
    pub fn gives_at(&self, newtons: f64, at: f64, x: f64) -> Result<f64, NoBeam> {
        self.check(x)?;
        self.shape(newtons, at).map(|(_, shape)| shape(x))
    }

    /// The force on the tailstock center, and the bent bar.
    fn shape(&self, newtons: f64, at: f64) -> Result<(f64, impl Fn(f64) -> f64), NoBeam> {
        self.check(at)?;
        let length = self.length();
        let (root, tail) = self.reactions(newtons, at);
        let curve = Curve::of(self, newtons, at, tail, root.moment);
        let start = root.force * compliance(self.near_stiffness);
        let end = tail * compliance(self.tail_stiffness);
        // Built in: the bar starts with no slope. On centers: the slope that brings the far end onto its center.
        let slope = match self.hold {
            Hold::Centers => (end - start - curve.deflection(length)) / length,
            _ => 0.0,
        };
        Ok((tail, move |x: f64| start + slope * x + curve.deflection(x)))
    }

    fn check(&self, at: f64) -> Result<(), NoBeam> {
        let whole = |v: f64| v.is_finite() && v > 0.0;
        if self.pieces.is_empty() || !self.pieces.iter().all(|(d, l)| whole(*d) && whole(*l)) {
            return Err(NoBeam::Pieces);
        }
        if !(0.0..=self.length() * (1.0 + 1e-12)).contains(&at) {
            return Err(NoBeam::Place);
        }
        let springs = [self.near_stiffness, self.tail_stiffness];
        if !whole(self.modulus) || !springs.iter().flatten().all(|k| whole(*k)) {
            return Err(NoBeam::Stiffness);
        }
        let on_bar = |rest: f64| whole(rest) && rest <= self.length() * (1.0 + 1e-12);
        if self.hold == Hold::ChuckAndRest && !self.rest_at.is_some_and(on_bar) {
            return Err(NoBeam::Rest);
        }
        Ok(())
    }

    /// Where the bar is carried beside the chuck or the left center: at the rest, else at its end.
    fn carried_at(&self) -> f64 {
        let rest = self.rest_at.filter(|_| self.hold == Hold::ChuckAndRest);
        rest.unwrap_or_else(|| self.length())
    }

    /// Force and moment at x = 0, and the force of the tailstock center or the rest.
    fn reactions(&self, force: f64, at: f64) -> (Root, f64) {
        let prop = self.carried_at();
        let tail = match self.hold {
            Hold::Chuck => 0.0,
            Hold::Centers => force * at / prop,
            Hold::ChuckAndCenter | Hold::ChuckAndRest => {
                // The push R of center or rest, at the place p, closes the gap that force and chuck leave there:
                // y_F(p) + F/k_near - R (y_1(p) + 1/k_near) = R / k_tail.
                let by_force = Curve::of(self, force, at, 0.0, force * at).deflection(prop);
                let by_one = Curve::of(self, 1.0, prop, 0.0, prop).deflection(prop);
                let near = compliance(self.near_stiffness);
                (by_force + force * near) / (by_one + near + compliance(self.tail_stiffness))
            }
        };
        let moment = match self.hold {
            Hold::Centers => 0.0,
            _ => force * at - tail * prop,
        };
        (Root { force: force - tail, moment }, tail)
    }
}

struct Root {
    force: f64,
    moment: f64,
}

fn compliance(stiffness: Option<f64>) -> f64 {
    stiffness.map_or(0.0, |k| 1.0 / k)
}

/// One stretch on which the curvature is `c0 + c1 (x - from)`; slope and deflection at its beginning.
struct Stretch {
    from: f64,
    to: f64,
    c0: f64,
    c1: f64,
    slope: f64,
    deflection: f64,
}

/// Deflection of the bar from its curvature alone, begun level and at rest at x = 0.
struct Curve(Vec<Stretch>);

impl Curve {
    /// The bending moment that pushes the bar the force's way is `moment - root x` at first, adds `force (x - at)` behind the force and
    /// loses `tail (x - prop)` behind what carries the bar.
    fn of(beam: &Beam, force: f64, at: f64, tail: f64, moment: f64) -> Self {
        let (root, prop) = (force - tail, beam.carried_at());
        let at_moment = |x: f64| moment - root * x + force * (x - at).max(0.0) - tail * (x - prop).max(0.0);
        let (mut stretches, mut from, mut slope, mut deflection) = (Vec::new(), 0.0, 0.0, 0.0);
        for (diameter, length) in &beam.pieces {
            let rigidity = beam.modulus * std::f64::consts::PI * diameter.powi(4) / 64.0;
            let to = from + length;
            let kinks = [at.min(prop), at.max(prop)].into_iter().filter(|kink| from < *kink && *kink < to);
            let ends: Vec<f64> = kinks.chain([to]).collect();
            for end in ends {
                let (m0, m1) = (at_moment(from) / rigidity, at_moment(end) / rigidity);
                let h = end - from;
                if h <= 0.0 {
                    continue;
                }
                let c1 = (m1 - m0) / h;
                stretches.push(Stretch { from, to: end, c0: m0, c1, slope, deflection });
                deflection += slope * h + m0 * h * h / 2.0 + c1 * h * h * h / 6.0;
                slope += m0 * h + c1 * h * h / 2.0;
                from = end;
            }
        }
        Self(stretches)
    }

    fn deflection(&self, x: f64) -> f64 {
        let stretch = self.0.iter().find(|s| x <= s.to).or(self.0.last());
        stretch.map_or(0.0, |s| {
            let h = x - s.from;
            s.deflection + s.slope * h + s.c0 * h * h / 2.0 + s.c1 * h * h * h / 6.0
        })
    }
}

/// The place of the largest deflection: a coarse look, then halving around it.
fn greatest(shape: &dyn Fn(f64) -> f64, length: f64) -> (f64, f64) {
    let steps = 400;
    let station = |i: i32| length * f64::from(i) / f64::from(steps);
    let best =
        (0..=steps).map(|i| (shape(station(i)).abs(), i)).fold((-1.0, 0), |a, b| if b.0 > a.0 { b } else { a }).1;
    let (mut low, mut high) = (station((best - 1).max(0)), station((best + 1).min(steps)));
    for _ in 0..60 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if shape(a).abs() < shape(b).abs() { low = a } else { high = b }
    }
    let (middle, ends) = (f64::midpoint(low, high), [0.0, length]);
    ends.into_iter()
        .map(|x| (x, shape(x)))
        .fold((middle, shape(middle)), |a, b| if b.1.abs() > a.1.abs() { b } else { a })
}

/// What a feeding-back cut leaves: for a cutting stiffness `k` (N a mm of depth) and a compliance (mm/N), the part of the set depth
/// that is not taken, and that each spring pass leaves of what was left: k c / (1 + k c).
pub fn left_by_a_pass(cutting_stiffness: f64, compliance: f64) -> f64 {
    let kc = cutting_stiffness * compliance;
    kc / (1.0 + kc)
}

/// Where the method was printed.
pub const fn source() -> Source {
    Source::printed(
        "beam theory: stepped bar integrated piece by piece; closed forms for uniform bars in any strength-of-materials text",
    )
}
