//! Figures of plans the planner makes: the samples, and parts of other kinds.

use std::path::Path;

use crate::figures::hand::{part, shop};
use crate::planning::generated::believable;
use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Figures, Job, OperationFigures};
use turnwright::model::plan::Verb;
use turnwright::model::shop::Reads;
use turnwright::model::{End, Part, Plan, Shop};
use turnwright::plan;
use turnwright::unit::{Length, Station, Unit};

/// A part, its plan, and the figures of that.
pub(crate) struct Worked {
    pub(crate) part: Part,
    pub(crate) plan: Plan,
    pub(crate) figures: Figures,
}

pub(crate) fn worked(text: &[u8], shop: Option<&Shop>) -> Worked {
    let part = part(text);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let plan = plan::plan(&part, &chain, &profile, shop, 10).expect("a plan").plan;
    let figures = figures::work(&part, &chain, &profile, &plan, shop);
    Worked { part, plan, figures }
}

fn sample(name: &str) -> Worked {
    let text = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(name)).expect("a sample");
    worked(&text, Some(&shop(Reads::Radius)))
}

impl Worked {
    fn operation(&self, verb: Verb, letter: &str) -> &OperationFigures {
        let found = self
            .plan
            .operations()
            .position(|(_, o)| o.verb == verb && o.feature.is_some_and(|f| self.part.features[f].letter == letter));
        let all: Vec<&OperationFigures> = self.figures.setups.iter().flat_map(|s| &s.operations).collect();
        all[found.expect("an operation")]
    }
}

const PUMP: &str = "part: pump shaft\nunits: mm\nmaterial: C45\nstock: 35 x 290\ndatum: impeller end\noverall: 287 ±0.2\n\
tolerances: ISO 2768-m\nfeatures:\n  - thread: M16x1.5-6g LH\n    to: 18\n  - relief: 13.7\n    to: 23\n  - turn: 18 h6\n    to: 63\n  \
- turn: 32 h11\n    to: 215\n  - turn: 25 k6\n    to: 237\n  - turn: 22 j6\n    to: 287\n  - keyseat: 6 x 6 x 32\n    from: 245\n  \
- center hole: A 2.5\n    end: both\n";

const SCREW: &str = "part: vise screw\nunits: in\nmaterial: 12L14\nstock: 1.750 x 14.500\ndatum: head face\noverall: 14.250\n\
tolerances: {lengths: ±0.01, diameters: ±0.005}\nfeatures:\n  - turn: 1.625\n    to: 1.750\n  - turn: 1.250 +0/-0.002\n    to: 2.250\n  \
- turn: 1.000\n    to: 2.4375\n  - turn: 1.250 +0/-0.002\n    to: 2.625\n  - relief: 0.865\n    to: 3.125\n  \
- thread: 1 1/8-0.2P-0.4L ACME-2G\n    to: 13.875\n  - turn: 0.875\n    to: 14.250\n  - center hole: A 1/8\n    end: both\n";

/// Whatever the plan: places lie on the part, the carriage never goes into the jaws or dog, plunges are ordered, aims lie in their limits,
/// gears are of the list and not above the wanted speed, threads have a second in their relief.
#[test]
fn every_plan_keeps_to_the_work() {
    let own = shop(Reads::Diameter);
    let others = [PUMP, SCREW].map(|text| worked(text.as_bytes(), Some(&own)));
    let samples = ["pulley-stub.yaml", "idler-shaft.yaml", "tool-post-stud.yaml"].map(sample);
    let (mut places, mut gears) = (0, 0);
    for w in samples.iter().chain(&others) {
        let overall = w.part.overall.as_ref().expect("an overall").nominal;
        for (setup, numbers) in w.plan.setups.iter().zip(&w.figures.setups) {
            let reach = match (setup.works, &setup.grip) {
                (Some(End::Datum), Some(grip)) => grip.from.min(grip.to) - Station::DATUM,
                (Some(End::Far), Some(grip)) => grip.from.max(grip.to).from_far_end(overall),
                _ => overall,
            };
            for (op, f) in setup.operations.iter().zip(&numbers.operations) {
                for p in &f.positions {
                    assert_eq!(p.from_datum.value + p.from_far_end.value, overall);
                    if let Some(c) = p.carriage {
                        assert!(
                            c.value >= Length::ZERO && c.value <= reach,
                            "{} {}: {}",
                            w.part.name.text,
                            op.id,
                            p.what
                        );
                        places += 1;
                    }
                }
                if let (Some(aim), Some(limits)) = (f.aim, &f.limits) {
                    assert!(limits.exact.holds(aim.value), "{}", op.id);
                }
                if let Some(speed) = &f.speed
                    && let Some(gear) = speed.gear
                {
                    assert!(own.speeds.contains(&gear));
                    assert!(
                        f64::from(gear) <= speed.wanted || (speed.above_wanted && gear == own.speeds[0]),
                        "{}",
                        op.id
                    );
                    gears += 1;
                }
                if let Job::Thread(thread) = &f.job {
                    assert!(thread.relief_time.is_none_or(|s| s >= 1.0));
                    assert!(thread.passes.windows(2).all(|p| p[0].value < p[1].value));
                }
            }
        }
        assert!(w.figures.cautions.len() <= 8 && w.figures.not_supported.is_empty());
        for list in &w.figures.marks.lists {
            let most = if list.name == "blank" { 6 } else { 10 };
            assert!(list.marks.len() <= most && !list.marks.is_empty());
        }
    }
    assert!(places > 80 && gears > 60, "{places} {gears}");
}

/// Idler shaft: shoulders of the kept body are scribed on it; a groove's place written back from a shoulder is measured forward; a caliper
/// too short for the overall is told so; the ring groove takes the tool of its own width in one plunge.
#[test]
fn the_idler_shaft() {
    let w = sample("idler-shaft.yaml");
    let text = |f: figures::Figure| f.text(Unit::Inch);
    let blank: Vec<String> = w.figures.marks.lists[0].marks.iter().map(|m| text(m.height_gauge)).collect();
    assert!(blank.contains(&".800".to_owned()) && blank.contains(&"11.450".to_owned()), "{blank:?}");
    let back = w.figures.inspection.iter().find(|r| text(r.limits.max) == ".550").expect("the groove's wall");
    assert_eq!(text(back.limits.min), ".544");
    assert!(w.figures.layout.instruments.iter().any(|i| i == "caliper that reaches 12.26"), "{:?}", w.figures.layout);
    let groove = w.operation(Verb::Groove, "D");
    assert_eq!(groove.tool_width.map(text).as_deref(), Some(".046"));
    assert_eq!(groove.positions.len(), 1);
    assert_eq!(groove.positions[0].carriage.map(text).as_deref(), Some(".300"));
}

/// Stud: its run-out thread is full to 1.150 from the far end and the tool is out at the shank; in a chuck the lines go on by the carriage.
#[test]
fn the_stud() {
    let w = sample("tool-post-stud.yaml");
    let text = |f: figures::Figure| f.text(Unit::Inch);
    let thread = w.operation(Verb::Thread, "E");
    let rows: Vec<(&str, String)> = thread.positions.iter().map(|p| (p.what.as_str(), text(p.from_far_end))).collect();
    assert_eq!(rows, [("thread ends", "1.150".to_owned()), ("out by", "1.250".to_owned())]);
    let mark = w.figures.marks.lists[1].marks.iter().find(|m| m.means == "thread E full to here").expect("a line");
    assert_eq!(text(mark.from_datum), "3.600");
    if let Some(carriage) = mark.carriage {
        assert_eq!(text(carriage), "1.150");
        assert!(w.figures.marks.notes.iter().any(|n| n.contains("stays in the lathe")));
    }
}

/// A metric shaft on a lathe with inch dials: the dials are told in inches and say so, sizes and lengths stay in millimetres.
#[test]
fn a_metric_shaft_on_inch_dials() {
    let w = worked(PUMP.as_bytes(), Some(&shop(Reads::Radius)));
    let rough = w.operation(Verb::Rough, "C");
    let cross = rough.cross_dial.expect("a dial");
    assert_eq!(cross.infeed.unit, Unit::Inch);
    assert!(cross.infeed.text(Unit::Millimetre).ends_with(" in"), "{}", cross.infeed.text(Unit::Millimetre));
    let inches: f64 = cross.infeed.text(Unit::Millimetre).trim_end_matches(" in").parse().expect("a number");
    let (from, aim) = (rough.from.expect("from").value, rough.aim.expect("aim").value);
    assert!((inches - (from - aim).half().inches()).abs() <= 0.000_5);
    assert!(w.figures.layout.instruments.iter().any(|i| i == "micrometer 0\u{2013}1 in"));
    assert_eq!(rough.aim.map(|a| a.text(Unit::Millimetre)).as_deref(), Some("18.80"));
}

/// A two-start screw indexed by the compound is fed straight in, so a diameter dial counts each pass twice.
#[test]
fn straight_in_on_a_diameter_dial() {
    let passes = |reads| {
        let w = worked(SCREW.as_bytes(), Some(&shop(reads)));
        match w.operation(Verb::Thread, "F").job.clone() {
            Job::Thread(thread) => thread,
            other => panic!("{other:?}"),
        }
    };
    let (radius, diameter) = (passes(Reads::Radius), passes(Reads::Diameter));
    assert_eq!(radius.passes, diameter.passes);
    assert_eq!(radius.on_dial.len(), radius.passes.len());
    for ((r, d), a_side) in radius.on_dial.iter().zip(&diameter.on_dial).zip(&radius.passes) {
        assert_eq!((r.exact, d.exact), (a_side.value, a_side.value.times(2)));
    }
    // The keeper groove is 3/16 wide between two larger journals: no micrometer goes in.
    let w = worked(SCREW.as_bytes(), Some(&shop(Reads::Radius)));
    let groove = w.figures.inspection.iter().find(|r| r.letters == "C").expect("the groove");
    assert!(groove.with.starts_with("caliper"), "{}", groove.with);
}

/// Same input, same figures.
#[test]
fn the_same_twice() {
    assert_eq!(sample("pulley-stub.yaml").figures, sample("pulley-stub.yaml").figures);
}

/// Every description of the samples and of `tests/figures/parts`, planned for its own shop.
pub(crate) fn everything() -> Vec<(String, Worked, Option<Shop>)> {
    let mut out = Vec::new();
    for folder in ["samples", "tests/figures/parts"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        for entry in std::fs::read_dir(&folder).expect("a folder") {
            let text = std::fs::read_to_string(entry.expect("an entry").path()).unwrap_or_default();
            if !text.lines().any(|l| l.starts_with("part:")) {
                continue;
            }
            let name =
                text.lines().find_map(|l| l.strip_prefix("lathe:")).map(|l| l.split('#').next().unwrap_or(l).trim());
            let shop = name.map(|name| {
                let bytes = std::fs::read(folder.join(name)).expect("a shop file");
                turnwright::read::shop(name, &bytes).shop.expect("a shop")
            });
            let w = worked(text.as_bytes(), shop.as_ref());
            out.push((text, w, shop));
        }
    }
    out
}

/// Whether every carriage reading is on the part, in front of jaws and dog and not beyond the center; how many there were.
fn on_the_part(w: &Worked) -> usize {
    let overall = w.part.overall.as_ref().expect("an overall").nominal;
    let mut places = 0;
    for (setup, numbers) in w.plan.setups.iter().zip(&w.figures.setups) {
        let reach = match (setup.works, &setup.grip) {
            (Some(End::Datum), Some(grip)) => grip.from.min(grip.to) - Station::DATUM,
            (Some(End::Far), Some(grip)) => grip.from.max(grip.to).from_far_end(overall),
            _ => overall,
        };
        for (op, f) in setup.operations.iter().zip(&numbers.operations) {
            for p in &f.positions {
                assert_eq!(p.from_datum.value + p.from_far_end.value, overall);
                if let Some(c) = p.carriage {
                    // Through the face that parting leaves, and not a quarter of an inch farther; where it is tapped there, six threads.
                    let most = if op.verb == Verb::Drill { 700_000 } else { 250_000 };
                    let past = p.what == "past the face" && c.value <= overall + Length::micro_inches(most);
                    let there =
                        c.value >= Length::ZERO && (c.value <= reach || op.inside && c.value <= overall || past);
                    assert!(there, "{} {}: {} at {}", w.part.name.text, op.id, p.what, c.text(w.part.units));
                    places += 1;
                }
            }
        }
    }
    places
}

/// A shaft that rises in steps from the datum end and falls again, some of it threaded behind a relief; sizes in sixteenths, lengths in thousandths.
fn shaft(rising: &[(i64, i64)], body: i64, falling: &[(i64, i64)], threaded: bool) -> String {
    use std::fmt::Write as _;
    let mut text = String::new();
    let mut at = 0;
    let mut section = |text: &mut String, kind: &str, long: i64| {
        at += long;
        let _ = write!(text, "  - {kind}\n    to: {}.{:03}\n", at / 1000, at % 1000);
    };
    if threaded {
        section(&mut text, "thread: 1/2-13 UNC-2A", 750);
        section(&mut text, "relief: 0.390 ±0.005", 200);
    }
    let step = |n: i64| format!("turn: {:.4} ±0.002", n as f64 / 16.0);
    let mut size = 10;
    for (more, long) in rising {
        size += more;
        section(&mut text, &step(size), *long);
    }
    section(&mut text, &step(size + 2), body);
    for (more, long) in falling {
        size = (size - more).max(9);
        section(&mut text, &step(size), *long);
    }
    let bar = (f64::from(i32::try_from(rising.iter().map(|r| r.0).sum::<i64>() + 14).expect("small")) / 16.0).max(1.0);
    format!(
        "part: shaft\nunits: in\nmaterial: 1018 cold drawn\nstock: {bar} x {}.{:03}\ndatum: end\noverall: {}.{:03} ±0.010\n\
         tolerances: {{lengths: ±0.010}}\nfeatures:\n{text}  - center hole: A 1/8\n    end: both\n",
        (at + 125) / 1000,
        (at + 125) % 1000,
        at / 1000,
        at % 1000
    )
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig { cases: 12, failure_persistence: None, ..Default::default() })]

    /// Of shafts made at random: no place in the jaws or dog or beyond the center, aims in their limits, and as many sizes on a radius as on a diameter dial.
    #[test]
    fn places_of_random_shafts_lie_on_them(
        rising in proptest::collection::vec((1_i64..4, 900_i64..1_800), 1..3),
        body in 2_500_i64..4_000,
        falling in proptest::collection::vec((1_i64..4, 900_i64..1_800), 1..3),
        threaded: bool,
    ) {
        let text = shaft(&rising, body, &falling, threaded);
        let w = worked(text.as_bytes(), Some(&shop(Reads::Radius)));
        proptest::prop_assert!(on_the_part(&w) > 4, "{text}");
        for f in w.figures.setups.iter().flat_map(|s| &s.operations) {
            if let (Some(aim), Some(limits)) = (f.aim, &f.limits) {
                proptest::prop_assert!(limits.exact.holds(aim.value), "{}: {text}", f.number);
            }
        }
    }
}

/// The figures of a plan on a lathe whose cross dial reads so.
fn as_it_reads(w: &Worked, shop: &Shop, reads: Reads) -> Vec<OperationFigures> {
    let chain = chain::locate(&w.part);
    let profile = Profile::of(&w.part, &chain);
    let own = Shop { cross_reads: Some(reads), ..shop.clone() };
    let figures = figures::work(&w.part, &chain, &profile, &w.plan, Some(&own));
    figures.setups.into_iter().flat_map(|s| s.operations).collect()
}

/// Whatever a radius dial counts, a diameter dial counts exactly twice, and nothing else changes; how many readings there were.
fn a_diameter_dial_counts_twice(w: &Worked, shop: &Shop) -> usize {
    let mut dials = 0;
    let twice = |list: &[figures::DialReading]| list.iter().map(|l| l.exact.times(2)).collect::<Vec<_>>();
    let once = |list: &[figures::DialReading]| list.iter().map(|l| l.exact).collect::<Vec<_>>();
    for (r, d) in as_it_reads(w, shop, Reads::Radius).iter().zip(&as_it_reads(w, shop, Reads::Diameter)) {
        assert_eq!((r.from, r.aim, &r.positions, &r.speed), (d.from, d.aim, &d.positions, &d.speed));
        if let (Some(r), Some(d)) = (r.cross_dial, d.cross_dial) {
            assert_eq!(d.infeed.exact, r.infeed.exact.times(2));
            assert_eq!(d.from_zero.exact, r.from_zero.exact.times(2));
            dials += 1;
        }
        if let (Some(r), Some(d)) = (&r.passes, &d.passes) {
            assert_eq!((r.count, r.depth), (d.count, d.depth));
            assert_eq!(d.on_dial.map(|l| l.exact), r.on_dial.map(|l| l.exact.times(2)));
        }
        match (&r.job, &d.job) {
            (Job::Hole(r), Job::Hole(d)) => {
                assert_eq!(r.infeed, d.infeed);
                assert_eq!(once(&d.on_dial), twice(&r.on_dial));
                dials += d.on_dial.len();
            }
            (Job::Thread(r), Job::Thread(d)) => {
                assert_eq!((&d.passes, &d.compound), (&r.passes, &r.compound));
                assert_eq!(d.straight.map(|s| s.exact), r.straight.map(|s| s.exact.times(2)));
                // The compound counts its own travel; straight in it is the cross dial's.
                let wanted = if r.compound.is_some() { once(&r.on_dial) } else { twice(&r.on_dial) };
                assert_eq!(once(&d.on_dial), wanted);
                dials += d.on_dial.len();
            }
            _ => {}
        }
    }
    dials
}

/// For every sample and part: no place in the jaws, the dog or beyond the center; a diameter dial counts exactly twice a radius dial.
#[test]
fn of_every_part_places_lie_on_it_and_dials_agree() {
    let (mut places, mut dials) = (0, 0);
    for (_, w, shop) in everything() {
        places += on_the_part(&w);
        let Some(shop) = shop.filter(|s| s.cross_dial.is_some()) else { continue };
        dials += a_diameter_dial_counts_twice(&w, &shop);
    }
    assert!(places > 280 && dials > 200, "{places} {dials}");
}

/// The same of parts as people draw them, made at random from fixed seeds.
#[test]
fn of_random_parts_places_lie_on_them_and_dials_agree() {
    let (own, mut places, mut dials) = (shop(Reads::Radius), 0, 0);
    for seed in 200..240 {
        let drawn = believable(seed);
        // Without a center in either end a body may have to be turned where it is held: then the plan is told to be in error (`feature-in-jaws`).
        if drawn.forbidden == [true, true] {
            continue;
        }
        let w = worked(drawn.text.as_bytes(), Some(&own));
        places += on_the_part(&w);
        dials += a_diameter_dial_counts_twice(&w, &own);
    }
    assert!(places > 600 && dials > 500, "{places} {dials}");
}

/// A hole that is bored out before its thread is cut leaves no thread yet, and is not told as if it did; a tap's drill is a drill there is; an inside
/// groove names the edge that cuts each wall; boring takes cuts half as deep as turning.
#[test]
fn what_is_cut_inside() {
    use turnwright::figures::Edge;
    let (mut tapped, mut walls, mut bored, mut reliefs) = (0, 0, 0, 0);
    for (_, w, shop) in everything() {
        for f in w.figures.setups.iter().flat_map(|s| &s.operations) {
            if let Job::Hole(hole) = &f.job {
                assert!(
                    hole.percent.is_none_or(|p| (40.0..=100.0).contains(&p)),
                    "{}: {:?}",
                    w.part.name.text,
                    hole.percent
                );
                tapped += usize::from(hole.percent.is_some());
                if hole.percent.is_some() {
                    let drill = hole.steps.last().expect("a drill").value;
                    assert!(
                        turnwright::handbook::drill::drills().iter().any(|d| d.diameter == drill),
                        "{}",
                        drill.mm()
                    );
                }
                reliefs += usize::from(hole.relief_time.is_some_and(|s| s >= 1.0));
            }
        }
        for (op, f) in w.plan.operations().map(|(_, o)| o).zip(w.figures.setups.iter().flat_map(|s| &s.operations)) {
            if op.inside && op.verb == Verb::Groove {
                let edges: Vec<Edge> = f.positions.iter().map(|p| p.edge).collect();
                assert_eq!(edges, [Edge::Right, Edge::Left]);
                walls += 1;
            }
            if let (true, Some(p)) = (op.inside && op.verb == Verb::Bore, &f.passes) {
                let deepest = shop.as_ref().and_then(|s| s.depth_rough).unwrap_or(Length::PER_INCH);
                assert!(p.depth.value.times(2) <= deepest, "{}", p.depth.value.mm());
                bored += 1;
            }
        }
    }
    assert!(tapped >= 2 && walls >= 2 && bored >= 4 && reliefs >= 1, "{tapped} {walls} {bored} {reliefs}");
}

/// The first cut of hot-rolled bar goes 1.6 % of its diameter a side deep (a bar dealer's rule for clean-up stock: finished size = bar x .968): of 2 in .032.
/// A strip behind a tool that turned to size takes what lies over the lower limit, else what was left for it. A groove of several plunges has its walls last.
#[test]
fn what_an_operation_reminds_of() {
    let text = |wish: &str| {
        format!(
            "part: pin\nunits: in\nmaterial: 1045 hot rolled\nstock: 2.000 x 6.125\ndatum: head\noverall: 6.000\nfeatures:\n  - turn: 1.500 +0/-0.0005\n    \
             to: 2.000\n    finish: 16 µin\n  - turn: 1.800\n    to: end\n  - groove: 1.600\n    from: 3.000\n    wide: 0.250\n  - center hole: A 3/16\n    end: both\n{wish}"
        )
    };
    let remarks = |wish: &str, verb: Verb, letter: &str| {
        let w = worked(text(wish).as_bytes(), Some(&shop(Reads::Radius)));
        w.operation(verb, letter).remarks.join("; ")
    };
    let first = |letter| remarks("", Verb::Rough, letter);
    assert!(
        [first("A"), first("B")].iter().any(|r| r == "first cut under the scale: .032 a side or more"),
        "{} {}",
        first("A"),
        first("B")
    );
    assert_eq!(remarks("", Verb::Polish, "A"), "turned to size: the strip may take .0003 and no more");
    let left = "plan: {polish allowance: 0.0004}\n";
    assert_eq!(remarks(left, Verb::Polish, "A"), "the strip takes .0004 off the diameter");
    assert!(remarks("", Verb::Groove, "C").contains("the two walls last"));
}

/// Where the drawing sizes no center hole, the sheet says for which diameter its size is usual: that of the end, as drawn.
#[test]
fn a_center_nobody_sized_is_usual_for_the_end_it_is_in() {
    let text = "part: spindle\nunits: in\nmaterial: 1018\nstock: 1.250 x 12.125\ndatum: left end\noverall: 12.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.875 +0/-0.0005\n    to: 4.000\n  - turn: 1.125\n    to: 8.000\n  \
- turn: 0.750 +0/-0.0005\n    to: end\n";
    let w = worked(text.as_bytes(), None);
    let centers = w.plan.operations().map(|(_, o)| o).zip(w.figures.setups.iter().flat_map(|s| &s.operations));
    let found: Vec<(Option<End>, Length)> = centers
        .filter_map(|(o, f)| if let Job::Center(c) = &f.job { Some((o.end, c.usual_for?.value)) } else { None })
        .collect();
    assert!(found.contains(&(Some(End::Datum), Length::micro_inches(875_000))), "{found:?}");
    assert!(found.contains(&(Some(End::Far), Length::micro_inches(750_000))), "{found:?}");
}
