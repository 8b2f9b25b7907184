//! Worked examples and charts that were published elsewhere; the source stands at each.

use crate::figures::hand::{figures_of, one_setup, operation_of, part, shop};
use turnwright::figures::{CompoundHandle, Gearbox, Job, KeyseatCut, Swing, TaperCut, ThreadCut};
use turnwright::model::plan::{Operation, Plan, Verb};
use turnwright::model::shop::{Reads, StartIndex, ThreadDial, ToolKind};
use turnwright::model::{End, Part, Shop};
use turnwright::unit::{Length, Station, Unit};

pub(super) fn operation(part: &Part, verb: Verb, tool: ToolKind, span: (Station, Station)) -> Operation {
    let feature = part.features.first().map(|f| f.id);
    Operation { feature, from: Some(span.0), to: Some(span.1), ..crate::figures::hand::bare(verb, tool) }
}

/// A bolt with this thread over its first inch, a relief, and a head; only the thread is cut.
pub(super) fn thread_on(designation: &str, shop: &Shop) -> ThreadCut {
    let text = format!(
        "part: bolt\nunits: in\ndatum: tip\noverall: 6\nfeatures:\n  - thread: {designation}\n    to: 2\n  - relief: 0.05\n    to: 3\n  - turn: 5\n    to: 6\n"
    );
    let part = part(text.as_bytes());
    let end = Station(Length::PER_INCH.times(2));
    let op = operation(&part, Verb::Thread, ToolKind::Threading60, (Station::DATUM, end));
    let figures = figures_of(&part, &one_setup(End::Datum, vec![op]), Some(shop));
    match operation_of(&figures, 10).job.clone() {
        Job::Thread(thread) => *thread,
        other => panic!("{designation}: {other:?}"),
    }
}

fn lathe(screw: i64, teeth: u32, engraved: &str) -> Shop {
    let engraved: Vec<String> = engraved.split(' ').map(str::to_owned).collect();
    Shop {
        leadscrew_tpi: Some((screw, 1)),
        leadscrew_pitch: None,
        thread_dial: Some(ThreadDial { teeth, marks: u32::try_from(engraved.len()).expect("few"), engraved }),
        ..shop(Reads::Radius)
    }
}

/// A lathe maker's threading-dial table: worm 16 teeth, leadscrew 8 to the inch, eight numbered lines. Line 8 of the chart is where the
/// first cut began; it is engraved first here. The chart's `/` is "anywhere", its `1 - 8` any line.
#[test]
fn a_lathe_makers_dial_chart() {
    let shop = lathe(8, 16, "8 1 2 3 4 5 6 7");
    for (designation, chart) in [
        ("2-4.5 UNC-2A", "mark 8 only"),
        ("7/8-9 UNC-2A", "marks 8, 4 only"),
        ("5/8-18 UNF-2A", "marks 8, 2, 4, 6 only"),
        ("3/4-10 UNC-2A", "marks 8, 2, 4, 6 only"),
        ("1 1/8-7 UNC-2A", "marks 8, 4 only"),
        ("5/8-11 UNC-2A", "marks 8, 4 only"),
        ("1/2-13 UNC-2A", "marks 8, 4 only"),
        ("7/16-14 UNC-2A", "marks 8, 2, 4, 6 only"),
        ("1/2-20 UNF-2A", "any mark"),
        ("1/4-28 UNF-2A", "any mark"),
        ("No. 8-36 UNF-2A", "any mark"),
        ("No. 5-44 UNF-2A", "any mark"),
        ("1-8 UNC-2A", "anywhere"),
        ("3/8-16 UNC-2A", "anywhere"),
        ("5/16-24 UNF-2A", "anywhere"),
        ("No. 10-32 UNF-2A", "anywhere"),
        ("No. 4-40 UNC-2A", "anywhere"),
    ] {
        assert_eq!(thread_on(designation, &shop).dial.expect("a dial").says, chart, "{designation}");
    }
}

/// F. D. Jones, Turning and Boring (1914): screw of six threads, dial worm 24 teeth, eight lines of which four are numbered: even threads
/// catch at any line, odd ones at the numbered lines.
#[test]
fn the_dial_of_jones() {
    let shop = lathe(6, 24, "1 - 2 - 3 - 4 -");
    for (designation, says) in [
        ("3/4-10 UNC-2A", "any mark"),
        ("7/16-14 UNC-2A", "any mark"),
        ("1-8 UNC-2A", "any mark"),
        ("7/8-9 UNC-2A", "marks 1, 2, 3, 4 only"),
        ("5/8-11 UNC-2A", "marks 1, 2, 3, 4 only"),
        ("1/2-13 UNC-2A", "marks 1, 2, 3, 4 only"),
        ("1 1/2-12 UNF-2A", "anywhere"),
        ("5/8-18 UNF-2A", "anywhere"),
    ] {
        assert_eq!(thread_on(designation, &shop).dial.expect("a dial").says, says, "{designation}");
    }
}

/// A bench lathe maker's manual: metric threads on an inch leadscrew, the half-nuts stay closed.
#[test]
fn metric_on_an_inch_screw() {
    let thread = thread_on("M16x1.5-6g", &shop(Reads::Radius));
    let dial = thread.dial.expect("a dial");
    assert!(dial.never_open && dial.lines.is_empty());
    assert!(dial.says.starts_with("never open the half-nuts"));
    assert_eq!(thread.gearbox, Some(Gearbox::NotListed("1.5 mm".to_owned())));
}

/// F. D. Jones, Turning and Boring (1914), rules for calculating cutting speeds: 60 ft/min on 5 inches is 46 revolutions.
/// `OpenWA`, Machining 1: grooving at about a quarter of that.
#[test]
fn revolutions_of_jones() {
    let part = part(b"part: disk\nunits: in\ndatum: face\noverall: 6\nfeatures:\n  - turn: 4.9\n    to: 6\n");
    let shop = Shop { surface_speed_hss: Some(60.0 * 0.3048), ..shop(Reads::Radius) };
    let size = |tenths| Some(Length::inch_tenths(tenths));
    let end = Station(Length::PER_INCH);
    let op = |verb, tool| Operation {
        from_diameter: size(50_000),
        to_diameter: size(49_000),
        ..operation(&part, verb, tool, (Station::DATUM, end))
    };
    let operations = vec![op(Verb::Rough, ToolKind::Roughing), op(Verb::Groove, ToolKind::Grooving)];
    let figures = figures_of(&part, &one_setup(End::Datum, operations), Some(&shop));
    let wanted = |number| operation_of(&figures, number).speed.as_ref().map(|s| s.wanted).expect("a speed");
    assert_eq!(wanted(10).round() as i64, 46);
    assert!((wanted(20) * 4.0 - wanted(10)).abs() < 1e-9);
}

fn keyseat(text: &str) -> KeyseatCut {
    let part = part(text.as_bytes());
    let seat = part.features.iter().find(|f| f.kind.word() == "keyseat").expect("a keyseat").id;
    let op = Operation { feature: Some(seat), ..crate::figures::hand::bare(Verb::Mill, ToolKind::EndMill) };
    let plan: Plan = one_setup(End::Datum, vec![op]);
    match operation_of(&figures_of(&part, &plan, None), 10).job.clone() {
        Job::Keyseat(key) => *key,
        other => panic!("{other:?}"),
    }
}

fn key_in(shaft: &str, width: &str) -> KeyseatCut {
    keyseat(&format!(
        "part: shaft\nunits: in\ndatum: end\noverall: 6\nfeatures:\n  - turn: {shaft}\n    to: 6\n  - keyseat: {width} x {width} x 1\n    from: 1\n"
    ))
}

/// US Navy, Machinery Repairman (NAVEDTRA 14345), keyseats: total depth T = d + f, f = (S - √(S² - w²)) / 2; the rows worked from it.
#[test]
fn total_depth_of_a_keyseat() {
    for (shaft, width, total, bottom) in [
        ("1.000", "0.250", ".1409", ".8591"),
        ("0.750", "0.1875", ".1057", ".6443"),
        ("2.000", "0.500", ".2818", "1.7182"),
    ] {
        let key = key_in(shaft, width);
        assert_eq!(key.depth_from_top.text(Unit::Inch), total, "{shaft}");
        assert_eq!(key.across_bottom.text(Unit::Inch), bottom, "{shaft}");
    }
}

/// ASME B17.1 depth control S for square keys, as a handbook's pocket companion prints it (to .001).
#[test]
fn depth_control_of_b17_1() {
    let list = [
        ("1/2", "1/8", 430),
        ("9/16", "1/8", 493),
        ("5/8", "3/16", 517),
        ("3/4", "3/16", 644),
        ("7/8", "3/16", 771),
        ("15/16", "1/4", 796),
        ("1", "1/4", 859),
        ("1 1/16", "1/4", 923),
        ("1 1/4", "1/4", 1112),
        ("1 5/16", "5/16", 1137),
    ];
    let thou = Length::micro_inches(1_000);
    for (shaft, width, printed) in list {
        let key = key_in(shaft, width);
        assert_eq!(key.across_bottom.value.round_to(thou), thou.times(printed), "{shaft}");
    }
}

/// Fox Valley Technical College, Woodruff keyseat sheet: after touching the side raise half the shaft and half the cutter; and its
/// example of the number: 608 is 1 in by 3/16.
#[test]
fn side_touch_of_a_woodruff_cutter() {
    let key = keyseat(
        "part: shaft\nunits: in\ndatum: end\noverall: 6\nfeatures:\n  - turn: 1.000\n    to: 6\n  - keyseat: Woodruff 608\n    at: 2\n",
    );
    assert_eq!((key.width.text(Unit::Inch), key.cutter.text(Unit::Inch)), (".1875".into(), "1.000".into()));
    assert_eq!(key.side_touch.value, Length::inch_tenths(5_000) + Length::PER_INCH.times_ratio(3, 32));
}

/// ISO 773 (DIN 6885-1) by its own depths: 6 x 6 in a shaft of 22: t1 3.5, across the bottom 18.5; the cutter's centre half its
/// width inside both ends. The numbers of a pump shaft in the project's own list of parts.
#[test]
fn a_metric_keyseat() {
    let key = keyseat(
        "part: shaft\nunits: mm\ndatum: end\noverall: 100\nfeatures:\n  - turn: 22 j6\n    to: 100\n  - keyseat: 6 x 6 x 32\n    from: 8\n",
    );
    let text = |f: turnwright::figures::Figure| f.text(Unit::Millimetre);
    assert_eq!((text(key.depth_from_top), text(key.across_bottom)), ("3.500".into(), "18.500".into()));
    let path = key.cutter_center.expect("an end mill");
    assert_eq!((text(path.from), text(path.to)), ("11.00".into(), "37.00".into()));
    assert_eq!((text(key.slot.from), text(key.slot.to)), ("8.00".into(), "40.00".into()));
}

pub(super) fn taper(text: &str) -> TaperCut {
    let part = part(text.as_bytes());
    let op = Operation { feature: Some(0), ..crate::figures::hand::bare(Verb::Taper, ToolKind::Finishing) };
    match operation_of(&figures_of(&part, &one_setup(End::Datum, vec![op]), None), 10).job.clone() {
        Job::Taper(taper) => *taper,
        other => panic!("{other:?}"),
    }
}

/// J. Rose, Modern Machine-Shop Practice, p. 614: a taper of an inch to the foot, work three feet long, set over 1 1/2 in, however long the
/// taper itself is. And a study answer: .0625 to the inch over 15 in is .46875.
#[test]
fn set_over_of_rose() {
    let inch = |text: &str| text.to_owned();
    let rose = taper(&inch(
        "part: arbor\nunits: in\ndatum: end\noverall: 36\nfeatures:\n  - taper: 1 per foot\n    large: 3\n    to: 12\n  - turn: 1\n    to: 36\n",
    ));
    assert_eq!(rose.setover.value, Length::PER_INCH.times_ratio(3, 2));
    assert_eq!(rose.per_length.value, Length::PER_INCH);
    let study = taper(&inch(
        "part: arbor\nunits: in\ndatum: end\noverall: 15\nfeatures:\n  - taper: 0.75 per foot\n    large: 2\n    to: 8\n  - turn: 1\n    to: 15\n",
    ));
    assert_eq!(study.setover.value, Length::PER_INCH.times_ratio(15, 32));
}

/// US Navy, Machinery Repairman (NAVEDTRA 14345), compound rest and set-over: 12 in long from 3 to 2 in, an inch to the foot, is set over
/// 1/2 in; 6 in long with the same taper 1/4 in.
#[test]
fn set_over_of_the_navy() {
    for (long, small, over) in [(12, "2", (1, 2)), (6, "2.5", (1, 4))] {
        let text = format!(
            "part: arbor\nunits: in\ndatum: end\noverall: {long}\nfeatures:\n  - taper: 1 per foot\n    large: 3\n    small: {small}\n    tapers to: far\n    to: {long}\n"
        );
        assert_eq!(taper(&text).setover.value, Length::PER_INCH.times_ratio(over.0, over.1), "{long}");
    }
}

/// Turning and Boring Tapers (Derry-Collard, 1902), table of degrees included and taper per inch and foot: 1° .20952, 2° .41880, 3° .62832, 5° 1.04808
/// (its feet are twelve times its rounded inches). The compound stands at half of that.
#[test]
fn compound_angles_of_an_old_table() {
    for (per_foot, half) in [("0.20952", 0.5), ("0.4188", 1.0), ("0.62832", 1.5), ("1.04808", 2.5)] {
        let cut = taper(&format!(
            "part: arbor\nunits: in\ndatum: end\noverall: 15\nfeatures:\n  - taper: {per_foot} per foot\n    large: 2\n    to: 8\n  - turn: 1\n    to: 15\n"
        ));
        assert!((cut.half_angle_deg - half).abs() < 6e-4, "{per_foot}: {}", cut.half_angle_deg);
        let minutes = (half * 60.0) as i64;
        assert_eq!(cut.half_angle, format!("{}\u{b0} {:02}\u{2032}", minutes / 60, minutes % 60));
    }
}

/// Which way: the wall on the operator's side, outside or in a bore, comes toward him where the diameter grows. By plain geometry: a straight tool
/// path through the wall's two points, seen from above with the operator below. The tailstock goes the other way (small end at the tailstock: toward him).
#[test]
fn which_way_compound_and_tailstock_go() {
    let outside = |sizes: &str, second: &str| {
        taper(&format!(
            "part: arbor\nunits: in\ndatum: end\noverall: 15\nfeatures:\n  - taper: 1 per foot\n    {sizes}\n    to: 6\n  - turn: {second}\n    to: 15\n"
        ))
    };
    // The datum end stands at the tailstock.
    let (grows, shrinks) =
        (outside("large: 2\n    tapers to: far", "1"), outside("large: 2.5\n    tapers to: datum", "3"));
    for cut in [&grows, &shrinks] {
        let at =
            |i: usize| (cut.checks[i].0.carriage.expect("on the lathe").value.mm(), cut.checks[i].1.value.mm() / 2.0);
        let ((near, near_radius), (far, far_radius)) = (at(0), at(1));
        assert!(near < far, "the first stands nearer the tailstock");
        // Toward the operator is positive: the tailstock end of the line through both points lies so much nearer to him.
        let toward = near_radius - far_radius;
        assert_eq!(cut.swing, if toward > 0.0 { Swing::TowardYou } else { Swing::AwayFromYou });
        assert_eq!(cut.tailstock, Some(if toward > 0.0 { Swing::AwayFromYou } else { Swing::TowardYou }));
    }
    assert_ne!(grows.swing, shrinks.swing);
}

/// US Army Air Corps, TM 1-420 Lathes (1940): two starts of pitch 1/8 are geared for four to the inch, the second by moving the compound, parallel to the
/// ways, the exact thousandths of a pitch. F. D. Jones (1914): a double thread of 1/2 in lead is geared for two to the inch.
#[test]
fn starts_of_the_manuals() {
    let mut own = shop(Reads::Radius);
    own.tpi.push((2, 1));
    for (designation, set, shift) in
        [("1 1/8-0.125P-0.25L ACME-2G", "4 tpi", 1_250), ("2-0.25P-0.5L ACME-2G", "2 tpi", 2_500)]
    {
        let thread = thread_on(designation, &own);
        assert_eq!(thread.gearbox, Some(Gearbox::Listed(set.to_owned())), "{designation}");
        let index = thread.indexing.expect("two starts");
        assert_eq!((index.starts, index.shift.value), (2, Length::inch_tenths(shift)), "{designation}");
    }
}

/// Starts found on the thread dial are told as it is engraved. Worked by hand: 32 teeth on 8 to the inch turn once in 4 in, a line each 1/2 in; of a lead
/// of .4 the lines at 2 and 4 in are whole leads, those at 1 and 3 in stand half a lead on.
#[test]
fn starts_by_the_dial_are_told_as_engraved() {
    let own = Shop { start_index: Some(StartIndex::Dial), ..lathe(8, 32, "1 - 2 - 3 - 4 -") };
    let index = thread_on("1 1/8-0.2P-0.4L ACME-2G", &own).indexing.expect("two starts");
    assert_eq!(index.lines, [[2, 6]]);
    assert_eq!(index.says, "start 1 at marks 1, 3 only; start 2 at marks 2, 4 only");
}

/// Fox Valley Technical College, left-hand threads: the compound is set to the left of the operator, for right-hand ones to the right; the cut goes from
/// left to right and begins in a recess. Ours begins in its middle.
#[test]
fn the_compound_of_a_left_hand_thread() {
    let handle = |designation| thread_on(designation, &shop(Reads::Radius)).compound.expect("set over").handle;
    assert_eq!(handle("5/8-11 UNC-2A"), CompoundHandle::Tailstock);
    assert_eq!(handle("5/8-11 UNC-2A LH"), CompoundHandle::Headstock);
}

/// Weights of bar at .2833 lb to the cubic inch (a bar maker's worked examples): 1 in round 12 ft 32.04 lb, 3/4 in round 48 in 6.00 lb, 1 in hexagon 12 ft 35.33 lb;
/// 20 mm round 2.466 kg a metre (a table of bars). Ours takes 7850 kg/m³, a thousandth more than the first.
#[test]
fn bars_weigh_what_tables_say() {
    let weighs = |units: &str, stock: &str, overall: &str, turn: &str| {
        let text = format!(
            "part: bar\nunits: {units}\nmaterial: 1018 cold drawn\nstock: {stock}\ndatum: end\noverall: {overall}\nfeatures:\n  - turn: {turn}\n    to: {overall}\n"
        );
        figures_of(&part(text.as_bytes()), &Plan::default(), None).bar_kg.expect("a mass")
    };
    for (kg, published) in [
        (weighs("in", "1 x 144", "143", "0.5"), 32.04 * 0.453_592_37),
        (weighs("in", "3/4 x 48", "47", "0.5"), 6.00 * 0.453_592_37),
        (weighs("in", "hex 1 x 144", "143", "0.5"), 35.33 * 0.453_592_37),
        (weighs("mm", "20 x 1000", "995", "15"), 2.466),
    ] {
        assert!((kg / published - 1.0).abs() < 0.006, "{kg} {published}");
    }
}

/// The depth .6134 P is that of a root rounded with H/6 = .1443 P (ASME B1.1 and ISO 68-1, rounded root). By plain geometry: a nose of radius r stands r
/// less deep than the point of its flanks, and the flanks are to size when that point is 7/8 H below the crest: 7/8 H - H/6 = .6134 P.
#[test]
fn the_nose_belongs_to_the_depth() {
    let thread = thread_on("1/2-20 UNF-2A", &shop(Reads::Radius));
    let height = 0.05 * 3f64.sqrt() / 2.0;
    let nose = thread.nose_radius.expect("a 60° thread").value.inches();
    assert!((nose - height / 6.0).abs() < 1e-6, "{nose}");
    assert!((thread.depth.value.inches() - (7.0 / 8.0 * height - nose)).abs() < 1e-6);
    assert!(thread_on("1-5 ACME-2G", &shop(Reads::Radius)).nose_radius.is_none());
}

/// The sharp-V height of old tables is 6 % more than today's, so the block says which it uses; 20 threads: .0307 deep by .6134 P
/// (ISO 68-1 and ASME B1.1 geometry), .0352 along a compound at 29½°.
#[test]
fn the_height_is_named() {
    let thread = thread_on("1/2-20 UNF-2A", &shop(Reads::Radius));
    assert_eq!((thread.depth.text(Unit::Inch).as_str(), thread.depth_is.as_str()), (".0307", "0.6134 P"));
    let travel = thread.compound.expect("set over").travel.value;
    assert_eq!(travel.round_to(Length::inch_tenths(1)), Length::inch_tenths(352));
}

/// F. D. Jones, Turning and Boring (1914), Acme threads: depth half the pitch and .010 in: five threads .110 deep; fed by half the angle.
#[test]
fn an_acme_thread() {
    let thread = thread_on("1-5 ACME-2G", &shop(Reads::Radius));
    assert_eq!(thread.depth.value, Length::inch_tenths(1_100));
    assert_eq!(thread.compound.as_ref().map(|c| c.angle.as_str()), Some("14\u{bd}\u{b0}"));
    let travel = thread.compound.expect("set over").travel.value;
    assert_eq!(thread.passes.last().map(|p| p.value), Some(travel));
}

/// A two-start screw: one start to the next is the pitch; the gearbox is set to the lead, .400 in or 2 1/2 to the inch.
#[test]
fn two_starts() {
    let mut own = shop(Reads::Radius);
    own.tpi.push((5, 2));
    let thread = thread_on("1 1/8-0.2P-0.4L ACME-2G", &own);
    let index = thread.indexing.expect("two starts");
    assert_eq!((index.starts, index.shift.value), (2, Length::inch_tenths(2_000)));
    assert_eq!(index.dial.map(|d| (d.turns, d.divisions)), Some((2, 0)));
    assert_eq!(thread.gearbox, Some(Gearbox::Listed("2 1/2 tpi".to_owned())));
    assert!(thread.compound.is_none(), "the compound is needed along the axis");
}

/// A left-hand thread begins in its relief and runs off the end: the relief gives no time to count.
#[test]
fn a_left_hand_thread() {
    let thread = thread_on("5/8-11 UNC-2A LH", &shop(Reads::Radius));
    assert!(!thread.right_hand && thread.relief_time.is_none());
    assert!(thread.direction.contains("begin in relief B") && thread.direction.contains("away from the headstock"));
}

/// The wheels that a lathe with only these takes.
pub(super) fn wheels(designation: &str, screw: (Option<(i64, i64)>, Option<Length>), set: &[u32]) -> Gearbox {
    let own = Shop {
        leadscrew_tpi: screw.0,
        leadscrew_pitch: screw.1,
        tpi: Vec::new(),
        pitches: Vec::new(),
        change_gears: set.to_vec(),
        thread_dial: None,
        ..shop(Reads::Radius)
    };
    thread_on(designation, &own).gearbox.expect("a leadscrew")
}

/// Product of the drivers over that of the driven wheels.
pub(super) fn ratio(gearbox: &Gearbox) -> (u32, u32) {
    let Gearbox::Wheels(train) = gearbox else { panic!("{gearbox:?}") };
    let numbers: Vec<u32> = train.split([' ', ',']).filter_map(|w| w.parse().ok()).collect();
    let product = |first: usize| numbers.iter().skip(first).step_by(2).product();
    (product(0), product(1))
}

/// J. Rose, Modern Machine-Shop Practice, vol. I (fig. 1240): wheels 36, 48, 66 and 18 on a leadscrew of 4 to the inch cut 11 to the inch. A
/// college exercise: 2 mm on a leadscrew of 6 mm, and 12 to the inch on 8. And the wheels 120 and 127: a leadscrew of 8 to the inch
/// then cuts 3 mm exactly (a lathe hand's note on transposing wheels: .125 x 120/127 in is 3 mm).
#[test]
fn change_gears() {
    let (drivers, driven) = ratio(&wheels("5/8-11 UNC-2A", (Some((4, 1)), None), &[18, 36, 48, 66]));
    assert_eq!(drivers * 11, driven * 4);
    let six = (None, Some(Length::micrometres(6_000)));
    let (drivers, driven) = ratio(&wheels("M16x2-6g", six, &[20, 30, 40, 60]));
    assert_eq!(drivers * 3, driven);
    let (drivers, driven) = ratio(&wheels("1 1/2-12 UNF-2A", (Some((8, 1)), None), &[20, 30, 40, 55]));
    assert_eq!(drivers * 12, driven * 8);
    assert_eq!(ratio(&wheels("M24x3-6g", (Some((8, 1)), None), &[40, 120, 127])), (120, 127));
}

/// Without 127 the wheels 63 and 80 are the nearest of this set: 3.175 x 63/80 is 2.5003 mm, on a nut of M20 .0025 mm long (worked by hand; the
/// 63-tooth wheel in place of 127 is common practice).
#[test]
fn a_lead_that_is_not_exact() {
    let gearbox = wheels("M20x2.5-6g", (Some((8, 1)), None), &[40, 63, 80]);
    let Gearbox::Nearly { train, error } = gearbox else { panic!("{gearbox:?}") };
    assert_eq!(train, "63 drives 80");
    let worked = 20.0 * (3.175 * 63.0 / 80.0 / 2.5 - 1.0);
    assert!((error.value.mm() - worked).abs() < 1e-6, "{} {worked}", error.value.mm());
}

/// M = E + 3W - .86603 P with the pitch diameters of ASME B1.1: a published example has 1/4-20 UNC-2A, .2127 to .2164 in, over wires of
/// .0289: .2560 to .2597. It cuts off what stands behind: .2127 + .0867 - .0433015 is .2560985, and .2597985; to the nearest tenth
/// of a thousandth these are .2561 and .2598.
#[test]
fn wires_of_a_quarter_twenty() {
    let mut own = shop(Reads::Radius);
    own.wires = vec![Length::inch_tenths(289)];
    let wires = thread_on("1/4-20 UNC-2A", &own).wires.expect("a V thread");
    assert_eq!((wires.over.min.text(Unit::Inch), wires.over.max.text(Unit::Inch)), (".2561".into(), ".2598".into()));
    let cut_off = |l: Length| Length::from_pm(l.pm() / Length::inch_tenths(1).pm() * Length::inch_tenths(1).pm());
    assert_eq!(cut_off(wires.over.exact.min), Length::inch_tenths(2_560));
    assert_eq!(cut_off(wires.over.exact.max), Length::inch_tenths(2_597));
}

/// A steady rest's jaws bear the bar's own turning speed, however small the drill in its end (common practice, no source). Worked by
/// hand: 60 ft/min on 5 in is 45.8 rpm; a center drill of 1/8 alone would run at a thousand and more.
#[test]
fn a_steady_rest_sets_the_speed_of_the_center_drill() {
    let part = part(b"part: roll\nunits: in\ndatum: face\noverall: 60\nfeatures:\n  - turn: 4.9\n    to: 60\n  - center hole: A 1/8\n    end: datum\n");
    let shop = Shop { surface_speed_hss: Some(60.0 * 0.3048), ..shop(Reads::Radius) };
    let center =
        part.features.iter().find(|f| matches!(f.kind, turnwright::model::Kind::CenterHole { .. })).map(|f| f.id);
    let op = Operation {
        feature: center,
        end: Some(End::Datum),
        ..crate::figures::hand::bare(Verb::Center, ToolKind::CenterDrill)
    };
    let mut plan = one_setup(End::Datum, vec![op]);
    let rpm = |plan: &turnwright::model::Plan| {
        operation_of(&figures_of(&part, plan, Some(&shop)), 10).speed.as_ref().map(|s| s.wanted).expect("a speed")
    };
    assert!(rpm(&plan) > 1000.0, "{}", rpm(&plan));
    plan.setups[0].rest = Some(turnwright::model::plan::Rest {
        follows: false,
        from: Station(Length::inch_tenths(10_000)),
        to: Station(Length::inch_tenths(20_000)),
        diameter: Length::inch_tenths(50_000),
        letter: String::new(),
    });
    assert!((rpm(&plan) - 45.8).abs() < 0.1, "{}", rpm(&plan));
}
