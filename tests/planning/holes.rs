//! What is cut inside, cut again here station by station: no tool goes into air, each finds what it was told it would, and the
//! hole left at the end is the one described. The rule is geometry; the order (drill through, then open from the other end) is
//! common practice, no source.

use std::fmt::Write as _;

use turnwright::model::plan::Verb;
use turnwright::unit::{Length, Station, Unit};

use crate::planning::parts;

/// `(from datum, end, depth or through, diameter)` a hole; overall 3 in.
struct Holes {
    name: &'static str,
    inside: &'static [(&'static str, &'static str, &'static str)],
    plan: &'static str,
    /// Diameter by thousandths from the datum: up to here, this wide.
    left: &'static [(i64, &'static str)],
}

const ALL: [Holes; 9] = [
    Holes {
        name: "through, wider at the far end",
        inside: &[("1.000 +0.001/-0", "", "through"), ("1.500 ±0.002", "0.500", "far")],
        plan: "",
        left: &[(2500, "1.0005"), (3000, "1.500")],
    },
    Holes {
        name: "the same, the wider end wished first",
        inside: &[("1.000 +0.001/-0", "", "through"), ("1.500 ±0.002", "0.500", "far")],
        plan: "plan: {first end: far}\n",
        left: &[(2500, "1.0005"), (3000, "1.500")],
    },
    Holes {
        name: "a small hole through, wider at both ends",
        inside: &[
            ("0.750 ±0.002", "0.400", "datum"),
            ("0.250 ±0.002", "", "through"),
            ("1.250 ±0.002", "0.600", "far"),
        ],
        plan: "",
        left: &[(400, "0.750"), (2400, "0.250"), (3000, "1.250")],
    },
    Holes {
        name: "wider at the mouth it is drilled from",
        inside: &[("0.750 ±0.002", "0.400", "datum"), ("0.500 ±0.002", "", "through")],
        plan: "",
        left: &[(400, "0.750"), (3000, "0.500")],
    },
    Holes {
        name: "three steps in one end, the deepest close",
        inside: &[
            ("1.000 ±0.002", "0.500", "datum"),
            ("0.750 ±0.002", "1.000", "datum"),
            ("0.500 +0.0007/-0", "2.000", "datum"),
        ],
        plan: "",
        left: &[(500, "1.000"), (1000, "0.750"), (2000, "0.50035"), (3000, "0")],
    },
    Holes {
        name: "told by its depth, into the wider one",
        inside: &[("0.875 ±0.002", "2.500", "datum"), ("1.125 ±0.002", "0.500", "far")],
        plan: "",
        left: &[(2500, "0.875"), (3000, "1.125")],
    },
    Holes {
        name: "told by its depth, out of the far face",
        inside: &[("0.875 ±0.002", "3.000", "datum")],
        plan: "",
        left: &[(3000, "0.875")],
    },
    Holes {
        name: "narrower at the far end",
        inside: &[("1.000 ±0.002", "", "through"), ("0.500 ±0.002", "0.500", "far")],
        plan: "",
        left: &[(2500, "1.000"), (3000, "0.500")],
    },
    Holes {
        name: "blind at each end, solid between",
        inside: &[("0.750 ±0.002", "1.000", "datum"), ("1.000 ±0.002", "1.000", "far")],
        plan: "",
        left: &[(1000, "0.750"), (2000, "0"), (3000, "1.000")],
    },
];

fn description(holes: &Holes) -> String {
    let mut text =
        "part: bushing\nunits: in\nmaterial: 1018\nstock: 2.250 x 3.250\ndatum: flange\noverall: 3.000 ±0.005\n\
        tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 2.000\n    to: end\ninside:\n"
            .to_owned();
    for (bore, depth, end) in holes.inside {
        let depth = if depth.is_empty() { String::new() } else { format!("    depth: {depth}\n") };
        let _ = write!(text, "  - bore: {bore}\n{depth}    end: {end}\n");
    }
    text + holes.plan
}

/// The hole along the part, an entry a thousandth of an inch.
struct Hole(Vec<Length>);

impl Hole {
    fn range(from: Station, to: Station) -> std::ops::Range<usize> {
        let thousandth =
            |s: Station| usize::try_from(((s.0).to_f64(Unit::Inch) * 1000.0).round() as i64).unwrap_or(0).min(3000);
        thousandth(from.min(to))..thousandth(from.max(to))
    }

    /// Smallest diameter found along a cut.
    fn found(&self, from: Station, to: Station) -> Length {
        self.0[Self::range(from, to)].iter().copied().min().unwrap_or_default()
    }

    /// Smallest diameter found, but for the bottom: a drill's point leaves less there.
    fn found_before_the_point(&self, from: Station, to: Station) -> Length {
        let point = Length::micro_inches(350_000).min((to - from).abs() - Length::micro_inches(1_000));
        self.found(from, if from < to { to - point } else { to + point })
    }

    fn open(&mut self, from: Station, to: Station, diameter: Length) {
        for d in &mut self.0[Self::range(from, to)] {
            *d = (*d).max(diameter);
        }
    }
}

#[test]
fn every_hole_is_cut_once_and_finds_what_it_was_told() {
    for holes in &ALL {
        let p = crate::planning::planned(&parts::part(&description(holes)));
        let mut hole = Hole(vec![Length::ZERO; 3000]);
        for (_, o) in p.plan.operations().filter(|(_, o)| o.inside) {
            let (Some(from), Some(to), Some(d)) = (o.from, o.to, o.to_diameter) else { continue };
            let there = hole.found(from, to);
            assert!(there < d, "{}: {} to {d:?} goes into air: {there:?} is there", holes.name, o.id);
            let there = hole.found_before_the_point(from, to);
            let told = o.from_diameter.unwrap_or_default();
            // What is told is the smallest size within limits; what is cut is the middle of them.
            let apart = (told - there).abs();
            let near = apart <= Length::micro_inches(2_000);
            assert!(
                near || o.verb == Verb::Drill && told <= there,
                "{}: {} told {told:?}, found {there:?}",
                holes.name,
                o.id
            );
            hole.open(from, to, d);
        }
        let mut start = 0;
        for (until, d) in holes.left {
            let wanted: f64 = d.parse().expect("a diameter");
            for at in start..*until {
                let is = hole.0[usize::try_from(at).expect("a place")].to_f64(Unit::Inch);
                assert!((is - wanted).abs() < 1e-6, "{}: {is} at {at} thousandths, not {wanted}", holes.name);
            }
            start = *until;
        }
    }
}

#[test]
fn a_hole_through_is_drilled_before_the_other_end_is_opened() {
    let p = crate::planning::planned(&parts::part(&description(&ALL[0])));
    let drills: Vec<_> = p.plan.operations().filter(|(_, o)| o.inside && o.verb == Verb::Drill).collect();
    assert_eq!(drills.len(), 1, "one drill makes the whole hole");
    assert_eq!(drills[0].1.to, Some(Station(Length::micro_inches(3_000_000))), "right through");
    let wished = crate::planning::planned(&parts::part(&description(&ALL[1])));
    assert_eq!(wished.plan.operations().filter(|(_, o)| o.inside && o.verb == Verb::Drill).count(), 2);
}
