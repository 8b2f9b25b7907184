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

/// A drill before a bar: never smaller than the bar goes into (1/64 in larger: common practice, no source), from the drawer where one is there, and a
/// finding where none is.
#[test]
fn a_hole_is_drilled_for_the_smallest_boring_bar() {
    let text = "part: sleeve\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.25 x 3.125\ndatum: left\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.000\n    to: end\ninside:\n  - bore: 0.500 H7\n    end: far\n    depth: 1.500\n";
    let lists = |drills: &str| {
        let bare = include_str!("../../samples/shop.yaml").split("\ntools:").next().unwrap_or_default();
        let shop = format!(
            "{bare}\ntools:\n  - {{tool: boring, diameter: 3/8, reach: 2.5}}\n  - {{tool: drill, diameter: 4 mm}}\n{drills}"
        );
        turnwright::read::shop("shop.yaml", shop.as_bytes()).shop.expect("a shop")
    };
    for (drills, wanted, missing) in [
        ("  - {tool: drill, diameter: 13/32}\n", 406_250, false),
        ("  - {tool: drill, diameter: 1/4}\n", 437_500, true),
    ] {
        let (p, findings) = crate::planning::believable::judged(text, Some(&lists(drills))).expect("a plan");
        let drill = p.plan.operations().find(|(_, o)| o.verb == Verb::Drill && o.inside).expect("a drill").1;
        assert_eq!(drill.to_diameter, Some(Length::micro_inches(wanted)), "{drills}");
        let told = findings.iter().any(|f| f.check == "tool-missing" && f.message.contains("needs a drill"));
        assert_eq!(told, missing, "{drills}");
    }
}

/// By hand, for 1/2-13 in a nut .625 long, .020 left to face, tapped while bar stands behind it: .645 of full thread, four threads of lead
/// (4/13 = .308, a plug tap's 3 to 5: ASME B94.9, from memory) and two for chips: the tap goes .953 deep, 12.4 turns, the full diameter 1.107,
/// the point .3 x .4219 farther.
#[test]
fn a_through_hole_tapped_in_the_bar_is_blind() {
    let text = "part: nut\nunits: in\nmaterial: 360 brass\nstock: 1.25 x 12\ndatum: face\noverall: 0.625\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 1.000\n    to: .625\ninside:\n  - thread: 1/2-13 UNC-2B\n    end: through\n\
plan: {part off: yes}\n";
    let part = parts::part(text);
    let (p, _) = crate::planning::believable::judged(text, None).expect("a plan");
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let figures = turnwright::figures::work(&part, &chain, &profile, &p.plan, None);
    let depth = |verb: Verb| {
        let number = p.plan.operations().find(|(_, o)| o.verb == verb && o.inside).expect("an operation").1.number;
        let of = figures.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == number).expect("figures");
        let turnwright::figures::Job::Hole(hole) = &of.job else { panic!("a hole") };
        hole.lines.iter().find(|l| l.label == "Depth").map(|l| (l.value.clone(), l.note.clone())).expect("a depth")
    };
    let (drilled, note) = depth(Verb::Drill);
    assert!(drilled == "1.107" && note.contains("1.233 to the point"), "{drilled}: {note}");
    let (tapped, note) = depth(Verb::Tap);
    assert!(tapped == ".953" && note.contains("12.4 turns: .645 of full thread"), "{tapped}: {note}");
}
