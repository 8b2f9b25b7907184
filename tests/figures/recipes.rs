//! What the hands do between the numbers: touch-offs, what a reading over wires is worth, turns of a crank, teeth of a wheel, the last passes of a wide
//! tool, lines scribed lying, undercuts and pipe threads.

use turnwright::figures::{Job, OperationFigures, ThreadCut};
use turnwright::model::shop::{DividingHead, Reads, StartIndex};
use turnwright::model::{Plan, Shop};
use turnwright::unit::{Length, Limits, Unit};

use crate::figures::hand::{shop, tenths};
use crate::figures::planned::{Worked, worked};
use crate::figures::published::thread_on;
use crate::figures::published_more::{holds, inch};

fn operation<'w>(w: &'w Worked, id: &str) -> &'w OperationFigures {
    let at = w.plan.operations().position(|(_, o)| o.id == id);
    let at = at.unwrap_or_else(|| panic!("{id} among {:?}", ids(&w.plan)));
    w.figures.setups.iter().flat_map(|s| &s.operations).nth(at).expect("its figures")
}

fn ids(plan: &Plan) -> Vec<&str> {
    plan.operations().map(|(_, o)| o.id.as_str()).collect()
}

// Over wires.

/// The pitch diameter falls by what the reading over wires falls (M = E + 3 W - .86603 P, ASME B1.2), a thread's double depth over the whole of its
/// cutting. A shop's page on threading (finelinehair.com) prints the travel of a compound at 29° for the single depth .6495 P: 8 to the inch .0928,
/// 10 .0742, 16 .0464. So one over the other is what a length over the wires is worth on that compound; ours stands at 29½°.
#[test]
fn what_a_reading_over_wires_is_worth() {
    for (designation, tpi, travel) in
        [("1-8 UNC-2A", 8.0, 0.0928), ("3/4-10 UNC-2A", 10.0, 0.0742), ("3/8-16 UNC-2A", 16.0, 0.0464)]
    {
        let thread = thread_on(designation, &shop(Reads::Radius));
        let (compound, worth) = (thread.compound.expect("set over"), thread.still_in.expect("wires"));
        let at_29 = worth.factor * compound.angle_deg.to_radians().cos() / 29f64.to_radians().cos();
        holds(designation, travel, at_29 * 2.0 * 0.6495 / tpi, 0.0001);
        assert!(worth.compound);
        let over = thread.wires.expect("wires").over;
        let middle = Limits::new(over.min.value, over.max.value).middle();
        assert!((worth.aim.value - middle).abs() <= Length::micro_inches(50), "{designation}");
    }
}

/// Straight in the tool goes in half of what the pitch diameter loses; a cross dial that reads diameters counts it whole. A dial in the other unit than
/// the micrometer over the wires counts 25.4 times as much, or as little (1 in = 25.4 mm, 1959).
#[test]
fn straight_in_it_is_half_and_on_a_diameter_dial_whole() {
    let double = "1 1/8-0.2P-0.4L ACME-2G";
    let worth = |own: &Shop, designation: &str| thread_on(designation, own).still_in.expect("wires");
    for (reads, factor) in [(Reads::Radius, 0.5), (Reads::Diameter, 1.0)] {
        let own = Shop { start_index: Some(StartIndex::Compound), ..shop(reads) };
        let found = worth(&own, double);
        assert_eq!((found.factor, found.shown, found.compound), (factor, factor, false));
    }
    let metric = Shop { units: Some(Unit::Millimetre), instruments: Vec::new(), ..shop(Reads::Radius) };
    let found = worth(&metric, "1-8 UNC-2A");
    assert_eq!((found.unit, found.dial_unit), (Unit::Inch, Unit::Millimetre));
    holds("millimetres for inches", 25.4, found.shown / found.factor, 1e-9);
}

// Last passes of a wide tool.

fn steps(thread: &ThreadCut) -> Vec<f64> {
    let along = thread.compound.as_ref().map_or(1.0, |c| c.angle_deg.to_radians().cos());
    let depths: Vec<f64> = thread.passes.iter().map(|p| p.value.mm() * along).collect();
    std::iter::once(depths[0]).chain(depths.windows(2).map(|p| p[1] - p[0])).collect()
}

/// An insert catalogue (2017, p. 685, infeed passes) prints the passes of trapezoid and Acme threads by pitch: 5 to 6 for 1.25 to 1.5 mm, 7 to 8 to 2, 10 to 11
/// to 3, 12 to 13 to 4, 13 to 15 to 6, 18 to 20 for 8; and wants .05 mm at least of the last ones. A hand takes no fewer, ever smaller, the last
/// between .05 and .10.
#[test]
fn passes_of_a_wide_tool_are_no_fewer_than_printed_and_end_fine() {
    for (designation, printed) in [
        ("Tr10x1.5-7e", 5),
        ("Tr12x2-7e", 7),
        ("Tr14x3-7e", 10),
        ("Tr20x4-7e", 12),
        ("Tr32x6-7e", 13),
        ("Tr48x8-7e", 18),
        ("1 1/4-5 ACME-2G", 13),
        ("1-6 ACME-2G", 12),
    ] {
        let thread = thread_on(designation, &shop(Reads::Radius));
        let steps = steps(&thread);
        assert!(steps.len() >= printed, "{designation}: {} passes", steps.len());
        let last = steps[steps.len() - 1];
        assert!((0.05 - 1e-6..=0.1).contains(&last), "{designation}: {steps:?}");
        assert!(steps.windows(2).all(|p| p[1] < p[0] + 1e-6), "{designation}: {steps:?}");
        let whole: f64 = steps.iter().sum();
        holds(designation, thread.depth.value.mm(), whole, 1e-6);
    }
}

/// Worked by hand: 50 W, .7 of it at the edge, hard steel (no material is stated) at a chip of .254 mm 3 000 N/mm² or more, a flat of 1.73 mm: at some
/// 10 m/min no more than .04 mm: then the first cut is the least, .004 in.
#[test]
fn a_weak_lathe_takes_a_lighter_first_cut() {
    let first = |watts| steps(&thread_on("1 1/4-5 ACME-2G", &Shop { power_w: Some(watts), ..shop(Reads::Radius) }))[0];
    assert!(first(50.0) < 0.106 && first(50.0) > 0.08, "{}", first(50.0));
    assert!(first(1_100.0) > 0.2, "{}", first(1_100.0));
}

// Across, and around.

const CLOCKED: &str = "part: shaft\nunits: in\nmaterial: 1018\nstock: 1.125 x 6.125\ndatum: left end\noverall: 6.000 ±0.010\n\
tolerances: {lengths: ±0.01, diameters: ±0.005}\nfeatures:\n  - turn: 1.000\n    to: 3.000\n  - turn: stock\n    to: 4.000\n  \
- turn: 0.875 +0/-0.0005\n    to: end\n  - keyseat: 1/4 x 1/4 x 3/4\n    from: 0.500\n    angle: 0°\n  \
- cross hole: 0.1875\n    at: 2.000\n    angle: 35°\n  - keyseat: 3/16 x 3/16 x 3/4\n    from: 4.750\n    angle: 125°\n  \
- center hole: A 1/8\n    end: both\n";

fn with_a_head(circles: &[u32]) -> Shop {
    Shop { dividing_head: Some(DividingHead { ratio: 40, circles: circles.to_vec() }), ..shop(Reads::Radius) }
}

/// Machinery's Handbook, 1916, as its angles are worked: 35 degrees is 3 turns and 16 holes on 18. US Army, OD1644: 9 degrees is one turn of 40, so 90 are 10.
/// What lies counter-clockwise comes up when the work is turned clockwise (plain geometry).
#[test]
fn from_one_clocked_cut_to_the_next() {
    let w = worked(CLOCKED.as_bytes(), Some(&with_a_head(&[18, 27])));
    let turned = |id: &str| operation(&w, id).clocked.clone();
    let told = |id: &str| turned(id).and_then(|c| c.crank).map(|c| (c.turns, c.spaces));
    let order: Vec<&str> = ids(&w.plan).into_iter().filter(|i| ["mill-D", "drill-E", "mill-F"].contains(i)).collect();
    assert_eq!(order.len(), 3, "{:?}", ids(&w.plan));
    assert_eq!(turned(order[0]), None);
    let angle = |id: &str| {
        if id == "mill-D" {
            0.0
        } else if id == "drill-E" {
            35.0
        } else {
            125.0
        }
    };
    for pair in order.windows(2) {
        let by = (angle(pair[1]) - angle(pair[0]) + 360.0) % 360.0;
        let found = turned(pair[1]).expect("clocked");
        holds(pair[1], by, found.turn_deg, 1e-9);
        assert!(
            found.says.contains("clockwise seen from the datum end") && !found.says.contains("counter"),
            "{}",
            found.says
        );
    }
    if order == ["mill-D", "drill-E", "mill-F"] {
        assert_eq!((told("drill-E"), told("mill-F")), (Some((3, Some((16, 18)))), Some((10, None))));
    } else {
        panic!("another order: {order:?}");
    }
    // No plate divides 35 degrees by these.
    let bare = worked(CLOCKED.as_bytes(), Some(&with_a_head(&[20])));
    let says = operation(&bare, "drill-E").clocked.clone().expect("clocked").says;
    assert!(says.contains("3.889 turns"), "{says}");
}

/// Fox Valley Technical College, Woodruff keyseat sheet: after touching the side raise half the shaft and half the cutter, and the paper. A hole of 3/16
/// across a shaft of 1 in is found as its cutter of 3/16 is: 1/2 and 3/32.
#[test]
fn side_touch_of_a_hole_across() {
    let w = worked(CLOCKED.as_bytes(), Some(&shop(Reads::Radius)));
    let Job::Hole(hole) = &operation(&w, "drill-E").job else { panic!("{:?}", operation(&w, "drill-E").job) };
    let touch = hole.touch.expect("across");
    assert_eq!(touch.half_round.value, tenths(5_000));
    assert_eq!(touch.with_drill.value, tenths(5_000) + Length::PER_INCH.times_ratio(3, 32));
    assert_eq!((touch.along.value, touch.from_far.value), (inch(2.0), inch(4.0)));
    assert!(hole.lines.iter().any(|l| l.label == "Middle" && l.value == ".5938"), "{:?}", hole.lines);
}

/// C. Knight, The Mechanician, spindle key-ways: on two V-blocks, a line for either edge, as far apart as the key is wide. The axis lies half of the round
/// below its top (plain geometry). On the finished seat the keyseat gets no line, and the hole's is pricked as the metal goes.
#[test]
fn lines_lying_in_v_blocks() {
    let w = worked(CLOCKED.as_bytes(), Some(&shop(Reads::Radius)));
    let lying = w.figures.marks.lying.as_ref().expect("lines");
    let told: Vec<(&str, Length, Length, bool)> =
        lying.marks.iter().map(|m| (m.letter.as_str(), m.below_top.value, m.from.value, m.prick)).collect();
    let (half, eighth) = (tenths(5_000), tenths(1_250));
    assert_eq!(
        told,
        [
            ("D", half - eighth, inch(0.5), false),
            ("D", half, inch(0.5), true),
            ("D", half + eighth, inch(0.5), false),
            ("E", half, inch(2.0), true),
        ]
    );
    assert_eq!(
        lying.marks.iter().map(|m| m.angle_deg).collect::<Vec<_>>(),
        [Some(0.0), Some(0.0), Some(0.0), Some(35.0)]
    );
    let notes = w.figures.marks.notes.join("\n");
    assert!(notes.contains("Keyseat F gets no line") && !notes.contains("Keyseat D gets no line"), "{notes}");
}

// Starts by gear.

/// F. D. Jones, Turning and Boring (1914), cutting multiple threads: with a stud gear of 96 the work goes on by 48 teeth for a double thread; by the same
/// rule a third of them, 32, for a triple one. Where the wheels cannot be divided it is said.
#[test]
fn teeth_of_jones() {
    let own = Shop {
        start_index: Some(StartIndex::Gear),
        leadscrew_tpi: Some((4, 1)),
        tpi: Vec::new(),
        pitches: Vec::new(),
        change_gears: vec![96, 96],
        ..shop(Reads::Radius)
    };
    let index = |designation: &str, own: &Shop| thread_on(designation, own).indexing.expect("starts");
    let double = index("1 1/8-0.125P-0.25L ACME-2G", &own);
    assert_eq!(double.teeth, Some((48, 96)));
    assert!(double.says.contains("48 of its 96 teeth"), "{}", double.says);
    let third = Shop { change_gears: vec![96, 64], leadscrew_tpi: Some((4, 1)), ..own.clone() };
    assert_eq!(index("1 1/2-0.125P-0.375L ACME-2G", &third).teeth, Some((32, 96)));
    // Of two trains that cut the lead the one whose first wheel divides is taken; where none does no count is told.
    let odd = Shop { change_gears: vec![45, 45, 50, 50], ..own.clone() };
    assert_eq!(index("1 1/8-0.125P-0.25L ACME-2G", &odd).teeth, Some((25, 50)));
    let none = Shop { change_gears: vec![45, 45], ..own };
    let undivided = index("1 1/8-0.125P-0.25L ACME-2G", &none);
    assert_eq!(undivided.teeth, None);
    assert!(undivided.says.contains("must divide by 2"), "{}", undivided.says);
}

/// Where no line of the thread dial finds the other starts: by the wheel of Jones where it divides (48 of 96), else the pitch on the compound's dial, fed
/// straight in. By hand: M24 of pitch 3, lead 6: 3 mm are .11811 in, on a dial of .100 a turn and .001 a division 1 turn and 18 divisions.
#[test]
fn starts_where_the_thread_dial_fails() {
    let own = Shop {
        start_index: Some(StartIndex::Dial),
        leadscrew_tpi: Some((4, 1)),
        tpi: Vec::new(),
        pitches: Vec::new(),
        change_gears: vec![96, 96],
        ..shop(Reads::Radius)
    };
    let index = |designation: &str, own: &Shop| thread_on(designation, own).indexing.expect("starts");
    let double = index("1 1/8-0.125P-0.25L ACME-2G", &own);
    assert_eq!((double.teeth, double.dial), (Some((48, 96)), None), "{}", double.says);
    assert!(
        double.says.starts_with("no line of the thread dial finds the others; half-nuts closed"),
        "{}",
        double.says
    );
    let none = Shop { change_gears: Vec::new(), ..own };
    let by = index("M24x6P3-6g", &none);
    assert_eq!(by.teeth, None);
    for part in ["straight in by the cross dial", "(1 turn and 18 divisions)"] {
        assert!(by.says.contains(part), "{}", by.says);
    }
}

// Undercuts and pipe threads.

const UNDER: &str = "part: pin\nunits: mm\nmaterial: C45\nstock: 40 x 103\ndatum: seat end\noverall: 100 ±0.2\n\
tolerances: ISO 2768-m\nfeatures:\n  - turn: 30 k6\n    to: 40\n    name: seat\n    finish: 0.8 µm\n  - turn: 38\n    to: end\n  \
- undercut: DIN 509 F\n    at: seat end\n";

/// DIN 509 as IS 3428:2009 prints it: form F .6 x .3 goes .3 to .4 below the finished seat, 2.5 wide, .2 into the face. So it is cut when the seat is to
/// size, its tool touched on that: by hand, 30 k6 aims at 30.0085 and the bottom at 29.3085.
#[test]
fn an_undercut_is_so_much_below_its_finished_seat() {
    let w = worked(UNDER.as_bytes(), None);
    let order = ids(&w.plan);
    let at = |id: &str| order.iter().position(|o| *o == id).unwrap_or_else(|| panic!("{id}: {order:?}"));
    assert!(at("finish-A") < at("groove-C"), "{order:?}");
    let cut = operation(&w, "groove-C");
    let Job::Undercut(under) = &cut.job else { panic!("{:?}", cut.job) };
    let um = Length::micrometres;
    assert_eq!((under.radius.value, under.width.value), (um(600), um(2_500)));
    assert_eq!((under.depth.exact.min, under.depth.exact.max), (um(300), um(400)));
    assert_eq!(under.face_depth.map(|d| d.value), Some(um(200)));
    let (from, to) = (cut.from.expect("a seat").value, cut.aim.expect("a bottom").value);
    holds("seat", 30.0085, from.mm(), 0.0006);
    holds("bottom", 0.7, (from - to).mm(), 0.0011);
}

/// ASME B1.20.1, 3/4-14 NPT (from memory, as every table of it prints): E0 .96768, E1 .98887, L1 .339 (4.75 turns), L2 .5457, taper 1:16.
#[test]
fn a_pipe_thread_as_its_standard_has_it() {
    let pipe = thread_on("3/4-14 NPT", &shop(Reads::Radius)).pipe.expect("a pipe thread");
    let middle = |l: turnwright::unit::Limits| l.middle().inches();
    holds("E0", 0.96768, middle(pipe.small_end.exact), 1e-5);
    holds("E1", 0.98887, pipe.gauge_plane.value.inches(), 1e-5);
    holds("L1", 0.339, middle(pipe.gauge_length.exact), 1e-6);
    holds("turns", 4.75, pipe.turns, 0.01);
    holds("L2", 0.5457, pipe.useful_length.value.inches(), 1e-4);
    holds("a turn", 1.0 / 14.0, pipe.turn.value.inches(), 1e-6);
}

// Lengths without a dial, and what is left of the bar.

const PIN: &str = "part: pin\nunits: in\nmaterial: 12L14\nSTOCKdatum: head end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nWISHfeatures:\n  - turn: 1.000\n    to: 1.250\n  - turn: 0.750\n    to: end\n";

fn pin(stock: &str, wish: &str) -> String {
    PIN.replace("STOCK", stock).replace("WISH", wish)
}

/// A stop on the bed with an indicator on it (US Army, OD1645, has the carriage stop): a length beyond its travel is so many blocks and the rest, by hand
/// 1.250 = 1 + .250. A carriage that has a dial is read on that; an indicator of .100 goes nowhere.
#[test]
fn lengths_on_an_indicator_where_the_carriage_has_no_dial() {
    let told = |own: &Shop| {
        let w = worked(pin("stock: 1.125 x 3.125\n", "").as_bytes(), Some(own));
        let at = |wanted: f64| {
            let mut all = w.figures.setups.iter().flat_map(|s| &s.operations).flat_map(|o| &o.positions);
            all.find(|p| p.carriage.is_some_and(|c| c.value == inch(wanted))).cloned()
        };
        at(1.25).or_else(|| at(1.75)).expect("a shoulder")
    };
    let bare = Shop { carriage_dial: None, ..shop(Reads::Radius) };
    let place = told(&bare);
    let on = place.indicator.expect("an indicator of 0 to 1");
    assert_eq!((on.travel.value, on.blocks), (inch(1.0), 1));
    assert_eq!(on.reading.value + inch(1.0), place.carriage.expect("a carriage").value);
    assert_eq!(told(&shop(Reads::Radius)).indicator, None);
    let mut short = bare.clone();
    for i in short.instruments.iter_mut().filter(|i| i.kind == "dial indicator") {
        i.range = Some((Length::ZERO, inch(0.1)));
    }
    assert_eq!(told(&short).indicator, None);
    let w = worked(pin("stock: 1.125 x 3.125\n", "").as_bytes(), Some(&bare));
    assert!(w.figures.assumed.iter().any(|a| a.what == "Carriage dial"), "{:?}", w.figures.assumed);
}

/// By hand, as `stock-length` reckons (common practice, no source): 3.010, two faces of 1/32 and a saw good to 1/32 are 3.104, sawn to 3 1/8.
#[test]
fn a_saw_length_where_no_bar_is_stated() {
    let w = worked(pin("", "").as_bytes(), None);
    assert_eq!(w.figures.saw_to.as_ref().expect("worked out").length.value, inch(3.125));
    assert_eq!(worked(pin("stock: 1.125 x 3.125\n", "").as_bytes(), None).figures.saw_to, None);
}

/// By hand: 12 in of bar, a part of 3.010 with two faces of 1/32 and a tool of 1/8 takes 3.198; some 8.8 stay in the chuck, 3/4 of them are held: two more.
#[test]
fn what_stays_in_the_chuck_is_good_for_two_more() {
    let w = worked(pin("stock: 1.125 x 12\n", "plan: {part off: true}\n").as_bytes(), None);
    let left = w.figures.remains.expect("parted off");
    assert_eq!((left.more, left.grip.value), (2, inch(0.75)));
    holds("each", 3.1975, left.each.value.inches(), 1e-6);
    holds("left", 8.81, left.length.value.inches(), 0.04);
    // Where it stands out with the parting tool's path; to be faced and centered it goes in farther.
    let parts = w
        .plan
        .setups
        .iter()
        .position(|s| s.operations.iter().any(|o| o.verb == turnwright::model::plan::Verb::PartOff));
    let behind = parts.and_then(|i| w.figures.setups[i].behind_jaws).expect("a chuck").value;
    assert!(behind > inch(7.0) && behind < left.length.value, "{behind:?}");
    assert_eq!(worked(pin("stock: 1.125 x 3.125\n", "").as_bytes(), None).figures.remains, None);
}

/// By hand: a 1/2 in hole chamfered .030 at 45° is .560 across, at 30° to the axis .500 + .060 tan 30° = .5346 (plain geometry); half of it
/// is what a radius dial counts, .017 to its division.
#[test]
fn a_chamfered_mouth_measures_what_the_tangent_says() {
    for (angle, across, dial) in [("45", inch(0.56), ".030"), ("30", inch(0.534_641), ".017")] {
        let text = format!(
            "part: bush\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.500 x 2.125\ndatum: face\noverall: 2.000 ±0.010\n\
             tolerances: {{lengths: ±0.010, diameters: ±0.003}}\nfeatures:\n  - turn: 1.250\n    to: end\n\
             inside:\n  - {{bore: 0.500, end: through}}\n  - {{chamfer: 0.030 x {angle}°, end: datum}}\n"
        );
        let w = worked(text.as_bytes(), Some(&shop(Reads::Radius)));
        let opening = w.figures.setups.iter().flat_map(|s| &s.operations).find_map(|o| match &o.job {
            Job::Chamfer(c) => c.opening,
            _ => None,
        });
        let opening = opening.expect("an opening");
        assert!((opening.across.value - across).abs() < inch(0.000_01), "{}", opening.across.text(Unit::Inch));
        assert_eq!(opening.on_dial.expect("a dial").text(Unit::Inch), dial);
    }
}
