//! More worked examples and tables that were printed elsewhere, through the program itself; the source stands at each, its rounding is the tolerance.
//! Where a printed example contradicts its own inputs it is left out or named as a misprint.

use clap::Parser;
use serde_json::Value;
use turnwright::cli::handbook::{HandbookArgs, run};
use turnwright::figures::{CrownCut, FlatsCut, HoleCut, Job, KnurlCut, Speed, SpeedLimit};
use turnwright::handbook::indexing;
use turnwright::handbook::taper::Rate;
use turnwright::model::plan::{Operation, Verb};
use turnwright::model::shop::{DividingHead, Reads, ToolKind};
use turnwright::model::{End, Kind, Shop};
use turnwright::unit::{Length, Station, Unit};

use crate::figures::hand::{bare, figures_of, one_setup, operation_of, part, shop};
use crate::figures::planned::worked;
use crate::figures::published::{operation, taper};

/// What an operation on the first feature of this kind needs besides.
fn job(text: &str, is: impl Fn(&Kind) -> bool, op: Operation, shop: Option<&Shop>) -> Job {
    let part = part(text.as_bytes());
    let feature = part.features.iter().find(|f| is(&f.kind)).map(|f| f.id);
    let plan = one_setup(End::Far, vec![Operation { feature, ..op }]);
    operation_of(&figures_of(&part, &plan, shop), 10).job.clone()
}

pub(super) fn inch(value: f64) -> Length {
    Length::from_f64(value, Unit::Inch)
}

/// Printed, ours, and the half of the last printed digit (or what the source says it rounds by).
pub(super) fn holds(what: &str, printed: f64, ours: f64, within: f64) {
    assert!((printed - ours).abs() <= within + 1e-9, "{what}: printed {printed}, worked {ours}");
}

/// What `turnwright handbook` answers.
pub(super) fn reply(args: &[&str]) -> Value {
    let all = std::iter::once("handbook").chain(args.iter().copied()).chain(["--format", "json"]);
    let parsed = HandbookArgs::try_parse_from(all).unwrap_or_else(|e| panic!("{args:?}: {e}"));
    serde_json::from_str(&run(&parsed).unwrap_or_else(|e| panic!("{args:?}: {e}"))).expect("JSON")
}

// Speeds, cuts, minutes.

/// The speed of a cut of one diameter.
fn speed_on(units: &str, diameter: Length, shop: &Shop) -> Speed {
    let text = format!("part: disk\nunits: {units}\ndatum: face\noverall: 300\nfeatures:\n  - turn: 1\n    to: 300\n");
    let part = part(text.as_bytes());
    let end = Station(Length::PER_INCH);
    let op = Operation {
        from_diameter: Some(diameter),
        to_diameter: Some(diameter - Length::PER_MM.half()),
        ..operation(&part, Verb::Rough, ToolKind::Roughing, (Station::DATUM, end))
    };
    operation_of(&figures_of(&part, &one_setup(End::Datum, vec![op]), Some(shop)), 10).speed.clone().expect("a speed")
}

/// US Army, OD1645, Lathe Operations, p. 52: a wanted speed that the lathe has not is taken at the nearest, generally the first slower one. On the 46
/// of F. D. Jones (60 ft/min on 5 in; Turning and Boring, 1914), with gears on both sides, the faster one nearer.
#[test]
fn the_first_slower_speed() {
    let own = |speeds: &[u32]| Shop {
        surface_speed_hss: Some(60.0 * 0.3048),
        speeds: speeds.to_vec(),
        ..shop(Reads::Radius)
    };
    for (speeds, gear) in
        [(&[30, 40, 50, 60][..], 40), (&[36, 54, 82], 36), (&[21, 45, 47, 90], 45), (&[23, 46, 92], 23)]
    {
        let found = speed_on("in", Length::PER_INCH.times(5), &own(speeds));
        assert_eq!(found.wanted.round() as i64, 46);
        assert_eq!(found.gear, Some(gear), "{speeds:?}");
        assert!(!found.above_wanted);
    }
}

/// A pocket-book of engineering formulae (tekniskkulturarv.dk), p. 439, revolutions for turning cast iron at 160 in a minute; it has 160/3.1416 as
/// 50.92 and cuts off or rounds by a unit of its last place.
#[test]
fn revolutions_of_a_pocket_book() {
    for (diameter, printed) in [
        ("1", 50.92),
        ("2", 25.46),
        ("6", 8.48),
        ("8", 6.36),
        ("10", 5.10),
        ("12", 4.24),
        ("20", 2.54),
        ("50", 1.02),
        ("100", 0.50),
    ] {
        let args = ["speed", "--surface-speed", "13.333333333", "--diameter", diameter, "--units", "in"];
        holds(diameter, printed, reply(&args)["rpm"].as_f64().expect("a number"), 0.011);
        let own = Shop { surface_speed_hss: Some(160.0 * 0.0254), ..shop(Reads::Radius) };
        let wanted = speed_on("in", Length::PER_INCH.times(diameter.parse().expect("inches")), &own).wanted;
        holds(diameter, printed, wanted, 0.011);
    }
}

/// Surface speeds at a set gear: 12 mm at 400 rpm 15072 mm a minute, 11 mm 13816, with pi as 3.14 (a worked sheet of machining formulas); 20 mm at
/// 200 rpm 12.566 m a minute (a college tutorial on turning, problem 3).
#[test]
fn surface_speeds_of_worked_sheets() {
    let at = |mm: i64, gear: u32| {
        let own = Shop { surface_speed_hss: Some(100.0), speeds: vec![gear], ..shop(Reads::Radius) };
        let found = speed_on("mm", Length::PER_MM.times(mm), &own);
        assert_eq!(found.gear, Some(gear));
        found.surface_in(Unit::Millimetre)
    };
    let rough_pi = 10.0 * 314.0 / std::f64::consts::PI;
    holds("12 mm", 15_072.0, at(12, 400) * rough_pi, 0.5);
    holds("11 mm", 13_816.0, at(11, 400) * rough_pi, 0.5);
    holds("20 mm", 12.566, at(20, 200), 0.0005);
}

/// The same tutorial, problem 1: 60 to 50 mm with cuts of at most 2 mm is three cuts. (Its facing time, printed .18 min, is cut off: 25 / 132 =
/// .189.)
#[test]
fn cuts_of_a_tutorial() {
    let part = part(b"part: pin\nunits: mm\ndatum: end\noverall: 175\nfeatures:\n  - turn: 50\n    to: 175\n");
    let own = Shop { depth_rough: Some(Length::PER_MM.times(2)), ..shop(Reads::Radius) };
    let op = Operation {
        from_diameter: Some(Length::PER_MM.times(60)),
        to_diameter: Some(Length::PER_MM.times(50)),
        ..operation(&part, Verb::Rough, ToolKind::Roughing, (Station::DATUM, Station(Length::PER_MM.times(175))))
    };
    let figures = figures_of(&part, &one_setup(End::Datum, vec![op]), Some(&own));
    assert_eq!(operation_of(&figures, 10).passes.as_ref().map(|p| p.count), Some(3));
}

/// A course sheet on cutting speeds and feeds (certifitrax, U8M1), high-speed steel: roughing .005 to .015 in a turn, finishing .002 to .005.
#[test]
fn feeds_of_a_course_sheet() {
    let part = part(b"part: pin\nunits: in\ndatum: end\noverall: 3\nfeatures:\n  - turn: 1\n    to: 3\n");
    let op = |verb, tool| operation(&part, verb, tool, (Station::DATUM, Station(Length::PER_INCH)));
    let plan = || {
        let list = vec![op(Verb::Rough, ToolKind::Roughing), op(Verb::Finish, ToolKind::Finishing)];
        one_setup(End::Datum, list)
    };
    let own = shop(Reads::Radius);
    for shop in [None, Some(&own)] {
        let figures = figures_of(&part, &plan(), shop);
        let feed = |number| operation_of(&figures, number).feed.expect("a feed").value.inches();
        assert!((0.005..=0.015).contains(&feed(10)), "{}", feed(10));
        assert!((0.002..=0.005).contains(&feed(20)), "{}", feed(20));
    }
}

/// Minutes and cuts of the roughing of the first section.
fn roughing(units: &str, sizes: [&str; 3], long: f64, whole: f64, (gear, feed): (u32, f64)) -> (f64, f64) {
    let [bar, body, first] = sizes;
    let text = format!(
        "part: roller\nunits: {units}\nmaterial: 1018 cold drawn\nstock: {bar} x {}\ndatum: left\noverall: {whole}\nfeatures:\n  - turn: {first}\n    to: {long}\n  - turn: {body}\n    to: {whole}\n",
        whole + 1.0
    );
    let feeds = vec![Length::from_f64(feed, Unit::Millimetre)];
    let w = worked(text.as_bytes(), Some(&Shop { speeds: vec![gear], feeds, ..shop(Reads::Radius) }));
    let own: Vec<(f64, f64)> = w
        .plan
        .operations()
        .filter(|(_, o)| {
            o.verb == Verb::Rough
                && o.to_diameter.is_some_and(|d| d.to_f64(w.part.units) < first.parse::<f64>().expect("a size") * 1.05)
        })
        .map(|(_, o)| {
            let passes = operation_of(&w.figures, o.number).passes.as_ref().expect("cuts").count;
            (o.minutes, f64::from(passes))
        })
        .collect();
    assert_eq!(own.len(), 1, "{own:?}");
    own[0]
}

/// Minutes of a cut, length / (feed x rpm). The tutorial's problem 3: 200 mm at .127 mm and 200 rpm is 7.874 min. Elementary Technical Mathematics,
/// exercise 1.8 no. 53: 9 9/64 in at 3/128 in and 45 rpm is 390 revolutions, 8 2/3 min. The lathe has that gear and that feed alone; two parts, one
/// longer by the printed length, leave handling and measuring out.
#[test]
fn minutes_of_a_cut() {
    for (units, sizes, short, gear, (long, feed_mm, printed)) in [
        ("mm", ["110", "104", "90"], 100.0, 200, (200.0, 0.127, 7.874)),
        ("in", ["5", "4.8", "4"], 4.0, 45, (9.140_625, 3.0 / 128.0 * 25.4, 26.0 / 3.0)),
    ] {
        let body = short;
        let (a, cuts) = roughing(units, sizes, short, short + body, (gear, feed_mm));
        let (b, same) = roughing(units, sizes, short + long, short + long + body, (gear, feed_mm));
        assert_eq!((cuts, same > 0.0), (same, true));
        holds(units, printed, (b - a) / cuts, 0.011);
    }
}

// Flats, crowns, knurls.

fn flats(units: &str, round: &str, line: &str, shop: Option<&Shop>) -> FlatsCut {
    let text = format!(
        "part: bar\nunits: {units}\ndatum: end\noverall: 200\nfeatures:\n  - turn: {round}\n    to: 200\n  - {line}\n    from: 0\n    to: 50\n"
    );
    let op = bare(Verb::Mill, ToolKind::EndMill);
    match job(&text, |k| matches!(k, Kind::Flats { .. }), op, shop) {
        Job::Flats(flats) => *flats,
        other => panic!("{line}: {other:?}"),
    }
}

/// Machinery's Handbook, 31st ed., p. 82, regular polygons: corner radius and side by the radius of the flats, here of 1 in, on a round so large that
/// nothing is cut short.
#[test]
fn polygons_of_the_handbook() {
    for (count, corner, side) in [
        (3, 20_000, 34_641),
        (4, 14_142, 20_000),
        (5, 12_361, 14_531),
        (6, 11_547, 11_547),
        (7, 11_099, 9_631),
        (8, 10_824, 8_284),
        (9, 10_642, 7_279),
        (10, 10_515, 6_498),
        (12, 10_353, 5_359),
    ] {
        let cut = flats("in", "4.100", &format!("flat: 1.050 deep\n    count: {count}"), None);
        assert_eq!((cut.count, cut.truncated), (count, false));
        holds("corners", f64::from(corner) / 1e4, cut.corners.value.inches() / 2.0, 0.000_05);
        holds("side", f64::from(side) / 1e4, cut.width.value.inches(), 0.000_05);
        holds("degrees", 360.0, cut.divide_deg * f64::from(count), 1e-9);
    }
}

/// The same, p. 77: a hexagon about a circle of 50 mm has sides of 57.75 (by 1.155; 57.735 by 2 tan 30°), one of 40 mm stands about a circle of
/// 34.64. And a page on holding hexagons: 7/8 across flats is 1.010 across corners.
#[test]
fn hexagons_of_the_handbook() {
    let hexagon = |units, across: &str, round| flats(units, round, &format!("hexagon: {across}"), None);
    holds("side", 57.75, hexagon("mm", "100", "120").width.value.mm(), 50.0 * (1.155 - 1.1547) + 0.005);
    holds("side of 40", 40.0, hexagon("mm", "69.28", "90").width.value.mm(), 0.005);
    holds("corners", 1.010, hexagon("in", "0.875", "1.100").corners.value.inches(), 0.0005);
}

/// A hand's worked note on a square from a round of .984: side .69579, told .696, .144 off each side. At .696 the corners are just cut short.
#[test]
fn a_square_from_a_round() {
    let cut = flats("in", "0.984", "square: 0.696", None);
    assert_eq!((cut.across.text(Unit::Inch).as_str(), cut.depth.text(Unit::Inch).as_str()), (".6960", ".1440"));
    assert_eq!((cut.truncated, cut.corners.text(Unit::Inch).as_str()), (true, ".984"));
    let deep = flats("in", "0.984", "flat: 0.144 deep\n    count: 4", None);
    assert_eq!((deep.across.text(Unit::Inch).as_str(), deep.count), (".6960", 4));
    assert!(!flats("in", "0.984", "square: 0.6957", None).truncated);
}

/// Dividing head of 40 to 1. Fox Valley Technical College, Angular Indexing: 45° is 5 turns; 19° 2 turns and 6 holes of 54. A page on simple
/// indexing: 24 divisions 1 turn and 10 of 15. US Army, OD1644: 9° is a turn; 54' 2 holes of 20; 24' is 1 hole of 22.5, for which it takes 23: exact
/// it is 2 of 45, and with 23 alone ours says none.
#[test]
fn the_dividing_head() {
    let head = |circles: &[u32]| Shop {
        dividing_head: Some(DividingHead { ratio: 40, circles: circles.to_vec() }),
        ..shop(Reads::Radius)
    };
    let cut = flats("in", "4.100", "flat: 1.050 deep\n    count: 8", Some(&head(&[15, 16, 17])));
    holds("degrees", 45.0, cut.divide_deg, 0.0);
    assert!(
        cut.recipe.iter().any(|s| s.contains("Turn 45°") && s.contains(": 5 turns of the crank")),
        "{:?}",
        cut.recipe
    );
    let told = |i: Option<indexing::Indexing>| i.map(|i| (i.turns, i.spaces));
    assert_eq!(told(indexing::angle(40, &[54], 19_000)), Some((2, Some((6, 54)))));
    assert_eq!(told(indexing::plain(40, &[15, 16], 24)), Some((1, Some((10, 15)))));
    assert_eq!(told(indexing::angle(40, &[20], 9_000)), Some((1, None)));
    assert_eq!(told(indexing::angle(40, &[20], 900)), Some((0, Some((2, 20)))));
    assert_eq!(told(indexing::angle(40, &[45], 400)), Some((0, Some((2, 45)))));
    assert_eq!(told(indexing::angle(40, &[23], 400)), None);
}

fn crown(units: &str, over: &str, line: &str) -> CrownCut {
    let text = format!(
        "part: foot\nunits: {units}\ndatum: left\noverall: 200\nfeatures:\n  - turn: {over}\n    to: 200\n  - crown: {line}\n    end: far\n"
    );
    match job(&text, |k| matches!(k, Kind::Crown { .. }), bare(Verb::File, ToolKind::File), None) {
        Job::Crown(crown) => *crown,
        other => panic!("{line}: {other:?}"),
    }
}

/// Machinery's Handbook, 31st ed., p. 79: a chord of 16 in and 6 in high is of radius 8 1/3; of radius 60 in and 8 in high the chord is 59.86 (twice
/// 29.93, itself rounded). P. 50: radius 12 cm, 2 cm deep, chord 13.27 cm.
#[test]
fn segments_of_the_handbook() {
    let high = crown("in", "16", "6 high");
    holds("radius", 25.0 / 3.0, high.radius.value.inches(), 1e-6);
    holds("over", 16.0, high.over.value.inches(), 0.0);
    // Half a unit of the printed last place of 29.93 makes .01 of the chord, and that .0013 of the height.
    holds("height", 8.0, crown("in", "59.86", "60 radius").height.value.inches(), 0.0025);
    holds("height", 20.0, crown("mm", "132.7", "120 radius").height.value.mm(), 0.02);
    holds("radius", 120.0, crown("mm", "132.7", "20 high").radius.value.mm(), 0.1);
}

fn knurl(pitch: &str, over: &str) -> KnurlCut {
    let text = format!(
        "part: knob\nunits: in\ndatum: left\noverall: 3\nfeatures:\n  - knurl: straight {pitch}\n    diameter: {over}\n    to: 1\n  - turn: 0.3\n    to: 3\n"
    );
    match job(&text, |k| matches!(k, Kind::Knurl { .. }), bare(Verb::Knurl, ToolKind::Knurl), None) {
        Job::Knurl(knurl) => *knurl,
        other => panic!("{pitch}: {other:?}"),
    }
}

/// A knurl maker's blanks (formrolldie.com): a knurl of .750 in and 47 teeth, .007 more where it rolls, so of pitch pi x .757 / 47; 31 teeth want a
/// blank of .499 ± .001, 30 of .483. Machinery's Handbook, 31st ed., p. 1059: 160 straight teeth set at 30° are 138.56 around 1 in; 138 want a blank
/// of .996. And a knurl maker's sheet on ASME B94.6: 96 pitch on 1/2 in, 48 teeth.
#[test]
fn blanks_of_the_knurl_makers() {
    let pi = std::f64::consts::PI;
    let rolled = format!("{:.6}", pi * 0.757 / 47.0);
    let turned = format!("{:.6}", pi / (160.0 * 30_f64.to_radians().cos()));
    // The diameter asked for is the blank's and what the knurl raises, half a pitch (DIN 82).
    for (pitch, over, teeth, blank, within) in [
        (rolled.as_str(), "0.5243", 31, 0.499, 0.001),
        (&rolled, "0.5083", 30, 0.483, 0.0005),
        (&turned, "1.0073", 138, 0.996, 0.0005),
        ("96 DP", "0.5164", 48, 0.500, 0.0),
    ] {
        let cut = knurl(pitch, over);
        assert_eq!(cut.teeth, teeth, "{pitch} {over}");
        holds(over, blank, cut.blank.value.inches(), within);
        holds(over, cut.blank.value.inches() + cut.pitch.value.inches() / 2.0, cut.expected.value.inches(), 1e-6);
    }
    // On the full inch the nearest whole number is one more than the book takes, 138.56.
    assert_eq!(knurl(&turned, "1.0113").teeth, 139);
}

// Holes.

fn drilled(designation: &str, hole: Length, deep: Length) -> HoleCut {
    let text = format!(
        "part: bar\nunits: in\ndatum: left\noverall: 6\nfeatures:\n  - turn: 1\n    to: 6\n  - tapped hole: {designation}\n    deep: 0.25\n    end: far\n"
    );
    let op = Operation {
        to_diameter: Some(hole),
        to: Some(Station(Length::PER_INCH.times(6) - deep)),
        end: Some(End::Far),
        inside: true,
        ..bare(Verb::Drill, ToolKind::Drill)
    };
    match job(&text, |k| matches!(k, Kind::Inside(_)), op, None) {
        Job::Hole(hole) => *hole,
        other => panic!("{designation}: {other:?}"),
    }
}

/// Machinery's Handbook, 31st ed., p. 2155, tap drill sizes and percentage of thread, to the nearest percent.
#[test]
fn percentages_of_the_tap_drill_table() {
    let table: [(&str, &[(i64, i64)]); 4] = [
        ("No. 2-56 UNC-2B", &[(730, 56), (709, 65), (700, 69), (689, 74)]),
        ("No. 2-64 UNF-2B", &[(748, 55), (730, 64), (728, 65), (709, 74), (700, 79)]),
        ("No. 3-48 UNC-2B", &[(846, 53), (827, 60), (820, 63), (785, 76), (781, 77)]),
        ("No. 1-72 UNF-2B", &[(635, 53), (625, 58), (595, 75)]),
    ];
    for (designation, rows) in table {
        for (tenths, printed) in rows {
            let cut = drilled(designation, Length::inch_tenths(*tenths), inch(0.4));
            let percent = cut.percent.expect("a share");
            assert_eq!(percent.round() as i64, *printed, "{designation} {tenths}: {percent}");
            // The same by the thread as the sheet tells it and the usual constant.
            let thread = cut.thread.expect("a thread");
            let share = (thread.nominal.value.inches() - *tenths as f64 / 1e4) / (1.299 * thread.pitch.value.inches());
            holds(designation, *printed as f64, 100.0 * share, 0.5);
            assert!(cut.lines.iter().any(|l| l.value == format!("{printed} %")), "{:?}", cut.lines);
        }
    }
}

/// A trade calculator's page on drill points: a 1/2 in drill of 118° is .150 in longer at its point (.25 / tan 59° = .1502).
#[test]
fn the_point_of_a_drill() {
    let cut = drilled("9/16-12 UNC-2B", inch(0.5), inch(1.0));
    let (deep, point) = (cut.depth.expect("a depth").value, cut.to_point.expect("a point").value);
    holds("point", 0.150, (point - deep).inches(), 0.0005);
}

// Tapers and sine settings.

/// A course table of tapers per foot and the angle with the center line (its table 13), to 2 seconds; the rows that can be read. By the same angle an
/// indicator against the taper drops tan of it to the inch.
#[test]
fn angles_of_a_course_table() {
    for (per_foot, (degrees, minutes, seconds)) in [
        ("0.125", (0, 17, 54)),
        ("0.25", (0, 35, 48)),
        ("0.75", (1, 47, 22)),
        ("1", (2, 23, 9)),
        ("1.5", (3, 34, 35)),
        ("3", (7, 7, 30)),
        ("4", (9, 27, 44)),
        ("5", (11, 46, 6)),
    ] {
        let cut = taper(&format!(
            "part: arbor\nunits: in\ndatum: end\noverall: 12\nfeatures:\n  - taper: {per_foot} per foot\n    large: 6\n    to: 6\n  - turn: 3\n    to: 12\n"
        ));
        let printed = f64::from(degrees * 3600 + minutes * 60 + seconds);
        holds(per_foot, printed, cut.half_angle_deg * 3600.0, 2.0);
        holds(per_foot, (printed / 3600.0).to_radians().tan(), cut.drop.value.inches(), 0.000_02);
    }
}

/// US Army, TC 9-524, appendix C: sine of 23°41', .40168, on a bar of 5 in is 2.0084; a gauge maker's page: 27° is 2.270.
#[test]
fn sine_bars() {
    let height =
        |degrees| Rate::from_included_angle(degrees).expect("an angle").sine_height(Length::PER_INCH.times(5)).inches();
    holds("23 41", 2.0084, height(23.0 + 41.0 / 60.0), 0.000_05);
    holds("27", 2.270, height(27.0), 0.0005);
}

/// A bar of 1 3/8 in hangs out behind the spindle: no cut turns faster than the check lets pass, the sheet says so, and a lathe without a gear slow enough
/// keeps its error. First bending speed by Roark's 3.52 sqrt(EI/(rho A L^4)), worked here in pounds and inches (E 30e6 psi, .2836 lb/in³, g 386.1).
#[test]
fn a_bar_behind_the_spindle_holds_every_speed_down() {
    let text = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.375 x 120\ndatum: left end\noverall: 3.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.700\n    to: 1.500\n  - turn: 1.250\n    to: end\n";
    let shop = |speeds: &str| {
        let text = format!("units: in\nspeeds: [{speeds}]\nspindle bore: 1.5\n");
        turnwright::read::shop("shop.yaml", text.as_bytes()).shop.expect("a shop")
    };
    let long = worked(text.as_bytes(), Some(&shop("60, 100, 200, 500, 1200")));
    let first = &long.plan.setups[0];
    let (grip, bar) = (first.grip.as_ref().expect("jaws"), &first.before);
    // What lies behind the jaws, less 15 in that the spindle carries (the check's limit). The minutes count how slow that is: no more
    // is cut there than must be.
    let behind = match first.works {
        Some(End::Far) => grip.from - bar[0].from,
        _ => bar.last().expect("a bar").to - grip.to,
    };
    let out = behind.inches() - 15.0;
    assert!(out > 95.0, "the whole bar is mounted: {out}");
    let bends = 3.52 * (30e6 * 386.1 / 0.2836_f64).sqrt() * 1.375 / 4.0 / (out * out) * 60.0 / std::f64::consts::TAU;
    let speeds = |w: &crate::figures::planned::Worked, setup: usize| -> Vec<Speed> {
        w.figures.setups[setup].operations.iter().filter_map(|o| o.speed.clone()).collect()
    };
    let (behind, alone) = (speeds(&long, 0), speeds(&long, 1));
    assert!(behind.len() > 3 && alone.len() > 2);
    for speed in &behind {
        assert!(speed.wanted <= bends / 2.0 * 1.01 && !speed.above_wanted, "{speed:?}, {bends}");
        assert!(speed.gear.is_some_and(|g| g <= 100), "{speed:?}");
    }
    let held = behind.iter().filter(|s| s.by == SpeedLimit::BarWhip).count();
    assert!(held >= behind.len() - 1 && behind.iter().any(|s| (s.wanted / (bends / 2.0) - 1.0).abs() < 0.01));
    // Cut off, the part turns as fast as ever.
    assert!(alone.iter().all(|s| s.by == SpeedLimit::SurfaceSpeed && s.gear >= Some(200)), "{alone:?}");
    assert!(long.figures.cautions.iter().any(|c| c.contains("spindle’s rear")), "{:?}", long.figures.cautions);
    assert!(long.figures.assumed.iter().any(|a| a.what == "Bar behind the spindle"));
    // A short bar ends inside the spindle: nothing holds it down.
    let short = worked(text.replace("x 120", "x 16").as_bytes(), Some(&shop("60, 100, 200, 500, 1200")));
    assert!(speeds(&short, 0).iter().all(|s| s.by == SpeedLimit::SurfaceSpeed));
    assert!(!short.figures.cautions.iter().any(|c| c.contains("spindle’s rear")));
}

/// Far out of the jaws with no center allowed: half the speed, and told.
#[test]
fn work_far_out_of_the_jaws_turns_slower() {
    let text = |long: f64| {
        format!(
            "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.000 x {}\ndatum: left end\noverall: {long} ±0.010\n\
            tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n  - turn: 0.800\n    to: end\n  - center hole: none\n    end: both\n",
            long + 2.0
        )
    };
    let bare = turnwright::read::shop("shop.yaml", b"units: in\nsurface speed: {hss: 100}\n").shop.expect("a shop");
    let wanted = |long: f64, by: SpeedLimit| {
        let w = worked(text(long).as_bytes(), Some(&bare));
        let all = w.figures.setups.iter().flat_map(|s| &s.operations).filter_map(|o| o.speed.as_ref());
        let found = all.filter(|s| s.by == by).map(|s| s.wanted * s.diameter.value.inches()).next();
        (found, w.figures.assumed.iter().any(|a| a.what == "Overhang"))
    };
    // 12 V / (π D) of 100 ft/min, times the diameter; half of it where it stands more than three diameters out.
    let whole = 1200.0 / std::f64::consts::PI;
    let (stout, told) = wanted(1.5, SpeedLimit::SurfaceSpeed);
    assert!((stout.expect("a speed") / whole - 1.0).abs() < 1e-6 && !told, "{stout:?}");
    let (slender, told) = wanted(6.0, SpeedLimit::Overhang);
    assert!((slender.expect("a slower speed") / (whole / 2.0) - 1.0).abs() < 1e-6 && told, "{slender:?}");
}
